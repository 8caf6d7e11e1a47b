package release

import "math"

// statics is a chain boiled down to the few constants that tie the bearing's load and travel to the rod, so that
// the map and the sampling do not work them out anew at every point.
type statics struct {
	bearing *bearingLoad
	scale   float64 // of the load

	pressurePerLoad float64 // line pressure per bearing load, 1/m²
	forcePerLoad    float64 // rod force per bearing load

	rod    rise // travel of the rod, from where it meets the master's piston
	stroke rise // travel of the master's piston in its bore: the rod's without what the box gives way
}

// rise is a length that grows with finger travel x and bearing load F:
//
//	rest + perTravel·x + perLoad·F + air·F/(F + airHalf)
//
// The last term is trapped air: half of it is squeezed away at the load airHalf.
type rise struct{ rest, perTravel, perLoad, air, airHalf float64 }

func (r *rise) at(x, load float64) float64 {
	return r.rest + r.perTravel*x + r.perLoad*load + r.air*load/(load+r.airHalf)
}

// give is how much the length grows per load.
func (r *rise) give(load float64) float64 {
	d := load + r.airHalf
	return r.perLoad + r.air*r.airHalf/(d*d)
}

func (c *Chain) statics() statics { return c.staticsOn(newBearingLoad(c.Clutch.BearingLoad)) }

func (c *Chain) staticsOn(load *bearingLoad) statics {
	sys := &c.System
	master, slave := sys.Master.Area(), sys.Slave.Area()
	bearing := sys.Slave.ForkRatio * slave // fluid per bearing travel
	pressurePerLoad := 1 / (bearing * sys.Slave.Efficiency)
	forcePerLoad := pressurePerLoad * master / sys.Master.Efficiency

	stroke := rise{
		rest:      sys.Master.DeadStroke + bearing*sys.Slave.StandOff/master,
		perTravel: bearing / master,
		perLoad:   (sys.Line.FluidCompliance()*pressurePerLoad + bearing/sys.Slave.ForkStiffness) / master,
		air:       sys.Line.TrappedAir / master,
		airHalf:   Atmosphere / pressurePerLoad,
	}
	rod := stroke
	rod.perLoad += forcePerLoad / sys.Pedal.Stiffness
	return statics{load, c.Clutch.LoadScale, pressurePerLoad, forcePerLoad, rod, stroke}
}

func (s *statics) load(x float64) float64 { return s.scale * s.bearing.At(x) }

func (s *statics) along(r *rise, x float64) float64 { return r.at(x, s.load(x)) }

// slope is the change of r per finger travel; where it is not positive the pedal snaps through.
func (s *statics) slope(r *rise, x float64) float64 {
	return r.perTravel + s.scale*s.bearing.Slope(x)*r.give(s.load(x))
}

// preload is the bearing load while the fingers still stand at rest, at a length v of r between those with and
// without the load that starts to move them: the root F >= 0 of r.at(0, F) = v.
func (r *rise) preload(v float64) float64 {
	d := v - r.rest
	b := r.perLoad*r.airHalf + r.air - d
	// perLoad·F² + b·F - d·airHalf = 0, in the form that does not cancel and allows perLoad = 0
	root := math.Sqrt(b*b + 4*r.perLoad*d*r.airHalf)
	if b >= 0 {
		return 2 * d * r.airHalf / (b + root)
	}
	return (root - b) / (2 * r.perLoad)
}
