package stripdown

import (
	"encoding/binary"
	"slices"
)

// problem asks for the cheapest set of operations that meets its roots and whatever the chosen ones ask for.
// Operations are spoken of by their place in it.
type problem struct {
	ops   []int32   // number of each in the graph; each stands after all that it asks for
	cost  []int64   // of each, never nought
	asks  [][]group // of each; a plain need is a group of one
	roots []group   // must be met

	found *bound // kept once computed
	best  answer // likewise
}

// with returns the problem with one more root: place must be taken.
func (p *problem) with(place int32) *problem {
	return &problem{ops: p.ops, cost: p.cost, asks: p.asks, roots: append(slices.Clip(p.roots), group{place})}
}

// firstName is the place of the operation whose name comes first.
func (p *problem) firstName() int32 {
	first := 0
	for v, op := range p.ops {
		if op < p.ops[first] {
			first = v
		}
	}
	return int32(first)
}

// numbers turns places into numbers in a graph of the given size.
func (p *problem) numbers(places bitset, size int) bitset {
	numbers := newBitset(size)
	for v := range places.all {
		numbers.add(p.ops[v])
	}
	return numbers
}

// key spells the problem out, so that equal keys are equal problems.
func (p *problem) key() string {
	buf := make([]byte, 0, 16*len(p.ops))
	put := func(groups []group, op func(int32) int32) {
		buf = binary.AppendUvarint(buf, uint64(len(groups)))
		for _, members := range groups {
			buf = binary.AppendUvarint(buf, uint64(len(members)))
			for _, v := range members {
				buf = binary.AppendUvarint(buf, uint64(op(v)))
			}
		}
	}
	number := func(v int32) int32 { return p.ops[v] }
	put(p.roots, number)
	for v := range p.ops {
		buf = binary.AppendUvarint(buf, uint64(p.ops[v]))
		put(p.asks[v], number)
	}
	return string(buf)
}
