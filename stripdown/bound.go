package stripdown

import (
	"math"
	"slices"
)

// bound encloses the least cost of a problem: no answer costs less than least, and plan is one that costs cost.
//
// It comes from barriers: sets of places of which every answer takes at least one. A barrier may charge the
// places in it an amount, all the same, as long as no place is charged more than it costs; then the amounts
// together are a least cost (they are a solution of the linear dual of covering all barriers). Barriers are
// found one by one: while some root cannot be met with fully charged places alone, a set of places that keeps
// it from being met is a barrier of places with something left to charge. At the end the fully charged places
// hold an answer, which is thinned out to become the plan. See R. T. Wong, "A dual ascent approach for Steiner
// tree problems on a directed graph", Mathematical Programming 28, 1984 (from memory); needs and any-of groups
// take the place of arcs here.
type bound struct {
	least    int64
	left     []int64 // of each place's cost, not yet charged
	barriers []barrier
	charged  []int32 // fully, in that order
	plan     bitset
	cost     int64
}

// barrier is a set of places of which every answer takes one, and what it charges them.
type barrier struct {
	places bitset // of places, and maybe longer
	amount int64
}

// bound returns the enclosure, computing it at the first call.
func (p *problem) bound() *bound {
	if p.found == nil {
		b := &bound{left: slices.Clone(p.cost)}
		b.ascend(p)
		b.thin(p)
		p.found = b
	}
	return p.found
}

// ascend raises least barrier by barrier until fully charged places meet all roots.
func (b *bound) ascend(p *problem) {
	w := newWatch(p)
	for weakest := w.weakest(); weakest != nil; weakest = w.weakest() {
		places, amount, before := slices.Clone(weakest), int64(math.MaxInt64), len(b.charged)
		for v := range places.all {
			amount = min(amount, b.left[v])
		}
		for v := range places.all {
			if b.left[v] -= amount; b.left[v] == 0 {
				b.charged = append(b.charged, v)
			}
		}
		b.least += amount
		b.barriers = append(b.barriers, barrier{places, amount})
		w.update(b.left, b.charged[before:])
	}
}

// thin makes the plan: all fully charged places, less, last charged first, each that the roots can spare.
func (b *bound) thin(p *problem) {
	b.plan = newBitset(len(p.ops))
	for _, v := range b.charged {
		b.plan.add(v)
	}
	p.keepUsable(b.plan)
	spare := newBitset(len(p.ops))
	for _, v := range slices.Backward(b.charged) {
		if !b.plan.has(v) {
			continue
		}
		copy(spare, b.plan)
		spare.remove(v)
		if p.keepUsable(spare) {
			b.plan, spare = spare, b.plan
		}
	}
	for v := range b.plan.all {
		b.cost += p.cost[v]
	}
}

// keepUsable drops from set what cannot be taken with the rest of it alone, and reports whether the roots are met
// all the same.
func (p *problem) keepUsable(set bitset) bool {
	for v := range set.all {
		if !set.meetsAll(p.asks[v]) {
			set.remove(v)
		}
	}
	return set.meetsAll(p.roots)
}
