package release

import "math"

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
				to = down.inside(&down.rod, cell, full)
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
