package spring

import "math"

// Built is a curve together with what it rests on.
type Built struct {
	Curve Curve

	// How far the curve leaves what it was made from, N: root mean square, and the greatest with the travel where it
	// is, m. Nought where it passes through everything that was given.
	RMS, Largest, LargestAt float64

	// Assumptions say, one each, what was taken for granted, for whoever relies on the curve.
	Assumptions []string
}

// built states the residuals of a curve against points that it was made from.
func built(curve Curve, x, y []float64, assumptions ...string) Built {
	b := Built{Curve: curve, Assumptions: assumptions}
	squares := 0.0
	for i := range x {
		residual := math.Abs(curve.At(x[i]) - y[i])
		squares += residual * residual
		if residual > b.Largest {
			b.Largest, b.LargestAt = residual, x[i]
		}
	}
	if len(x) > 0 {
		b.RMS = math.Sqrt(squares / float64(len(x)))
	}
	return b
}
