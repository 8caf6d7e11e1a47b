package picture

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// lineLength sums the straight pieces of a path.
func lineLength(p Path) float64 {
	var sum float64
	for i := 0; i+1 < len(p); i += 2 {
		a, b := p[i].P[0], p[i+1].P[0]
		sum += math.Hypot(b.X-a.X, b.Y-a.Y)
	}
	return sum
}

// By Cavalieri's principle the length of parallel lines cut to an area, times their spacing, tends to the area as the
// lines get closer (from memory). At a spacing of a hundredth of the size the difference stays within a few parts
// in a thousand.
func TestHatchingMeasuresItsArea(t *testing.T) {
	for name, c := range map[string]struct {
		area Path
		want float64
	}{
		"square":   {rect(10, 20, 100, 100), 1e4},
		"triangle": {polygon(0, 0, 120, 0, 30, 100), 6000},
		"circle":   {circle(60, 60, 50), math.Pi * 2500},
		"ring":     {join(circle(60, 60, 50), circle(60, 60, 30)), math.Pi * 1600},
		"notched":  {polygon(0, 0, 100, 0, 100, 100, 50, 40, 0, 100), 1e4 - 3000},
	} {
		for _, angle := range []float64{0, 45, -45, 90, 13} {
			got := lineLength(hatchLines(c.area, angle, 1))
			if math.Abs(got-c.want) > 0.005*c.want {
				t.Errorf("%s at %v degrees: lines measure %.1f, area is %.1f", name, angle, got, c.want)
			}
		}
	}
}

func TestHatchingStaysInsideAConvexArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w, h := rapid.Float64Range(1, 200).Draw(t, "w"), rapid.Float64Range(1, 200).Draw(t, "h")
		angle := rapid.Float64Range(-180, 180).Draw(t, "angle")
		for _, s := range hatchLines(rect(5, 7, w, h), angle, 3) {
			p := s.P[0]
			if p.X < 5-1e-6 || p.Y < 7-1e-6 || p.X > 5+w+1e-6 || p.Y > 7+h+1e-6 {
				t.Fatalf("%+v leaves the area", p)
			}
		}
	})
}

func TestAnAreaThatIsNowhereHasNoHatching(t *testing.T) {
	if p := hatchLines(rect(0, 0, math.NaN(), 5), 45, 3); len(p) > 0 {
		t.Error("hatched nothing")
	}
}

func TestTransformsFollowEachOther(t *testing.T) {
	turned := newPen(nil, shift(0, 0)).moved(10, 20).turned(90)
	if got := turned.at.apply(Point{5, 0}); math.Abs(got.X-10) > 1e-9 || math.Abs(got.Y-25) > 1e-9 {
		t.Errorf("right of an assembly turned by 90 degrees is %+v, want below its origin", got)
	}
	scaled := newPen(nil, shift(0, 0)).moved(10, 20).scaled(2).moved(1, 1)
	if got := scaled.at.apply(Point{1, 0}); got != (Point{14, 22}) {
		t.Errorf("scaled: %+v", got)
	}
}

// A circle of Bézier curves is round to 3 parts in ten thousand of its radius (from memory: the usual figure for
// handles of 0.5523).
func TestCirclesAndArcsAreRound(t *testing.T) {
	for _, p := range []Path{circle(0, 0, 100), arc(0, 0, 100, 20, 250)} {
		for _, q := range p.flatten()[0] {
			if r := math.Hypot(q.X, q.Y); math.Abs(r-100) > 0.03 {
				t.Errorf("radius %v", r)
			}
		}
	}
	ends := arc(0, 0, 10, 0, 90)
	if last := ends[len(ends)-1].P[2]; math.Hypot(last.X, last.Y-10) > 1e-9 {
		t.Errorf("a quarter clockwise from the right ends at %+v, want straight below", last)
	}
}
