package driveline

import "math"

// EngagementEnergy returns the heat that a clutch makes while it brings two free inertias to one speed.
//
//	E = I1·I2·Δω² / (2·(I1 + I2))
//
//	I1, I2  inertias on either side, +Inf for a side held at its speed  kg m²
//	Δω      difference of speed at the start                            rad/s
//	E       heat                                                        J
//
// It does not depend on how the clutch torque runs, as long as no other torque acts. Source: Bhandari, Design of
// Machine Elements, ch. 11 (seen in a companion).
func EngagementEnergy(I1, I2, slip float64) float64 {
	return slip * slip / 2 / (1/I1 + 1/I2)
}

// Engagement is the slipping of a clutch between an engine and a driven side, all torques constant.
type Engagement struct {
	EngineInertia, DrivenInertia float64 // kg m²; +Inf for a side held at its speed
	EngineSpeed, DrivenSpeed     float64 // at the start, rad/s; the engine is the faster one
	Clutch                       float64 // friction torque, N m
	Drive                        float64 // torque on the engine's side from outside, along its speed; N m
	Load                         float64 // torque on the driven side from outside, against its speed; N m
}

// Time returns how long the clutch slips, +Inf if it never comes to rest.
//
//	t = Δω / ((T − Td)/I1 + (T − Tl)/I2)
//
//	Δω      difference of speed at the start       rad/s
//	T       friction torque of the clutch          N m
//	Td, Tl  driving torque, load torque            N m
//	I1, I2  inertias of engine and driven side     kg m²
//	t       slip time                              s
//
// Source: Khurmi & Gupta, Theory of Machines, ex. 10.27 (seen in a companion).
func (e Engagement) Time() float64 {
	closing := (e.Clutch-e.Drive)/e.EngineInertia + (e.Clutch-e.Load)/e.DrivenInertia
	if closing <= 0 {
		return math.Inf(1)
	}
	return (e.EngineSpeed - e.DrivenSpeed) / closing
}

// Heat returns the heat made while slipping, E = T·Δω·t/2 in J, since the difference of speed falls evenly. Without
// outside torques it is EngagementEnergy.
func (e Engagement) Heat() float64 {
	return e.Clutch * (e.EngineSpeed - e.DrivenSpeed) / 2 * e.Time()
}

// EndSpeed returns the speed of both sides when the slipping ends, in rad/s.
func (e Engagement) EndSpeed() float64 {
	return e.DrivenSpeed + (e.Clutch-e.Load)/e.DrivenInertia*e.Time()
}
