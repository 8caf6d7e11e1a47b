package psplib

import (
	"math"
	"math/rand/v2"

	"layshaft/diary/project"
)

// Design says what projects to make, by the published parameters of the library's generator (Kolisch, Sprecher,
// Drexl 1995, from memory): J30, J60 and J90 take every combination of complexity 1.5, 1.8, 2.1, factor 0.25 .. 1.0
// and strength 0.2, 0.5, 0.7, 1.0; J120 has strength 0.1 .. 0.5.
type Design struct {
	Jobs       int     // without source and sink
	Resources  int     // usually 4
	Complexity float64 // NC, arcs a node
	Factor     float64 // RF, the part of the resources that an activity needs on average
	Strength   float64 // RS, 0 scarcest, 1 no conflict in the earliest plan
}

// Generate makes one project, source first and sink last. It follows the generator's steps, not its very numbers:
// projects of the same design are alike in difficulty, but none is one of the library's.
func Generate(d Design, seed uint64) *project.Problem {
	rng := rand.New(rand.NewPCG(seed, uint64(d.Jobs)))
	n := d.Jobs + 2
	p := &project.Problem{Durations: make([]int, n), Demands: make([][]int, n), Successors: make([][]int, n)}
	for i := range n {
		p.Demands[i] = make([]int, d.Resources)
		if i > 0 && i < n-1 {
			p.Durations[i] = 1 + rng.IntN(10)
		}
	}
	network(p, d, rng)
	requests(p, d, rng)
	capacities(p, d)
	return p
}

const (
	mostLinks = 3 // successors, predecessors, starts and ends, as the library had them
)

// network gives every activity a predecessor and a successor, then adds links that no chain implies until the
// complexity is reached.
func network(p *project.Problem, d Design, rng *rand.Rand) {
	n := d.Jobs + 2
	before := make([]int, n)
	reach := make([][]bool, n) // reach[i][j]: j comes after i
	for i := range reach {
		reach[i] = make([]bool, n)
	}
	links := 0
	link := func(i, j int) {
		p.Successors[i] = append(p.Successors[i], j)
		before[j]++
		links++
		for a := range n {
			if a == i || reach[a][i] {
				for b := range n {
					if b == j || reach[j][b] {
						reach[a][b] = true
					}
				}
			}
		}
	}
	redundant := func(i, j int) bool { // would the link be implied, or make another implied?
		if reach[i][j] || reach[j][i] {
			return true
		}
		for a := range n {
			for _, b := range p.Successors[a] {
				if (a == i || reach[a][i]) && (b == j || reach[j][b]) {
					return true
				}
			}
		}
		return false
	}
	for j := 1; j <= mostLinks; j++ {
		link(0, j)
	}
	for j := mostLinks + 1; j <= d.Jobs; j++ {
		for tries := 0; ; tries++ {
			i := 1 + rng.IntN(j-1)
			if j > d.Jobs-mostLinks {
				i = 1 + rng.IntN(d.Jobs-mostLinks)
			}
			if len(p.Successors[i]) < mostLinks || tries > 50*n {
				link(i, j)
				break
			}
		}
	}
	for i := 1; i <= d.Jobs-mostLinks; i++ {
		for tries := 0; len(p.Successors[i]) == 0; tries++ {
			j := i + 1 + rng.IntN(d.Jobs-i)
			if (before[j] < mostLinks && !redundant(i, j)) || tries > 50*n {
				link(i, j)
			}
		}
	}
	for i := d.Jobs - mostLinks + 1; i <= d.Jobs; i++ {
		link(i, d.Jobs+1)
	}
	for tries := 0; float64(links) < d.Complexity*float64(n) && tries < 400*n; tries++ {
		i := 1 + rng.IntN(d.Jobs-mostLinks)
		j := i + 1 + rng.IntN(d.Jobs-i)
		if len(p.Successors[i]) < mostLinks && before[j] < mostLinks && !redundant(i, j) {
			link(i, j)
		}
	}
}

// requests draws which resources an activity needs, at least one, and how much, 1 to 10.
func requests(p *project.Problem, d Design, rng *rand.Rand) {
	wanted := int(math.Round(d.Factor * float64(d.Jobs*d.Resources)))
	given := 0
	for i := 1; i <= d.Jobs; i++ {
		p.Demands[i][rng.IntN(d.Resources)] = 1 + rng.IntN(10)
		given++
	}
	for given < wanted {
		i, r := 1+rng.IntN(d.Jobs), rng.IntN(d.Resources)
		if p.Demands[i][r] == 0 {
			p.Demands[i][r] = 1 + rng.IntN(10)
			given++
		}
	}
}

// capacities lie between the largest single demand and the peak of the earliest plan, by the strength.
func capacities(p *project.Problem, d Design) {
	p.Capacities = make([]int, d.Resources)
	start, horizon := earliest(p)
	for r := range p.Capacities {
		largest := 0
		use := make([]int, horizon+1)
		for i, t := range start {
			largest = max(largest, p.Demands[i][r])
			for u := t; u < t+p.Durations[i]; u++ {
				use[u] += p.Demands[i][r]
			}
		}
		peak := 0
		for _, u := range use {
			peak = max(peak, u)
		}
		p.Capacities[r] = largest + int(math.Round(d.Strength*float64(peak-largest)))
	}
}

// earliest starts everything as soon as its predecessors end. Links lead from lower numbers to higher ones here.
func earliest(p *project.Problem) (start []int, end int) {
	start = make([]int, len(p.Durations))
	for i, successors := range p.Successors {
		for _, s := range successors {
			start[s] = max(start[s], start[i]+p.Durations[i])
		}
		end = max(end, start[i]+p.Durations[i])
	}
	return start, end
}
