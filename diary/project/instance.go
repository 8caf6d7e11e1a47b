package project

// instance is a problem made ready for fast reading: flat arrays, demands packed into words.
type instance struct {
	n        int
	duration []int32
	lanes    lanes
	need     []uint64 // lanes.words words an activity
	before   links    // predecessors
	after    links    // successors
	order    []int32  // every activity after those it waits for
	head     []int32  // longest chain before the activity
	tail     []int32  // longest chain from its start to the end
	reach    []bitset // reach[i]: all that must come after i
	horizon  int32    // one after the other, everything ends by then
	problem  *Problem
}

// links are lists of activities, laid end to end.
type links struct {
	first []int32
	list  []int32
}

func (l *links) of(i int32) []int32 { return l.list[l.first[i]:l.first[i+1]] }

type bitset []uint64

func (b bitset) has(i int32) bool { return b[i>>6]>>(uint(i)&63)&1 != 0 }
func (b bitset) add(i int32)      { b[i>>6] |= 1 << (uint(i) & 63) }
func (b bitset) join(o bitset) {
	for k, w := range o {
		b[k] |= w
	}
}

// compile expects a valid problem. Links that a longer chain implies are dropped.
func compile(p *Problem) *instance {
	n := len(p.Durations)
	in := &instance{n: n, duration: make([]int32, n), head: make([]int32, n), tail: make([]int32, n), problem: p}
	in.order, _ = p.sorted()
	in.lanes = newLanes(p.Capacities)
	for i, d := range p.Durations {
		in.duration[i] = int32(d)
		in.horizon += int32(d)
		in.need = in.lanes.pack(in.need, p.Demands[i])
	}
	in.closure()
	in.link()
	for _, i := range in.order {
		for _, s := range in.after.of(i) {
			in.head[s] = max(in.head[s], in.head[i]+in.duration[i])
		}
	}
	for k := n - 1; k >= 0; k-- {
		i := in.order[k]
		in.tail[i] = in.duration[i]
		for _, s := range in.after.of(i) {
			in.tail[i] = max(in.tail[i], in.duration[i]+in.tail[s])
		}
	}
	return in
}

func (in *instance) closure() {
	in.reach = make([]bitset, in.n)
	for k := in.n - 1; k >= 0; k-- {
		i := in.order[k]
		in.reach[i] = make(bitset, (in.n+63)/64)
		for _, s := range in.problem.Successors[i] {
			in.reach[i].add(int32(s))
			in.reach[i].join(in.reach[s])
		}
	}
}

func (in *instance) link() {
	var pairs [][2]int32
	for i, successors := range in.problem.Successors {
		seen := make(map[int]bool, len(successors))
		for _, s := range successors {
			if !seen[s] && !in.implied(successors, s) {
				pairs = append(pairs, [2]int32{int32(i), int32(s)})
			}
			seen[s] = true
		}
	}
	in.after, in.before = newLinks(in.n, pairs, 0), newLinks(in.n, pairs, 1)
}

func (in *instance) implied(successors []int, s int) bool {
	for _, via := range successors {
		if via != s && in.reach[via].has(int32(s)) {
			return true
		}
	}
	return false
}

// newLinks lists, for each activity on the given side of the pairs, those on the other side.
func newLinks(n int, pairs [][2]int32, side int) links {
	l := links{first: make([]int32, n+1), list: make([]int32, len(pairs))}
	for _, p := range pairs {
		l.first[p[side]+1]++
	}
	for i := range n {
		l.first[i+1] += l.first[i]
	}
	fill := append([]int32(nil), l.first...)
	for _, p := range pairs {
		l.list[fill[p[side]]] = p[1-side]
		fill[p[side]]++
	}
	return l
}

func (in *instance) criticalPath() (longest int32) {
	for i := range in.n {
		longest = max(longest, in.head[i]+in.tail[i])
	}
	return longest
}

func (in *instance) demand(i int32) []uint64 {
	w := in.lanes.words
	return in.need[int(i)*w : int(i)*w+w]
}

// share is the part of the sum of capacities that an activity holds, as a rule's measure of how big it is.
func (in *instance) share(i int) (sum float64) {
	for r, c := range in.problem.Capacities {
		if c > 0 {
			sum += float64(in.problem.Demands[i][r]) / float64(c)
		}
	}
	return sum / float64(max(1, len(in.problem.Capacities)))
}
