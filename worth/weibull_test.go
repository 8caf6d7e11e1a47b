package worth

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"pgregory.net/rapid"
)

// Scale 5 and shape 2, counted from 10: mean, two percentiles, mean residual life and hazard rate. The last two are
// limits and sums of Within.
// Source: package reliability @86c9330, tests/test_Distributions.py (seen).
func TestWeibullFiguresAsPublished(t *testing.T) {
	w := Weibull{Shape: 2, Scale: 5}
	const from = 10
	near(t, "mean", from+w.Mean(), 14.43113462726379, 1e-12)
	near(t, "20 % worn", from+w.Life(0.2), 12.361903635387193, 1e-12)
	near(t, "30 % worn", from+w.Life(0.3), 12.986113460414442, 1e-12)
	residual := quad.Fixed(func(x float64) float64 { return 1 - w.Within(x, 20-from) }, 0, 40, 400, nil, 0)
	near(t, "mean residual life at 20", residual, 1.1316926249544481, 1e-9)
	const short = 1e-7
	near(t, "hazard where 10 % are worn", w.Within(short, w.Life(0.1))/short, 0.12983713838980052, 1e-6)
}

// F = 1 − exp(−0.1·t^0.5): mean 200 h, 0.177 last 300 h. A guard against taking one form's scale for another's.
// Source: Miller and Freund, Probability and Statistics for Engineers, p. 143 (seen in a companion of its examples).
func TestWeibullOfTheTextbook(t *testing.T) {
	w := Weibull{Shape: 0.5, Scale: math.Pow(0.1, -1/0.5)}
	near(t, "mean", w.Mean(), 200, 1e-12)
	if last := 1 - w.Chance(300); math.Abs(last-0.177) > 5e-4 {
		t.Errorf("%v last 300 h", last)
	}
}

func someWeibull(t *rapid.T) Weibull {
	return Weibull{Shape: rapid.Float64Range(0.3, 6).Draw(t, "shape"), Scale: rapid.Float64Range(1e3, 1e9).Draw(t, "scale")}
}

func TestLifeIsTheInverseOfChance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := someWeibull(t)
		p := rapid.Float64Range(1e-6, 0.999).Draw(t, "part")
		if got := w.Chance(w.Life(p)); math.Abs(got-p) > 1e-9*p {
			t.Fatalf("%v by the life of %v", got, p)
		}
	})
}

func TestWithinFollowsFromChance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := someWeibull(t)
		lived := w.Life(rapid.Float64Range(0, 0.9).Draw(t, "lived"))
		further := w.Life(rapid.Float64Range(0, 0.9).Draw(t, "further"))
		last := func(t float64) float64 { return 1 - w.Chance(t) }
		want := (w.Chance(lived+further) - w.Chance(lived)) / last(lived)
		if got := w.Within(further, lived); math.Abs(got-want) > 1e-9 {
			t.Fatalf("%v, want %v", got, want)
		}
		if fresh := w.Within(further, 0); math.Abs(fresh-w.Chance(further)) > 1e-12 {
			t.Fatalf("a new part: %v, want %v", fresh, w.Chance(further))
		}
	})
}

// Above a shape of 1 an older part is worse than a new one, below it better, and at 1 age does not matter.
func TestShapeTellsWearFromChance(t *testing.T) {
	const lived, further = 120e3, 40e3
	for _, shape := range []float64{0.6, 1, 2.5} {
		w := Weibull{Shape: shape, Scale: 150e3}
		old, fresh := w.Within(further, lived), w.Chance(further)
		if math.Abs(shape-1) > 1e-9 && (old > fresh) != (shape > 1) || shape == 1 && math.Abs(old-fresh) > 1e-12 {
			t.Errorf("shape %v: old %v, new %v", shape, old, fresh)
		}
	}
}
