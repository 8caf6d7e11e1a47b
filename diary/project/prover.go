package project

import "math"

// prover searches exhaustively and learns from each dead end (conflict-driven clause learning on bounds: Ohrimenko,
// Stuckey, Codish 2009; Schutt, Feydy, Stuckey, Wallace 2011, from memory). It proves that no plan ends by a given
// time, or finds one.
//
// Every activity, and the end of the project as one more of length 0, has two halves: half 2i is its earliest start,
// half 2i+1 its latest start with the sign turned. Halves only rise on the way down the search. A literal says that a
// half is at least so much; its denial is again a literal, of the other half.
type prover struct {
	*instance
	end      int32   // the activity that is the project's end
	value    []int32 // of each half
	last     []int32 // the latest entry of the trail for each half, -1 for none
	trail    []entry
	levels   []mark // before each decision
	done     int    // entries of the trail that have been followed up
	made     []literal
	free     *grid  // less what the compulsory parts take
	part     []span // compulsory parts taken from the grid
	dirty    bool   // compulsory parts or bounds have changed since the last look at the grid
	links    []arcs // by half, the halves that rise with it
	clauses  []clause
	watches  [][]watch
	conflict []literal

	need     []int32 // in analysis: by half, what the conflict asks of it
	position []int32 // and the entry that gave it
	asked    []int32 // the halves asked
	learnt   []literal
	listed   []bool  // by half, whether it is among the asked
	counted  []int64 // by level, the last count that met it
	count    int64

	activity  []float64
	increment float64
	heap      heap
	phase     []int32 // starts of the last good plan
	conflicts int64
	work      int64
	restarts  int64
	restartAt int64
	upper     int32   // a plan of this end is known
	plan      []int32 // the latest plan found
}

type literal struct{ half, least int32 }

func (l literal) denied() literal { return literal{l.half ^ 1, 1 - l.least} }

// entry is one rise of one half.
type entry struct {
	half, value, before int32
	previous            int32 // the entry before it for the same half
	level               int32
	reason              reason
}

// reason says why a half rose: a decision, another half by a fixed distance, a clause, or literals made up by the
// grid.
type reason struct {
	kind reasonKind
	a, b int32
}

type reasonKind uint8

const (
	decided  reasonKind = iota
	byLink              // a: the half, b: the distance
	byClause            // a: the clause
	byGrid              // made[a:b]
)

type arcs []arc

type arc struct{ half, distance int32 }

// mark is how far the trail and the made-up reasons had come.
type mark struct{ trail, made int32 }

type span struct{ from, to int32 }

const absent = math.MinInt32

func newProver(in *instance) *prover {
	n := in.n + 1
	p := &prover{
		instance: in, end: int32(in.n), upper: in.horizon + 1,
		value: make([]int32, 2*n), last: make([]int32, 2*n), links: make([]arcs, 2*n),
		free: in.lanes.grid(in.horizon), part: make([]span, n), watches: make([][]watch, 2*n),
		need: make([]int32, 2*n), position: make([]int32, 2*n), listed: make([]bool, 2*n),
		activity: make([]float64, n), increment: 1, phase: make([]int32, n), plan: make([]int32, in.n),
	}
	for h := range p.last {
		p.last[h], p.need[h] = -1, absent
	}
	cp := in.criticalPath()
	for i := range in.n {
		p.value[2*i] = in.head[i]
		p.value[2*i+1] = -(in.horizon - in.tail[i])
		p.phase[i] = in.head[i]
	}
	p.value[2*p.end], p.value[2*p.end+1] = cp, -in.horizon
	for i := range int32(in.n) {
		for _, s := range in.after.of(i) {
			p.tie(i, s)
		}
		if len(in.after.of(i)) == 0 {
			p.tie(i, p.end)
		}
	}
	p.heap = newHeap(n)
	p.free.latest = in.horizon + 1
	for i := range int32(n) {
		p.cover(i)
	}
	p.dirty = true
	return p
}

// tie makes the successor wait for the end of the activity, and the activity hurry for the successor.
func (p *prover) tie(i, s int32) {
	d := p.duration[i]
	p.links[2*i] = append(p.links[2*i], arc{2 * s, d})
	p.links[2*s+1] = append(p.links[2*s+1], arc{2*i + 1, d})
}

func (p *prover) earliest(i int32) int32 { return p.value[2*i] }
func (p *prover) latest(i int32) int32   { return -p.value[2*i+1] }
func (p *prover) level() int32           { return int32(len(p.levels)) }

func (p *prover) isTrue(l literal) bool  { return p.value[l.half] >= l.least }
func (p *prover) isFalse(l literal) bool { return p.value[l.half^1] >= 1-l.least }

// raise makes a literal true, for a reason. It is false when the literal is denied already; the conflict is noted.
func (p *prover) raise(l literal, why reason) bool {
	before := p.value[l.half]
	if before >= l.least {
		return true
	}
	if p.isFalse(l) {
		p.conflict = append(p.conflict[:0], l.denied())
		p.conflict = p.explain(p.conflict, why, l)
		return false
	}
	p.trail = append(p.trail, entry{l.half, l.least, before, p.last[l.half], p.level(), why})
	p.last[l.half] = int32(len(p.trail) - 1)
	p.value[l.half] = l.least
	return true
}

// explain appends what made the literal true, which may ask less than what was true at the time.
func (p *prover) explain(to []literal, why reason, l literal) []literal {
	switch why.kind {
	case byLink:
		return append(to, literal{why.a, l.least - why.b})
	case byClause:
		for _, other := range p.clauses[why.a].literals {
			if other.half != l.half {
				to = append(to, other.denied())
			}
		}
		return to
	case byGrid:
		return append(to, p.made[why.a:why.b]...)
	}
	panic("project: a decision has no explanation")
}

// back undoes all decisions above the level.
func (p *prover) back(level int32) {
	if p.level() <= level {
		return
	}
	keep := p.levels[level]
	for k := int32(len(p.trail)) - 1; k >= keep.trail; k-- {
		e := &p.trail[k]
		p.value[e.half], p.last[e.half] = e.before, e.previous
		i := e.half >> 1
		p.uncover(i)
		p.heap.push(i, p.activity)
	}
	p.made = p.made[:keep.made]
	p.trail = p.trail[:keep.trail]
	p.levels = p.levels[:level]
	p.done = min(p.done, len(p.trail))
	p.dirty = true
}

// decide assumes a literal that is neither true nor false.
func (p *prover) decide(l literal) {
	p.levels = append(p.levels, mark{int32(len(p.trail)), int32(len(p.made))})
	if !p.raise(l, reason{}) {
		panic("project: decided what is false")
	}
}
