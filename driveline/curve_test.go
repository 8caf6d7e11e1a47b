package driveline

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestEngineCurveGoesStraightBetweenItsPoints(t *testing.T) {
	c, err := NewEngineCurve([]float64{100, 200, 400}, []float64{300, 500, 400})
	if err != nil {
		t.Fatal(err)
	}
	for omega, want := range map[float64]float64{100: 300, 150: 400, 200: 500, 300: 450, 400: 400} {
		if got := c.At(omega); got != want {
			t.Errorf("torque at %g rad/s is %g, want %g", omega, got, want)
		}
	}
	for _, omega := range []float64{99, 401, math.NaN(), math.Inf(1)} {
		if got := c.At(omega); !math.IsNaN(got) {
			t.Errorf("torque at %g rad/s is %g; nobody measured there", omega, got)
		}
	}
	if omega, torque := c.Peak(); omega != 200 || torque != 500 {
		t.Errorf("peak torque %g at %g", torque, omega)
	}
	if omega, power := c.PeakPower(); omega != 400 || power != 160e3 {
		t.Errorf("peak power %g at %g", power, omega)
	}
}

func TestEngineCurveRefusesPointsThatMakeNone(t *testing.T) {
	for name, points := range map[string][2][]float64{
		"one point":     {{100}, {300}},
		"odd lengths":   {{100, 200}, {300}},
		"falling speed": {{200, 100}, {300, 300}},
		"equal speeds":  {{100, 100}, {300, 300}},
		"no speed":      {{0, 100}, {300, 300}},
		"not a number":  {{100, 200}, {300, math.NaN()}},
		"endless":       {{100, math.Inf(1)}, {300, 300}},
	} {
		if _, err := NewEngineCurve(points[0], points[1]); err == nil {
			t.Errorf("%s was taken", name)
		}
	}
}

func TestEngineCurveNeverLeavesItsPointsAndKeepsThem(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		steps := rapid.SliceOfN(rapid.Float64Range(1, 100), 2, 20).Draw(t, "steps")
		torque := rapid.SliceOfN(rapid.Float64Range(0, 900), len(steps), len(steps)).Draw(t, "torque")
		omega, sum := slices.Clone(steps), 0.0
		for i, s := range steps {
			sum += s
			omega[i] = sum
		}
		c, err := NewEngineCurve(omega, torque)
		if err != nil {
			t.Fatal(err)
		}
		for i, w := range omega {
			if got := c.At(w); math.Abs(got-torque[i]) > 1e-9 {
				t.Fatalf("point %d: %g, want %g", i, got, torque[i])
			}
		}
		_, peak := c.Peak()
		at := c.At(rapid.Float64Range(omega[0], sum).Draw(t, "omega"))
		if !(at <= peak+1e-9 && at >= slices.Min(torque)-1e-9) {
			t.Fatalf("%g is outside the points", at)
		}
		omega[0], torque[0] = -1, -1
		if w, T := c.Points(); w[0] == -1 || T[0] == -1 {
			t.Fatal("the curve changed with the slices it was made from")
		}
	})
}
