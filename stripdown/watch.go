package stripdown

import "math"

// watch finds the barriers that keep roots from being met with fully charged places.
//
// Which barrier is charged first decides how good the bound becomes. What much of the problem leads to is best
// left for last, since one charge on it serves only one root; so each place weighs as much as leads to it, and
// the barrier that weighs least is taken.
//
// Roots are watched like fully charged places that ask for one group, and stand after all others.
type watch struct {
	asks    [][]group
	roots   int       // where the roots begin
	traffic []float64 // how much leads to each place
	asked   []bitset  // what each asks for directly
	barrier []bitset  // around each that cannot be taken
	weight  []float64 // of that barrier, nought if it can be taken
	joint   bitset    // the barrier last weighed around a group
}

// newWatch starts with nothing charged: every place is its own barrier.
func newWatch(p *problem) *watch {
	n, all := len(p.ops), len(p.ops)+len(p.roots)
	sets := bitsets(2*all+1, all)
	w := &watch{roots: n, traffic: p.traffic(), asked: sets[:all], barrier: sets[all : 2*all], joint: sets[2*all]}
	w.asks = append(w.asks, p.asks...)
	for _, root := range p.roots {
		w.asks = append(w.asks, []group{root})
	}
	w.weight = append(w.weight, w.traffic...)
	w.weight = append(w.weight, make([]float64, len(p.roots))...)
	for v := range int32(all) {
		for _, members := range w.asks[v] {
			w.asked[v].addAll(members)
		}
		if v < int32(n) {
			w.barrier[v].add(v)
		} else {
			w.look(v)
		}
	}
	return w
}

// traffic measures how much leads to each place: one from each root, divided evenly among the members of a group.
func (p *problem) traffic() []float64 {
	const trickle = 1e-9 // so that it is never nought
	traffic := make([]float64, len(p.ops))
	pass := func(amount float64, groups []group) {
		for _, members := range groups {
			for _, v := range members {
				traffic[v] += amount / float64(len(members))
			}
		}
	}
	pass(1, p.roots)
	for v := len(p.ops) - 1; v >= 0; v-- {
		traffic[v] += trickle
		pass(traffic[v], p.asks[v])
	}
	return traffic
}

// weakest returns the barrier of least weight around any root, nil if all roots are met.
func (w *watch) weakest() bitset {
	least := math.Inf(1)
	var places bitset
	for v := w.roots; v < len(w.asks); v++ {
		if w.weight[v] > 0 && w.weight[v] < least {
			least, places = w.weight[v], w.barrier[v]
		}
	}
	return places
}

// update looks again at whatever may have another barrier now that some more places are fully charged. It goes
// from the outside in.
func (w *watch) update(left []int64, charged []int32) {
	changed := newBitset(len(w.asks))
	changed.addAll(charged)
	for v := range int32(len(w.asks)) {
		if (v >= int32(w.roots) || left[v] == 0) && (changed.has(v) || changed.touches(w.asked[v])) {
			w.look(v)
			changed.add(v)
		}
	}
}

// look finds the weakest barrier around any group that a fully charged place, or a root, asks for.
func (w *watch) look(v int32) {
	least := math.Inf(1)
	for _, members := range w.asks[v] {
		if weight := w.weigh(members, least); weight > 0 && weight < least {
			least = weight
			copy(w.barrier[v], w.joint)
		}
	}
	if math.IsInf(least, 1) {
		least = 0
	}
	w.weight[v] = least
}

// weigh weighs the barrier around a group, which it leaves in joint; nought if a member can be taken. It gives up
// with any weight not below limit.
func (w *watch) weigh(members group, limit float64) float64 {
	heaviest := 0.0
	for _, v := range members {
		if w.weight[v] == 0 {
			return 0
		}
		heaviest = max(heaviest, w.weight[v])
	}
	if heaviest >= limit {
		return limit
	}
	clear(w.joint)
	for _, v := range members {
		w.joint.union(w.barrier[v])
	}
	weight := 0.0
	for v := range w.joint.all {
		weight += w.traffic[v]
	}
	return weight
}
