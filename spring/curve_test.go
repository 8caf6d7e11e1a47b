package spring_test

import (
	"errors"
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/interp"
	"pgregory.net/rapid"

	"layshaft/spring"
)

// bearing is a diaphragm's bearing load: it rises, peaks and falls.
func bearing(t testing.TB) spring.Curve {
	t.Helper()
	c, err := spring.NewCurve(
		[]float64{0, 0.001, 0.004, 0.007, 0.010, 0.012},
		[]float64{0, 900, 2100, 2350, 2050, 1950})
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// points draws a curve's points: x rising by uneven steps, y anywhere.
func points(t *rapid.T) (x, y []float64) {
	n := rapid.IntRange(2, 30).Draw(t, "points")
	at := rapid.Float64Range(-10, 10).Draw(t, "start")
	for range n {
		x = append(x, at)
		y = append(y, rapid.Float64Range(-1000, 1000).Draw(t, "y"))
		at += rapid.Float64Range(1e-3, 5).Draw(t, "step")
	}
	return x, y
}

// By hand: slope 0 at 7 mm (the peak), 15/(7/-100+8/-50) = -65.2 N/mm at 10 mm; two thirds of the way along,
// 2350 - 300·20/27 + 3·65.2·4/27 = 2157 N.
func ExampleCurve() {
	bearing, err := spring.NewCurve(
		[]float64{0, 0.001, 0.004, 0.007, 0.010, 0.012},
		[]float64{0, 900, 2100, 2350, 2050, 1950})
	if err != nil {
		fmt.Println(err)
	}
	peakAt, peak := bearing.Max()
	fmt.Printf("%.0f N at 9 mm, %.0f N at most (%.0f mm), %.0f past the points\n",
		bearing.At(0.009), peak, peakAt*1000, bearing.At(0.013))
	// Output: 2157 N at 9 mm, 2350 N at most (7 mm), NaN past the points
}

func TestCurveAgreesWithAnIndependentLibrary(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := points(t)
		ours, err := spring.NewCurve(x, y)
		if err != nil {
			t.Fatal(err)
		}
		var theirs interp.FritschButland // gonum, same paper
		if err := theirs.Fit(x, y); err != nil {
			t.Fatal(err)
		}
		lo, hi := ours.Domain()
		for i := range 101 {
			at := math.Min(lo+(hi-lo)*float64(i)/100, hi)
			// Both evaluate the same cubic from differently rounded coefficients; loads are up to 1000.
			if got, want := ours.At(at), theirs.Predict(at); math.Abs(got-want) > 1e-8 {
				t.Fatalf("At(%g) = %.12g, want %.12g", at, got, want)
			}
			// Slopes may be 2000/1e-3; the tolerance is relative to the largest possible.
			if got, want := ours.Slope(at), theirs.PredictDerivative(at); math.Abs(got-want) > 1e-9*2e6 {
				t.Fatalf("Slope(%g) = %.12g, want %.12g", at, got, want)
			}
		}
	})
}

func TestCurvePassesThroughItsPointsToTheLastBit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := points(t)
		c, err := spring.NewCurve(x, y)
		if err != nil {
			t.Fatal(err)
		}
		for i := range x {
			if c.At(x[i]) != y[i] {
				t.Fatalf("At(%g) = %g, want %g", x[i], c.At(x[i]), y[i])
			}
		}
		gotX, gotY := c.Points()
		if fmt.Sprint(gotX, gotY) != fmt.Sprint(x, y) {
			t.Fatalf("Points() = %v, %v, want %v, %v", gotX, gotY, x, y)
		}
	})
}

func TestCurveNeverLeavesTheRangeOfTheTwoPointsBesideIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := points(t)
		c, err := spring.NewCurve(x, y)
		if err != nil {
			t.Fatal(err)
		}
		_, top := c.Max()
		for i := range len(x) - 1 {
			lo, hi := min(y[i], y[i+1]), max(y[i], y[i+1])
			for k := range 20 {
				got := c.At(x[i] + (x[i+1]-x[i])*float64(k)/20)
				if got < lo-1e-9 || got > hi+1e-9 || got > top+1e-9 { // 1e-9: rounding of loads up to 1000
					t.Fatalf("between points %d and %d: %g leaves %g .. %g (max %g)", i, i+1, got, lo, hi, top)
				}
			}
		}
	})
}

func TestCurveThroughPointsOnALineIsThatLine(t *testing.T) {
	c, err := spring.NewCurve([]float64{-1, 0.5, 4}, []float64{-3, 0, 7})
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []float64{-1, -0.2, 0.5, 3.9, 4} {
		if got, want := c.At(x), 2*x-1; math.Abs(got-want) > 1e-12 {
			t.Errorf("At(%g) = %g, want %g", x, got, want)
		}
		if got := c.Slope(x); math.Abs(got-2) > 1e-12 {
			t.Errorf("Slope(%g) = %g, want 2", x, got)
		}
	}
}

func TestCurveIsNotANumberOutsideItsPoints(t *testing.T) {
	c := bearing(t)
	for _, x := range []float64{-1e-9, 0.012000001, math.Inf(-1), math.Inf(1), math.NaN()} {
		if got := c.At(x); !math.IsNaN(got) {
			t.Errorf("At(%g) = %g, want NaN", x, got)
		}
		if got := c.Slope(x); !math.IsNaN(got) {
			t.Errorf("Slope(%g) = %g, want NaN", x, got)
		}
	}
}

func TestCurveWithoutPointsAnswersNothing(t *testing.T) {
	var none spring.Curve
	lo, hi := none.Domain()
	x, y := none.Max()
	if !none.Zero() || !math.IsNaN(none.At(0)+none.Slope(0)) || !math.IsNaN(lo+hi) || !math.IsNaN(x+y) {
		t.Errorf("zero curve: Zero %v, At %g, domain %g .. %g, max (%g, %g)", none.Zero(), none.At(0), lo, hi, x, y)
	}
	if bearing(t).Zero() {
		t.Error("a curve with points calls itself zero")
	}
}

func TestCurveMaxIsTheFirstHighestPoint(t *testing.T) {
	for _, c := range []struct{ y, max []float64 }{
		{[]float64{5, 3, 1}, []float64{0, 5}},
		{[]float64{1, 3, 5}, []float64{2, 5}},
		{[]float64{1, 5, 5}, []float64{1, 5}},
	} {
		curve, err := spring.NewCurve([]float64{0, 1, 2}, c.y)
		if err != nil {
			t.Fatal(err)
		}
		if x, y := curve.Max(); x != c.max[0] || y != c.max[1] {
			t.Errorf("max of %v = (%g, %g), want %v", c.y, x, y, c.max)
		}
	}
}

func TestCurveRefusesPointsThatMakeNoCurve(t *testing.T) {
	for _, c := range []struct {
		x, y []float64
		want string
	}{
		{[]float64{0, 1}, []float64{1}, "a curve needs as many loads as travels: 2 travels, 1 loads"},
		{[]float64{0}, []float64{1}, "a curve needs two points at least, not 1"},
		{[]float64{0, 2, 1}, []float64{1, 1, 1}, "point 3: travel 1 does not rise above 2 of the point before"},
		{[]float64{0, 0}, []float64{1, 1}, "point 2: travel 0 does not rise above 0 of the point before"},
		{[]float64{0, 1}, []float64{1, math.Inf(1)}, "point 2: (1, +Inf) is not a pair of finite numbers"},
		{[]float64{0, 5e-324, 1}, []float64{1, 2, 3}, "point 2: travel 5e-324 is too close to the point before"},
		{[]float64{math.NaN(), 1}, []float64{1, 1}, "point 1: (NaN, 1) is not a pair of finite numbers"},
	} {
		if _, err := spring.NewCurve(c.x, c.y); err == nil || err.Error() != c.want {
			t.Errorf("NewCurve(%v, %v): %v, want %q", c.x, c.y, err, c.want)
		}
	}
	var fault *spring.PointError
	if _, err := spring.NewCurve([]float64{0, 1, 1}, []float64{0, 0, 0}); !errors.As(err, &fault) || fault.Index != 2 {
		t.Errorf("the faulty point is not named: %v", err)
	}
}

func TestCurveDoesNotShareTheCallersSlices(t *testing.T) {
	x, y := []float64{0, 1, 2}, []float64{0, 1, 0}
	c, err := spring.NewCurve(x, y)
	if err != nil {
		t.Fatal(err)
	}
	x[1], y[1] = 1.5, 9
	if got := c.At(1); got != 1 {
		t.Errorf("At(1) = %g after the caller changed its slices, want 1", got)
	}
}

func TestCurveReadsWithoutAllocating(t *testing.T) {
	c := bearing(t)
	if n := testing.AllocsPerRun(100, func() { c.At(0.005); c.Slope(0.005) }); n != 0 {
		t.Errorf("%g allocations per reading, want none", n)
	}
}

func BenchmarkCurveAt(b *testing.B) {
	for _, n := range []int{6, 60} {
		x, y := make([]float64, n), make([]float64, n)
		for i := range x {
			x[i], y[i] = float64(i*i), math.Sin(float64(i)) // uneven steps
		}
		c, err := spring.NewCurve(x, y)
		if err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprintf("%d points", n), func(b *testing.B) {
			var sum, u float64
			for b.Loop() {
				u += 0.618033988749895 // visits the pieces in no order, as sampling does
				if u >= 1 {
					u--
				}
				sum += c.At(u * x[n-1])
			}
			_ = sum
		})
	}
}

// The RPN 14 data of Fritsch and Carlson, SIAM J. Numer. Anal. 17 (1980) 238 (from memory), and what scipy 1.10.1's
// PchipInterpolator makes of them (run).
func TestCurveIsThatOfAReferenceLibraryOnARadiochemicalDataSet(t *testing.T) {
	c, err := spring.NewCurve(
		[]float64{7.99, 8.09, 8.19, 8.7, 9.2, 10, 12, 15, 20},
		[]float64{0, 2.76429e-5, 4.37498e-2, 0.169183, 0.469428, 0.943740, 0.998636, 0.999919, 0.999994})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []struct{ x, y, slope float64 }{
		{8, 2.767433863187248e-07, 5.534518408242687e-05},
		{8.14, 0.017697167375919493, 0.5717250206774507},
		{8.4, 0.09666880560766512, 0.20090997151559742},
		{9, 0.33753432684619816, 0.6812468776692762},
		{9.6, 0.7602476393403818, 0.7250149788875597},
		{11, 0.9860433625350502, 0.025866439773565023},
		{13, 0.9993618220922759, 0.0005597473276787557},
		{17.5, 0.9999761404272691, 1.4643829092402939e-05},
	} {
		// 1e-12: both round differently, values are of order one.
		if math.Abs(c.At(want.x)-want.y) > 1e-12 || math.Abs(c.Slope(want.x)-want.slope) > 1e-12 {
			t.Errorf("at %g: %.16g, slope %.16g; want %.16g, %.16g", want.x, c.At(want.x), c.Slope(want.x), want.y, want.slope)
		}
	}
}
