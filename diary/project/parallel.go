package project

import (
	"math"
	"math/rand/v2"
)

// parallelState is the working memory of the parallel scheme.
type parallelState struct {
	waits    []int32 // how many predecessors have not ended
	eligible []int32 // activities whose predecessors have all ended
	running  []int32
	chance   []float64
}

func newParallelState(n int) parallelState {
	return parallelState{make([]int32, n), make([]int32, 0, n), make([]int32, 0, n), make([]float64, n)}
}

// sampleOrder draws an order of activities by regret-biased random sampling: among those whose predecessors are
// listed, one of low latest start is likelier; bias 0 draws blindly (Drexl 1991, Kolisch 1996, from memory).
func (b *builder) sampleOrder(rng *rand.Rand, latestStart []int32, bias float64, order []int32) {
	s := &b.state
	s.eligible = s.eligible[:0]
	for i := range int32(b.n) {
		if s.waits[i] = int32(len(b.before.of(i))); s.waits[i] == 0 {
			s.eligible = append(s.eligible, i)
		}
	}
	for k := range order {
		at := b.draw(rng, latestStart, bias)
		i := s.eligible[at]
		s.eligible[at] = s.eligible[len(s.eligible)-1]
		s.eligible = s.eligible[:len(s.eligible)-1]
		order[k] = i
		for _, next := range b.after.of(i) {
			if s.waits[next]--; s.waits[next] == 0 {
				s.eligible = append(s.eligible, next)
			}
		}
	}
}

// draw picks one of the eligible; its regret is how much sooner it must start than the most patient one.
func (b *builder) draw(rng *rand.Rand, latestStart []int32, bias float64) (at int) {
	s := &b.state
	patient := int32(math.MinInt32)
	for _, i := range s.eligible {
		patient = max(patient, latestStart[i])
	}
	sum := 0.0
	for k, i := range s.eligible {
		weight := float64(patient-latestStart[i]) + 1
		switch bias {
		case 0:
			weight = 1
		case 1:
		case 2:
			weight *= weight
		default:
			weight = math.Pow(weight, bias)
		}
		sum += weight
		s.chance[k] = sum
	}
	x := rng.Float64() * sum
	for at < len(s.eligible)-1 && s.chance[at] < x {
		at++
	}
	return at
}

// parallel goes through time and starts at each moment what fits, in the order given, and tells when the last
// ends. It makes plans in which nothing could start at an earlier moment of the same plan.
func (b *builder) parallel(order []int32, before, after *links, start []int32) (end int32) {
	b.built++
	b.grid.clear()
	s := &b.state
	for i := range int32(b.n) {
		s.waits[i] = int32(len(before.of(i)))
	}
	copy(b.waiting, order)
	waiting := b.waiting
	s.running = s.running[:0]
	for t := int32(0); len(waiting) > 0; {
		kept, started := waiting[:0], false
		for _, i := range waiting {
			if s.waits[i] > 0 || b.grid.earliest(t, b.duration[i], b.demand(i)) != t {
				kept = append(kept, i)
				continue
			}
			b.grid.take(t, b.duration[i], b.demand(i))
			start[i] = t
			end = max(end, t+b.duration[i])
			s.running = append(s.running, i)
			started = started || b.duration[i] == 0
		}
		waiting = kept
		t = b.finish(t, started, after, start)
	}
	return end
}

// finish moves to the next time at which something ends, and lets go those that waited for it.
func (b *builder) finish(t int32, now bool, after *links, start []int32) int32 {
	s := &b.state
	next := int32(math.MaxInt32)
	for _, i := range s.running {
		next = min(next, start[i]+b.duration[i])
	}
	if now {
		next = t
	}
	kept := s.running[:0]
	for _, i := range s.running {
		if start[i]+b.duration[i] > next {
			kept = append(kept, i)
			continue
		}
		for _, j := range after.of(i) {
			s.waits[j]--
		}
	}
	s.running = kept
	return next
}
