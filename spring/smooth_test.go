package spring_test

import (
	"errors"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"layshaft/spring"
)

var (
	benchTravel = []float64{0, 0.5, 1.2, 2, 3.1, 4, 5.5, 6, 7.7, 9, 10, 12} // mm
	benchLoad   = []float64{5, 610, 930, 1480, 1890, 2130, 2260, 2405, 2310, 2230, 2035, 1960}
)

// scipy 1.10.1, interpolate.make_smoothing_spline, on the readings above.
func TestSmoothingSplineIsThatOfAReferenceLibrary(t *testing.T) {
	weights := []float64{1, 1, 2, 1, 1, 3, 1, 1, 1, 2, 1, 1}
	for lambda, want := range map[float64][]float64{
		0.01: {32.3848964, 554.505039, 950.958898, 1461.64643, 1897.75831, 2127.53332, 2279.66324, 2386.06306, 2316.40097, 2226.43249, 2040.11979, 1959.07552},
		0.3:  {103.733329, 483.96867, 961.985678, 1431.39827, 1892.40898, 2126.81163, 2319.3921, 2353.38978, 2325.87015, 2209.22577, 2082.39225, 1949.58871},
		20:   {455.66813, 678.274343, 984.36494, 1315.5421, 1712.46448, 1967.67528, 2234.41648, 2282.79351, 2325.93734, 2271.36602, 2202.89414, 2042.52171},
	} {
		got := spring.Smooth(benchTravel, benchLoad, weights, lambda)
		for i := range want {
			if math.Abs(got[i]-want[i]) > 1e-5 { // printed to nine figures
				t.Errorf("λ %g, reading %d: %.9g, want %.9g", lambda, i, got[i], want[i])
			}
		}
	}
}

// bench makes readings of the curve that the other tests use, with scatter, in no order.
func bench(t *testing.T, n int, scatter float64, seed uint64) (travel, load []float64) {
	truth, random := bearing(t), rand.New(rand.NewPCG(seed, 0))
	for range n {
		x := 0.012 * random.Float64()
		travel, load = append(travel, x), append(load, truth.At(x)+scatter*random.NormFloat64())
	}
	return travel, load
}

func TestBenchCurveIsNearerToTheTruthThanItsReadings(t *testing.T) {
	truth := bearing(t)
	for seed := range uint64(20) {
		travel, load := bench(t, 120, 40, seed)
		built, err := spring.FromBench(travel, load)
		if err != nil {
			t.Fatal(err)
		}
		squares := 0.0
		for _, x := range travel {
			squares += math.Pow(built.Curve.At(x)-truth.At(x), 2)
		}
		// A hundred and twenty readings that scatter by 40 N, smoothed to a dozen parameters: about 40·√(12/120).
		if got := math.Sqrt(squares / 120); got > 25 {
			t.Errorf("seed %d: %.1f N from the truth", seed, got)
		}
		if built.RMS < 30 || built.RMS > 45 || built.Largest < built.RMS || built.Largest > 200 {
			t.Errorf("seed %d: residuals %.1f rms, %.1f at most; the scatter is 40", seed, built.RMS, built.Largest)
		}
	}
}

func TestBenchCurveNamesItsWorstReading(t *testing.T) {
	load := append([]float64(nil), benchLoad...)
	load[5] += 800
	built, err := spring.FromBench(benchTravel, load)
	if err != nil {
		t.Fatal(err)
	}
	if built.LargestAt != benchTravel[5] || built.Largest < 300 {
		t.Errorf("largest residual %.0f N at %g, want that of the reading at %g", built.Largest, built.LargestAt, benchTravel[5])
	}
}

func TestBenchReadingsOnALineStayOnIt(t *testing.T) {
	x := []float64{0, 1, 2, 4, 5, 7, 7}
	y := make([]float64, len(x))
	for i := range x {
		y[i] = 10 + 3*x[i]
	}
	built, err := spring.FromBench(x, y)
	if err != nil {
		t.Fatal(err)
	}
	if built.Largest > 1e-6 { // of loads up to 31
		t.Errorf("%g from the line", built.Largest)
	}
}

func TestBenchReadingsInAndOutAreAveragedAndSaidToBe(t *testing.T) {
	var x, y []float64
	for i, at := range benchTravel {
		x, y = append(x, at), append(y, benchLoad[i]+50)
	}
	for i := len(benchTravel) - 1; i >= 0; i-- {
		x, y = append(x, benchTravel[i]), append(y, benchLoad[i]-50)
	}
	both, err := spring.FromBench(x, y)
	if err != nil {
		t.Fatal(err)
	}
	middle, err := spring.FromBench(benchTravel, benchLoad)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(both.Curve.At(6)-middle.Curve.At(6)) > 1e-3 {
		t.Errorf("in and out give %g, their middle %g", both.Curve.At(6), middle.Curve.At(6))
	}
	if !strings.Contains(strings.Join(both.Assumptions, "; "), "coming out are averaged") {
		t.Errorf("assumptions %q do not tell", both.Assumptions)
	}
	if strings.Contains(strings.Join(middle.Assumptions, "; "), "averaged") {
		t.Errorf("assumptions %q of readings one way", middle.Assumptions)
	}
}

func TestBenchCurveDoesNotFallBelowNought(t *testing.T) {
	x := []float64{0, 1, 2, 3, 4, 5, 6, 7}
	y := []float64{-3, 0, -2, 1, 0, 500, 900, 1200}
	built, err := spring.FromBench(x, y)
	if err != nil {
		t.Fatal(err)
	}
	for at := 0.0; at <= 7; at += 0.05 {
		if got := built.Curve.At(at); got < 0 {
			t.Fatalf("load %g at %g", got, at)
		}
	}
	if !strings.Contains(strings.Join(built.Assumptions, "; "), "set to nought") {
		t.Errorf("assumptions %q do not tell", built.Assumptions)
	}
}

func TestBenchRefusesWhatCannotBeSmoothed(t *testing.T) {
	if _, err := spring.FromBench([]float64{0, 1}, []float64{1}); err == nil || !strings.Contains(err.Error(), "2 travels, 1 loads") {
		t.Error(err)
	}
	if _, err := spring.FromBench([]float64{0, 1, 2, 2, 2, 2, 2}, make([]float64, 7)); err == nil || !strings.Contains(err.Error(), "3 different travels") {
		t.Error(err)
	}
	var fault *spring.PointError
	if _, err := spring.FromBench([]float64{0, math.NaN()}, []float64{1, 2}); !errors.As(err, &fault) || fault.Index != 1 {
		t.Error(err)
	}
}
