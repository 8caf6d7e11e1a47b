package release

import (
	"math"

	"layshaft/spring"
)

// Pedal is the clutch pedal with its box and its push rod.
type Pedal struct {
	Ratio      float64 // pad travel / rod travel
	Travel     float64 // whole travel at the pad, m
	FreePlay   float64 // at the pad, before the rod meets the master's piston, m
	Efficiency float64 // force out / force in
	Stiffness  float64 // of the pedal box and the master's mounting, along the rod, N/m
	RodPitch   float64 // thread of the adjustable rod, m a turn; 0 where it cannot be adjusted

	Linkage Linkage      // the geometry, where the ratio changes over the travel; Ratio is then not used
	Assist  spring.Curve // N by which a spring helps at the pad, against pad travel in m; none where it is zero
}

// Master is the master cylinder.
type Master struct {
	Bore       float64 // m
	Stroke     float64 // that the piston has, m
	DeadStroke float64 // before the port to the reservoir closes, m
	Efficiency float64
}

// Line is what lies between the cylinders.
type Line struct {
	Length      float64 // of hose, m
	Expansion   float64 // volume per length of hose and pressure, m3/m/Pa
	FluidVolume float64 // of fluid under pressure, m3
	BulkModulus float64 // of the fluid, Pa; 0 or +Inf for one that does not give
	Compliance  float64 // of anything else that swells, m3/Pa
	TrappedAir  float64 // at the pressure of the atmosphere, m3
}

// Slave is the slave cylinder with the fork and the release bearing.
type Slave struct {
	Bore          float64 // m
	Sleeve        float64 // inner diameter of a concentric slave's annulus, m; 0 for a plain bore
	ForkRatio     float64 // slave travel / bearing travel; 1 for a concentric slave
	ForkStiffness float64 // at the bearing, N/m
	StandOff      float64 // gap between the bearing at rest and the fingers, m
	Stroke        float64 // that the slave has, m; 0 or +Inf where not known
	Efficiency    float64 // of slave and fork
}

// System is the release system: everything from the pad to the bearing.
type System struct {
	Pedal  Pedal
	Master Master
	Line   Line
	Slave  Slave
}

// Clutch is what the bearing pushes on.
type Clutch struct {
	Faces           int     // friction faces, two to a disc
	LeverRatio      float64 // finger travel / plate lift
	Cushion         float64 // by which all discs together spring while they are unloaded, m
	Clearance       float64 // running clearance wanted at each friction face, m
	FingerTravelMax float64 // the maker's limit, m; +Inf where not known
	Capacity        float64 // torque carried with the pedal up, N m

	BearingLoad spring.Curve // N against finger travel in m
	LoadScale   float64      // multiplies BearingLoad; 1 for the curve as it is

	// CushionCurve is the part of Capacity still carried, from 1 to 0, against plate lift. It is stretched so that
	// its last point falls on Cushion. Without it the torque falls in a straight line.
	CushionCurve spring.Curve
}

// Chain is one clutch with one release system.
type Chain struct {
	Clutch Clutch
	System System
}

// Area is the area the fluid works on: the annulus of a concentric slave, or the plain bore.
func (s *Slave) Area() float64 { return AnnulusArea(s.Bore, s.Sleeve) }

// Area is the area of the master's piston.
func (m *Master) Area() float64 { return PistonArea(m.Bore) }

// FluidCompliance is the volume that hose, fluid and all else but air take up per pressure, m3/Pa.
func (l *Line) FluidCompliance() float64 {
	return l.Expansion*l.Length + compressibility(l.BulkModulus)*l.FluidVolume + l.Compliance
}

// VolumeAbsorbed is the fluid that the line swallows at gauge pressure p before any reaches the slave.
//
//	Vc = (ch·L + V0/K + cx)·p + Va·p/(pa + p)
//
// with the symbols of HoseSwelling, FluidCompression and AirShrinkage, and cx any other compliance.
func (l *Line) VolumeAbsorbed(p float64) float64 {
	return l.FluidCompliance()*p + AirShrinkage(l.TrappedAir, p)
}

// Lift is the plate lift at finger travel xf.
func (c *Clutch) Lift(xf float64) float64 { return xf / c.LeverRatio }

// LiftNeeded is the lift at which every face has its running clearance: the discs' springing and the clearances.
func (c *Clutch) LiftNeeded() float64 { return c.Cushion + float64(c.Faces)*c.Clearance }

// FingerTravelNeeded is the finger travel at which the clutch is freed.
func (c *Clutch) FingerTravelNeeded() float64 { return c.LiftNeeded() * c.LeverRatio }

// Carried is the torque that the clutch still carries at finger travel xf: all of it until the plate lifts, none
// once the discs have sprung open.
func (c *Clutch) Carried(xf float64) float64 {
	lift := c.Lift(xf)
	switch {
	case lift <= 0:
		return c.Capacity
	case lift >= c.Cushion:
		return 0
	case c.CushionCurve.Zero():
		return c.Capacity * (1 - lift/c.Cushion)
	}
	_, last := c.CushionCurve.Domain()
	return c.Capacity * c.CushionCurve.At(min(lift/c.Cushion, 1)*last)
}

// Load is the bearing load at finger travel xf; NaN outside the points of the load curve.
func (c *Clutch) Load(xf float64) float64 { return c.LoadScale * c.BearingLoad.At(xf) }

// LimitKnown reports whether the maker's greatest finger travel is known.
func (c *Clutch) LimitKnown() bool { return !math.IsInf(c.FingerTravelMax, 1) }
