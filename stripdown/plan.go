package stripdown

import (
	"context"
	"math"
	"slices"
)

// Plan is the least work for a set of jobs.
//
// Hours include the jobs' own work and count each operation once, off and on. Together is for all jobs at once,
// Apart the sum of each job by itself, Saved the difference.
type Plan struct {
	Together, Apart, Saved float64

	// Proven says that every figure here is the least there is. Otherwise the search was stopped; the figures are
	// those of the best plan found, and no plan takes fewer hours together than LowerBound.
	Proven     bool
	LowerBound float64
	Nodes      int // of the search, for all figures

	Jobs       []JobHours // in the order they were asked for
	Steps      []Step     // in the order off
	Off, On    []string   // operations in the order off, and on again
	People     int        // the most that any step takes; 0 without steps
	Conditions []string   // operations that are set up rather than taken off
	SingleUse  []Note     // in the order off
	Fluids     []string   // each named once, in the order lost
	Tighten    []Note     // in the order on
	Cautions   []Note     // in the order off
}

// JobHours tells what one job takes.
type JobHours struct {
	Name       string
	Work       float64  // at the work itself
	Adds       float64  // together less together without this job
	Alone      float64  // by itself
	Operations []string // that the job by itself takes, in an order in which they can come off
}

// Step is one operation of a plan.
type Step struct {
	Operation
	Depth int      // 0 for what can come off straight away, otherwise one more than the deepest that it waits for
	Jobs  []string // that lead to it
}

// Note is something to mind at an operation.
type Note struct{ Operation, Text string }

// Plan finds the least work for the named jobs, however long that takes. A job named twice counts once; a name
// that is no job is a *Fault.
func (g *Graph) Plan(jobs []string) (Plan, error) { return g.PlanContext(context.Background(), jobs) }

// PlanContext is Plan that returns the best found when ctx is done, which is then not proven.
func (g *Graph) PlanContext(ctx context.Context, jobs []string) (Plan, error) {
	wanted, err := g.wanted(jobs)
	if err != nil {
		return Plan{}, err
	}
	p := planner{Graph: g, search: newSearch(ctx, len(g.ops)), wanted: wanted}
	return p.plan(), nil
}

// wanted returns the named jobs, each once.
func (g *Graph) wanted(names []string) ([]int, error) {
	var wanted []int
	for _, name := range names {
		job := slices.IndexFunc(g.jobs, func(j Job) bool { return j.Name == name })
		if job < 0 {
			return nil, unknownJob(name, g.jobs)
		}
		if !slices.Contains(wanted, job) {
			wanted = append(wanted, job)
		}
	}
	return wanted, nil
}

// planner makes one plan.
type planner struct {
	*Graph
	*search
	wanted []int
}

func (p *planner) plan() Plan {
	var plan Plan
	alone := make([]answer, len(p.wanted))
	enough := newBitset(len(p.ops))
	var work, apart int64
	for i, job := range p.wanted {
		alone[i] = p.least([]int{job}, nil)
		enough.union(alone[i].ops)
		work += fromHours(p.jobs[job].Work)
		apart += p.nanohours(alone[i]) + fromHours(p.jobs[job].Work)
	}
	together := p.least(p.wanted, enough)
	for i, job := range p.wanted {
		others := slices.DeleteFunc(slices.Clone(p.wanted), func(other int) bool { return other == job })
		without := p.least(others, together.ops)
		own := fromHours(p.jobs[job].Work)
		plan.Jobs = append(plan.Jobs, JobHours{
			Name:       p.jobs[job].Name,
			Work:       toHours(own),
			Adds:       toHours(p.nanohours(together) - p.nanohours(without) + own),
			Alone:      toHours(p.nanohours(alone[i]) + own),
			Operations: p.listed(alone[i].ops),
		})
	}
	plan.Together = toHours(p.nanohours(together) + work)
	plan.Apart = toHours(apart)
	plan.Saved = toHours(apart - p.nanohours(together) - work)
	plan.LowerBound = toHours(together.least>>p.bits + work)
	plan.Proven, plan.Nodes = !p.stopped, p.nodes
	p.describe(&plan, together.ops)
	return plan
}

// nanohours are the hours in the cost of an answer.
func (g *Graph) nanohours(a answer) int64 { return a.cost >> g.bits }

// least finds the least set of operations for some jobs. A set known to be enough, if there is one, saves looking
// at worse ones, and is the answer if the search is stopped before it finds a better one.
func (p *planner) least(jobs []int, enough bitset) answer {
	if enough == nil {
		return p.within(p.problem(jobs), math.MaxInt64)
	}
	used := answer{ops: p.used(jobs, enough)}
	for op := range used.ops.all {
		used.cost += p.whole.cost[p.place[op]]
	}
	found := p.within(p.problem(jobs), used.cost)
	best := better(found, used)
	best.least = found.least
	return best
}

// problem asks for all that some jobs need.
func (g *Graph) problem(jobs []int) *problem {
	p := g.whole
	for _, job := range jobs {
		p.roots = append(p.roots, g.places(g.wants[job])...)
	}
	return &p
}

// used returns the part of a set of operations that some jobs lead to. Where several in the set meet a group, the
// first by name counts; what is in the least set is still all used, since it holds nothing to spare.
func (g *Graph) used(jobs []int, set bitset) bitset {
	used := newBitset(len(g.ops))
	var follow func(groups []group)
	follow = func(groups []group) {
		for _, members := range groups {
			op := members[slices.IndexFunc(members, set.has)]
			if !used.has(op) {
				used.add(op)
				follow(g.asks[op])
			}
		}
	}
	for _, job := range jobs {
		follow(g.wants[job])
	}
	return used
}

// listed names a set of operations in an order in which they can come off.
func (g *Graph) listed(set bitset) []string {
	var names []string
	for _, op := range g.whole.ops {
		if set.has(op) {
			names = append(names, g.ops[op].Name)
		}
	}
	return names
}

// describe fills in what the operations of a plan bring with them.
func (p *planner) describe(plan *Plan, set bitset) {
	s := newSequence(p.Graph, set)
	serves := make(map[int32][]string)
	for _, job := range p.wanted {
		for op := range p.used([]int{job}, set).all {
			serves[op] = append(serves[op], p.jobs[job].Name)
		}
	}
	order := s.order()
	depths := s.depths(order)
	for _, op := range order {
		step := Step{Operation: p.ops[op], Depth: depths[op], Jobs: serves[op]}
		plan.Steps = append(plan.Steps, step)
		plan.Off = append(plan.Off, step.Name)
		plan.People = max(plan.People, step.People, 1)
		if step.Condition {
			plan.Conditions = append(plan.Conditions, step.Name)
		}
		plan.SingleUse = append(plan.SingleUse, step.notes(step.SingleUse)...)
		plan.Cautions = append(plan.Cautions, step.notes(step.Cautions)...)
		for _, fluid := range step.Fluids {
			if !slices.Contains(plan.Fluids, fluid) {
				plan.Fluids = append(plan.Fluids, fluid)
			}
		}
	}
	for _, step := range slices.Backward(plan.Steps) {
		plan.On = append(plan.On, step.Name)
		plan.Tighten = append(plan.Tighten, step.notes(step.Tighten)...)
	}
}

func (o *Operation) notes(texts []string) []Note {
	notes := make([]Note, len(texts))
	for i, text := range texts {
		notes[i] = Note{o.Name, text}
	}
	return notes
}
