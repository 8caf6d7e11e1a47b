package carview

import (
	"math"
	"testing"

	"layshaft/picture"
	"layshaft/workshop"
)

func TestFrontKeepsTheNumbersOfTheAnswer(t *testing.T) {
	a := &workshop.SizeAnswer{
		Clutch: "two-disc", EffortLimit: 230, Good: 3,
		Present:   workshop.SizeChoice{Master: "5/8 in", Slave: "3/4 in", Ratio: 5.6, PeakEffort: 209, BiteHeight: 75},
		Front:     []workshop.SizeChoice{{Number: 1, Master: "3/4 in", Slave: "1 in", Ratio: 5.6, Hose: "braided", PeakEffort: 150, BiteHeight: 90, PGood: 0.97}, {Number: 2, PeakEffort: 180}},
		Dominated: []workshop.SizeChoice{{PeakEffort: 190}},
	}
	v := Front(a)
	if len(v.Choices) != 4 || v.Limit != 230 {
		t.Fatalf("%d choices within %g N", len(v.Choices), v.Limit)
	}
	if want := (picture.FrontChoice{Number: 1, Words: "master 3/4 in, slave 1 in, ratio 5.60, hose braided", Bite: 90, Effort: 150, Certainty: 0.97}); v.Choices[0] != want {
		t.Errorf("got %+v, want %+v", v.Choices[0], want)
	}
	if v.Choices[2].Number != 0 || v.Choices[2].Present || !v.Choices[3].Present || v.Choices[3].Words != "as it is now, master 5/8 in, slave 3/4 in, ratio 5.60" {
		t.Errorf("dominated %+v, present %+v", v.Choices[2], v.Choices[3])
	}
	a.EffortLimit = workshop.Figure(math.Inf(1))
	if Front(a).Limit != 0 {
		t.Error("a limit is drawn that nobody set")
	}
}
