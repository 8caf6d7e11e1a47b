package uncertain_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"sync"
	"testing"

	"layshaft/uncertain"
)

// rootMeanSquareError is that of the mean of product over n points, over forty seeds.
func rootMeanSquareError(dimensions, n int, points func(seed uint64) func(i int, dst []float64)) float64 {
	const seeds = 40
	squares, u := 0.0, make([]float64, dimensions)
	for seed := range uint64(seeds) {
		at, sum := points(seed), 0.0
		for i := range n {
			at(i, u)
			sum += product(u)
		}
		squares += math.Pow(sum/float64(n)-1, 2)
	}
	return math.Sqrt(squares / seeds)
}

func quasi(dimensions int) func(uint64) func(int, []float64) {
	return func(seed uint64) func(int, []float64) { return uncertain.NewSequence(dimensions, seed).At }
}

func pseudo(seed uint64) func(int, []float64) {
	random := rand.New(rand.NewPCG(seed, 1))
	return func(_ int, dst []float64) {
		for j := range dst {
			dst[j] = random.Float64()
		}
	}
}

// product is smooth, depends on every coordinate and on every group of them, less on later ones; its mean is 1.
func product(u []float64) float64 {
	p := 1.0
	for j, v := range u {
		p *= 1 + (v-0.5)/math.Sqrt(float64(j+1))
	}
	return p
}

func TestQuasiRandomPointsSettleAMeanSoonerThanPseudoRandomOnes(t *testing.T) {
	// The least factor between the errors; seen over these seeds: 1500, 250, 45 and 22.
	for _, c := range []struct {
		dimensions, points int
		factor             float64
	}{{4, 1 << 12, 100}, {12, 1 << 12, 20}, {24, 1 << 12, 10}, {24, 3000, 5}} {
		q := rootMeanSquareError(c.dimensions, c.points, quasi(c.dimensions))
		p := rootMeanSquareError(c.dimensions, c.points, pseudo)
		t.Logf("%d dimensions, %d points: error %.2g against %.2g", c.dimensions, c.points, q, p)
		if q*c.factor > p {
			t.Errorf("%d dimensions, %d points: error %g is not %g times less than %g", c.dimensions, c.points, q, c.factor, p)
		}
	}
}

func TestQuasiRandomErrorFallsFasterThanTheRootOfTheNumberOfPoints(t *testing.T) {
	few := rootMeanSquareError(6, 1<<8, quasi(6))
	many := rootMeanSquareError(6, 1<<14, quasi(6))
	// 64 times the points: pseudo-random gains a factor of 8, a rate of 1/N gains 64.
	if few/many < 64 {
		t.Errorf("error fell from %g to %g, a factor of %.0f; want 64", few, many, few/many)
	}
}

func TestSequenceCoordinatesAreUniform(t *testing.T) {
	const n = 1 << 12
	s := uncertain.NewSequence(20, 5)
	columns := make([][]float64, s.Dimensions())
	u := make([]float64, s.Dimensions())
	for i := range n {
		s.At(i, u)
		for j, v := range u {
			if v <= 0 || v >= 1 {
				t.Fatalf("point %d coordinate %d is %g, not inside (0, 1)", i, j, v)
			}
			columns[j] = append(columns[j], v)
		}
	}
	for j, column := range columns {
		slices.Sort(column)
		for i, v := range column {
			// Each coordinate alone is an evenly spaced grid, folded: at most two steps from even.
			if even := (float64(i) + 0.5) / n; math.Abs(v-even) > 2.0/n {
				t.Fatalf("coordinate %d: %dth smallest is %g, want about %g", j, i, v, even)
			}
		}
	}
}

// The worst pair of coordinates decides whether two knowns can be told apart. All figures are those of a lattice's
// projection on two coordinates: the shortest wave that it cannot see, as a part of the longest possible.
func TestNoPairOfThirtyCoordinatesIsBadlySpread(t *testing.T) {
	for bits := 10; bits <= 17; bits++ {
		n, power := 1<<bits, 1
		for lag := 1; lag < 30; lag++ {
			power = power * uncertain.KorobovMultiplier % n
			longest := math.Sqrt(float64(n) * 2 / math.Sqrt(3))
			if got := shortestUnseenWave(power, n) / longest; got < 0.1 {
				t.Errorf("%d points, coordinates %d apart: figure %.3f, want 0.1 at least", n, lag, got)
			}
		}
	}
}

// shortestUnseenWave is the shortest (h1, h2) with h1 + h2·z = 0 mod n, by Gauss' reduction of the dual lattice.
func shortestUnseenWave(z, n int) float64 {
	type wave struct{ x, y float64 }
	dot := func(a, b wave) float64 { return a.x*b.x + a.y*b.y }
	a, b := wave{float64(n), 0}, wave{float64(n - z), 1}
	for {
		if dot(a, a) < dot(b, b) {
			a, b = b, a
		}
		q := math.Round(dot(a, b) / dot(b, b))
		if q == 0 {
			return math.Sqrt(dot(b, b))
		}
		a = wave{a.x - q*b.x, a.y - q*b.y}
	}
}

func TestSequenceIsTheSameForTheSameSeedInAnyOrderAndFromManyGoroutines(t *testing.T) {
	const n, d = 4096, 7
	s := uncertain.NewSequence(d, 99)
	want := make([]float64, n*d)
	for i := n - 1; i >= 0; i-- {
		uncertain.NewSequence(d, 99).At(i, want[i*d:(i+1)*d])
	}
	got := make([]float64, n*d)
	var chunks sync.WaitGroup
	for chunk := range 4 {
		chunks.Go(func() {
			for i := chunk * n / 4; i < (chunk+1)*n/4; i++ {
				s.At(i, got[i*d:(i+1)*d])
			}
		})
	}
	chunks.Wait()
	if !slices.Equal(got, want) {
		t.Error("points differ between orders or goroutines")
	}
	other := make([]float64, d)
	uncertain.NewSequence(d, 100).At(0, other)
	if slices.Equal(other, got[:d]) {
		t.Error("another seed gives the same first point")
	}
}

func TestSequenceRefusesTheWrongNumberOfPlaces(t *testing.T) {
	for name, wrong := range map[string]func(){
		"places":     func() { uncertain.NewSequence(3, 1).At(0, make([]float64, 2)) },
		"index":      func() { uncertain.NewSequence(3, 1).At(-1, make([]float64, 3)) },
		"dimensions": func() { uncertain.NewSequence(-1, 1) },
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("did not panic")
				}
			}()
			wrong()
		})
	}
}

func TestSequenceReadsWithoutAllocating(t *testing.T) {
	s, u := uncertain.NewSequence(24, 1), make([]float64, 24)
	if n := testing.AllocsPerRun(100, func() { s.At(5, u) }); n != 0 {
		t.Errorf("%g allocations a point, want none", n)
	}
}

func BenchmarkSequenceAt(b *testing.B) {
	s, u := uncertain.NewSequence(24, 1), make([]float64, 24)
	i := 0
	for b.Loop() {
		s.At(i, u)
		i++
	}
}
