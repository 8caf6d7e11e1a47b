package release

import (
	"math"

	"layshaft/uncertain"
)

// with is the draw's chain with the rod made longer.
func (d *settingDraw) with(rod float64) Chain {
	c := d.chain
	c.System.Pedal.FreePlay = d.chain.System.Pedal.FreePlayAfter(rod)
	return c
}

// bestStop is the stop that is good in most draws once the rod is longer by rod, and the share in which it and the free
// play are. A draw whose free play is not as wanted counts as not good.
func (l *learnt) bestStop(rod float64, wanted Wanted) (stop, share float64) {
	travel := 0.0
	for i := range l.draws {
		travel = max(travel, l.draws[i].chain.System.Pedal.Travel)
	}
	return bestStop(l.stretches(rod, wanted), travel)
}

// stretches are the stops that are good in each draw once the rod is longer by rod.
func (l *learnt) stretches(rod float64, wanted Wanted) []stretch {
	good := make([]stretch, len(l.draws))
	l.each(rod, func(i int, c *Chain, s *statics) {
		good[i] = nowhere
		if free := c.System.Pedal.FreePlay; free >= wanted.FreePlayMin && free <= wanted.FreePlayMax {
			w := c.window(s)
			good[i] = c.stops(s, &w)
		}
	})
	return good
}

// ChanceAt is the chance that the car as learned frees, does not over-travel and keeps the free play wanted with the
// rod made longer by rod and the stop at a pedal travel, whoever chose them.
func (s *Setup) ChanceAt(rod, stop float64, wanted Wanted) float64 {
	good := 0
	for _, place := range s.state.stretches(rod, wanted) {
		good += count(place.from <= stop && stop <= place.to)
	}
	return float64(good) / float64(len(s.state.draws))
}

// stopSpan is where the stop may stand without failing more than one draw in twenty on either side.
func (l *learnt) stopSpan(rod float64) (from, to float64) {
	opens, closes := make([]float64, len(l.draws)), make([]float64, len(l.draws))
	l.each(rod, func(i int, c *Chain, s *statics) {
		w := c.window(s)
		opens[i], closes[i] = w.free, min(w.limit, c.System.Pedal.Travel)
		if bottom := c.bottomsAt(s); closes[i] > bottom {
			closes[i] = bottom
		}
	})
	return uncertain.Percentiles(opens, 95)[0], uncertain.Percentiles(closes, 5)[0]
}

// predicted is what would be read in each draw, the held readings with the pedal at a place.
func (l *learnt) predicted(rod, at float64) [settingKinds][]float64 {
	var columns [settingKinds][]float64
	for k := range columns {
		columns[k] = make([]float64, len(l.draws))
	}
	l.each(rod, func(i int, c *Chain, s *statics) {
		for k, v := range c.predict(s.bearing, at) {
			columns[k][i] = v
		}
	})
	return columns
}

// each hands over every draw with the rod made longer, from several goroutines at once.
func (l *learnt) each(rod float64, take func(i int, c *Chain, s *statics)) {
	inChunks(len(l.draws), 256, func(from, to int) {
		for i := from; i < to; i++ {
			c := l.draws[i].with(rod)
			s := c.staticsOn(l.draws[i].load)
			take(i, &c, &s)
		}
	})
}

// freePlay is the 5, 50 and 95 % figure with the rod longer by rod.
func (l *learnt) freePlay(rod float64) []float64 {
	plays := make([]float64, len(l.draws))
	for i := range l.draws {
		plays[i] = l.draws[i].chain.System.Pedal.FreePlayAfter(rod)
	}
	return uncertain.Percentiles(plays, 5, 50, 95)
}

// rodFor is how much longer the rod has to be for the middle of the free play to become freePlay.
func (l *learnt) rodFor(freePlay float64) float64 {
	rods := make([]float64, len(l.draws))
	for i := range l.draws {
		rods[i] = l.draws[i].chain.System.Pedal.RodChange(freePlay)
	}
	return uncertain.Percentiles(rods, 50)[0]
}

// portOpen is the share of draws in which the rod leaves the port open.
func (l *learnt) portOpen(rod float64) float64 {
	open := 0
	for i := range l.draws {
		open += count(l.draws[i].chain.System.Pedal.FreePlayAfter(rod) > 0)
	}
	return float64(open) / float64(len(l.draws))
}

// Checked is one reading taken after the setting was changed, held against what should be read.
type Checked struct {
	Kind          SettingKind
	Read, SD      float64
	P05, P50, P95 float64 // of what should be read, the reading's own error included
	Tail          float64 // chance of a reading at least as far out on either side
	Word          string
}

// How a reading comes out against what was expected of it.
const (
	AsExpected  = "as expected"  // within 5 to 95 %
	AtTheEdge   = "at the edge"  // outside, as one in ten is by chance
	NotExpected = "not expected" // as fewer than one in a hundred is
)

// CheckAfter holds readings taken after the rod was made longer by rod against what the car as learned should show. It
// takes what was really done, which need not be what was advised.
func (s *Setup) CheckAfter(after SettingReadings, rod float64) ([]Checked, error) {
	if err := after.Check(); err != nil {
		return nil, err
	}
	columns := s.state.predicted(rod, after.at().Mid())
	higher := s.state.predicted(rod, after.at().Mid()+after.at().SD())
	var all []Checked
	for _, read := range after.list() {
		column := columns[read.kind]
		spread := read.spread
		if read.kind.HeldAt() { // where the pedal was held is itself only so sure
			spread = math.Hypot(spread, uncertain.Mean(higher[read.kind])-uncertain.Mean(column))
		}
		all = append(all, held(read, column, spread))
	}
	return all, nil
}

// held holds a reading against the draws, each smeared out by the reading's own error.
func held(read reading, column []float64, spread float64) Checked {
	p := chanceBelow(column, spread, read.value)
	ends := smeared(column, spread, 0.05, 0.5, 0.95)
	c := Checked{Kind: read.kind, Read: read.value, SD: read.u, P05: ends[0], P50: ends[1], P95: ends[2], Tail: 2 * min(p, 1-p)}
	switch {
	case c.Tail >= 0.1:
		c.Word = AsExpected
	case c.Tail >= 0.01:
		c.Word = AtTheEdge
	default:
		c.Word = NotExpected
	}
	return c
}

// chanceBelow is the chance that a reading of the draws, with an error of its own, comes out below x.
func chanceBelow(column []float64, spread, x float64) float64 {
	sum := 0.0
	for _, v := range column {
		sum += uncertain.Normal(v, spread).CDF(x)
	}
	return sum / float64(len(column))
}

// smeared are the figures below which such a reading comes out with the chances given.
func smeared(column []float64, spread float64, shares ...float64) []float64 {
	const fineness = 1e-4 // of the whole width
	ends := uncertain.Percentiles(column, 0, 100)
	from, to := ends[0]-5*spread, ends[1]+5*spread
	out := make([]float64, len(shares))
	for i, share := range shares {
		lo, hi := from, to
		for hi-lo > fineness*(to-from) {
			if mid := (lo + hi) / 2; chanceBelow(column, spread, mid) < share {
				lo = mid
			} else {
				hi = mid
			}
		}
		out[i] = (lo + hi) / 2
	}
	return out
}
