package uncertain_test

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"layshaft/uncertain"
)

var figures = []float64{3.1, -2, 8.4, 0.5, 12, 7.7, 7.7}

func TestPercentilesAreThoseOfAReferenceLibrary(t *testing.T) {
	// scipy 1.10.1, stats.mstats.mquantiles with alphap = betap = 0.5 (definition 5 of Hyndman and Fan).
	want := []float64{-2, -2, 1.15, 7.7, 8.76, 12}
	got := uncertain.Percentiles(figures, 1, 5, 25, 50, 80, 95)
	for i := range want {
		if math.Abs(got[i]-want[i]) > 1e-12 {
			t.Errorf("percentiles %v, want %v", got, want)
			break
		}
	}
	if figures[0] != 3.1 || figures[4] != 12 {
		t.Error("the sample was put in order")
	}
}

func TestMeansAndSDsAreThoseOfAReferenceLibrary(t *testing.T) {
	weights := []float64{1, 2, 0.5, 3, 1, 2, 0.25}
	for name, c := range map[string][2]float64{
		"mean":          {uncertain.Mean(figures), 37.4 / 7},
		"SD":            {uncertain.SD([]float64{2, 4, 4, 4, 5, 5, 7, 9}), math.Sqrt(32.0 / 7)},
		"weighted mean": {uncertain.WeightedMean(figures, weights), 3.5},
		"weighted SD":   {uncertain.WeightedSD(figures, weights), 4.658656128442721}, // numpy.cov, aweights, ddof=0
	} {
		if math.Abs(c[0]-c[1]) > 1e-12 {
			t.Errorf("%s is %.15g, want %.15g", name, c[0], c[1])
		}
	}
}

func TestNoSampleHasNoMeanAndNoPercentiles(t *testing.T) {
	for name, got := range map[string]float64{
		"mean":           uncertain.Mean(nil),
		"SD of one":      uncertain.SD([]float64{1}),
		"percentile":     uncertain.Percentiles(nil, 50)[0],
		"of a NaN":       uncertain.Percentiles([]float64{1, math.NaN()}, 50)[0],
		"NaN percent":    uncertain.Percentiles(figures, math.NaN())[0],
		"without weight": uncertain.WeightedPercentiles([]float64{1, 2}, []float64{0, 0}, 50)[0],
	} {
		if !math.IsNaN(got) {
			t.Errorf("%s is %g, want NaN", name, got)
		}
	}
}

func TestPercentilesOfInfiniteFiguresAreInfinite(t *testing.T) {
	inf := math.Inf(1)
	got := uncertain.Percentiles([]float64{inf, 1, inf, inf}, 10, 50, 75, 99)
	if !slices.Equal(got, []float64{1, inf, inf, inf}) {
		t.Errorf("got %v", got)
	}
}

func TestAFigureOfWeightTwoCountsLikeTwoFiguresOfWeightOne(t *testing.T) {
	once := uncertain.WeightedPercentiles([]float64{1, 5, 2}, []float64{1, 2, 1}, 5, 95)
	twice := uncertain.Percentiles([]float64{1, 5, 2, 5}, 5, 95)
	if !slices.Equal(once, twice) {
		t.Errorf("weight two gives %v, twice gives %v", once, twice)
	}
}

func TestPercentilesRiseAndStayInTheSample(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sample := rapid.SliceOfN(rapid.Float64Range(-1e6, 1e6), 1, 40).Draw(t, "sample")
		weights := rapid.SliceOfN(rapid.Float64Range(0.01, 10), len(sample), len(sample)).Draw(t, "weights")
		got := uncertain.WeightedPercentiles(sample, weights, 0, 10, 50, 90, 100)
		if !slices.IsSorted(got) || got[0] != slices.Min(sample) || got[4] != slices.Max(sample) {
			t.Fatalf("percentiles %v of %v", got, sample)
		}
		for i := range weights {
			weights[i] = 3
		}
		equal, plain := uncertain.WeightedPercentiles(sample, weights, 25), uncertain.Percentiles(sample, 25)
		if math.Abs(equal[0]-plain[0]) > 1e-6 { // shares differ by rounding; figures up to 1e6
			t.Fatalf("equal weights give %g, none %g", equal[0], plain[0])
		}
	})
}

func TestPercentilesAreThoseOfTheOrderedSample(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		sample := rapid.SliceOfN(rapid.Float64Range(-3, 3), 1, 60).Draw(t, "sample")
		for i := range sample {
			sample[i] = math.Round(sample[i]*4) / 4 // so that some are equal
		}
		ordered := slices.Sorted(slices.Values(sample))
		for i, want := range ordered {
			at := 100 * (float64(i) + 0.5) / float64(len(sample))
			if got := uncertain.Percentiles(sample, at)[0]; math.Abs(got-want) > 1e-9 { // at is rounded
				t.Fatalf("figure %d of %v is %g, want %g", i+1, ordered, got, want)
			}
		}
	})
}

func TestWeightsForTheWrongNumberOfFiguresPanic(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("did not panic")
		}
	}()
	uncertain.WeightedMean([]float64{1, 2}, []float64{1})
}

// BenchmarkPercentiles sets the percentiles of a plain sample beside those of a weighted one, which is put in order.
func BenchmarkPercentiles(b *testing.B) {
	sample, ones := make([]float64, 16384), make([]float64, 16384)
	sequence, point := uncertain.NewSequence(1, 1), make([]float64, 1)
	for i := range sample {
		sequence.At(i, point)
		sample[i], ones[i] = point[0], 1
	}
	b.Run("plain", func(b *testing.B) {
		for b.Loop() {
			uncertain.Percentiles(sample, 5, 95)
		}
	})
	b.Run("weighted", func(b *testing.B) {
		for b.Loop() {
			uncertain.WeightedPercentiles(sample, ones, 5, 95)
		}
	})
}
