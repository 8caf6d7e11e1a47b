package release

// Stance is how the chain stands with the pedal held somewhere, pressed down.
type Stance struct {
	Pedal                          float64 // travel at the pad, m
	Finger, Bearing, Slave, Master float64 // travels, m; the master's with its dead stroke
	Effort, Pressure               float64 // at the pad, N; gauge, Pa
}

// At is how the chain stands with the pad pressed by pad.
func (c *Chain) At(pad float64) Stance {
	s := c.statics()
	return c.standing(&s, pad)
}

func (c *Chain) standing(s *statics, pad float64) Stance {
	rod := c.System.Pedal.rodTravel(pad)
	at := s.pressing().at(rod)
	return Stance{
		Pedal: pad, Finger: at.finger,
		Bearing: s.bearingTravel(c, rod, at), Slave: s.slaveTravel(c, rod, at), Master: s.strokeAt(rod, at),
		Effort: c.System.Pedal.effort(pad, at.load*s.forcePerLoad), Pressure: at.load * s.pressurePerLoad,
	}
}
