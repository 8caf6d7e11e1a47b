package release_test

import (
	"testing"

	"layshaft/release"
)

// MIL-DTL-13719G Table III, the same as FMVSS 106 Table I: cm³ per foot, and what they are per metre.
func TestHoseLimitsPerMetre(t *testing.T) {
	const cm3 = 1e-6
	for _, row := range []struct {
		inner                          float64
		regular, low, regular15, low15 float64 // cm³/m, rounded to 0.01 and for the first row cut in places
	}{
		{3e-3, 2.17, 1.08, 2.59, 1.38},
		{6.35e-3, 3.41, 2.70, 4.27, 3.85},
	} {
		l := release.HoseLimitFor(row.inner)
		near(t, l.Size+" regular at 1000 psi", l.Regular/cm3, row.regular, 0.012)
		near(t, l.Size+" low at 1000 psi", l.Low/cm3, row.low, 0.012)
		near(t, l.Size+" regular at 1500 psi", l.Regular15/cm3, row.regular15, 0.012)
		near(t, l.Size+" low at 1500 psi", l.Low15/cm3, row.low15, 0.012)
		near(t, l.Size+" swelling at 1000 psi", release.HoseSwelling(l.Expansion(false), 1, 1000*psi), l.Regular, 1e-15)
		near(t, l.Size+" low swelling at 1000 psi", release.HoseSwelling(l.Expansion(true), 1, 1000*psi), l.Low, 1e-15)
	}
	for i := 1; i < len(release.HoseLimits); i++ {
		if small, large := release.HoseLimits[i-1], release.HoseLimits[i]; !(small.Regular < large.Regular && small.Low < large.Low) {
			t.Errorf("%s swells no less than %s", small.Size, large.Size)
		}
	}
	if l := release.HoseLimitFor(3.5e-3); l.Size != release.HoseLimits[1].Size {
		t.Errorf("3.5 mm counts as %s, want the middle size", l.Size)
	}
}

// FMVSS 116 S5.1.1 and S5.1.2, °C; the °F beside them check the conversion.
func TestFluidGradesBoilAt(t *testing.T) {
	for _, row := range []struct {
		name     string
		dry, wet float64 // °C
	}{
		{"DOT 3", 205, 140}, {"DOT 4", 230, 155}, {"DOT 5", 260, 180}, {"DOT 5.1", 260, 180},
	} {
		g, ok := release.FluidNamed(row.name)
		if !ok {
			t.Fatalf("no %s", row.name)
		}
		near(t, row.name+" dry", g.Dry-273.15, row.dry, 1e-9)
		near(t, row.name+" wet", g.Wet-273.15, row.wet, 1e-9)
	}
	dot3, _ := release.FluidNamed("DOT 3")
	near(t, "DOT 3 dry in °F", (dot3.Dry-273.15)*9/5+32, 401, 1e-9)
	if _, ok := release.FluidNamed("DOT 2"); ok {
		t.Error("found a DOT 2")
	}
}
