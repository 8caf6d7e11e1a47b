package release

// PedalTravel is the travel at the pad that holds the fingers at travel xf.
//
//	s = s0 + ip·[ xd + Fr/kb + ( Vc(p) + As·if·(xf + g + Fb/kf) )/Am ]
//
//	s0  free play at the pad          m      xd  dead stroke                      m
//	ip  pedal ratio                   –      Fr  rod force                        N
//	kb  stiffness of box and mounting N/m    Vc  volume absorbed by the line      m³
//	As  slave area                    m²     if  fork ratio                       –
//	Am  master area                   m²     g   stand-off of the bearing         m
//	Fb  bearing load at xf            N      kf  stiffness of the fork            N/m
//
// With a Linkage, what is in brackets moves the rod and the geometry gives the pad's travel for it. Where s does not
// rise with xf the pedal snaps through: see Answer.Snaps. NaN outside the points of the load curve.
func (c *Chain) PedalTravel(xf float64) float64 {
	s := c.statics()
	return c.System.Pedal.padTravel(s.along(&s.rod, xf))
}

// Pressure is the line's gauge pressure at finger travel xf.
//
//	p = Fb/(if·As·es)
//
//	es  efficiency of slave and fork
func (c *Chain) Pressure(xf float64) float64 {
	s := c.statics()
	return s.load(xf) * s.pressurePerLoad
}

// RodForce is the force in the push rod at finger travel xf.
//
//	Fr = p·Am/em
//
//	em  efficiency of the master
func (c *Chain) RodForce(xf float64) float64 {
	s := c.statics()
	return s.load(xf) * s.forcePerLoad
}

// Effort is the force at the pad at finger travel xf.
//
//	Fp = Fr/(ip·ep) - Fa
//
//	ep  efficiency of the pedal
//	Fa  help of an assist spring at that travel  N
func (c *Chain) Effort(xf float64) float64 {
	s := c.statics()
	return s.effort(&c.System.Pedal, s.along(&s.rod, xf), s.load(xf))
}

// BearingTravel is how far the release bearing really moves: its stand-off and the fingers' travel.
func (c *Chain) BearingTravel(xf float64) float64 { return c.System.Slave.StandOff + xf }

// SlaveTravel is the travel of the slave's piston, with what the fork gives way.
//
//	xs = if·(xf + g + Fb/kf)
func (c *Chain) SlaveTravel(xf float64) float64 {
	slave := &c.System.Slave
	return slave.ForkRatio * (c.BearingTravel(xf) + c.Clutch.Load(xf)/slave.ForkStiffness)
}

// MasterStroke is the stroke that the master uses, the dead stroke with it.
//
//	xm = xd + (Vc + As·xs)/Am
func (c *Chain) MasterStroke(xf float64) float64 {
	s := c.statics()
	return s.along(&s.stroke, xf)
}

func (s *statics) effort(p *Pedal, rod, load float64) float64 {
	return p.effort(p.padTravel(rod), load*s.forcePerLoad)
}
