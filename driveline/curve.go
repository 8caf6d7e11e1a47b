package driveline

import (
	"fmt"
	"math"
	"slices"
	"sort"
)

// Curve is an engine's full-load torque over its speed. It does not change once made and is safe for use from
// several goroutines.
type Curve struct{ omega, torque []float64 }

// NewEngineCurve makes a curve from points of speed in rad/s and torque in N m. There must be at least two points,
// finite and with strictly rising, positive speed.
func NewEngineCurve(omega, torque []float64) (Curve, error) {
	if len(omega) != len(torque) {
		return Curve{}, fmt.Errorf("engine curve: %d speeds but %d torques", len(omega), len(torque))
	}
	if len(omega) < 2 {
		return Curve{}, fmt.Errorf("engine curve: %d points; at least two are needed", len(omega))
	}
	last := 0.0
	for i, w := range omega {
		if !finite(w, torque[i]) {
			return Curve{}, fmt.Errorf("engine curve: point %d is not a number", i+1)
		}
		if w <= last {
			return Curve{}, fmt.Errorf("engine curve: speed at point %d does not rise (%g after %g rad/s)", i+1, w, last)
		}
		last = w
	}
	return Curve{slices.Clone(omega), slices.Clone(torque)}, nil
}

// Peak returns the point of greatest torque; the first of several equal ones.
func (c Curve) Peak() (omega, torque float64) {
	best := 0
	for i, T := range c.torque {
		if T > c.torque[best] {
			best = i
		}
	}
	return c.omega[best], c.torque[best]
}

// PeakPower returns the point of greatest power, speed in rad/s and power in W.
func (c Curve) PeakPower() (omega, power float64) {
	for i, w := range c.omega {
		if P := w * c.torque[i]; P > power || i == 0 {
			omega, power = w, P
		}
	}
	return omega, power
}

// At returns the torque at a speed by straight lines between the points, NaN outside them.
func (c Curve) At(omega float64) float64 {
	lo, hi := c.Domain()
	if !(omega >= lo && omega <= hi) {
		return math.NaN()
	}
	i := max(sort.SearchFloat64s(c.omega, omega), 1)
	u := (omega - c.omega[i-1]) / (c.omega[i] - c.omega[i-1])
	return c.torque[i-1] + u*(c.torque[i]-c.torque[i-1])
}

// Domain returns the lowest and highest speed of the curve.
func (c Curve) Domain() (lo, hi float64) { return c.omega[0], c.omega[len(c.omega)-1] }

// Points returns copies of the curve's points.
func (c Curve) Points() (omega, torque []float64) {
	return slices.Clone(c.omega), slices.Clone(c.torque)
}

// Zero reports whether the curve has no points, as one that was never made.
func (c Curve) Zero() bool { return len(c.omega) == 0 }

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
