package project

import (
	"context"
	"runtime"
	"sync"
)

// Effort says how hard to look.
type Effort struct {
	Seed    uint64
	Workers int   // goroutines; 0 takes all the processors
	Work    int64 // rounds of each worker, after which the search ends whatever the clock says; 0 looks until the context ends
}

// Plan is an answer: when each activity starts, when the last ends, and below what end no plan can be.
type Plan struct {
	Starts     []int
	End        int
	LowerBound int
	Rounds     int64 // rounds that were worked
}

// Proven tells whether no plan can end sooner.
func (p *Plan) Proven() bool { return p.End == p.LowerBound }

// Solve looks for the plan that ends soonest until the plan is proven, the work is done or the context ends; the
// context's end is no error, as there is a plan from the beginning. With the same Work, Workers and Seed the plan is
// the same, however fast the machine: the workers then exchange plans only between rounds.
func Solve(ctx context.Context, p *Problem, effort Effort) (*Plan, error) {
	if err := p.Validate(); err != nil {
		return nil, err
	}
	if len(p.Durations) == 0 {
		return &Plan{Starts: []int{}}, nil
	}
	if effort.Workers <= 0 {
		effort.Workers = runtime.GOMAXPROCS(0)
	}
	in := compile(p)
	b := newBoard(in)
	workers := make([]*worker, effort.Workers)
	for k := range workers {
		workers[k] = newWorker(in, effort.Seed+uint64(k)*0x51_7c_c1_b7_27_22_0a_95, k)
	}
	workers[0].begin()
	b.exchange(workers[0])
	if effort.Work > 0 {
		b.inRounds(ctx, workers, effort.Work)
	} else {
		b.freely(ctx, workers)
	}
	return b.plan(), nil
}

// board is what the workers share.
type board struct {
	sync.Mutex
	start  []int32
	end    int32
	lower  int32
	rounds int64
}

func newBoard(in *instance) *board {
	return &board{start: make([]int32, in.n), end: in.horizon + 1, lower: in.bound()}
}

// exchange takes the worker's better news and gives it those of the others. It tells whether all is proven.
func (b *board) exchange(w *worker) (proven bool) {
	b.Lock()
	defer b.Unlock()
	b.take(w)
	w.hear(b.start, b.end, b.lower)
	return b.lower >= b.end
}

func (b *board) take(w *worker) {
	if w.best.end < b.end {
		b.end = w.best.end
		copy(b.start, w.best.start)
	}
	b.lower = max(b.lower, w.lower)
}

func (b *board) freely(ctx context.Context, workers []*worker) {
	var all sync.WaitGroup
	for _, w := range workers {
		all.Go(func() {
			for !b.exchange(w) && ctx.Err() == nil {
				w.round()
				b.Lock()
				b.rounds++
				b.Unlock()
			}
		})
	}
	all.Wait()
}

func (b *board) inRounds(ctx context.Context, workers []*worker, rounds int64) {
	for ; b.rounds < rounds && b.lower < b.end && ctx.Err() == nil; b.rounds++ {
		var all sync.WaitGroup
		for _, w := range workers {
			w.hear(b.start, b.end, b.lower)
			all.Go(func() { w.round() })
		}
		all.Wait()
		for _, w := range workers {
			b.take(w)
		}
	}
}

func (b *board) plan() *Plan {
	p := &Plan{Starts: make([]int, len(b.start)), End: int(b.end), LowerBound: int(b.lower), Rounds: b.rounds}
	for i, t := range b.start {
		p.Starts[i] = int(t)
	}
	return p
}
