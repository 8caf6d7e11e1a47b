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
	xf := bisect(0, s.bearing.end, func(x float64) bool { return s.farthest(&s.stroke, x) <= stroke })
	return c.firstAt(s, xf)
}

// peaks are the highest effort and pressure on the way down to the rod at full. The load is monotone within a cell,
// so that its peak, and that of an effort which goes with it, lies at an end of one.
func (c *Chain) peaks(down *path, full float64, last state) (effort, pressure float64) {
	pedal := &c.System.Pedal
	try := func(rod, load float64) {
		effort = max(effort, down.effort(pedal, rod, load))
		pressure = max(pressure, load*down.pressurePerLoad)
	}
	try(full, last.load)
	if full >= down.contact {
		try(down.contact, down.load(0))
	}
	for _, cell := range down.cells {
		if cell.low > full {
			break
		}
		try(cell.low, down.load(cell.from))
		if cell.high <= full {
			try(cell.high, down.load(cell.to))
		}
		if !pedal.plain() {
			to := cell.to
			if cell.high > full {
				to = down.inside(cell, full)
			}
			effort = max(effort, highest(cell.from, to, func(x float64) float64 {
				load := down.load(x)
				return down.effort(pedal, down.rod.at(x, load), load)
			}))
		}
	}
	if !pedal.plain() { // a spring may make itself felt before the fingers move
		atRest := min(pedal.padTravel(down.contact), pedal.Travel)
		effort = max(effort, highest(0, atRest, func(pad float64) float64 {
			return pedal.effort(pad, down.forcePerLoad*down.atRest(pedal.rodTravel(pad)).load)
		}))
	}
	return effort, pressure
}

// highest is the peak of a smooth function: the best of a row of places, closed in on from both sides.
func highest(from, to float64, of func(float64) float64) float64 {
	const places, golden = 32, 1 / math.Phi
	step := (to - from) / places
	best := from
	for i := range places {
		if x := from + float64(i+1)*step; of(x) > of(best) {
			best = x
		}
	}
	lo, hi := max(best-step, from), min(best+step, to)
	for range 60 {
		a, b := hi-(hi-lo)*golden, lo+(hi-lo)*golden
		if of(a) > of(b) {
			hi = b
		} else {
			lo = a
		}
	}
	return max(of(best), of((lo+hi)/2))
}

// snaps lists the jumps that the fingers make before the pedal is at full travel, and those on the way back.
func (c *Chain) snaps(down *path, full state) []Snap {
	pedal := &c.System.Pedal
	var found []Snap
	stands := 0.0
	for _, cell := range down.cells {
		if cell.from > full.finger {
			break
		}
		if cell.from != stands {
			found = append(found, Snap{Pedal: pedal.padTravel(cell.low), From: stands, To: cell.from})
		}
		stands = cell.to
	}
	if full.beyond && stands != down.bearing.end {
		last := down.contact
		if n := len(down.cells); n > 0 {
			last = down.cells[n-1].high
		}
		found = append(found, Snap{Pedal: pedal.padTravel(last), From: stands, To: math.NaN()})
	}
	if len(found) == 0 {
		return nil
	}
	up := down.lettingUp(full.finger)
	stands = full.finger
	for i := len(up.cells) - 1; i >= 0; i-- {
		cell := up.cells[i]
		if cell.to != stands {
			found = append(found, Snap{Pedal: pedal.padTravel(cell.high), From: stands, To: cell.to, LetUp: true})
		}
		stands = cell.from
	}
	if stands != 0 {
		found = append(found, Snap{Pedal: pedal.padTravel(up.cells[0].low), From: stands, To: 0, LetUp: true})
	}
	return found
}
