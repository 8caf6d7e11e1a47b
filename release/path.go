package release

import (
	"iter"
	"math"
	"slices"
)

// state is where the chain stands.
type state struct {
	finger, load float64
	beyond       bool // the fingers were pushed past the last load point
}

// cell is a stretch of finger travel over which a length, such as the rod's travel, rises without a turn.
type cell struct{ from, to, low, high float64 } // finger travel, and the length at each end

// path is the way that the fingers take while the pedal moves one way. Where the load falls faster than the chain's
// give can follow, rod travel turns back and the fingers jump; the stretch in between is no part of the path.
type path struct {
	statics
	contact float64 // rod travel at which the fingers start to move
	cells   []cell  // rising; where the fingers jump, one cell ends short of the next one's beginning
}

// stretches cuts the load curve at its points and wherever rod travel turns, and hands over each piece in order.
func (s *statics) stretches(r *rise, yield func(cell)) {
	xs, loads := s.bearing.travels, s.bearing.loads
	start := 0.0
	low := s.along(r, start)
	emit := func(to float64) {
		high := s.along(r, to)
		yield(cell{start, to, low, high})
		start, low = to, high
	}
	for i := 1; i < len(xs); i++ {
		if xs[i] <= 0 {
			continue
		}
		if loads[i] < loads[i-1] {
			for x := range s.turns(r, start, xs[i]) {
				emit(x)
			}
		}
		emit(xs[i])
	}
}

// turns finds the finger travels between a and b at which r turns.
func (s *statics) turns(r *rise, a, b float64) iter.Seq[float64] {
	const steps = 24 // a cubic with its air has two turns at most in practice, well apart
	return func(yield func(float64) bool) {
		step := (b - a) / steps
		rising := s.slope(r, a) > 0
		for i := 1; i <= steps; i++ {
			x := min(a+float64(i)*step, b)
			if now := s.slope(r, x) > 0; now != rising {
				if !yield(bisect(a+float64(i-1)*step, x, func(x float64) bool { return s.slope(r, x) > 0 == rising })) {
					return
				}
				rising = now
			}
		}
	}
}

// bisect closes in on where before(x) stops being true.
func bisect(lo, hi float64, before func(float64) bool) float64 {
	for {
		mid := (lo + hi) / 2
		if mid <= lo || mid >= hi {
			return lo
		}
		if before(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
}

// pressing is the path while the pedal goes down: the fingers come by each rod travel at the least finger travel
// that needs it.
func (s *statics) pressing() *path {
	p := &path{statics: *s, contact: s.along(&s.rod, 0), cells: make([]cell, 0, 16)}
	reached := p.contact
	s.stretches(&s.rod, func(c cell) {
		if c.high <= reached || c.high <= c.low {
			return
		}
		if c.low < reached {
			c = cell{s.inside(&s.rod, c, reached), c.to, reached, c.high}
		}
		p.cells = append(p.cells, c)
		reached = c.high
	})
	return p
}

// lettingUp is the path while the pedal comes back up from where it holds the fingers at travel from.
func (s *statics) lettingUp(from float64) *path {
	p := &path{statics: *s, contact: s.along(&s.rod, 0)}
	var all []cell
	s.stretches(&s.rod, func(c cell) { all = append(all, c) })
	reached := s.along(&s.rod, from)
	for i := len(all) - 1; i >= 0; i-- {
		c := all[i]
		if c.from >= from {
			continue
		}
		if c.to > from {
			c.to, c.high = from, reached
		}
		if c.low >= reached || c.high <= c.low {
			continue
		}
		if c.high > reached {
			c = cell{c.from, s.inside(&s.rod, c, reached), c.low, reached}
		}
		p.cells = append(p.cells, c)
		reached = c.low
	}
	slices.Reverse(p.cells)
	return p
}

// inside is the finger travel within a cell of r at which it comes to length: Newton's step, held inside by bisection.
func (s *statics) inside(r *rise, c cell, length float64) float64 {
	if length <= c.low {
		return c.from
	}
	if length >= c.high {
		return c.to
	}
	lo, hi := c.from, c.to
	x := lo + (hi-lo)*(length-c.low)/(c.high-c.low)
	close := 1e-8 * (hi - lo) // Newton's next error is about the square of this part of the cell
	for range 100 {
		load := s.load(x)
		short := length - r.at(x, load)
		if short > 0 {
			lo = x
		} else {
			hi = x
		}
		step := short / (r.perTravel + s.scale*s.bearing.Slope(x)*r.give(load))
		next := x + step
		if next > lo && next < hi || short == 0 {
			if math.Abs(step) <= close {
				return next
			}
		} else {
			next = (lo + hi) / 2
		}
		x = next
	}
	return x
}

// at is where the chain stands with the rod at r.
func (p *path) at(r float64) state {
	if len(p.cells) == 0 || r < p.cells[0].low {
		return p.atRest(r)
	}
	for _, c := range p.cells {
		if r <= c.high {
			x := p.inside(&p.rod, c, r)
			return state{finger: x, load: p.load(x)}
		}
	}
	return state{p.bearing.end, p.load(p.bearing.end), true}
}

// atRest is the state while the fingers have not moved yet: the gap closes, then the load builds up that moves them.
func (s *statics) atRest(r float64) state {
	switch {
	case r <= s.rod.rest:
		return state{}
	case r < s.along(&s.rod, 0):
		return state{load: s.rod.preload(r)}
	}
	return state{load: s.load(0)}
}

// farthest is the greatest length that r takes while the fingers move from rest to travel x. On the way down the
// pedal has to come by it, even where it turns back later.
func (s *statics) farthest(r *rise, x float64) float64 {
	if s.alwaysRises(r) {
		return s.along(r, x)
	}
	most := math.Inf(-1)
	s.stretches(r, func(c cell) {
		switch {
		case c.to <= x:
			most = max(most, c.low, c.high)
		case c.from <= x:
			most = max(most, c.low, s.along(r, x))
		}
	})
	return most
}

// alwaysRises is a quick proof that r has no turn: the steepest fall of the load against the most give that the
// chain has anywhere on a falling stretch.
func (s *statics) alwaysRises(r *rise) bool {
	return r.perTravel+s.scale*s.bearing.steepestFall*r.give(s.scale*s.bearing.leastFalling) > 0
}
