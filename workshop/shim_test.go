package workshop_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"layshaft/release"
	"layshaft/workshop"
)

// worked is the trade's worked example (method as suppliers of such bearings publish it, figures computed by hand):
// finger tips 62.5, 62.3 and 62.4 mm below the face, bearing 54.1 mm, 5.0 mm wanted: gap 8.3 mm, shim 3.3 mm.
func worked() workshop.ShimWanted {
	return workshop.ShimWanted{
		Readings: release.ShimReadings{Fingers: []float64{62.5e-3, 62.3e-3, 62.4e-3}, Bearing: []float64{54.1e-3}, Target: 5e-3},
		Wear:     0.75e-3, LeverRatio: 4, Stroke: 9e-3, Travel: 20e-3,
	}
}

func shim(t *testing.T, w workshop.ShimWanted) *workshop.ShimAnswer {
	t.Helper()
	a, err := workshop.Shim(w)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func TestShimWorkedExample(t *testing.T) {
	a := shim(t, worked())
	for what, c := range map[string]struct {
		got  workshop.Figure
		want float64
	}{
		"gap": {a.Gap, 8.3}, "shim": {a.Shim, 3.3}, "spread": {a.Spread, 0.2}, "error of the gap": {a.GapError, 0.15 * math.Sqrt2},
		"growth": {a.Growth, 3.0}, "gap when worn": {a.WhenWorn, 2.0}, "travel left": {a.AtFull, 20 - 9 - 5},
	} {
		if math.Abs(float64(c.got)-c.want) > 1e-9 {
			t.Errorf("%s is %v mm, want %g mm", what, c.got, c.want)
		}
	}
	if a.Verdict != workshop.ShimFit || a.Why != "3.30 mm behind the bearing make the gap of 8.30 mm into 5.00 mm" {
		t.Errorf("%s: %s", a.Verdict, a.Why)
	}
	if !slices.ContainsFunc(a.Cautions, func(c string) bool { return strings.Contains(c, "never under the clutch cover") }) || len(a.NotChecked) != 1 {
		t.Errorf("cautions %q, not checked %q", a.Cautions, a.NotChecked)
	}
}

func TestShimVerdicts(t *testing.T) {
	for _, c := range []struct {
		name    string
		change  func(*workshop.ShimWanted)
		verdict string
		why     string
	}{
		{"too near", func(w *workshop.ShimWanted) { w.Readings.Target = 9e-3 }, workshop.ShimTooNear, "0.70 mm short of the 9.00 mm wanted"},
		{"as it is", func(w *workshop.ShimWanted) { w.Readings.Target = 8.2e-3 }, workshop.ShimNotNeeded, "as near as it can be measured"},
		{"worn", func(w *workshop.ShimWanted) { w.Readings.Target = 2.5e-3 }, workshop.ShimWornSoon, "the fingers come 3.00 mm nearer"},
		{"seal", func(w *workshop.ShimWanted) { w.Travel = 13e-3 }, workshop.ShimSealLeft, "1.00 mm past its own travel"},
		{"second agrees", func(w *workshop.ShimWanted) {
			w.Second = &release.ShimReadings{Fingers: []float64{62.6e-3, 62.4e-3, 62.5e-3}, Bearing: []float64{54.0e-3}}
		}, workshop.ShimFit, "3.30 mm behind"},
		{"second differs", func(w *workshop.ShimWanted) {
			w.Second = &release.ShimReadings{Fingers: []float64{62.8e-3, 62.7e-3, 62.9e-3}, Bearing: []float64{54.1e-3}}
		}, workshop.ShimRepeat, "the two gaps, 8.30 and 8.70 mm, differ by more than 0.3 mm"},
	} {
		w := worked()
		c.change(&w)
		a := shim(t, w)
		if a.Verdict != c.verdict || !strings.Contains(a.Why, c.why) {
			t.Errorf("%s: %s: %s", c.name, a.Verdict, a.Why)
		}
	}
}

func TestShimSaysWhatItCouldNotCheck(t *testing.T) {
	w := worked()
	w.Wear, w.Travel = 0, 0
	a := shim(t, w)
	if a.WhenWorn.Known() || a.AtFull.Known() || len(a.NotChecked) != 3 || a.Verdict != workshop.ShimFit {
		t.Errorf("%+v", a)
	}
}

func TestShimRefusesDepthsThatTellNothing(t *testing.T) {
	for _, c := range []struct {
		change func(*workshop.ShimWanted)
		want   string
	}{
		{func(w *workshop.ShimWanted) { w.Readings.Fingers = w.Readings.Fingers[:2] }, "housing-depth: 2 readings are too few; take three, 120 degrees apart"},
		{func(w *workshop.ShimWanted) { w.Readings.Fingers[0] = 63e-3 }, "housing-depth: the tips differ by 0.70 mm, more than 0.5 mm: find out first why finger height or the cover's seat is uneven"},
		{func(w *workshop.ShimWanted) { w.Readings.Bearing = nil }, "bearing-height: the depth of the bearing face is missing; push the bearing fully back, drained, and measure"},
		{func(w *workshop.ShimWanted) { w.Readings.Target = 0 }, "target: a stand-off of 0 mm is none; take the bearing maker's figure"},
		{func(w *workshop.ShimWanted) { w.Second = &release.ShimReadings{Fingers: []float64{62e-3}} }, "housing-depth: 1 readings are too few; take three, 120 degrees apart"},
	} {
		w := worked()
		c.change(&w)
		if _, err := workshop.Shim(w); err == nil || err.Error() != c.want {
			t.Errorf("got  %v\nwant %s", err, c.want)
		}
	}
}
