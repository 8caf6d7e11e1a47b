package diary

import (
	"context"
	"math"
	"math/rand/v2"
	"runtime"
	"slices"
	"sync"
)

// Effort says how hard to look for a better plan.
type Effort struct {
	Seed    uint64
	Workers int   // goroutines; 0 takes all the processors
	Work    int   // orders that each worker tries; 0 tries until the context ends
	Before  *Plan // when planning anew: the plan to stay near
}

// Make plans the cars. What cannot be planned is told in the plan's faults, and the rest is planned all the same. It
// looks until the plan is proven best, the work is done or the context ends. With the same Work, Workers and Seed the
// plan is the same on any machine.
func Make(ctx context.Context, shop *Shop, cars []Car, effort Effort) *Plan {
	fit, faults := sift(shop, cars)
	plan := &Plan{Faults: faults}
	if len(fit) == 0 {
		return plan
	}
	if effort.Workers <= 0 {
		effort.Workers = runtime.GOMAXPROCS(0)
	}
	searchers := make([]*searcher, effort.Workers)
	var all sync.WaitGroup
	for k := range searchers {
		searchers[k] = newSearcher(shop, fit, effort, k)
	}
	low := searchers[0].bounds()
	for _, s := range searchers {
		all.Go(func() { s.look(ctx, effort.Work, low) })
	}
	all.Wait()
	best := searchers[0]
	for _, s := range searchers[1:] {
		if s.best.less(best.best) {
			best = s
		}
	}
	for _, s := range searchers {
		plan.Rounds += s.rounds
	}
	best.fill(plan, low)
	return plan
}

// searcher tries orders: first some by rule, then changes of the best one, of which a slightly worse one is taken
// now and then (late acceptance: Burke, Bykov 2017, from memory).
type searcher struct {
	*scheduler
	rng    *rand.Rand
	order  []int
	rank   []float64
	free   []bool // by block: may start before it did in the plan before
	best   cost
	bestBy struct {
		order []int
		free  []bool
	}
	rounds int
	again  bool // planning anew
}

const (
	firstIdeas = 16
	memory     = 30
)

func newSearcher(shop *Shop, cars []Car, effort Effort, number int) *searcher {
	s := &searcher{scheduler: newScheduler(shop, cars), rng: rand.New(rand.NewPCG(effort.Seed, uint64(number)))}
	s.free = make([]bool, len(s.blocks))
	s.best = cost{broken: math.MaxInt}
	if effort.Before != nil {
		s.again = true
		s.remember(effort.Before)
	}
	for b := range s.free {
		s.free[b] = !s.again
	}
	return s
}

// remember notes where tasks were in the plan before.
func (s *scheduler) remember(before *Plan) {
	type key struct{ car, task string }
	was := map[key]int{}
	for _, t := range before.Tasks {
		was[key{t.Car, t.Task}] = t.From
	}
	for i := range s.nodes {
		x := &s.nodes[i]
		if at, ok := was[key{s.cars[x.car].Name, x.Name}]; ok {
			x.previous = at
		}
	}
}

func (s *searcher) look(ctx context.Context, work int, low bounds) {
	done := func() bool {
		proven := s.best.broken == 0 && !s.again && s.best.late <= low.late+1e-6 && s.best.end <= low.end
		return proven || (work > 0 && s.rounds >= work) || (s.rounds > 0 && ctx.Err() != nil)
	}
	if s.again {
		s.rank = s.previousRanks()
		s.order = s.orderBy(s.rank, nil)
		s.weigh()
	}
	for idea := 0; idea < firstIdeas && !done(); idea++ {
		s.rank = s.ranks(s.rng, idea)
		s.order = s.orderBy(s.rank, s.order)
		s.weigh()
	}
	s.improve(done)
}

func (s *searcher) previousRanks() []float64 {
	rank := make([]float64, len(s.blocks))
	for b, members := range s.members {
		for _, m := range members {
			rank[b] = max(rank[b], float64(s.nodes[m].previous))
		}
		if rank[b] < 0 {
			rank[b] = 1 << 30
		}
	}
	return rank
}

// weigh tries the order and keeps it if it is the best so far.
func (s *searcher) weigh() cost {
	s.rounds++
	c := s.place(s.order, s.free)
	if c.less(s.best) {
		s.best = c
		s.bestBy.order = append(s.bestBy.order[:0], s.order...)
		s.bestBy.free = append(s.bestBy.free[:0], s.free...)
	}
	return c
}

func (s *searcher) improve(done func() bool) {
	at := slices.Clone(s.bestBy.order)
	free := slices.Clone(s.bestBy.free)
	now := s.best
	late := make([]cost, memory)
	for k := range late {
		late[k] = now
	}
	for k := 0; !done(); k++ {
		s.order = append(s.order[:0], at...)
		copy(s.free, free)
		s.change()
		c := s.weigh()
		if !now.less(c) || !late[k%memory].less(c) {
			at, s.order = s.order, at
			copy(free, s.free)
			now = c
		}
		late[k%memory] = now
	}
}

// change moves a block, or all blocks of a car, to another place in the order, and, planning anew, lets a block start
// before it did, or not.
func (s *searcher) change() {
	n := len(s.order)
	if s.again && s.rng.IntN(2) == 0 {
		b := s.rng.IntN(n)
		s.free[b] = !s.free[b]
		return
	}
	for i, b := range s.order {
		s.rank[b] = float64(i)
	}
	b := s.order[s.rng.IntN(n)]
	to := float64(s.rng.IntN(n)) - 0.5
	if s.rng.IntN(3) > 0 {
		to = s.rank[b] + s.rng.NormFloat64()*float64(3+n/20)
	}
	if s.rng.IntN(4) > 0 {
		s.rank[b] = to
	} else {
		by := to - s.rank[b]
		for o := range s.blocks {
			if s.blocks[o].car == s.blocks[b].car {
				s.rank[o] += by
			}
		}
	}
	s.order = s.orderBy(s.rank, s.order)
}

// fill writes the best plan down.
func (s *searcher) fill(plan *Plan, low bounds) {
	s.place(s.bestBy.order, s.bestBy.free)
	plan.End, plan.Late, plan.Moved = s.best.end, s.best.late, s.best.moved
	plan.Bound, plan.LateBound = min(low.end, plan.End), low.late
	for i := range s.nodes {
		if s.span[i].From >= 0 {
			plan.Tasks = append(plan.Tasks, s.placed(i))
		}
	}
	slices.SortStableFunc(plan.Tasks, func(a, b Placed) int { return a.From - b.From })
	for c := range s.cars {
		s.outcome(c, plan, low)
	}
	slices.SortStableFunc(plan.Stays, func(a, b Stay) int { return a.From - b.From })
}

func (s *scheduler) placed(i int) Placed {
	p := Placed{Car: s.cars[s.nodes[i].car].Name, Task: s.nodes[i].Name, Span: s.span[i]}
	for _, q := range s.by[i].people {
		p.People = append(p.People, s.shop.People[q].Name)
	}
	if s.on[i] >= 0 {
		p.Ramp = s.shop.Ramps[s.on[i]].Name
	}
	return p
}

func (s *scheduler) outcome(c int, plan *Plan, low bounds) {
	car := &s.cars[c]
	unplaced := ""
	for i := range s.nodes {
		x := &s.nodes[i]
		if x.car != c {
			continue
		}
		if s.span[i].From < 0 {
			unplaced = x.Name
		} else if x.Under == nil && x.Appointment != Never && s.span[i].From != x.Appointment {
			plan.Faults = append(plan.Faults, Fault{car.Name, x.Name, "cannot keep its appointment: people, ramp or the work before it are not free then", true})
		}
	}
	for _, st := range s.stays[c] {
		plan.Stays = append(plan.Stays, Stay{car.Name, s.shop.Ramps[st.ramp].Name, st.Span, st.stripped})
	}
	if unplaced != "" {
		plan.Faults = append(plan.Faults, Fault{car.Name, unplaced, "does not fit into the days of this diary; make the diary longer", false})
		return
	}
	span := s.carSpan(c)
	plan.Cars = append(plan.Cars, Outcome{car.Name, span, max(0, span.To-car.Promise), min(low.ready[c], span.To), s.chain(c)})
}
