package stripdown

import "slices"

// hopeless returns the places that no answer within limit can take, nil if there are none: what a place and all
// that it cannot do without have left uncharged would come on top of the bound.
func (p *problem) hopeless(limit int64) bitset {
	b := p.bound()
	r := newReduction(p, nil)
	var barred bitset
	for v := range p.ops {
		over := b.least
		for u := range r.must[v].all {
			over += b.left[u]
		}
		if over > limit {
			if barred == nil {
				barred = newBitset(len(p.ops))
			}
			barred.add(int32(v))
		}
	}
	return barred
}

// contested is the place in the plan that most keeps plan and bound apart: much leads to it, and the barriers that
// charge it are crossed more than once.
func (p *problem) contested() int32 {
	b := p.bound()
	score := make([]float64, len(p.ops))
	for _, barrier := range b.barriers {
		crossed := slices.Clone(b.plan)
		crossed.intersect(barrier.places)
		extra := float64(crossed.count() - 1)
		for v := range crossed.all {
			score[v] += extra * float64(barrier.amount)
		}
	}
	best := int32(-1)
	traffic := p.traffic()
	for v := range b.plan.all {
		if score[v] *= traffic[v]; best < 0 || score[v] > score[best] {
			best = v
		}
	}
	return best
}
