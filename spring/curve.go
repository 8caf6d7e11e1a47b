package spring

import (
	"fmt"
	"math"
)

// Curve is a load against travel, known at points and joined between them by a monotone piecewise cubic
// (Fritsch and Butland, SIAM J. Sci. Stat. Comput. 5 (1984) 300, with the three-point end slopes of PCHIP). It
// passes through every point, its slope is continuous, and between two points it never leaves their range, so a
// diaphragm's peak and valley stay where they were measured. It does not change once made and may be read by any
// number of goroutines. The zero Curve has no points.
type Curve struct{ table *table }

// table is shared by all copies of a Curve, which keeps copies cheap in sampling loops.
type table struct {
	pieces    []piece
	end, last float64 // the last point
	max       int     // index of the highest point
}

// piece is y + t(b + t(c + t d)) with t = x - start, up to the start of the next piece.
type piece struct{ start, y, b, c, d float64 }

// PointError says which of the points given for a curve is wrong, counted from nought, and why.
type PointError struct {
	Index  int
	Reason string
}

func (e *PointError) Error() string { return fmt.Sprintf("point %d: %s", e.Index+1, e.Reason) }

// NewCurve joins points whose x rises strictly; y may rise and fall.
func NewCurve(x, y []float64) (Curve, error) {
	if err := checkPoints(x, y); err != nil {
		return Curve{}, err
	}
	slopes := slopesAtPoints(x, y)
	last := len(x) - 1
	t := &table{pieces: make([]piece, last), end: x[last], last: y[last]}
	for i := range t.pieces {
		h := x[i+1] - x[i]
		secant := (y[i+1] - y[i]) / h
		t.pieces[i] = piece{
			start: x[i], y: y[i], b: slopes[i],
			c: (3*secant - 2*slopes[i] - slopes[i+1]) / h,
			d: (slopes[i] + slopes[i+1] - 2*secant) / (h * h),
		}
		if !finite(t.pieces[i].b) || !finite(t.pieces[i].c) || !finite(t.pieces[i].d) {
			return Curve{}, &PointError{i + 1, fmt.Sprintf("travel %g is too close to the point before", x[i+1])}
		}
		if y[i+1] > y[t.max] {
			t.max = i + 1
		}
	}
	return Curve{t}, nil
}

func checkPoints(x, y []float64) error {
	if len(x) != len(y) {
		return fmt.Errorf("a curve needs as many loads as travels: %d travels, %d loads", len(x), len(y))
	}
	if len(x) < 2 {
		return fmt.Errorf("a curve needs two points at least, not %d", len(x))
	}
	for i := range x {
		switch {
		case !finite(x[i]) || !finite(y[i]):
			return &PointError{i, fmt.Sprintf("(%g, %g) is not a pair of finite numbers", x[i], y[i])}
		case i > 0 && x[i] <= x[i-1]:
			return &PointError{i, fmt.Sprintf("travel %g does not rise above %g of the point before", x[i], x[i-1])}
		}
	}
	return nil
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// slopesAtPoints gives a slope of nought at every turning point, elsewhere a harmonic mean of the secants on
// either side, weighted towards the nearer one, which is what keeps the cubics monotone.
func slopesAtPoints(x, y []float64) []float64 {
	last := len(x) - 1
	width := func(i int) float64 { return x[i+1] - x[i] }
	secant := func(i int) float64 { return (y[i+1] - y[i]) / width(i) }
	slopes := make([]float64, len(x))
	if last == 1 {
		slopes[0], slopes[1] = secant(0), secant(0)
		return slopes
	}
	for i := 1; i < last; i++ {
		before, after := secant(i-1), secant(i)
		if before*after > 0 {
			w1, w2 := 2*width(i)+width(i-1), width(i)+2*width(i-1)
			slopes[i] = (w1 + w2) / (w1/before + w2/after)
		}
	}
	slopes[0] = slopeAtEnd(width(0), width(1), secant(0), secant(1))
	slopes[last] = slopeAtEnd(width(last-1), width(last-2), secant(last-1), secant(last-2))
	return slopes
}

// slopeAtEnd is that of the parabola through the three outermost points, held back where it would overshoot.
func slopeAtEnd(nearWidth, farWidth, near, far float64) float64 {
	slope := ((2*nearWidth+farWidth)*near - nearWidth*far) / (nearWidth + farWidth)
	switch {
	case slope*near <= 0:
		return 0
	case near*far <= 0 && math.Abs(slope) > 3*math.Abs(near):
		return 3 * near
	}
	return slope
}

// find returns the piece that x lies in, or nil outside the points and for NaN.
func (t *table) find(x float64) *piece {
	if t == nil || !(x >= t.pieces[0].start && x <= t.end) {
		return nil
	}
	i, beyond := 0, len(t.pieces)
	for beyond-i > 1 {
		if middle := (i + beyond) / 2; x >= t.pieces[middle].start {
			i = middle
		} else {
			beyond = middle
		}
	}
	return &t.pieces[i]
}

// At is the load at travel x; NaN outside the points, since nobody measured there.
func (c Curve) At(x float64) float64 {
	p := c.table.find(x)
	if p == nil {
		return math.NaN()
	}
	if x == c.table.end {
		return c.table.last // to the last bit, which the cubic would miss by rounding
	}
	t := x - p.start
	return p.y + t*(p.b+t*(p.c+t*p.d))
}

// Slope is the rate of the load at travel x, N/m; NaN outside the points.
func (c Curve) Slope(x float64) float64 {
	p := c.table.find(x)
	if p == nil {
		return math.NaN()
	}
	t := x - p.start
	return p.b + t*(2*p.c+t*3*p.d)
}

// Zero reports whether the curve has no points.
func (c Curve) Zero() bool { return c.table == nil }

// Domain is the range of travel that the points cover; NaN for a curve without points.
func (c Curve) Domain() (lo, hi float64) {
	if c.Zero() {
		return math.NaN(), math.NaN()
	}
	return c.table.pieces[0].start, c.table.end
}

// Points are the points that the curve was made from.
func (c Curve) Points() (x, y []float64) {
	if c.Zero() {
		return nil, nil
	}
	for _, p := range c.table.pieces {
		x, y = append(x, p.start), append(y, p.y)
	}
	return append(x, c.table.end), append(y, c.table.last)
}

// Max is the highest load and the least travel at which it is reached. It is always one of the points, because
// between two points the curve stays in their range. NaN for a curve without points.
func (c Curve) Max() (x, y float64) {
	if c.Zero() {
		return math.NaN(), math.NaN()
	}
	if c.table.max == len(c.table.pieces) {
		return c.table.end, c.table.last
	}
	p := c.table.pieces[c.table.max]
	return p.start, p.y
}
