package carview

import (
	"strings"

	"layshaft/picture"
	"layshaft/workshop"
)

// HoldBars sets the candidates' capacity against what is asked of them.
func HoldBars(job *workshop.Job, hold *workshop.HoldAnswer) picture.HoldBars {
	bars := picture.HoldBars{
		Title: "What each clutch can carry", Desc: Sentence(holdSentence(hold, hold.Order()...)),
		Peak:   picture.Range{Low: float64(hold.DemandP05), Mid: float64(hold.Demand), High: float64(hold.DemandP95)},
		Factor: float64(hold.ServiceFactor), Use: hold.Use,
	}
	for _, name := range hold.Order() {
		h := hold.Clutches[name]
		series := picture.ProposedParts
		if h.Fitted {
			series = picture.OriginalParts
		}
		bars.Rows = append(bars.Rows, picture.HoldRow{Name: name, Series: series, Word: h.Verdict, Tone: Tone(h.Verdict),
			Capacity: picture.Range{Low: float64(h.CapacityP05), Mid: float64(h.Capacity), High: float64(h.CapacityP95)}})
		if h.Hot != nil {
			bars.Rows = append(bars.Rows, picture.HoldRow{Name: name + ", hot", Series: series, Word: h.Hot.Verdict, Tone: Tone(h.Hot.Verdict),
				Capacity: picture.Range{Low: float64(h.Hot.CapacityP05), Mid: float64(h.Hot.Capacity), High: float64(h.Hot.CapacityP95)}})
		}
	}
	return bars
}

// TravelBars shows where the pedal's travel goes until the clutch is free, for each pair.
func TravelBars(pairs ...*workshop.PairAnswer) picture.TravelBars {
	bars := picture.TravelBars{Title: "Where the pedal's travel goes until the clutch is free"}
	var words []string
	names := curveNames(pairs)
	for i, pair := range pairs {
		if pair == nil {
			continue
		}
		row := picture.TravelRow{Name: names[i], Series: picture.Series(min(i, 3))}
		for _, share := range pair.Travel {
			row.Parts = append(row.Parts, picture.TravelPart{Name: share.Name, MM: float64(share.Pedal), Useful: share.Useful})
		}
		words = append(words, Sentence(PairName(pair.Clutch, pair.Release))+": "+pair.Why+".")
		bars.Rows = append(bars.Rows, row)
		bars.FullPedal = max(bars.FullPedal, float64(pair.PedalTravel))
	}
	bars.Desc = strings.Join(words, " ")
	return bars
}

// Doubt shows which roughly known figure to measure first.
func Doubt(job *workshop.Job, pair *workshop.PairAnswer) (picture.Sensitivity, bool) {
	if pair == nil || pair.Sure == nil {
		return picture.Sensitivity{}, false
	}
	s := picture.Sensitivity{
		Title: "What makes it doubtful whether " + PairName(pair.Clutch, pair.Release) + " frees",
		Desc:  "The figure with the longest bar is the one to measure first.",
	}
	for _, in := range pair.Sure.Influences {
		s.Rows = append(s.Rows, picture.SensitivityRow{Name: figureName(in.Key), Now: "moves it " + Measure(in.Swing, 1, "mm"),
			First: float64(in.First), Total: float64(in.Total)})
	}
	return s, len(s.Rows) > 0
}

// figureName turns a key such as release.metal-master.line.trapped_air into "line trapped air".
func figureName(key string) string {
	parts := strings.Split(key, ".")
	return strings.ReplaceAll(strings.Join(parts[min(2, len(parts)-1):], " "), "_", " ")
}
