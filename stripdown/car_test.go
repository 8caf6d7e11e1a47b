package stripdown

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"

	"pgregory.net/rapid"
)

// failer is what tests, benchmarks and property checks have in common.
type failer interface {
	Helper()
	Errorf(string, ...any)
	Fatal(...any)
}

// car is a set of operations and jobs made up for a test.
type car struct {
	ops  []Operation
	jobs []Job
}

func (c car) graph(t failer) *Graph {
	t.Helper()
	g, err := New(c.ops, c.jobs)
	if err != nil {
		t.Fatal(err)
	}
	return g
}

func (c car) jobNames() []string {
	names := make([]string, len(c.jobs))
	for i, job := range c.jobs {
		names[i] = job.Name
	}
	return names
}

// smallCars draws cars of up to 14 operations, given in any order, with hours coarse enough for many ties.
func smallCars(t *rapid.T) car {
	n := rapid.IntRange(1, 14).Draw(t, "operations")
	names := rapid.Permutation([]string{"a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k", "l", "m", "n"}).Draw(t, "names")[:n]
	hours := rapid.Custom(func(t *rapid.T) float64 { return float64(rapid.IntRange(0, 5).Draw(t, "tenths")) / 10 })
	place := rapid.SampledFrom([]string{"", "engine bay", "under the car", "wheel"})
	asks := func(below int, most int) (needs []string, anyOf [][]string) {
		if below == 0 {
			return nil, nil
		}
		some := rapid.SampledFrom(names[:below])
		needs = rapid.SliceOfN(some, 0, most).Draw(t, "needs")
		anyOf = rapid.SliceOfN(rapid.SliceOfN(some, 1, 4), 0, 2).Draw(t, "any of")
		return needs, anyOf
	}
	var c car
	for i, name := range names {
		op := Operation{Name: name, Off: hours.Draw(t, "off"), On: hours.Draw(t, "on"), Place: place.Draw(t, "place")}
		op.Needs, op.AnyOf = asks(i, 1)
		c.ops = append(c.ops, op)
	}
	for i := range rapid.IntRange(1, 4).Draw(t, "jobs") {
		job := Job{Name: fmt.Sprintf("job %d", i), Work: hours.Draw(t, "work")}
		job.Needs, job.AnyOf = asks(n, 1)
		c.jobs = append(c.jobs, job)
	}
	c.ops = rapid.Permutation(c.ops).Draw(t, "order given")
	return c
}

// rivals invents a car that is hard to plan for: a third of the operations form the outer layers, a third are
// rivals that need a few of those, and a third lead to the jobs and offer choices between rivals. Nothing that
// the rivals need is certain, rivals share what they need, and the choices share rivals, so that no choice can be
// made by itself. Hours come in steps of 0.05 so that ties are common.
func rivals(seed uint64, operations, choices, jobs int) car {
	random := rand.New(rand.NewPCG(seed, 0))
	places := []string{"engine bay", "under the car", "wheel", "cabin"}
	outer, inner := operations/3, operations*2/3
	ops, list := make([]Operation, operations), make([]Job, jobs)
	hours := func(most int) float64 { return float64(1+random.IntN(most)) / 20 }
	pick := func(n, lo, hi int) []string {
		names := make([]string, n)
		for i := range names {
			names[i] = ops[lo+random.IntN(hi-lo)].Name
		}
		return names
	}
	for i := range ops {
		ops[i] = Operation{Name: fmt.Sprintf("op%03d", i), Off: hours(20), On: hours(20), Place: places[random.IntN(len(places))]}
		switch {
		case i >= outer/2 && i < outer:
			ops[i].Needs = pick(1, 0, outer/2)
		case i >= outer && i < inner:
			ops[i].Needs = pick(2+random.IntN(2), 0, outer)
		case i > inner:
			ops[i].Needs = pick(1, max(inner, i-3), i)
		}
	}
	for c := range choices {
		i, group := inner+c*(operations-inner)/choices, pick(3+random.IntN(2), outer, inner)
		if c%4 == 3 { // a choice within a choice
			i, group = outer+random.IntN(inner-outer), pick(3, 0, outer)
		}
		ops[i].AnyOf = append(ops[i].AnyOf, group)
	}
	for j := range list {
		reach := inner + (j+1)*(operations-inner)/jobs
		list[j] = Job{Name: fmt.Sprintf("job%02d", j), Work: hours(40), Needs: slices.Concat(pick(1, max(inner, reach-10), reach), pick(1, inner, reach))}
	}
	return car{ops, list}
}

// leastByTrial tries every set of operations and returns the cheapest that is enough for the named jobs: fewest
// hours (operations only), then fewest operations, then first by name. It shares nothing with the package.
func leastByTrial(c car, jobs []string) (hundredths int, names []string) {
	ops := slices.SortedFunc(slices.Values(c.ops), func(a, b Operation) int { return strings.Compare(a.Name, b.Name) })
	bit := make(map[string]uint)
	for i, op := range ops {
		bit[op.Name] = 1 << i
	}
	masks := func(needs []string, anyOf [][]string) []uint { // a set is enough if it has a bit of each
		var masks []uint
		for _, need := range needs {
			masks = append(masks, bit[need])
		}
		for _, group := range anyOf {
			mask := uint(0)
			for _, name := range group {
				mask |= bit[name]
			}
			masks = append(masks, mask)
		}
		return masks
	}
	met := func(set uint, masks []uint) bool {
		return !slices.ContainsFunc(masks, func(mask uint) bool { return set&mask == 0 })
	}
	asks, cost := make([][]uint, len(ops)), make([]int, len(ops))
	for i, op := range ops {
		asks[i], cost[i] = masks(op.Needs, op.AnyOf), int(math.Round(op.Off*100)+math.Round(op.On*100))
	}
	var wanted []uint
	for _, job := range c.jobs {
		if slices.Contains(jobs, job.Name) {
			wanted = append(wanted, masks(job.Needs, job.AnyOf)...)
		}
	}
	hundredths = -1
	for set := range uint(1) << len(ops) {
		enough, sum := met(set, wanted), 0
		for i := 0; i < len(ops) && enough; i++ {
			if set&(1<<i) != 0 {
				enough = met(set, asks[i])
				sum += cost[i]
			}
		}
		if !enough || hundredths >= 0 && sum > hundredths {
			continue
		}
		var chosen []string
		for i, op := range ops {
			if set&(1<<i) != 0 {
				chosen = append(chosen, op.Name)
			}
		}
		if hundredths < 0 || sum < hundredths || len(chosen) < len(names) || len(chosen) == len(names) && slices.Compare(chosen, names) < 0 {
			hundredths, names = sum, chosen
		}
	}
	return hundredths, names
}

func mustPlan(t failer, g *Graph, jobs ...string) Plan {
	t.Helper()
	plan, err := g.Plan(jobs)
	if err != nil {
		t.Fatal(err)
	}
	return plan
}

// near allows for the rounding of hours to a millionth, no more.
func near(a, b float64) bool { return math.Abs(a-b) < 1.5e-6 }

// work is the sum of the jobs' own hours.
func (c car) work() float64 {
	var work float64
	for _, job := range c.jobs {
		work += job.Work
	}
	return work
}
