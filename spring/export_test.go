package spring

// Smooth is the smoothing spline of a given λ at the readings, for comparison with a reference library.
func Smooth(x, y, w []float64, lambda float64) []float64 {
	s := newSmoother(x, w)
	return s.smoothed(s.shares(y), lambda)
}
