package stripdown

import (
	"cmp"
	"slices"
)

// sequence puts the operations of a plan in order.
type sequence struct {
	*Graph
	set    bitset
	listed []int32  // the operations, as they were given
	before []bitset // what each waits for
}

// newSequence works out what waits for what: an operation waits for all in the set that meet its needs and groups.
func newSequence(g *Graph, set bitset) *sequence {
	s := &sequence{Graph: g, set: set, before: bitsets(len(g.ops), len(g.ops))}
	for _, op := range g.given {
		if !set.has(op) {
			continue
		}
		s.listed = append(s.listed, op)
		for _, members := range g.asks[op] {
			s.before[op].addAll(members)
		}
		s.before[op].intersect(set)
	}
	return s
}

// depths gives each operation 0 if it waits for none, otherwise one more than the deepest that it waits for.
func (s *sequence) depths(order []int32) []int {
	depths := make([]int, len(s.ops))
	for _, op := range order {
		for other := range s.before[op].all {
			depths[op] = max(depths[op], depths[other]+1)
		}
	}
	return depths
}

// stretch is the beginning of an order.
type stretch struct {
	order []int32
	done  bitset
}

func (b stretch) sameDone(other stretch) bool { return slices.Equal(b.done, other.done) }

// breadth is how many beginnings are followed at a time. Cars have few enough ways round them that the order found
// is nearly always the one with the fewest changes of place; it is not proven to be.
const breadth = 32

// order lists the operations so that each stands after what it waits for, with few changes of place.
func (s *sequence) order() []int32 {
	beginnings := []stretch{s.stay(stretch{done: newBitset(len(s.ops))}, "")}
	for {
		var longer []stretch
		for _, b := range beginnings {
			if len(b.order) == len(s.listed) {
				return b.order
			}
			for _, next := range s.moves(b) {
				if !slices.ContainsFunc(longer, next.sameDone) {
					longer = append(longer, next)
				}
			}
		}
		slices.SortStableFunc(longer, func(a, b stretch) int { return cmp.Compare(len(b.order), len(a.order)) })
		beginnings = longer[:min(breadth, len(longer))]
	}
}

// moves returns what each change of place leads to, in the order the operations there were given.
func (s *sequence) moves(b stretch) []stretch {
	var longer []stretch
	var tried []string
	for _, op := range s.listed {
		if place := s.ops[op].Place; s.ready(op, b.done) && !slices.Contains(tried, place) {
			tried = append(tried, place)
			longer = append(longer, s.stay(b, place))
		}
	}
	return longer
}

// stay does all that can be done at a place, and whatever has none.
func (s *sequence) stay(b stretch, place string) stretch {
	next := stretch{slices.Clone(b.order), slices.Clone(b.done)}
	for n := -1; n < len(next.order); {
		n = len(next.order)
		for _, op := range s.listed {
			if at := s.ops[op].Place; (at == place || at == "") && s.ready(op, next.done) {
				next.order = append(next.order, op)
				next.done.add(op)
			}
		}
	}
	return next
}

// ready reports whether an operation is still to be done and waits for nothing.
func (s *sequence) ready(op int32, done bitset) bool {
	return !done.has(op) && done.holds(s.before[op])
}
