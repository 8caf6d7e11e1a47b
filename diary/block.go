package diary

import "slices"

// block is what is placed together: one task, or all that lies between stripping a car and refitting it, which must
// be on one ramp that is held all the while.
type block struct {
	car        int
	tasks      []int // of the car, each after those it waits for
	onRamp     bool
	ramps      []int // that serve all of it
	stripped   bool
	disordered bool // something is refitted before it is stripped
}

// blocksOf parts a car's tasks into blocks.
func blocksOf(shop *Shop, car *Car) []block {
	n := len(car.Tasks)
	order, reach := waits(car)
	group := make([]int, n) // the first task of the group
	for i := range group {
		group[i] = i
	}
	disordered := false
	for a := range car.Tasks {
		for b := range car.Tasks {
			if word := car.Tasks[a].Strips; word != "" && word == car.Tasks[b].Refits {
				disordered = disordered || (a != b && !reach[a][b])
				merge(group, a, b)
			}
		}
	}
	for widen(car, group, reach) {
	}
	var blocks []block
	at := map[int]int{}
	for _, i := range order {
		k, there := at[group[i]]
		if !there {
			k = len(blocks)
			at[group[i]] = k
			blocks = append(blocks, block{})
		}
		b := &blocks[k]
		b.tasks = append(b.tasks, i)
		if t := &car.Tasks[i]; len(t.Ramps) > 0 {
			ramps := shop.rampsOf(t.Ramps)
			if b.onRamp {
				ramps = slices.DeleteFunc(ramps, func(r int) bool { return !slices.Contains(b.ramps, r) })
			}
			b.onRamp, b.ramps = true, ramps
			b.stripped = b.stripped || t.Strips != ""
		}
	}
	for k := range blocks {
		blocks[k].disordered = disordered && blocks[k].stripped
	}
	return blocks
}

// waits lists the tasks so that each comes after those it waits for, and tells which come after which.
func waits(car *Car) (order []int, reach [][]bool) {
	n := len(car.Tasks)
	at := map[string]int{}
	for i, t := range car.Tasks {
		at[t.Name] = i
	}
	reach = make([][]bool, n)
	for i := range reach {
		reach[i] = make([]bool, n)
	}
	placed := make([]bool, n)
	for len(order) < n {
		for i, t := range car.Tasks {
			if placed[i] || slices.ContainsFunc(t.After, func(name string) bool { return !placed[at[name]] }) {
				continue
			}
			placed[i] = true
			order = append(order, i)
			for _, name := range t.After {
				for a := range n {
					reach[a][i] = reach[a][i] || a == at[name] || reach[a][at[name]]
				}
			}
		}
	}
	return order, reach
}

func merge(group []int, a, b int) {
	from, to := group[b], group[a]
	for i, g := range group {
		if g == from {
			group[i] = to
		}
	}
}

// widen takes into a group of several what lies between two of its tasks, and puts together two such groups of which
// neither comes wholly after the other. It tells whether there was any.
func widen(car *Car, group []int, reach [][]bool) bool {
	size := map[int]int{}
	for _, g := range group {
		size[g]++
	}
	strips := func(g int) bool {
		return size[g] > 1 || car.Tasks[g].Strips != ""
	}
	for a := range group {
		if !strips(group[a]) {
			continue
		}
		for m := range group {
			if group[m] == group[a] {
				continue
			}
			for b := range group {
				if group[b] == group[a] && reach[a][m] && reach[m][b] {
					merge(group, a, m)
					return true
				}
			}
			if strips(group[m]) && !apart(group, reach, group[a], group[m]) {
				merge(group, a, m)
				return true
			}
		}
	}
	return false
}

// apart tells whether all of one group come before all that strip or refit of the other, or the other way about.
func apart(group []int, reach [][]bool, g, h int) bool {
	before := func(g, h int) bool {
		for a := range group {
			for b := range group {
				if group[a] == g && group[b] == h && reach[b][a] {
					return false
				}
			}
		}
		for a := range group {
			for b := range group {
				if group[a] == g && group[b] == h && reach[a][b] {
					return true
				}
			}
		}
		return false
	}
	return before(g, h) || before(h, g)
}
