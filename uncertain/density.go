package uncertain

import "math"

// Density is the probability density of the value at x. An exact figure has none: it is infinite there and nought
// elsewhere, so do not weigh by it.
func (v Value) Density(x float64) float64 { return math.Exp(v.LogDensity(x)) }

// LogDensity is the natural logarithm of the density, which does not underflow far from the mean.
func (v Value) LogDensity(x float64) float64 {
	switch {
	case math.IsNaN(x):
		return math.NaN()
	case v.kind == NormalKind:
		z := (x - v.a) / v.b
		return -z*z/2 - math.Log(v.b*math.Sqrt(2*math.Pi))
	case v.kind == UniformKind && v.a <= x && x <= v.b:
		return -math.Log(v.b - v.a)
	case v.kind == ExactKind && x == v.a:
		return math.Inf(1)
	}
	return math.Inf(-1)
}

// CDF is the probability that the value is x or less.
func (v Value) CDF(x float64) float64 {
	switch {
	case math.IsNaN(x):
		return math.NaN()
	case v.kind == NormalKind:
		return math.Erfc((v.a-x)/(v.b*math.Sqrt2)) / 2
	case v.kind == UniformKind:
		return math.Min(math.Max((x-v.a)/(v.b-v.a), 0), 1)
	case x >= v.a:
		return 1
	}
	return 0
}
