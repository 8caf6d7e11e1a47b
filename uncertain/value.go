// Package uncertain carries what is only roughly known: a figure that is exact, lies evenly between two
// bounds, or scatters normally about a mean. It samples such figures with a seeded quasi-random sequence and
// tells which of them matters most. It knows nothing of the trade: every number is a bare float64 in whatever
// unit the caller keeps.
package uncertain

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mathext"
)

// Kind says how a Value is known.
type Kind uint8

const (
	// ExactKind is a single figure; it is the zero Kind so that a zero Value is exactly nought.
	ExactKind Kind = iota
	// UniformKind lies anywhere between two bounds with equal chance.
	UniformKind
	// NormalKind scatters normally; the second figure is one standard deviation.
	NormalKind
)

// Value is one figure and how sure it is.
type Value struct {
	kind Kind
	a, b float64 // exact: a; uniform: a..b; normal: mean a, standard deviation b
}

// Exact is a figure taken as known.
func Exact(v float64) Value { return Value{ExactKind, v, 0} }

// Uniform lies anywhere from lo to hi. Bounds given the wrong way round are put right.
func Uniform(lo, hi float64) Value {
	if lo > hi {
		lo, hi = hi, lo
	}
	if lo == hi {
		return Exact(lo)
	}
	return Value{UniformKind, lo, hi}
}

// Normal scatters about mean with standard deviation sd (its sign does not matter).
func Normal(mean, sd float64) Value {
	if sd == 0 {
		return Exact(mean)
	}
	return Value{NormalKind, mean, math.Abs(sd)}
}

// Kind tells how the figure is known.
func (v Value) Kind() Kind { return v.kind }

// IsExact reports whether the figure is a single number.
func (v Value) IsExact() bool { return v.kind == ExactKind }

// Mid is the single figure that stands for the value: itself, the midpoint, or the mean.
func (v Value) Mid() float64 {
	if v.kind == UniformKind {
		return (v.a + v.b) / 2
	}
	return v.a
}

// SD is the standard deviation: 0, (hi-lo)/√12, or as given.
func (v Value) SD() float64 {
	switch v.kind {
	case UniformKind:
		return (v.b - v.a) / math.Sqrt(12)
	case NormalKind:
		return v.b
	}
	return 0
}

// Bounds are the least and greatest figure: equal for an exact one, infinite for a normal one.
func (v Value) Bounds() (lo, hi float64) {
	switch v.kind {
	case UniformKind:
		return v.a, v.b
	case NormalKind:
		return math.Inf(-1), math.Inf(1)
	}
	return v.a, v.a
}

// Quantile is the figure below which the value lies with probability u, 0 < u < 1.
func (v Value) Quantile(u float64) float64 {
	switch v.kind {
	case UniformKind:
		return v.a + u*(v.b-v.a)
	case NormalKind:
		return v.a + v.b*mathext.NormalQuantile(u)
	}
	return v.a
}

// Scale multiplies the value by a constant, as a change of unit does.
func (v Value) Scale(k float64) Value {
	if v.kind == UniformKind {
		return Uniform(v.a*k, v.b*k)
	}
	return Value{v.kind, v.a * k, math.Abs(v.b * k)}
}

// String prints the value for debugging, without a unit.
func (v Value) String() string {
	switch v.kind {
	case UniformKind:
		return fmt.Sprintf("%g .. %g", v.a, v.b)
	case NormalKind:
		return fmt.Sprintf("%g +- %g", v.a, v.b)
	}
	return fmt.Sprintf("%g", v.a)
}
