package driveline

import (
	"fmt"
	"math"
)

// Launch is a car moving off in one gear: an engine, a clutch that is let in over time, gears, tyres that may spin.
type Launch struct {
	Engine        func(omega float64) float64 // full-load torque over speed, N m; see Curve.Extended
	EngineInertia float64                     // engine, flywheel and cover, kg m²
	StartSpeed    float64                     // of the engine, rad/s
	Limiter       float64                     // speed at which a limiter or the driver holds the engine, rad/s; 0 none
	Stall         float64                     // speed below which the engine stops, rad/s

	Clutch       func(t float64) float64 // torque that the clutch can carry at time t, N m
	InputInertia float64                 // discs and gearbox input shaft, kg m²; above 0
	// Fade is told of every step the mean slip power (W) and the step (s), and returns the friction then, as a share
	// of the friction that Clutch reckons with. It is asked once before the first step, with a step of 0. Nil leaves
	// the friction as it is.
	Fade func(power, step float64) float64

	Ratio      float64 // engine turns for one turn of the wheels
	Efficiency float64 // of the gears while the engine drives
	Vehicle    Vehicle
	Resistance func(speed float64) float64 // rolling, air, slope: N; nil none

	Step, Duration float64 // s
	AllIn          float64 // when the clutch is let in all the way, s: once it sticks after that, the launch ends; 0 goes on
}

// Moment is the state at one time of a launch.
type Moment struct {
	Time, Engine, Input, Speed float64 // s; engine and gearbox input, rad/s; road speed, m/s
	Clutch, Power              float64 // torque carried by the clutch, N m; its heat, W
}

// Launched is what came of a launch.
type Launched struct {
	Energies
	Locked    bool    // the clutch does not slip at the end
	Stalled   bool    // the engine stopped
	LockedAt  float64 // when the clutch last locked, s; NaN if it did not
	SlipTime  float64 // that the clutch slipped, all together, s
	SpinTime  float64 // that the tyres slipped, s
	PeakPower float64 // greatest heat flow in the clutch, W
	Moments   []Moment
}

// Energies are the accounts of a launch, J.
type Energies struct {
	Engine     float64 // work of the engine
	Clutch     float64 // heat in the clutch
	Tyres      float64 // heat between tyres and road
	Gears      float64 // lost in the gears
	Resistance float64 // work against rolling, air and slope
	Gained     float64 // kinetic energy at the end less that at the start
}

// Unbalanced returns what the accounts leave over, in J; but for rounding and the step it is nought.
func (e Energies) Unbalanced() float64 {
	return e.Engine - e.Clutch - e.Tyres - e.Gears - e.Resistance - e.Gained
}

// Run simulates the launch. It integrates by classical Runge-Kutta with a fixed step, and finds by halving the instant
// at which the clutch or the tyres lock or break loose, the limiter takes hold or the car starts to roll.
//
// The model: clutch and tyres are dry friction with one coefficient, sliding as sticking; shafts are stiff, so judder
// is not seen; the efficiency is that of driving, so that a long overrun comes out too easy. It ends after Duration,
// when the engine stops, or where AllIn says.
func (l Launch) Run() (Launched, error) {
	if err := l.check(); err != nil {
		return Launched{}, err
	}
	s := newSimulation(&l)
	before := s.kinetic()
	for most := 20*l.Duration/l.Step + 1000; !s.done(); {
		if float64(len(s.out.Moments)) > most {
			return Launched{}, fmt.Errorf("launch: clutch or tyres stick and slip without end at %.4f s", s.t)
		}
		if err := s.advance(); err != nil {
			return Launched{}, err
		}
	}
	s.out.Gained = s.kinetic() - before
	return s.out, nil
}

func (l Launch) check() error {
	positive := []struct {
		name  string
		value float64
	}{
		{"engine inertia", l.EngineInertia}, {"engine speed at the start", l.StartSpeed},
		{"input inertia", l.InputInertia}, {"ratio", l.Ratio}, {"mass", l.Vehicle.Mass},
		{"tyre radius", l.Vehicle.TyreRadius}, {"grip", l.Vehicle.Grip}, {"step", l.Step}, {"duration", l.Duration},
		{"efficiency", l.Efficiency},
	}
	for _, p := range positive {
		if !(p.value > 0) {
			return fmt.Errorf("launch: %s must be above nought, it is %g", p.name, p.value)
		}
	}
	switch {
	case l.Efficiency > 1:
		return fmt.Errorf("launch: an efficiency of %g makes energy; it is at most 1", l.Efficiency)
	case l.Limiter != 0 && l.StartSpeed > l.Limiter:
		return fmt.Errorf("launch: the engine starts at %g rad/s, above its limiter at %g", l.StartSpeed, l.Limiter)
	case l.StartSpeed <= l.Stall:
		return fmt.Errorf("launch: the engine starts at %g rad/s, where it stalls", l.StartSpeed)
	case l.Duration/l.Step > 1e6:
		return fmt.Errorf("launch: %g steps are too many; 1 ms for some seconds is usual", l.Duration/l.Step)
	}
	return nil
}

// Extended returns the curve as a function for a launch, which passes through speeds that nobody measured: outside the
// points the torque of the nearest one is taken.
func (c Curve) Extended() func(omega float64) float64 {
	lo, hi := c.Domain()
	return func(omega float64) float64 { return c.At(math.Max(lo, math.Min(hi, omega))) }
}

// Ramp returns a clutch capacity that rises evenly from 0 to full in the given time and stays there.
func Ramp(full, over float64) func(t float64) float64 {
	return func(t float64) float64 {
		if t >= over {
			return full
		}
		return full * t / over
	}
}
