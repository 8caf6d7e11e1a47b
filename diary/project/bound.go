package project

// bound is the larger of two simple lower bounds: the critical path, and for each resource the energy that the
// activities need, with the least that must come before and after those that need it. The prover raises it.
func (in *instance) bound() int32 {
	best := in.criticalPath()
	for r, c := range in.problem.Capacities {
		if c > 0 {
			best = max(best, in.energyBound(r, int32(c)))
		}
	}
	return best
}

// energyBound goes by the activities that need the resource and start with a chain of at least h before them and end
// with at least t behind them: h + energy/capacity + t, for every pair of h and t that occurs.
func (in *instance) energyBound(r int, capacity int32) (best int32) {
	for a := range in.n {
		for b := range in.n {
			h, t := in.head[a], in.tail[b]-in.duration[b]
			energy := int64(0)
			for i := range in.n {
				if in.head[i] >= h && in.tail[i]-in.duration[i] >= t {
					energy += int64(in.duration[i]) * int64(amount(in.demand(int32(i)), r))
				}
			}
			if energy > 0 {
				best = max(best, h+t+int32((energy+int64(capacity)-1)/int64(capacity)))
			}
		}
	}
	return best
}
