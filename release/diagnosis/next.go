package diagnosis

import (
	"cmp"
	"slices"

	"layshaft/uncertain"
)

// Worth is what a reading that has not been taken yet is expected to tell.
type Worth struct {
	Key  string  // of the reading
	Gain float64 // of the doubt about the cause, bits
	Part float64 // of that doubt
}

// worths lists the readings that can be taken without the gearbox out, the most telling first;
// of those about as telling, the quickest.
func (a *Answer) worths(r *Readings, found []finding, concentric bool) []Worth {
	odds := make([]float64, len(found))
	for i := range found {
		odds[i] = found[i].probability
	}
	var all []Worth
	for _, k := range Kinds {
		if _, taken := r.Taken[k]; taken || concentric && (k == SlaveTravel || k == SlaveTravelAfterPumping) {
			continue
		}
		all = append(all, Worth{Key: k.Key(), Gain: max(0, Information(odds, expected(k, found)))})
	}
	if r.HoldsPressure == NotLookedAt {
		all = append(all, Worth{Key: HoldsPressureKey, Gain: Information(odds, sinkings(found))})
	}
	doubt := Entropy(odds)
	for i := range all {
		if doubt > 0 {
			all[i].Part = all[i].Gain / doubt
		}
	}
	slices.SortStableFunc(all, func(a, b Worth) int { return cmp.Compare(b.Gain, a.Gain) })
	quickestFirst(all)
	return all
}

// asGood is the part of the greatest gain from which a reading counts as just as telling.
const asGood = 0.9

// quickestFirst puts that reading first which takes the least time of those that are about as telling as the first.
func quickestFirst(all []Worth) {
	if len(all) == 0 {
		return
	}
	best := 0
	for i, w := range all {
		if w.Gain >= asGood*all[0].Gain && GuideTo(w.Key).Minutes < GuideTo(all[best].Key).Minutes {
			best = i
		}
	}
	quick := all[best]
	copy(all[1:best+1], all[:best])
	all[0] = quick
}

// expected is how a reading would come out under each cause.
func expected(k Kind, found []finding) [][]float64 {
	each := make([]scattered, len(found))
	mean := 0.0
	for i, f := range found {
		each[i] = f.showing(k)
		if f.probability > 0 {
			mean += f.probability * uncertain.WeightedMean(each[i].figures, each[i].weights)
		}
	}
	return chances(each, k.spread(mean, k.DefaultUncertainty()))
}

func sinkings(found []finding) [][]float64 {
	rows := make([][]float64, len(found))
	for i, f := range found {
		p := sinking(f.cause)
		rows[i] = []float64{p, 1 - p}
	}
	return rows
}
