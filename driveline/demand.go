package driveline

import (
	"errors"

	"layshaft/uncertain"
)

// PowerTorque returns the torque that goes with a power at a speed.
//
//	T = P/ω
//
//	P  power          W
//	ω  angular speed  rad/s
//	T  torque         N m
func PowerTorque(power, omega float64) float64 { return power / omega }

// Service factors on the engine's peak torque by use: common practice, no source. A shop passes its own.
const (
	RoadFactor  = 1.25
	TrackFactor = 1.5
	DragFactor  = 2.0
)

// DrivenWheels says which wheels the engine turns.
type DrivenWheels uint8

// The wheels that are driven.
const (
	FrontWheels DrivenWheels = iota
	RearWheels
	FourWheels
)

// WheelLoss returns the share of the crank's torque that a rolling road does not see at the wheels: about 10 % with
// front, 15 % with rear and 20 to 25 % with four driven wheels. Common practice, no source, and disputed: losses do
// not all grow with power, so a percentage is a guess to be replaced by the dyno's own figure where there is one.
func WheelLoss(driven DrivenWheels) uncertain.Value {
	switch driven {
	case FrontWheels:
		return uncertain.Uniform(0.08, 0.12)
	case RearWheels:
		return uncertain.Uniform(0.12, 0.18)
	case FourWheels:
		return uncertain.Uniform(0.20, 0.25)
	}
	panic("driveline: unknown driven wheels")
}

// Repeatability is how runs on one dyno on one day scatter about their mean: 1 ± 1 % (one standard deviation).
// Common practice, no source: 0.5 to 2 % is called good; two dynos differ by 5 to 15 %.
func Repeatability() uncertain.Value { return uncertain.Normal(1, 0.01) }

// PeakRatio is peak torque over the torque at peak power, for an engine of which only the power is known: 1.00 to
// 1.30. Common practice, no source.
func PeakRatio() uncertain.Value { return uncertain.Uniform(1.00, 1.30) }

// Demand is the engine's peak torque at the crank, as a product of figures that are each more or less known:
//
//	T = Measured / Speed · PeakRatio · Repeatability / (1 − Loss)
//
// The service factor of the use comes on top and is no part of it.
type Demand struct {
	Measured      uncertain.Value // torque in N m, or power in W
	Speed         uncertain.Value // speed of that power in rad/s; exactly 1 where a torque was measured
	PeakRatio     uncertain.Value // peak torque over the torque at that speed, –
	Repeatability uncertain.Value // what another run would give over this one, –
	Loss          uncertain.Value // share lost between crank and the place of measuring, 0 at the crank
}

// DemandFromCurve takes the peak of a measured curve. loss is exactly 0 for a curve at the crank, else WheelLoss or
// the dyno's own figure.
func DemandFromCurve(curve Curve, loss, repeatability uncertain.Value) Demand {
	_, peak := curve.Peak()
	one := uncertain.Exact(1)
	return Demand{uncertain.Exact(peak), one, one, repeatability, loss}
}

// DemandFromPower guesses the peak from a power (W) at a speed (rad/s) alone: P/ω times PeakRatio.
func DemandFromPower(power, omega uncertain.Value) Demand {
	return Demand{power, omega, PeakRatio(), uncertain.Exact(1), uncertain.Exact(0)}
}

// Check tells what in the figures cannot be, or nil.
func (d Demand) Check() error {
	return errors.Join(
		above("engine torque or power", d.Measured, 0),
		above("engine speed", d.Speed, 0),
		above("peak torque over torque at peak power", d.PeakRatio, 0),
		above("repeatability", d.Repeatability, 0),
		above("share of the torque that is not lost", uncertain.Exact(1-largest(d.Loss)), 0),
	)
}

// Mid returns the single figure for the demand, from the single figures of its parts, in N m.
func (d Demand) Mid() float64 {
	return crankTorque(d.Measured.Mid(), d.Speed.Mid(), d.PeakRatio.Mid(), d.Repeatability.Mid(), d.Loss.Mid())
}

func crankTorque(measured, speed, peakRatio, repeatability, loss float64) float64 {
	return PowerTorque(measured, speed) * peakRatio * repeatability / (1 - loss)
}
