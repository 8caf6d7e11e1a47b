package project

// lanes pack the amounts of four resources into one word, 16 bits each, so that one subtraction compares them all:
// with the top bit of each lane set beforehand, a lane that goes below zero loses its top bit.
type lanes struct {
	words int
	full  []uint64 // the capacities
}

const (
	laneBits = 16
	tops     = 0x8000_8000_8000_8000
)

func newLanes(capacities []int) lanes {
	l := lanes{words: max(1, (len(capacities)+3)/4)}
	l.full = l.pack(nil, capacities)
	return l
}

// pack appends the amounts, packed.
func (l lanes) pack(to []uint64, amounts []int) []uint64 {
	at := len(to)
	to = append(to, make([]uint64, l.words)...)
	for r, a := range amounts {
		to[at+r/4] |= uint64(a) << (laneBits * (r % 4))
	}
	return to
}

// amount is the packed amount of one resource.
func amount(words []uint64, resource int) int32 {
	return int32(words[resource/4] >> (laneBits * (resource % 4)) & 0xffff)
}

// grid holds what is still free at each time, each word with its tops set.
type grid struct {
	lanes
	free   []uint64
	latest int32 // nothing is taken from here on
}

func (l lanes) grid(horizon int32) *grid {
	g := &grid{lanes: l, free: make([]uint64, int(horizon+1)*l.words), latest: horizon + 1}
	g.clear()
	return g
}

// clear frees everything again.
func (g *grid) clear() {
	used := g.free[:int(g.latest)*g.words]
	for w, full := range g.full {
		for at := w; at < len(used); at += g.words {
			used[at] = full | tops
		}
	}
	g.latest = 0
}

// earliest is the first time, not before from, at which the demand fits for the whole duration.
func (g *grid) earliest(from, duration int32, need []uint64) int32 {
	if g.words == 1 {
		return g.earliestOne(from, duration, need[0])
	}
	run := int32(0)
	for t := from; run < duration && t < g.latest; t++ {
		if g.fits(t, need) {
			run++
		} else {
			run, from = 0, t+1
		}
	}
	return from
}

func (g *grid) earliestOne(from, duration int32, need uint64) int32 {
	end := min(from+duration, g.latest)
	for t := from; t < end; t++ {
		if (g.free[t]-need)&tops != tops {
			from = t + 1
			end = min(from+duration, g.latest)
		}
	}
	return from
}

func (g *grid) fits(t int32, need []uint64) bool {
	row := g.free[int(t)*g.words:]
	for w, x := range need {
		if (row[w]-x)&tops != tops {
			return false
		}
	}
	return true
}

func (g *grid) take(from, duration int32, need []uint64) {
	end := from + duration
	g.latest = max(g.latest, end)
	if g.words == 1 {
		x, cells := need[0], g.free[from:end]
		for t := range cells {
			cells[t] -= x
		}
		return
	}
	for t := from; t < end; t++ {
		row := g.free[int(t)*g.words:]
		for w, x := range need {
			row[w] -= x
		}
	}
}
