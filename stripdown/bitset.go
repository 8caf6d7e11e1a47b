package stripdown

import "math/bits"

// bitset is a set of small numbers. All sets that meet in one operation are of one length.
type bitset []uint64

func newBitset(n int) bitset { return make(bitset, (n+63)/64) }

// bitsets makes many sets of numbers below n in one piece of memory.
func bitsets(many, n int) []bitset {
	words := (n + 63) / 64
	all, sets := make(bitset, many*words), make([]bitset, many)
	for i := range sets {
		sets[i] = all[i*words : (i+1)*words : (i+1)*words]
	}
	return sets
}

func (s bitset) has(i int32) bool { return s[i>>6]&(1<<(i&63)) != 0 }
func (s bitset) add(i int32)      { s[i>>6] |= 1 << (i & 63) }
func (s bitset) remove(i int32)   { s[i>>6] &^= 1 << (i & 63) }

func (s bitset) union(t bitset) {
	for i, w := range t {
		s[i] |= w
	}
}

func (s bitset) intersect(t bitset) {
	for i := range s {
		s[i] &= t[i]
	}
}

func (s bitset) subtract(t bitset) {
	for i, w := range t {
		s[i] &^= w
	}
}

// holds reports whether all of t is in s.
func (s bitset) holds(t bitset) bool {
	for i, w := range t {
		if w&^s[i] != 0 {
			return false
		}
	}
	return true
}

// meets reports whether the set has a member of a group.
func (s bitset) meets(members group) bool {
	for _, v := range members {
		if s.has(v) {
			return true
		}
	}
	return false
}

// meetsAll reports whether the set has a member of every group.
func (s bitset) meetsAll(groups []group) bool {
	for _, members := range groups {
		if !s.meets(members) {
			return false
		}
	}
	return true
}

func (s bitset) addAll(members group) {
	for _, v := range members {
		s.add(v)
	}
}

func (s bitset) count() int {
	n := 0
	for _, w := range s {
		n += bits.OnesCount64(w)
	}
	return n
}

func (s bitset) touches(t bitset) bool {
	for i, w := range t {
		if s[i]&w != 0 {
			return true
		}
	}
	return false
}

// last is the largest number in the set, -1 if it is empty.
func (s bitset) last() int32 {
	for i := len(s) - 1; i >= 0; i-- {
		if s[i] != 0 {
			return int32(i<<6 + bits.Len64(s[i]) - 1)
		}
	}
	return -1
}

// all yields the numbers in the set, rising.
func (s bitset) all(yield func(int32) bool) {
	for i, w := range s {
		for ; w != 0; w &= w - 1 {
			if !yield(int32(i<<6 + bits.TrailingZeros64(w))) {
				return
			}
		}
	}
}

// before reports whether s holds the smallest number that only one of the two holds. Among sets of names in
// order it is the one that would stand first in a list.
func (s bitset) before(t bitset) bool {
	for i, w := range s {
		if d := w ^ t[i]; d != 0 {
			return w&(d&-d) != 0
		}
	}
	return false
}
