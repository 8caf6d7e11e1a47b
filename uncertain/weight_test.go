package uncertain_test

import (
	"math"
	"testing"

	"layshaft/uncertain"
)

func TestEffectiveSampleSizeRunsFromOneToAll(t *testing.T) {
	for _, c := range []struct {
		weights []float64
		want    float64
	}{
		{[]float64{2, 2, 2, 2}, 4},
		{[]float64{0, 5, 0}, 1},
		{[]float64{1, 2, 3}, 36.0 / 14},
		{[]float64{0, 0}, 0},
		{nil, 0},
	} {
		if got := uncertain.EffectiveSampleSize(c.weights); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%v are worth %g points, want %g", c.weights, got, c.want)
		}
	}
}

func TestWeightsNeitherOverflowNorVanish(t *testing.T) {
	for _, shift := range []float64{0, 5000, -5000} {
		weights, logMean := uncertain.NormaliseWeights([]float64{shift, shift + math.Log(3), math.Inf(-1)})
		if math.Abs(weights[0]-0.25) > 1e-12 || math.Abs(weights[1]-0.75) > 1e-12 || weights[2] != 0 {
			t.Errorf("shift %g: weights %v, want 0.25, 0.75, 0", shift, weights)
		}
		if want := shift + math.Log(4.0/3); math.Abs(logMean-want) > 1e-9 {
			t.Errorf("shift %g: log mean %g, want %g", shift, logMean, want)
		}
	}
	if weights, logMean := uncertain.NormaliseWeights([]float64{math.Inf(-1)}); weights[0] != 0 || !math.IsInf(logMean, -1) {
		t.Errorf("where nothing fits: %v, %g", weights, logMean)
	}
}

// A reading 7 ± 1 of something known before as 5 ± 2: posterior mean and SD in closed form, (5/4 + 7)/(1/4 + 1) and
// 1/√(1/4 + 1); the reading itself was to be expected as 5 ± √5.
func TestWeighingByAReadingGivesTheClosedFormPosterior(t *testing.T) {
	const n = 1 << 13
	prior := uncertain.Normal(5, 2)
	points := uncertain.Propagate([]uncertain.Value{prior}, func(x []float64) float64 { return x[0] }, n, 1)
	logarithms := make([]float64, n)
	for i, x := range points {
		logarithms[i] = uncertain.Normal(x, 1).LogDensity(7)
	}
	weights, evidence := uncertain.NormaliseWeights(logarithms)
	for name, c := range map[string][2]float64{
		"mean":         {uncertain.WeightedMean(points, weights), 6.6},
		"SD":           {uncertain.WeightedSD(points, weights), math.Sqrt(0.8)},
		"95th":         {uncertain.WeightedPercentiles(points, weights, 95)[0], uncertain.Normal(6.6, math.Sqrt(0.8)).Quantile(0.95)},
		"log evidence": {evidence, uncertain.Normal(5, math.Sqrt(5)).LogDensity(7)},
	} {
		if math.Abs(c[0]-c[1]) > 0.002 {
			t.Errorf("%s is %.5f, want %.5f", name, c[0], c[1])
		}
	}
	if worth := uncertain.EffectiveSampleSize(weights); worth < n/10 || worth > n {
		t.Errorf("%d points are worth %g", n, worth)
	}
}
