package diary

import (
	"math"
	"math/rand/v2"
	"slices"
)

// node is a task in the planner's numbering: all cars' tasks in one row.
type node struct {
	*Task
	car      int
	block    int
	before   []int
	teams    []team
	tools    []int
	earliest int // the car is there and the parts are
	previous int // its start in the plan before, -1 if none
}

type team struct {
	people []int
	hours  []Span
}

// scheduler places blocks one after the other, in any order that is given, each as early as it can be beside those
// placed before. It works directly on calendars: people's hours differ, and a stripped car holds its ramp through the
// night, so that there is no common working time to compress to.
type scheduler struct {
	shop    *Shop
	cars    []Car
	nodes   []node
	blocks  []block
	members [][]int // nodes of each block, in order
	after   [][]int // blocks that wait for a block
	waits   []int   // how many blocks a block waits for
	first   []int   // blocks that come before all others: work under way, then appointments

	busy   []timeline // by person
	ramps  []timeline
	tools  [][]timeline // by tool, one for each piece
	stays  [][]stay     // by car
	span   []Span
	by     []team
	on     []int // ramp, -1 anywhere
	piece  [][]int
	missed int // appointments not kept
	failed int // blocks for which the days of the diary are too few
	moved  int
}

type stay struct {
	Span
	ramp     int
	stripped bool
}

func newScheduler(shop *Shop, cars []Car) *scheduler {
	s := &scheduler{shop: shop, cars: cars}
	for c := range cars {
		s.addCar(c)
	}
	n := len(s.nodes)
	s.span, s.by, s.on, s.piece = make([]Span, n), make([]team, n), make([]int, n), make([][]int, n)
	s.linkBlocks()
	return s
}

func (s *scheduler) addCar(c int) {
	car := &s.cars[c]
	base, at := len(s.nodes), map[string]int{}
	for i := range car.Tasks {
		at[car.Tasks[i].Name] = base + i
	}
	for i := range car.Tasks {
		t := &car.Tasks[i]
		n := node{Task: t, car: c, earliest: max(0, car.Arrives, t.Parts), previous: -1}
		for _, name := range t.After {
			n.before = append(n.before, at[name])
		}
		for _, people := range s.shop.teams(t) {
			n.teams = append(n.teams, team{people, s.shop.together(people)})
		}
		for _, name := range t.Tools {
			n.tools = append(n.tools, s.shop.tool(name))
		}
		s.nodes = append(s.nodes, n)
	}
	for _, b := range blocksOf(s.shop, car) {
		k := len(s.blocks)
		b.car = c
		var members []int
		parts := 0
		for _, i := range b.tasks {
			members = append(members, base+i)
			s.nodes[base+i].block = k
			parts = max(parts, car.Tasks[i].Parts)
		}
		if b.stripped && !car.StripEarly { // the parts for the stay come first
			for _, m := range members {
				if s.nodes[m].Under == nil {
					s.nodes[m].earliest = max(s.nodes[m].earliest, parts)
				}
			}
		}
		s.blocks, s.members = append(s.blocks, b), append(s.members, members)
	}
}

// linkBlocks finds which block waits for which, and which must be placed before all others.
func (s *scheduler) linkBlocks() {
	n := len(s.blocks)
	s.after, s.waits = make([][]int, n), make([]int, n)
	before := make([][]int, n)
	for _, x := range s.nodes {
		for _, p := range x.before {
			if from, to := s.nodes[p].block, x.block; from != to && !slices.Contains(before[to], from) {
				before[to] = append(before[to], from)
				s.after[from] = append(s.after[from], to)
				s.waits[to]++
			}
		}
	}
	var include func(b int)
	include = func(b int) {
		for _, p := range before[b] {
			include(p)
		}
		if !slices.Contains(s.first, b) {
			s.first = append(s.first, b)
		}
	}
	for b, members := range s.members {
		if slices.ContainsFunc(members, func(m int) bool { return s.nodes[m].Under != nil }) {
			include(b)
		}
	}
	type due struct{ at, block int }
	var dues []due
	for _, x := range s.nodes {
		if x.Appointment != Never {
			dues = append(dues, due{x.Appointment, x.block})
		}
	}
	slices.SortStableFunc(dues, func(a, b due) int { return a.at - b.at })
	for _, d := range dues {
		include(d.block)
	}
}

func (s *scheduler) clear() {
	s.busy = make([]timeline, len(s.shop.People))
	s.ramps = make([]timeline, len(s.shop.Ramps))
	s.stays = make([][]stay, len(s.cars))
	s.tools = make([][]timeline, len(s.shop.Tools))
	for i, t := range s.shop.Tools {
		s.tools[i] = make([]timeline, t.Count)
	}
	s.missed, s.failed, s.moved = 0, 0, 0
	for i := range s.span {
		s.span[i] = Span{-1, -1}
		s.on[i] = -1
	}
}

// place plans all blocks in the order; free says which tasks may start before they did in the plan before.
func (s *scheduler) place(order []int, free []bool) cost {
	s.clear()
	for _, m := range s.underWay() {
		s.settle(m)
	}
	for _, b := range order {
		s.placeBlock(b, free == nil || free[b])
	}
	return s.cost()
}

func (s *scheduler) underWay() (nodes []int) {
	for i := range s.nodes {
		if s.nodes[i].Under != nil {
			nodes = append(nodes, i)
		}
	}
	return nodes
}

// settle puts work under way where it is. It goes on from 0; what it needs is taken whatever else there is.
func (s *scheduler) settle(m int) {
	x := &s.nodes[m]
	var people []int
	for _, name := range x.Under.People {
		people = append(people, s.shop.person(name))
	}
	t := team{people, s.shop.together(people)}
	end, fits := run(t.hours[timeline(t.hours).after(0):], 0, x.Minutes)
	if !fits {
		s.failed++
		end = x.Minutes
	}
	s.span[m], s.by[m] = Span{0, end}, t
	if len(x.Ramps) > 0 {
		s.on[m] = s.shop.ramp(x.Under.Ramp)
	}
	s.occupy(m)
}

// occupy takes the people and tools of a placed task.
func (s *scheduler) occupy(m int) {
	for _, p := range s.by[m].people {
		s.busy[p].take(s.span[m])
	}
	s.piece[m] = s.piece[m][:0]
	for _, tool := range s.nodes[m].tools {
		piece, _ := s.pieceFree(tool, s.span[m])
		s.piece[m] = append(s.piece[m], max(piece, 0))
		s.tools[tool][max(piece, 0)].take(s.span[m])
	}
}

func (s *scheduler) vacate(m int) {
	for _, p := range s.by[m].people {
		s.busy[p].giveBack(s.span[m])
	}
	for k, tool := range s.nodes[m].tools {
		s.tools[tool][s.piece[m][k]].giveBack(s.span[m])
	}
	s.span[m] = Span{-1, -1}
}

// pieceFree finds a piece of the tool that is free, or else when one is next.
func (s *scheduler) pieceFree(tool int, at Span) (piece, until int) {
	until = math.MaxInt
	for k, t := range s.tools[tool] {
		next, ok := t.free(at)
		if ok {
			return k, 0
		}
		until = min(until, next)
	}
	return -1, until
}

// placeBlock places a block: for each ramp that serves, the tasks are tried from ever later beginnings until the ramp
// is free from the first to the last; the ramp on which the block ends first is taken.
func (s *scheduler) placeBlock(b int, free bool) {
	blk := &s.blocks[b]
	ramps := blk.ramps
	if !blk.onRamp {
		ramps = []int{-1}
	} else if r := s.underRamp(b); r >= 0 {
		ramps = []int{r}
	}
	best, found := trial{end: math.MaxInt}, false
	for _, r := range ramps {
		if t, ok := s.try(b, r, free, best.end); ok && t.end < best.end {
			best, found = t, true
		}
	}
	if !found {
		s.failed++
		return
	}
	s.take(b, &best)
}

func (s *scheduler) underRamp(b int) int {
	for _, m := range s.members[b] {
		if s.nodes[m].Under != nil && s.on[m] >= 0 {
			return s.on[m]
		}
	}
	return -1
}

// trial is a way to place a block.
type trial struct {
	ramp, end int
	hold      Span
	spans     []Span
	teams     []team
	missed    int
}

// try places the block's tasks on one ramp and takes them away again. Ways that end after the given time are of no
// use.
func (s *scheduler) try(b, ramp int, free bool, before int) (trial, bool) {
	for from := 0; ; {
		t, ok := s.attempt(b, from, free)
		if ok && ramp >= 0 {
			if until := s.rampClash(b, ramp, t.hold); until >= 0 {
				s.withdraw(b)
				if until >= before {
					return t, false
				}
				from = max(until, from+1)
				continue
			}
		}
		if ok {
			t = s.record(b, ramp, t)
		}
		s.withdraw(b)
		return t, ok
	}
}

// attempt places the block's tasks as early as may be, none before from.
func (s *scheduler) attempt(b, from int, free bool) (t trial, ok bool) {
	t.hold = Span{math.MaxInt, 0}
	for _, m := range s.members[b] {
		x := &s.nodes[m]
		if x.Under == nil {
			earliest := max(from, x.earliest)
			if !free && x.previous >= 0 {
				earliest = max(earliest, x.previous)
			}
			for _, p := range x.before {
				if s.span[p].From < 0 {
					return t, false // what it waits for could not be placed
				}
				earliest = max(earliest, s.span[p].To)
			}
			if x.Appointment != Never && earliest <= x.Appointment {
				earliest = x.Appointment
			}
			if !s.staff(m, earliest) {
				return t, false
			}
			if x.Appointment != Never && s.span[m].From != x.Appointment {
				t.missed++
			}
		}
		t.end = max(t.end, s.span[m].To)
		if len(x.Ramps) > 0 {
			t.hold.From, t.hold.To = min(t.hold.From, s.span[m].From), max(t.hold.To, s.span[m].To)
		}
	}
	return t, true
}

// staff gives the task to the team that has it done first.
func (s *scheduler) staff(m, earliest int) bool {
	x := &s.nodes[m]
	best, found := Span{0, math.MaxInt}, false
	for _, t := range x.teams {
		at, ok := s.teamSpan(x, t, earliest, best.To)
		if ok && at.To < best.To {
			best, found = at, true
			s.by[m] = t
		}
	}
	if !found {
		return false
	}
	s.span[m] = best
	s.occupy(m)
	return true
}

// teamSpan is when the team can do the task, with all tools; not later than it would be of use.
func (s *scheduler) teamSpan(x *node, t team, from, useful int) (Span, bool) {
	var both [2]timeline
	busy := both[:0]
	for _, p := range t.people {
		busy = append(busy, s.busy[p])
	}
	for {
		at, ok := work(t.hours, busy, from, x.Minutes, x.Pauses)
		if !ok || at.To >= useful {
			return at, false
		}
		from = -1
		for _, tool := range x.tools {
			if piece, until := s.pieceFree(tool, at); piece < 0 {
				from = max(from, until)
			}
		}
		if from < 0 {
			return at, true
		}
	}
}

// rampClash is when the ramp, or the car, is next free; -1 if both are for the whole stay. A car may be worked at
// twice at once, but in one place.
func (s *scheduler) rampClash(b, ramp int, hold Span) int {
	until := -1
	car := s.blocks[b].car
	for k := s.ramps[ramp].after(hold.From); k < len(s.ramps[ramp]) && s.ramps[ramp][k].From < hold.To; k++ {
		if at := s.ramps[ramp][k]; !s.ownStay(car, ramp, at) {
			until = max(until, at.To)
		}
	}
	for _, o := range s.stays[car] {
		if o.overlaps(hold) && o.ramp != ramp {
			until = max(until, o.To)
		}
	}
	return until
}

func (s *scheduler) ownStay(car, ramp int, at Span) bool {
	for _, o := range s.stays[car] {
		if o.ramp == ramp && o.From <= at.From && at.To <= o.To {
			return true
		}
	}
	return false
}

func (s *scheduler) record(b, ramp int, t trial) trial {
	t.ramp = ramp
	for _, m := range s.members[b] {
		t.spans = append(t.spans, s.span[m])
		t.teams = append(t.teams, s.by[m])
	}
	return t
}

// withdraw takes the block's tasks away again, but for work under way.
func (s *scheduler) withdraw(b int) {
	for _, m := range s.members[b] {
		if s.nodes[m].Under == nil && s.span[m].From >= 0 {
			s.vacate(m)
		}
	}
}

// take places a block as tried.
func (s *scheduler) take(b int, t *trial) {
	for k, m := range s.members[b] {
		x := &s.nodes[m]
		if x.Under == nil {
			s.span[m], s.by[m] = t.spans[k], t.teams[k]
			s.occupy(m)
		}
		if len(x.Ramps) > 0 {
			s.on[m] = t.ramp
		}
		if x.previous >= 0 {
			s.moved += abs(s.span[m].From - x.previous)
		}
	}
	s.missed += t.missed
	if t.ramp >= 0 {
		s.hold(s.blocks[b].car, stay{t.hold, t.ramp, s.blocks[b].stripped})
	}
}

// hold notes a stay; the ramp's timeline takes the parts of it that the car's own stays do not take already.
func (s *scheduler) hold(car int, st stay) {
	rest := []Span{st.Span}
	for _, o := range s.stays[car] {
		if o.ramp != st.ramp {
			continue
		}
		var left []Span
		for _, r := range rest {
			if !r.overlaps(o.Span) {
				left = append(left, r)
				continue
			}
			if r.From < o.From {
				left = append(left, Span{r.From, o.From})
			}
			if o.To < r.To {
				left = append(left, Span{o.To, r.To})
			}
		}
		rest = left
	}
	for _, r := range rest {
		s.ramps[st.ramp].take(r)
	}
	s.stays[car] = append(s.stays[car], st)
}

func abs(x int) int {
	if x < 0 {
		return -x
	}
	return x
}

// cost orders plans: what must be, then weighted lateness, then, planning anew, how little moves, then the end, then
// how soon all is ready.
type cost struct {
	broken int
	late   float64
	moved  int
	end    int
	sum    float64
}

func (c cost) less(o cost) bool {
	switch {
	case c.broken != o.broken:
		return c.broken < o.broken
	case math.Abs(c.late-o.late) > 1e-6:
		return c.late < o.late
	case c.moved != o.moved:
		return c.moved < o.moved
	case c.end != o.end:
		return c.end < o.end
	}
	return c.sum < o.sum
}

func (s *scheduler) cost() cost {
	c := cost{broken: s.missed + 1000*s.failed, moved: s.moved}
	for i := range s.cars {
		end := s.carSpan(i).To
		c.end = max(c.end, end)
		c.sum += (s.cars[i].Weight + 0.01) * float64(end)
		if s.cars[i].Promise < end {
			c.late += s.cars[i].Weight * float64(end-s.cars[i].Promise)
		}
	}
	return c
}

func (s *scheduler) carSpan(c int) Span {
	whole := Span{math.MaxInt, 0}
	for i := range s.nodes {
		if s.nodes[i].car == c && s.span[i].From >= 0 {
			whole.From, whole.To = min(whole.From, s.span[i].From), max(whole.To, s.span[i].To)
		}
	}
	return whole
}

// orderBy lists the blocks: first those that must be, then by rank, each after those it waits for.
func (s *scheduler) orderBy(rank []float64, order []int) []int {
	order = append(order[:0], s.first...)
	waits := slices.Clone(s.waits)
	placed := make([]bool, len(s.blocks))
	var ready []int
	for _, b := range s.first {
		placed[b] = true
		for _, a := range s.after[b] {
			waits[a]--
		}
	}
	for b := range s.blocks {
		if !placed[b] && waits[b] == 0 {
			ready = append(ready, b)
		}
	}
	for len(ready) > 0 {
		at := 0
		for k, b := range ready {
			if rank[b] < rank[ready[at]] {
				at = k
			}
		}
		b := ready[at]
		ready[at] = ready[len(ready)-1]
		ready = ready[:len(ready)-1]
		order = append(order, b)
		for _, a := range s.after[b] {
			if waits[a]--; waits[a] == 0 && !placed[a] {
				ready = append(ready, a)
			}
		}
	}
	return order
}

// ranks are first ideas for the order: by the slack to the promise, with the weight, and with some chance.
func (s *scheduler) ranks(rng *rand.Rand, idea int) []float64 {
	rank := make([]float64, len(s.blocks))
	rest := s.minutesBehind()
	for b := range rank {
		car := &s.cars[s.blocks[b].car]
		due := float64(min(car.Promise, 1<<22))
		switch idea % 4 {
		case 0:
			rank[b] = due - 3*float64(rest[b])
		case 1:
			rank[b] = due / (0.1 + car.Weight)
		case 2:
			rank[b] = -car.Weight*1e7 + due - 3*float64(rest[b])
		case 3:
			rank[b] = -float64(rest[b])
		}
		if idea >= 4 {
			rank[b] += rng.NormFloat64() * 2000
		}
	}
	return rank
}

// minutesBehind is the work on the longest way from each block to the car's end.
func (s *scheduler) minutesBehind() []int {
	rest := make([]int, len(s.blocks))
	order := s.orderBy(make([]float64, len(s.blocks)), nil)
	for k := len(order) - 1; k >= 0; k-- {
		b := order[k]
		longest := 0
		for _, a := range s.after[b] {
			longest = max(longest, rest[a])
		}
		rest[b] = longest
		for _, m := range s.members[b] {
			rest[b] += s.nodes[m].Minutes
		}
	}
	return rest
}
