package driveline

import (
	"strings"
	"testing"

	"layshaft/spring"
	"layshaft/uncertain"
)

func TestWornClampFollowsTheShapeOfTheCurve(t *testing.T) {
	// A diaphragm: up to half of the wear it gains, at the end it is back.
	shape, err := spring.NewCurve([]float64{0, 1e-3, 2e-3}, []float64{5000, 5500, 5000})
	if err != nil {
		t.Fatal(err)
	}
	for wear, want := range map[float64]float64{0: 7000, 1e-3: 7700, 2e-3: 7000} {
		worn, err := WornClamp(uncertain.Normal(7000, 100), shape, wear)
		if err != nil {
			t.Fatal(err)
		}
		near(t, "clamp load", worn.Mid(), want, 1e-12)
		near(t, "its scatter", worn.SD(), want/70, 1e-12)
	}
	if _, err := WornClamp(uncertain.Exact(7000), shape, 3e-3); err == nil || !strings.Contains(err.Error(), "outside the figures, 0 to 2 mm") {
		t.Errorf("worn out: %v", err)
	}
	if _, err := WornClamp(uncertain.Exact(7000), spring.Curve{}, 1e-3); err == nil {
		t.Error("worn without a curve: taken")
	}
	if _, err := WornClamp(uncertain.Exact(7000), spring.Curve{}, 0); err != nil {
		t.Errorf("new without a curve: %v", err)
	}
}
