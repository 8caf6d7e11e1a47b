package project

// builder makes plans out of orders. Times of its backward plans run from the end. It allocates nothing after it was
// made, and is for one goroutine.
type builder struct {
	*instance
	grid    *grid
	ready   []int32 // earliest start by what came before, for the parallel scheme
	bucket  []int32 // for sorting by time
	list    []int32
	back    []int32 // the backward plan
	built   int64   // plans made so far
	waiting []int32
	state   parallelState
}

func newBuilder(in *instance) *builder {
	n := in.n
	return &builder{
		instance: in, grid: in.lanes.grid(in.horizon),
		ready: make([]int32, n), bucket: make([]int32, in.horizon+2),
		list: make([]int32, n), back: make([]int32, n), waiting: make([]int32, n),
		state: newParallelState(n),
	}
}

// serial starts the activities one after the other in the order, each as early as what waits before it and the
// resources allow, and tells when the last ends. The order must respect the links in before.
func (b *builder) serial(order []int32, before *links, start []int32) (end int32) {
	b.built++
	b.grid.clear()
	for _, i := range order {
		from := int32(0)
		for _, p := range before.of(i) {
			from = max(from, start[p]+b.duration[p])
		}
		d, need := b.duration[i], b.demand(i)
		from = b.grid.earliest(from, d, need)
		b.grid.take(from, d, need)
		start[i] = from
		end = max(end, from+d)
	}
	return end
}

// improve justifies the plan to the right and to the left again until it gets no shorter (forward-backward
// improvement, double justification: Valls, Ballestín, Quintanilla 2005, from memory). A plan never gets longer by it.
func (b *builder) improve(start []int32, end int32) int32 {
	for {
		b.sortByEnd(start)
		b.serial(b.list, &b.after, b.back)
		shorter := int32(0)
		for i, t := range b.back {
			shorter = max(shorter, t+b.duration[i])
		}
		for i, t := range b.back {
			start[i] = shorter - t - b.duration[i]
		}
		b.sortByStart(start, b.list)
		shorter = b.serial(b.list, &b.before, start)
		if shorter >= end {
			return shorter
		}
		end = shorter
	}
}

// sortByStart lists the activities by start, those of the same start so that none comes before what it waits for.
func (b *builder) sortByStart(start, list []int32) {
	latest := int32(0)
	for _, t := range start {
		latest = max(latest, t)
	}
	at := b.bucket[:latest+2]
	clear(at)
	for _, t := range start {
		at[t+1]++
	}
	for t := range latest {
		at[t+1] += at[t]
	}
	for _, i := range b.order {
		list[at[start[i]]] = i
		at[start[i]]++
	}
}

// sortByEnd fills the builder's list by end, the latest first.
func (b *builder) sortByEnd(start []int32) {
	latest := int32(0)
	for i, t := range start {
		latest = max(latest, t+b.duration[i])
	}
	at := b.bucket[:latest+2]
	clear(at)
	for i, t := range start {
		at[latest-t-b.duration[i]+1]++
	}
	for t := range latest {
		at[t+1] += at[t]
	}
	for k := b.n - 1; k >= 0; k-- {
		i := b.order[k]
		key := latest - start[i] - b.duration[i]
		b.list[at[key]] = i
		at[key]++
	}
}
