package stripdown

import (
	"cmp"
	"slices"
)

// group is a list of places of which at least one must be taken, rising.
type group []int32

// contains reports whether sorted group a has all members of sorted group b.
func (a group) contains(b group) bool {
	i := 0
	for _, member := range b {
		for i < len(a) && a[i] < member {
			i++
		}
		if i == len(a) || a[i] != member {
			return false
		}
	}
	return true
}

// fewest orders groups by size, then members, so that a group stands before whichever contain it.
func fewest(a, b group) int {
	return cmp.Or(cmp.Compare(len(a), len(b)), slices.Compare(a, b))
}
