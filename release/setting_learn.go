package release

import (
	"math"
	"slices"

	"layshaft/uncertain"
)

// learner puts a point of standard normal scores into the chain and holds it against the readings.
type learner struct {
	middle   Chain
	load     *bearingLoad
	knowns   []Known
	readings []reading

	values       []uncertain.Value // behind the coordinates: those of the knowns, then the free play, then where the pedal was held
	freePlay, at uncertain.Value
	freePlayAt   int // coordinates, -1 where exact
	heldAt       int
}

func newLearner(middle Chain, unsure []Known, r SettingReadings) *learner {
	l := &learner{middle: middle, load: newBearingLoad(middle.Clutch.BearingLoad), knowns: unsure, readings: r.list(), at: r.at(), freePlayAt: -1, heldAt: -1}
	for _, k := range unsure {
		l.values = append(l.values, k.Value)
	}
	if len(l.readings) > 0 && l.readings[0].kind == FreePlayRead {
		// a setting: what is read of it is what is known of it, so that it is no evidence for anything else
		l.freePlay = uncertain.Normal(l.readings[0].value, l.readings[0].u)
		l.freePlayAt = len(l.values)
		l.values = append(l.values, l.freePlay)
		l.readings = l.readings[1:]
	}
	if !l.at.IsExact() {
		l.heldAt = len(l.values)
		l.values = append(l.values, l.at)
	}
	return l
}

// chain is the chain at point z, and where the pedal was held.
func (l *learner) chain(z []float64) (d settingDraw, at float64) {
	d = settingDraw{l.middle, l.load}
	for j := range l.knowns {
		l.knowns[j].Set(&d.chain, l.values[j].AtScore(z[j]))
	}
	at = l.at.Mid()
	if l.freePlayAt >= 0 {
		d.chain.System.Pedal.FreePlay = l.freePlay.AtScore(z[l.freePlayAt])
	}
	if l.heldAt >= 0 {
		at = l.at.AtScore(z[l.heldAt])
	}
	if d.chain.Clutch.BearingLoad != l.load.Curve {
		d.load = newBearingLoad(d.chain.Clutch.BearingLoad)
	}
	return d, at
}

// misfits are by how many standard uncertainties each reading lies off.
func (l *learner) misfits(z, r []float64) []float64 {
	d, at := l.chain(z)
	if !d.chain.possible() {
		return append(r, math.NaN())
	}
	predicted := d.chain.predict(d.load, at)
	for _, read := range l.readings {
		r = append(r, (read.value-predicted[read.kind])/read.spread)
	}
	return r
}

func (l *learner) chains(points [][]float64) *learnt {
	out := &learnt{make([]settingDraw, len(points))}
	inChunks(len(points), 256, func(from, to int) {
		for i := from; i < to; i++ {
			out.draws[i], _ = l.chain(points[i])
		}
	})
	return out
}

// met holds each reading against what was to be expected before, and against what is now.
func (l *learner) met(after [][]float64, samples int, seed uint64) []Met {
	blank := func(z, r []float64) []float64 { // only what cannot be is left out
		if d, _ := l.chain(z); !d.chain.possible() {
			return append(r, math.NaN())
		}
		return r
	}
	e := uncertain.Explore(len(l.values), blank, samples, seed)
	before, now := l.columns(e.Pick(samples)), l.columns(after)
	var all []Met
	for _, read := range l.readings {
		ends, nowEnds := uncertain.Percentiles(before[read.kind], 5, 95), uncertain.Percentiles(now[read.kind], 5, 95)
		apart := read.value - uncertain.Mean(before[read.kind])
		left := read.value - uncertain.Mean(now[read.kind])
		all = append(all, Met{
			Kind: read.kind, Read: read.value, SD: read.u, Before: Span{ends[0], ends[1]}, After: Span{nowEnds[0], nowEnds[1]},
			Far:         math.Abs(apart) / math.Hypot(read.spread, uncertain.SD(before[read.kind])),
			Unexplained: math.Abs(left) > unexplained*read.spread,
		})
	}
	return all
}

// unexplained is by how many standard uncertainties a reading may lie off the figures learned from it before it counts
// as not explained: one in 100 does by chance.
const unexplained = 2.576

func (l *learner) columns(points [][]float64) [settingKinds][]float64 {
	var columns [settingKinds][]float64
	for k := range columns {
		columns[k] = make([]float64, len(points))
	}
	inChunks(len(points), 256, func(from, to int) {
		for i := from; i < to; i++ {
			d, at := l.chain(points[i])
			for k, v := range d.chain.predict(d.load, at) {
				columns[k][i] = v
			}
		}
	})
	return columns
}

// learned tells of each unsure figure what it was and what it is now, those first that the readings tell most of.
func (l *learner) learned(after [][]float64) []Learned {
	var all []Learned
	column := make([]float64, len(after))
	for j, k := range l.knowns {
		for i, z := range after {
			column[i] = k.Value.AtScore(z[j])
		}
		sd, before := uncertain.SD(column), k.Value.SD()
		all = append(all, Learned{k.Name, k.Value.Mid(), before, uncertain.Mean(column), sd, max(0, 1-sd*sd/(before*before))})
	}
	slices.SortStableFunc(all, func(a, b Learned) int {
		switch {
		case a.Told > b.Told:
			return -1
		case a.Told < b.Told:
			return 1
		}
		return 0
	})
	return all
}
