package worth

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Likely are the lives that explain the findings not much worse than the best one:
//
//	2·(ln L(η̂, β̂) − ln L(η, β)) ≤ χ²(level; 1)
//
// What a figure takes as its least and greatest value among them is its profile-likelihood interval. Such an interval
// does not depend on how the figure is written: that of a logarithm is the logarithm of the interval.
//
// Source: Meeker and Escobar (1998), 8.3 (from memory).
type Likely struct {
	fit    *Fit
	bottom float64 // logarithm of the likelihood on the border
	radius float64 // of the border, were it a circle
	// information = root·rootᵀ with root = [a 0; b c]: in steps of (rootᵀ)⁻¹ the border is nearly a circle
	a, b, c float64
	border  []Weibull // at evenly spaced angles
}

const borderPoints = 48

// Likely are the likely lives at a level of confidence such as Usual.
func (f *Fit) Likely(level float64) Likely {
	z := mathext.NormalQuantile((1 + level) / 2) // χ² with one degree of freedom is its square
	a := math.Sqrt(f.spread.ss)
	b := f.spread.sl / a
	l := Likely{
		fit: f, bottom: f.likelihood.log(f.peak) - z*z/2, radius: z,
		a: a, b: b, c: math.Sqrt(f.spread.ll - b*b), border: make([]Weibull, borderPoints),
	}
	for i := range l.border {
		l.border[i] = l.edge(float64(i) * borderStep)
	}
	return l
}

const borderStep = 2 * math.Pi / borderPoints

// Range is the interval of a figure of the life, such as Life(0.1) or Chance(80000). The figure must change steadily
// with scale and shape, without a peak or a pit of its own.
func (l Likely) Range(figure func(Weibull) float64) Interval {
	least := l.lowest(figure)
	most := l.lowest(func(w Weibull) float64 { return -figure(w) })
	return Interval{least, -most}
}

// leastShape ends the likely lives: with a shape of 0.02, one in ten would be worn 49 powers of ten before the middle
// one, and what is flatter tells no two distances apart.
const leastShape = 0.02

// edge is the life on the border at an angle as seen from the best one.
func (l Likely) edge(angle float64) Weibull {
	sin, cos := math.Sincos(angle)
	toLevel := sin / l.c
	toSlope := (cos - l.b*toLevel) / l.a
	peak := l.fit.peak
	along := func(r float64) line { return line{peak.slope + r*toSlope, peak.level + r*toLevel} }
	most := math.Inf(1)
	if toSlope < 0 {
		most = (leastShape - peak.slope) / toSlope
	}
	r := farthest(func(r float64) float64 { return l.fit.likelihood.log(along(r)) - l.bottom }, l.radius, most)
	return l.fit.likelihood.weibull(along(r))
}

// farthest is how far one may go until a height falls below nothing, but no farther than most. The height falls ever
// more steeply; it is above nothing at the start. Regula falsi, with the Illinois rule that halves a value which stays.
func farthest(height func(r float64) float64, guess, most float64) float64 {
	in, above := 0.0, height(0)
	out := math.Min(guess, most)
	below := height(out)
	for below >= 0 {
		if out == most {
			return most
		}
		in, above = out, below
		out = math.Min(2*out, most)
		below = height(out)
	}
	for range 100 {
		r := in + (out-in)*above/(above-below)
		if !(r > in && r < out) {
			r = (in + out) / 2
		}
		switch h := height(r); {
		case math.Abs(h) < 1e-10 || out-in < 1e-15*out:
			return r
		case h > 0:
			in, above, below = r, h, below/2
		default:
			out, below, above = r, h, above/2
		}
	}
	return in
}

// lowest is the least value of a figure on the border: the least of the evenly spaced ones, narrowed down by golden
// section between its neighbours.
func (l Likely) lowest(figure func(Weibull) float64) float64 {
	best, at := math.Inf(1), 0
	for i, w := range l.border {
		if v := figure(w); v < best {
			best, at = v, i
		}
	}
	const golden = 0.6180339887498949
	value := func(angle float64) float64 { return figure(l.edge(angle)) }
	from, to := float64(at-1)*borderStep, float64(at+1)*borderStep
	left, right := to-golden*(to-from), from+golden*(to-from)
	vl, vr := value(left), value(right)
	for range 16 { // the value is then exact to about the square of the angle, 4e-9
		if vl < vr {
			to, right, vr = right, left, vl
			left = to - golden*(to-from)
			vl = value(left)
		} else {
			from, left, vl = left, right, vr
			right = from + golden*(to-from)
			vr = value(right)
		}
		best = math.Min(best, math.Min(vl, vr))
	}
	return best
}
