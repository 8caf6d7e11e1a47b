package uncertain_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"layshaft/uncertain"
)

func value() *rapid.Generator[uncertain.Value] {
	return rapid.Custom(func(t *rapid.T) uncertain.Value {
		a, b := rapid.Float64Range(-100, 100).Draw(t, "a"), rapid.Float64Range(0.01, 50).Draw(t, "b")
		switch rapid.IntRange(0, 2).Draw(t, "kind") {
		case 0:
			return uncertain.Exact(a)
		case 1:
			return uncertain.Uniform(a, a+b)
		}
		return uncertain.Normal(a, b)
	})
}

func TestNormalDensityAndCDFAreThoseOfAReferenceLibrary(t *testing.T) {
	v := uncertain.Normal(2, 1.5)
	for name, c := range map[string][2]float64{ // scipy 1.10.1, stats.norm
		"density":         {v.Density(5), 0.0359939776754587},
		"log density":     {v.LogDensity(5), -3.324403641312837},
		"far log density": {v.LogDensity(100), -2135.5466258635347},
		"CDF":             {v.CDF(5), 0.9772498680518208},
		"far CDF":         {v.CDF(-10), 6.22096057427174e-16},
	} {
		if math.Abs(c[0]/c[1]-1) > 1e-12 {
			t.Errorf("%s is %.16g, want %.16g", name, c[0], c[1])
		}
	}
}

func TestCDFUndoesTheQuantile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, u := value().Draw(t, "value"), rapid.Float64Range(0.001, 0.999).Draw(t, "u")
		if got := v.CDF(v.Quantile(u)); !v.IsExact() && math.Abs(got-u) > 1e-9 {
			t.Fatalf("CDF(Quantile(%g)) of %v is %g", u, v, got)
		}
	})
}

func TestDensityIsTheSlopeOfTheCDF(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v, u := value().Draw(t, "value"), rapid.Float64Range(0.01, 0.99).Draw(t, "u")
		if v.IsExact() {
			return
		}
		x, h := v.Quantile(u), 1e-4*v.SD()
		slope := (v.CDF(x+h) - v.CDF(x-h)) / (2 * h)
		if got := v.Density(x); math.Abs(got/slope-1) > 1e-5 { // of the difference quotient
			t.Fatalf("density of %v at %g is %g, slope of the CDF %g", v, x, got, slope)
		}
	})
}

func TestOutsideItsBoundsAUniformValueHasNoDensity(t *testing.T) {
	v := uncertain.Uniform(1, 3)
	if v.Density(0.9) != 0 || v.Density(3.1) != 0 || v.Density(2) != 0.5 || v.CDF(0) != 0 || v.CDF(9) != 1 {
		t.Errorf("densities %g %g %g, CDF %g %g", v.Density(0.9), v.Density(3.1), v.Density(2), v.CDF(0), v.CDF(9))
	}
	if !math.IsNaN(v.Density(math.NaN())) || !math.IsNaN(v.CDF(math.NaN())) {
		t.Error("NaN is not answered by NaN")
	}
}

func TestAnExactValueStepsAtItself(t *testing.T) {
	v := uncertain.Exact(4)
	if v.CDF(3.999) != 0 || v.CDF(4) != 1 || v.Density(3) != 0 || !math.IsInf(v.Density(4), 1) || v.SD() != 0 {
		t.Errorf("CDF %g %g, density %g %g", v.CDF(3.999), v.CDF(4), v.Density(3), v.Density(4))
	}
}

func TestValuesPutRightWhatIsUpsideDown(t *testing.T) {
	for got, want := range map[uncertain.Value]uncertain.Value{
		uncertain.Uniform(3, 1):           uncertain.Uniform(1, 3),
		uncertain.Uniform(2, 2):           uncertain.Exact(2),
		uncertain.Normal(2, -1):           uncertain.Normal(2, 1),
		uncertain.Normal(2, 0):            uncertain.Exact(2),
		uncertain.Uniform(1, 3).Scale(-2): uncertain.Uniform(-6, -2),
		uncertain.Normal(1, 3).Scale(-2):  uncertain.Normal(-2, 6),
		uncertain.Exact(5).Scale(3):       uncertain.Exact(15),
		{}:                                uncertain.Exact(0),
	} {
		if got != want {
			t.Errorf("%v, want %v", got, want)
		}
	}
}

func TestSpreadOfAUniformValueIsItsWidthOverRootTwelve(t *testing.T) {
	v := uncertain.Uniform(0, 6)
	// JCGM 100:2008, 4.3.7: a²/3 for a half-width a.
	if got, want := v.SD(), 3/math.Sqrt(3); math.Abs(got-want) > 1e-12 {
		t.Errorf("SD %g, want %g", got, want)
	}
	lo, hi := uncertain.Normal(0, 1).Bounds()
	if v.Mid() != 3 || !math.IsInf(lo, -1) || !math.IsInf(hi, 1) {
		t.Errorf("mid %g, bounds of a normal value %g .. %g", v.Mid(), lo, hi)
	}
}

// Stress 20 ± 6 exceeds strength 40 ± 7 in 1.50298 % of cases: M. Reid, reliability (Python), documents,
// "Stress-Strength interference" (seen).
func ExampleValue_CDF() {
	margin := uncertain.Normal(40-20, math.Hypot(7, 6))
	fmt.Printf("%.5f %%\n", 100*margin.CDF(0))
	// Output: 1.50298 %
}

func TestSampledInterferenceAgreesWithTheClosedForm(t *testing.T) {
	inputs := []uncertain.Value{uncertain.Normal(20, 6), uncertain.Normal(40, 7)}
	fails := uncertain.Propagate(inputs, func(x []float64) float64 {
		if x[0] > x[1] {
			return 1
		}
		return 0
	}, 1<<16, 1)
	if got := uncertain.Mean(fails); math.Abs(got-0.0150298) > 0.0003 { // pseudo-random SD would be 0.0005
		t.Errorf("%.5f of the cases fail, want 0.01503", got)
	}
}
