package picture

import (
	"math"
	"slices"
)

// stripPlan is the strip with its layers worked out.
type stripPlan struct {
	Strip
	layer       []int          // of each operation: 0 is the outside
	layers      [][]int        // operations in each layer, from top to bottom
	order       []int          // jobs from top to bottom
	serves      [][]int        // the jobs that each operation serves
	index       map[string]int // operations by key
	most        float64        // hours of the longest operation
	opAt, jobAt []Point        // where links arrive
}

func (s Strip) plan() *stripPlan {
	p := &stripPlan{Strip: s, index: map[string]int{}, opAt: make([]Point, len(s.Ops)), jobAt: make([]Point, len(s.Jobs))}
	for i, op := range s.Ops {
		p.index[op.Key] = i
		p.most = math.Max(p.most, length(op.Hours))
	}
	p.findLayers()
	p.findServed()
	p.arrange()
	return p
}

// findLayers puts every operation one layer further in than the deepest that it needs. The number of rounds is held
// to the number of operations, so that a circle in the needs ends too.
func (p *stripPlan) findLayers() {
	p.layer = make([]int, len(p.Ops))
	for range p.Ops {
		for i, op := range p.Ops {
			for _, j := range p.known(op.Needs) {
				if j != i {
					p.layer[i] = min(len(p.Ops)-1, max(p.layer[i], p.layer[j]+1))
				}
			}
		}
	}
	deepest := 0
	for _, l := range p.layer {
		deepest = max(deepest, l)
	}
	p.sinkLayers(deepest)
	p.layers = make([][]int, deepest+1)
	for i, l := range p.layer {
		p.layers[l] = append(p.layers[l], i)
	}
	p.layers = slices.DeleteFunc(p.layers, func(ops []int) bool { return len(ops) == 0 })
}

// sinkLayers moves every operation as near to the work as what follows it allows, which keeps the links short. What
// needs nothing else stays outside.
func (p *stripPlan) sinkLayers(deepest int) {
	room := slices.Repeat([]int{deepest}, len(p.Ops))
	for l := deepest; l > 0; l-- {
		for i, op := range p.Ops {
			if p.layer[i] != l {
				continue
			}
			p.layer[i] = max(l, room[i])
			for _, j := range p.known(op.Needs) {
				room[j] = min(room[j], p.layer[i]-1)
			}
		}
	}
}

// direct are the needs that have to be drawn: those that no other need brings with it already.
func (p *stripPlan) direct(needs []string) []int {
	all := p.known(needs)
	return slices.DeleteFunc(slices.Clone(all), func(i int) bool {
		return slices.ContainsFunc(all, func(j int) bool { return j != i && p.reach(p.Ops[j].Needs)[i] && !p.reach(p.Ops[i].Needs)[j] })
	})
}

// reach tells which operations needs lead to, directly or through others.
func (p *stripPlan) reach(needs []string) []bool {
	seen := make([]bool, len(p.Ops))
	next := p.known(needs)
	for len(next) > 0 {
		i := next[0]
		next = next[1:]
		if !seen[i] {
			seen[i] = true
			next = append(next, p.known(p.Ops[i].Needs)...)
		}
	}
	return seen
}

// known are the operations named by keys; others are left out.
func (p *stripPlan) known(keys []string) []int {
	var out []int
	for _, k := range keys {
		if i, ok := p.index[k]; ok {
			out = append(out, i)
		}
	}
	return out
}

// findServed follows every job's needs outwards.
func (p *stripPlan) findServed() {
	p.serves = make([][]int, len(p.Ops))
	for j, job := range p.Jobs {
		for i, reached := range p.reach(job.Needs) {
			if reached {
				p.serves[i] = append(p.serves[i], j)
			}
		}
	}
}

// arrange orders each layer, and the jobs, by the middle height of what they need, which keeps the links short.
func (p *stripPlan) arrange() {
	height := make([]float64, len(p.Ops))
	middle := func(needs []string, fallback float64) float64 {
		sum, n := 0.0, 0.0
		for _, i := range p.known(needs) {
			sum, n = sum+height[i], n+1
		}
		if n == 0 {
			return fallback
		}
		return sum / n
	}
	for _, ops := range p.layers {
		wanted := make([]float64, len(ops))
		for k, i := range ops {
			wanted[k] = middle(p.Ops[i].Needs, float64(k)/float64(len(ops)))
		}
		sorted := make([]int, len(ops))
		for k, from := range rising(wanted) {
			sorted[k] = ops[from]
			height[ops[from]] = (float64(k) + 0.5) / float64(len(ops))
		}
		copy(ops, sorted)
	}
	wanted := make([]float64, len(p.Jobs))
	for j, job := range p.Jobs {
		wanted[j] = middle(job.Needs, 0.5)
	}
	p.order = rising(wanted)
}
