package release

import "math"

// strokeAt is the master stroke used with the rod at r. Before the rod meets the piston it is nought.
func (s *statics) strokeAt(r float64, at state) float64 {
	if at.load == 0 && at.finger == 0 {
		return max(0, min(r, s.stroke.rest))
	}
	return s.stroke.at(at.finger, at.load)
}

// bearingTravel counts the gap that has closed, also where it is not closed yet.
func (s *statics) bearingTravel(c *Chain, r float64, at state) float64 {
	if at.load == 0 && at.finger == 0 {
		dead := c.System.Master.DeadStroke
		return max(0, s.strokeAt(r, at)-dead) / s.stroke.perTravel
	}
	return c.BearingTravel(at.finger)
}

func (s *statics) slaveTravel(c *Chain, r float64, at state) float64 {
	slave := &c.System.Slave
	return slave.ForkRatio * (s.bearingTravel(c, r, at) + at.load/slave.ForkStiffness)
}

// firstAt is the pedal travel at which the fingers first come by travel xf on the way down.
func (c *Chain) firstAt(s *statics, xf float64) float64 {
	return c.System.Pedal.padTravel(s.farthest(&s.rod, xf))
}

// bottomsAt is the pedal travel at which the master's piston comes to the end of its stroke; NaN where it does not
// before the load curve ends.
func (c *Chain) bottomsAt(s *statics) float64 {
	stroke := c.System.Master.Stroke
	if !(s.farthest(&s.stroke, s.bearing.end) > stroke) {
		return math.NaN()
	}
	if s.stroke.rest > stroke {
		return c.System.Pedal.padTravel(stroke)
	}
	if s.along(&s.stroke, 0) > stroke {
		load := s.stroke.preload(stroke)
		return c.System.Pedal.padTravel(s.rod.at(0, load))
	}
	return c.firstAt(s, s.firstPast(&s.stroke, stroke))
}

// firstPast is the finger travel at which r first comes past length, which it does before the load curve ends.
func (s *statics) firstPast(r *rise, length float64) float64 {
	if !s.alwaysRises(r) {
		return bisect(0, s.bearing.end, func(x float64) bool { return s.farthest(r, x) <= length })
	}
	from, low := 0.0, s.along(r, 0)
	for _, to := range s.bearing.travels[1:] {
		high := s.along(r, to)
		if high > length {
			return s.inside(r, cell{from, to, low, high}, length)
		}
		from, low = to, high
	}
	return s.bearing.end
}
