package stripdown

import (
	"slices"
	"strings"
)

// Graph is the access graph of one car: what can come off, and what each job needs.
type Graph struct {
	ops   []Operation // by name; an operation's number is its place here
	given []int32     // numbers of the operations as they were given
	jobs  []Job
	asks  [][]group // what each operation asks for, by number
	wants [][]group // what each job asks for, by number
	whole problem   // all operations; jobs add the roots
	place []int32   // of each operation in whole
	bits  int       // of a cost, for the count of operations
}

// New checks operations and jobs and joins them to a graph. What is wrong with them comes back as a *Fault, or as
// several joined (see errors.Join).
func New(ops []Operation, jobs []Job) (*Graph, error) {
	if err := check(ops, jobs); err != nil {
		return nil, err
	}
	g := &Graph{ops: slices.Clone(ops), jobs: slices.Clone(jobs), bits: countBits(len(ops))}
	slices.SortFunc(g.ops, func(a, b Operation) int { return strings.Compare(a.Name, b.Name) })
	for _, op := range ops {
		g.given = append(g.given, g.number(op.Name))
	}
	for _, op := range g.ops {
		g.asks = append(g.asks, g.asked(op.Needs, op.AnyOf))
	}
	for _, job := range jobs {
		g.wants = append(g.wants, g.asked(job.Needs, job.AnyOf))
	}
	if err := g.link(); err != nil {
		return nil, err
	}
	return g, nil
}

// number returns the number of the operation with a known name.
func (g *Graph) number(name string) int32 {
	i, _ := slices.BinarySearchFunc(g.ops, name, func(op Operation, name string) int { return strings.Compare(op.Name, name) })
	return int32(i)
}

// asked turns needs and groups into groups of numbers: a plain need is a group of one.
func (g *Graph) asked(needs []string, anyOf [][]string) []group {
	groups := make([]group, 0, len(needs)+len(anyOf))
	for _, need := range needs {
		groups = append(groups, group{g.number(need)})
	}
	for _, names := range anyOf {
		members := make(group, len(names))
		for i, name := range names {
			members[i] = g.number(name)
		}
		slices.Sort(members)
		groups = append(groups, slices.Compact(members))
	}
	return groups
}

// link lays all operations out in one problem, each after whatever it asks for.
func (g *Graph) link() error {
	order, loop := inOrder(g.asks)
	if loop != nil {
		names := make([]string, len(loop))
		for i, op := range loop {
			names[i] = g.ops[op].Name
		}
		key := "needs"
		if !slices.Contains(g.ops[loop[0]].Needs, names[1]) {
			key = "any_of"
		}
		return loopFault(names, key)
	}
	g.place = make([]int32, len(order))
	for place, op := range order {
		g.place[op] = int32(place)
	}
	g.whole = problem{ops: order, asks: make([][]group, len(order)), cost: make([]int64, len(order))}
	for place, op := range order {
		g.whole.asks[place] = g.places(g.asks[op])
		g.whole.cost[place] = g.hours(op)<<g.bits + 1
	}
	return nil
}

// hours are the nanohours that an operation takes off and on.
func (g *Graph) hours(op int32) int64 { return fromHours(g.ops[op].Off) + fromHours(g.ops[op].On) }

// places turns groups of operations into groups of their places in the whole.
func (g *Graph) places(groups []group) []group {
	placed := make([]group, len(groups))
	for i, members := range groups {
		for _, op := range members {
			placed[i] = append(placed[i], g.place[op])
		}
		slices.Sort(placed[i])
	}
	return placed
}

// inOrder lists the operations so that each stands after all that it asks for. If they wait for one another it
// returns a ring of them instead, the first again at the end.
func inOrder(asks [][]group) (order, loop []int32) {
	const (
		unseen = iota
		open
		done
	)
	state := make([]byte, len(asks))
	var path []int32
	var visit func(op int32) bool
	visit = func(op int32) bool {
		switch state[op] {
		case done:
			return true
		case open:
			loop = append(slices.Clone(path[slices.Index(path, op):]), op)
			return false
		}
		state[op] = open
		path = append(path, op)
		for _, members := range asks[op] {
			for _, member := range members {
				if !visit(member) {
					return false
				}
			}
		}
		path = path[:len(path)-1]
		state[op] = done
		order = append(order, op)
		return true
	}
	for op := range asks {
		if !visit(int32(op)) {
			return nil, loop
		}
	}
	return order, nil
}
