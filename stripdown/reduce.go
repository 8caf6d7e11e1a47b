package stripdown

import "slices"

// reduce takes what cannot be avoided for certain and splits what is left to choose into parts that share
// nothing. Barred places may not be taken (nil bars none). It reports false if the roots cannot be met.
//
// No answer is lost on the way: a member of a group is dropped only if taking it would bring in another member
// anyway.
func (p *problem) reduce(barred bitset) (certain []int32, parts []*problem, ok bool) {
	r := newReduction(p, barred)
	open, ok := r.settle()
	if !ok {
		return nil, nil, false
	}
	for place := range r.certain.all {
		certain = append(certain, place)
	}
	return certain, r.split(open), true
}

// reduction is the work sheet of reduce.
type reduction struct {
	*problem
	must    []bitset // what each place cannot do without, itself included; empty if it cannot be taken
	certain bitset   // taken in every answer
	scratch bitset
}

func newReduction(p *problem, barred bitset) *reduction {
	n := len(p.ops)
	sets := bitsets(n+2, n)
	r := &reduction{problem: p, must: sets[:n], certain: sets[n], scratch: sets[n+1]}
	for v := range int32(n) {
		if barred == nil || !barred.has(v) {
			r.findMust(v)
		}
	}
	return r
}

// dead reports whether a place cannot be taken.
func (r *reduction) dead(v int32) bool { return !r.must[v].has(v) }

// findMust gathers what v cannot do without: all that its groups' members have in common.
func (r *reduction) findMust(v int32) {
	must := r.must[v]
	for _, members := range r.asks[v] {
		common := r.common(members)
		if common == nil {
			clear(must)
			return
		}
		must.union(common)
	}
	must.add(v)
}

// common is what all members of a group that can be taken cannot do without, nil if none can be taken.
func (r *reduction) common(members group) bitset {
	var common bitset
	for _, v := range members {
		switch {
		case r.dead(v):
		case common == nil:
			common = r.scratch
			copy(common, r.must[v])
		default:
			common.intersect(r.must[v])
		}
	}
	return common
}

// settle takes what the roots have in common and returns the groups that are still to be met.
func (r *reduction) settle() (open []group, ok bool) {
	pending := slices.Clone(r.roots)
	for i := 0; i < len(pending); i++ {
		common := r.common(pending[i])
		if common == nil {
			return nil, false
		}
		common.subtract(r.certain)
		r.certain.union(common)
		for v := range common.all {
			pending = append(pending, r.asks[v]...)
		}
	}
	return r.trim(pending, nil), true
}

// trim returns the groups that neither the certain places nor those in have meet, each without the members that
// cannot be taken or bring another member with them, and without groups that contain another group.
func (r *reduction) trim(groups []group, have bitset) []group {
	var kept []group
	for _, members := range groups {
		if r.certain.meets(members) || have != nil && have.meets(members) {
			continue
		}
		kept = append(kept, r.worthwhile(members))
	}
	slices.SortFunc(kept, fewest)
	least := kept[:0]
	for _, members := range kept {
		if !slices.ContainsFunc(least, members.contains) {
			least = append(least, members)
		}
	}
	return least
}

func (r *reduction) worthwhile(members group) group {
	kept := make(group, 0, len(members))
	for _, v := range members {
		brings := func(other int32) bool { return other != v && r.must[v].has(other) }
		if !r.dead(v) && !slices.ContainsFunc(members, brings) {
			kept = append(kept, v)
		}
	}
	return kept
}

// split gathers all that can be reached from the open groups into parts that share nothing.
func (r *reduction) split(open []group) []*problem {
	n := len(r.ops)
	asks, part := make([][]group, n), newPartition(n)
	var reached []int32
	seen := newBitset(n)
	reach := func(groups []group, from int32) {
		for _, members := range groups {
			for _, v := range members {
				part.join(from, v)
				if !seen.has(v) {
					seen.add(v)
					reached = append(reached, v)
				}
			}
		}
	}
	for _, members := range open {
		reach([]group{members}, members[0])
	}
	for i := 0; i < len(reached); i++ {
		v := reached[i]
		asks[v] = append(r.direct(v), r.trim(r.asks[v], r.must[v])...)
		reach(asks[v], v)
	}
	return r.build(open, seen, asks, part)
}

// direct lists what v cannot do without, as groups of one, less what those bring with them.
func (r *reduction) direct(v int32) []group {
	rest := r.scratch
	copy(rest, r.must[v])
	rest.subtract(r.certain)
	rest.remove(v)
	var needs []group
	for u := rest.last(); u >= 0; u = rest.last() {
		needs = append(needs, group{u})
		rest.subtract(r.must[u])
	}
	return needs
}

// build makes one problem of each part.
func (r *reduction) build(open []group, seen bitset, asks [][]group, part partition) []*problem {
	parts, at := []*problem{}, make(map[int32]*problem)
	place := make([]int32, len(r.ops))
	placed := func(groups []group) []group {
		for _, members := range groups {
			for i, v := range members {
				members[i] = place[v]
			}
		}
		return groups
	}
	for v := range seen.all {
		p := at[part.of(v)]
		if p == nil {
			p = new(problem)
			at[part.of(v)] = p
			parts = append(parts, p)
		}
		place[v] = int32(len(p.ops))
		p.ops = append(p.ops, r.ops[v])
		p.cost = append(p.cost, r.cost[v])
		p.asks = append(p.asks, placed(asks[v]))
	}
	for _, members := range open {
		p := at[part.of(members[0])]
		p.roots = append(p.roots, placed([]group{members})[0])
	}
	return parts
}
