package uncertain_test

import (
	"math"
	"strings"
	"testing"

	"layshaft/uncertain"
)

func sum(x []float64) float64 {
	total := 0.0
	for _, v := range x {
		total += v
	}
	return total
}

func compare(t *testing.T, m uncertain.Model) uncertain.Comparison {
	t.Helper()
	got, err := m.Compare(1<<16, 1)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// JCGM 101:2008, 9.2: the sum of four inputs of unit variance. Tables 2 and 3 (seen); the third row, one rectangular
// input ten times as wide, is table 4 (from memory).
func TestSumOfFourInputsHasTheSupplementsIntervals(t *testing.T) {
	unit := uncertain.Uniform(-math.Sqrt(3), math.Sqrt(3))
	for _, c := range []struct {
		name      string
		inputs    []uncertain.Value
		u         float64
		half      float64 // of the sampled interval
		tolerance float64 // of that figure: as printed, and sampling
		agrees    bool
	}{
		{"normal", []uncertain.Value{uncertain.Normal(0, 1), uncertain.Normal(0, 1), uncertain.Normal(0, 1), uncertain.Normal(0, 1)}, 2, 3.92, 0.01, true},
		{"rectangular", []uncertain.Value{unit, unit, unit, unit}, 2, 3.88, 0.01, true},
		{"one wide", []uncertain.Value{unit, unit, unit, unit.Scale(10)}, math.Sqrt(103), 17.0, 0.1, false},
	} {
		got := compare(t, uncertain.Model{Inputs: c.inputs, Output: sum})
		within(t, c.name+": u", got.Linear.SD, c.u, 1e-9)
		within(t, c.name+": sampled u", got.SD, c.u, 0.005*c.u)
		within(t, c.name+": low end", got.Low, -c.half, c.tolerance)
		within(t, c.name+": high end", got.High, c.half, c.tolerance)
		within(t, c.name+": linearised high end", got.LinearHigh, 1.96*c.u, 0.001*c.u)
		if got.Agrees != c.agrees || (got.Warning == "") != c.agrees {
			t.Errorf("%s: agrees is %v, want %v; warning %q", c.name, got.Agrees, c.agrees, got.Warning)
		}
	}
}

// NPL report DEM-ES-011, 9.2 (seen in a library's tests): the logarithm of something known within 0.1 .. 1.1. The two
// answers part in value, uncertainty and interval.
func TestLogarithmOfAWideRangeIsFlagged(t *testing.T) {
	got := compare(t, uncertain.Model{
		Inputs: []uncertain.Value{uncertain.Uniform(0.1, 1.1)},
		Output: func(x []float64) float64 { return math.Log(x[0]) },
	})
	within(t, "linearised value", got.Linear.Value, -0.511, 0.001)
	within(t, "linearised u", got.Linear.SD, 0.481, 0.001)
	within(t, "linearised high end", got.LinearHigh, 0.432, 0.001)
	within(t, "sampled mean", got.Mean, -0.665, 0.001)
	within(t, "sampled u", got.SD, 0.606, 0.001)
	if got.Agrees || !strings.Contains(got.Warning, "use the sampled one") {
		t.Errorf("agrees is %v, warning %q", got.Agrees, got.Warning)
	}
}

// JCGM 101:2008, 9.4, table 6 (from memory): x1² + x2² at nought, where a plane sees no uncertainty at all.
func TestBottomOfABowlIsFlagged(t *testing.T) {
	got := compare(t, uncertain.Model{
		Inputs: []uncertain.Value{uncertain.Normal(0, 0.005), uncertain.Normal(0, 0.005)},
		Output: func(x []float64) float64 { return x[0]*x[0] + x[1]*x[1] },
	})
	within(t, "linearised u", got.Linear.SD, 0, 1e-12)
	within(t, "sampled mean", got.Mean, 50e-6, 0.5e-6)
	within(t, "sampled u", got.SD, 50e-6, 0.5e-6)
	if got.Agrees {
		t.Error("the linearised answer was allowed to stand")
	}
}

func TestInputsThatDependWhollyOnEachOtherCanBeSampled(t *testing.T) {
	got := compare(t, uncertain.Model{
		Inputs:      []uncertain.Value{uncertain.Normal(1, 2), uncertain.Normal(5, 2)},
		Correlation: [][]float64{{1, -1}, {-1, 1}},
		Output:      sum,
	})
	if got.SD > 1e-12 || got.Linear.SD > 1e-9 || math.Abs(got.Mean-6) > 1e-9 {
		t.Errorf("mean %g, SD %g and %g; what one gains the other loses", got.Mean, got.SD, got.Linear.SD)
	}
}

func TestCorrelatedUniformInputsStayWithinTheirBounds(t *testing.T) {
	model := uncertain.Model{
		Inputs:      []uncertain.Value{uncertain.Uniform(2, 4), uncertain.Uniform(-1, 1), uncertain.Exact(7)},
		Correlation: [][]float64{{1, 0.8, 0}, {0.8, 1, 0}, {0, 0, 1}},
		Output:      func(x []float64) float64 { return x[0] },
	}
	got, err := model.Sample(4096, 1)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range got {
		if x < 2 || x > 4 {
			t.Fatalf("drew %g outside 2 .. 4", x)
		}
	}
	within(t, "mean", uncertain.Mean(got), 3, 0.002)
	within(t, "SD", uncertain.SD(got), 2/math.Sqrt(12), 0.002)
}

// The first two are worked in JCGM 101:2008, 7.9.2 (from memory): 0.000 35 g to two digits and 2 K to one.
func TestNumericalToleranceIsHalfAUnitInTheLastDigit(t *testing.T) {
	for _, c := range []struct {
		u      float64
		digits int
		want   float64
	}{{0.00035, 2, 0.000005}, {2, 1, 0.5}, {0.0996, 2, 0.005}, {0.1, 2, 0.005}, {0, 2, 0}} {
		within(t, "tolerance", uncertain.NumericalTolerance(c.u, c.digits), c.want, 1e-15)
	}
}
