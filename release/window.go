package release

import (
	"math"
	"slices"
	"sort"
)

// window is what one chain asks of the pedal, as travels at the pad.
type window struct {
	free    float64 // the discs are free
	limit   float64 // the fingers are at the maker's limit, or at the last load point where that comes first
	judged  bool    // limit is the maker's: past it the fingers over-travel
	bottoms bool    // the master's piston comes to its end before the discs are free
}

func (c *Chain) window(s *statics) window {
	needed := c.Clutch.FingerTravelNeeded()
	w := window{judged: c.Clutch.FingerTravelMax <= s.bearing.end}
	if !(needed <= s.bearing.end) {
		w.free = math.Inf(1)
	} else {
		w.free = c.firstAt(s, needed)
		w.bottoms = s.farthest(&s.stroke, needed) > c.System.Master.Stroke
	}
	w.limit = c.firstAt(s, min(c.Clutch.FingerTravelMax, s.bearing.end))
	return w
}

func (w *window) frees(travel float64) bool       { return w.free <= travel && !w.bottoms }
func (w *window) overTravels(travel float64) bool { return w.judged && w.limit < travel }

// stretch is where a stop may stand.
type stretch struct{ from, to float64 }

var nowhere = stretch{math.Inf(1), math.Inf(-1)}

// stops is the stretch of stops that are good for one chain: those that free the discs, do not over-travel, and do
// the stopping rather than the floor (which only matters when the floor itself is too far) or the master.
func (c *Chain) stops(s *statics, w *window) stretch {
	travel := c.System.Pedal.Travel
	if !w.frees(travel) {
		return nowhere
	}
	end := w.limit
	if end >= travel {
		end = math.Inf(1)
	}
	if bottom := c.bottomsAt(s); end > bottom {
		end = bottom
	}
	return stretch{w.free, end}
}

// alike is how much less likely a place may be to count as just as good as the best: about what the sampling can
// tell apart. Without it a broad top would be decided by the luck of the draw.
const alike = 0.001

// bestStop returns the middle of the places up to travel that lie in most of the stretches, and the share of the
// stretches that hold it. NaN where no stretch reaches below travel.
func bestStop(good []stretch, travel float64) (stop, share float64) {
	opens, closes := make([]float64, 0, len(good)), make([]float64, 0, len(good))
	for _, g := range good {
		if g.from <= min(g.to, travel) {
			opens, closes = append(opens, g.from), append(closes, min(g.to, travel))
		}
	}
	if len(opens) == 0 {
		return math.NaN(), 0
	}
	slices.Sort(opens)
	slices.Sort(closes)

	best, around := 0, 0.0
	sweep(opens, closes, func(from, to float64, open int) {
		if open > best {
			best, around = open, from
		}
	})
	enough := best - int(alike*float64(len(good)))
	top := stretch{around, around}
	begun := math.NaN()
	sweep(opens, closes, func(from, to float64, open int) {
		switch {
		case open < enough:
			begun = math.NaN()
			return
		case math.IsNaN(begun):
			begun = from
		}
		if begun <= around && from >= around && from <= top.to {
			top = stretch{begun, to}
		}
	})
	stop = (top.from + top.to) / 2
	return stop, float64(holding(opens, closes, stop)) / float64(len(good))
}

// sweep hands over, from left to right, each run of places with the number of stretches that hold it.
func sweep(opens, closes []float64, yield func(from, to float64, open int)) {
	for i, j := 0, 0; j < len(closes); {
		var from float64
		if i < len(opens) && opens[i] <= closes[j] {
			from = opens[i]
			i++
		} else {
			from = closes[j]
			j++
		}
		if j == len(closes) {
			return
		}
		to := closes[j]
		if i < len(opens) {
			to = min(to, opens[i])
		}
		yield(from, to, i-j)
	}
}

// holding counts the stretches that hold x.
func holding(opens, closes []float64, x float64) int {
	opened := sort.Search(len(opens), func(i int) bool { return opens[i] > x })
	closed := sort.SearchFloat64s(closes, x)
	return opened - closed
}
