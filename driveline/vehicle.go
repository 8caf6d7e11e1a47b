package driveline

import "math"

// Gravity is the standard acceleration of free fall, m/s².
const Gravity = 9.80665

// Vehicle is what the driveline has to move and what it stands on.
type Vehicle struct {
	Mass         float64 // kg
	FrontShare   float64 // of the weight on the front axle, standing; 0 to 1
	Wheelbase    float64 // m
	CentreHeight float64 // height of the centre of mass, m; 0 leaves load transfer out
	TyreRadius   float64 // rolling radius, m
	WheelInertia float64 // of all wheels, hubs and shafts together, kg m²
	Driven       DrivenWheels
	Grip         float64 // coefficient of friction between tyre and road; +Inf never slips
}

// EquivalentMass returns the mass that resists being accelerated as the car does with all that turns in it.
//
//	M = m + (Iw + η·G²·Ie)/r²
//
//	m   mass                                                  kg
//	Iw  inertia of the wheels together                        kg m²
//	Ie  inertia at the engine's speed                         kg m²
//	G   engine turns for one turn of the wheels               –
//	η   efficiency of the gears                               –
//	r   rolling radius                                        m
//	M   equivalent mass                                       kg
//
// η as written is for an engine that drives the car; where the car drives the engine it is 1/η. Source: Khurmi &
// Gupta, Theory of Machines, ex. 3.15 (seen in a companion).
func EquivalentMass(mass, radius, wheelInertia, ratio, engineInertia, efficiency float64) float64 {
	return mass + (wheelInertia+efficiency*ratio*ratio*engineInertia)/(radius*radius)
}

// EngineSpeed returns the engine speed in rad/s that goes with a road speed in m/s: ω = v·G/r, without slip.
func EngineSpeed(speed, radius, ratio float64) float64 { return speed / radius * ratio }

// TractionAcceleration returns the greatest acceleration in m/s² that the driven tyres can pass on the level, with
// the load that moves to the rear as the car accelerates.
//
//	four-wheel drive   a = μ·g
//	rear-wheel drive   a = μ·g·(1 − f) / (1 − μ·h/L)
//	front-wheel drive  a = μ·g·f / (1 + μ·h/L)
//
//	μ  grip                                   –
//	f  share of the weight on the front axle  –
//	h  height of the centre of mass           m
//	L  wheelbase                              m
//
// Valid while the front wheels stay on the road, a < g·f·L/h. Four driven wheels are taken to slip all at once, which
// no real split of the torque does better than. +Inf where more torque always brings more load. Source: Beer & Johnston, Vector Mechanics, 8th ed., problem 16.6 (seen).
func (v Vehicle) TractionAcceleration() float64 {
	share, transfer := v.drivenLoad()
	if math.IsInf(v.Grip, 1) || v.Grip*transfer >= 1 {
		return math.Inf(1)
	}
	return v.Grip * Gravity * share / (1 - v.Grip*transfer)
}

// drivenLoad returns the share of the weight on the driven wheels when standing, and how that share grows for each g
// of acceleration.
func (v Vehicle) drivenLoad() (share, transfer float64) {
	switch v.Driven {
	case FrontWheels:
		return v.FrontShare, -v.heightOverBase()
	case RearWheels:
		return 1 - v.FrontShare, v.heightOverBase()
	}
	return 1, 0
}

// TyreLimits returns the greatest torque in N m that the tyres of each axle can pass, at the greatest acceleration
// they allow; 0 for an axle that is not driven.
func (v Vehicle) TyreLimits() (front, rear float64) {
	a := v.TractionAcceleration()
	limit := func(share, sign float64) float64 {
		if math.IsInf(a, 1) {
			return a
		}
		load := v.Mass * (Gravity*share + sign*a*v.heightOverBase())
		return v.Grip * max(load, 0) * v.TyreRadius
	}
	if v.Driven != RearWheels {
		front = limit(v.FrontShare, -1)
	}
	if v.Driven != FrontWheels {
		rear = limit(1-v.FrontShare, 1)
	}
	return front, rear
}

func (v Vehicle) heightOverBase() float64 {
	if v.CentreHeight == 0 {
		return 0 // the wheelbase may be unknown then
	}
	return v.CentreHeight / v.Wheelbase
}
