package project

import "math/rand/v2"

// The genetic search keeps a population of plans, each as its starts. Children take over, from one parent, the
// stretches of time in which the resources are well used, and the order of the rest from the other (peak crossover:
// Valls, Ballestín, Quintanilla 2008, from memory), or a middle piece of the order (two-point crossover: Hartmann
// 1998, from memory). Every child is justified both ways before it is let in.
const (
	populationSize = 60
	staleLimit     = 2500 // children without a newcomer before the population is made anew
	mutateChance   = 0.04
	worth          = 1 << 20 // makes fitness out of the end and, where ends are equal, out of the mean start
)

type member struct {
	start   []int32
	end     int32
	fitness int64
}

// genetic is one population. It is not for several goroutines at once.
type genetic struct {
	*builder
	rng     *rand.Rand
	members []member
	used    int // members filled
	stale   int
	latest  []int32
	child   member
	mother  []int32
	father  []int32
	taken   []bool
	load    []float64
	peak    []bool
	share   []float64
	best    member
}

func newGenetic(in *instance, seed uint64) *genetic {
	n := in.n
	g := &genetic{
		builder: newBuilder(in), rng: rand.New(rand.NewPCG(seed, 0x9e3779b97f4a7c15)),
		members: make([]member, populationSize), latest: make([]int32, n), child: newMember(n), best: newMember(n),
		mother: make([]int32, n), father: make([]int32, n), taken: make([]bool, n),
		load: make([]float64, in.horizon+1), peak: make([]bool, in.horizon+1), share: make([]float64, n),
	}
	for i := range g.members {
		g.members[i] = newMember(n)
	}
	for i := range n {
		g.latest[i] = -in.tail[i]
		g.share[i] = in.share(i)
	}
	g.best.end, g.best.fitness = in.horizon+1, worth*int64(in.horizon+1)
	return g
}

func newMember(n int) member { return member{start: make([]int32, n)} }

func (m *member) set(o *member) {
	copy(m.start, o.start)
	m.end, m.fitness = o.end, o.fitness
}

// step makes plans until the work is done; one piece of work is one plan built.
func (g *genetic) step(work int64) {
	for until := g.built + work; g.built < until; {
		if g.used < len(g.members) {
			g.newcomer()
			continue
		}
		g.breed()
		if g.stale > staleLimit {
			g.restart()
		}
	}
}

// restart drops all plans; the best is kept apart and let in again half the time.
func (g *genetic) restart() {
	g.used, g.stale = 0, 0
	if g.rng.IntN(2) == 0 {
		g.members[0].set(&g.best)
		g.used = 1
	}
}

// newcomer adds a sampled plan.
func (g *genetic) newcomer() {
	bias := float64(g.rng.IntN(3))
	g.sampleOrder(g.rng, g.latest, bias, g.mother)
	if g.rng.IntN(2) == 0 {
		g.child.end = g.serial(g.mother, &g.before, g.child.start)
	} else {
		g.child.end = g.parallel(g.mother, &g.before, &g.after, g.child.start)
	}
	g.finishChild()
	g.members[g.used].set(&g.child)
	g.used++
}

// adopt lets a plan from elsewhere in, in place of the worst.
func (g *genetic) adopt(start []int32, end int32) {
	copy(g.child.start, start)
	g.child.end = end
	g.finishChild()
	if g.used < len(g.members) {
		g.members[g.used].set(&g.child)
		g.used++
		return
	}
	g.admit(g.worst())
}

func (g *genetic) finishChild() {
	c := &g.child
	c.end = g.improve(c.start, c.end)
	sum := int64(0)
	for _, t := range c.start {
		sum += int64(t)
	}
	c.fitness = int64(c.end)*worth + sum*worth/int64(c.end+1)/int64(g.n+1)
	if c.end < g.best.end {
		g.best.set(c)
	}
}

func (g *genetic) worst() (at int) {
	for i := range g.members {
		if g.members[i].fitness > g.members[at].fitness {
			at = i
		}
	}
	return at
}

func (g *genetic) tournament() int {
	a, b := g.rng.IntN(g.used), g.rng.IntN(g.used)
	if g.members[b].fitness < g.members[a].fitness {
		return b
	}
	return a
}

// breed makes one child, which takes the place of the worse parent if it is no worse and not there already.
func (g *genetic) breed() {
	a, b := g.tournament(), g.tournament()
	for a == b {
		b = g.rng.IntN(g.used)
	}
	switch g.rng.IntN(4) {
	case 0:
		g.sortByStart(g.members[a].start, g.mother)
		g.sortByStart(g.members[b].start, g.father)
		g.middle()
	default:
		g.peaks(&g.members[a], &g.members[b])
	}
	g.mutate(g.list)
	copy(g.mother, g.list)
	g.child.end = g.serial(g.mother, &g.before, g.child.start)
	g.finishChild()
	worse := a
	if g.members[b].fitness > g.members[a].fitness {
		worse = b
	}
	g.admit(worse)
}

func (g *genetic) admit(at int) {
	g.stale++
	if g.child.fitness >= g.members[at].fitness {
		return
	}
	for i := range g.members {
		if g.members[i].fitness == g.child.fitness {
			return
		}
	}
	if g.child.end < g.members[at].end {
		g.stale = 0
	}
	g.members[at].set(&g.child)
}

// middle puts into the list: father's order, mother's, father's.
func (g *genetic) middle() {
	n := g.n
	q1, q2 := g.rng.IntN(n+1), g.rng.IntN(n+1)
	if q1 > q2 {
		q1, q2 = q2, q1
	}
	clear(g.taken)
	k := 0
	put := func(from []int32, until int) {
		for _, i := range from {
			if k >= until {
				return
			}
			if !g.taken[i] {
				g.taken[i] = true
				g.list[k] = i
				k++
			}
		}
	}
	put(g.father, q1)
	put(g.mother, q2)
	put(g.father, n)
}

// peaks puts into the list the order of the father, with what the mother runs in her well-used stretches of time
// moved together: each stretch comes where its first activity would, after all it waits for.
func (g *genetic) peaks(mother, father *member) {
	end := mother.end
	load := g.load[:end]
	clear(load)
	for i, t := range mother.start {
		for u := t; u < t+g.duration[i]; u++ {
			load[u] += g.share[i]
		}
	}
	top := 0.0
	for _, x := range load {
		top = max(top, x)
	}
	limit := top * (0.6 + 0.35*g.rng.Float64())
	g.sortByStart(mother.start, g.mother)
	g.sortByStart(father.start, g.father)
	clear(g.taken)
	k := 0
	var put func(i int32)
	put = func(i int32) {
		if g.taken[i] {
			return
		}
		g.taken[i] = true
		for _, p := range g.before.of(i) {
			put(p)
		}
		g.list[k] = i
		k++
	}
	from := 0 // in the father's order
	at := 0   // in the mother's order
	for t := int32(0); t < end; {
		if load[t] < limit {
			t++
			continue
		}
		until := t
		for until < end && load[until] >= limit {
			until++
		}
		for at < g.n && g.mother[at] >= 0 && mother.start[g.mother[at]]+g.duration[g.mother[at]] <= t {
			at++
		}
		// As many of the father's as the mother has before the stretch.
		for from < g.n && k < at {
			put(g.father[from])
			from++
		}
		for j := 0; j < g.n; j++ {
			i := g.mother[j]
			if mother.start[i] >= until {
				break
			}
			if mother.start[i]+g.duration[i] > t {
				put(i)
			}
		}
		t = until
	}
	for ; from < g.n; from++ {
		put(g.father[from])
	}
}

// mutate swaps neighbours here and there, where neither waits for the other.
func (g *genetic) mutate(list []int32) {
	for k := 1; k < len(list); k++ {
		if g.rng.Float64() < mutateChance && !g.reach[list[k-1]].has(list[k]) {
			list[k-1], list[k] = list[k], list[k-1]
		}
	}
}
