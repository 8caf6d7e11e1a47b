package stripdown

import (
	"context"
	"math"
	"testing"
)

// The cars are as hard as they were found to be, no easy ones picked: see rivals.
const benchCars = 20

// BenchmarkLeast proves the least work for all jobs of one car.
func BenchmarkLeast(b *testing.B) {
	for _, size := range []struct {
		name    string
		choices int
	}{{"300 operations, 30 choices", 30}, {"300 operations, 40 choices", 40}} {
		b.Run(size.name, func(b *testing.B) {
			var problems []*problem
			for seed := range uint64(benchCars) {
				c := rivals(seed, 300, size.choices, 15).oneJob()
				problems = append(problems, c.graph(b).problem([]int{0}))
			}
			nodes := 0
			for i := 0; b.Loop(); i++ {
				s := newSearch(context.Background(), 300)
				s.within(problems[i%benchCars], math.MaxInt64)
				nodes += s.nodes
			}
			b.ReportMetric(float64(nodes)/float64(b.N), "nodes/op")
		})
	}
}

// BenchmarkPlan makes the whole plan for 15 jobs: together, each alone, what each adds, and the order.
func BenchmarkPlan(b *testing.B) {
	var graphs []*Graph
	var names []string
	for seed := range uint64(benchCars) {
		c := rivals(seed, 300, 40, 15)
		graphs, names = append(graphs, c.graph(b)), c.jobNames()
	}
	nodes := 0
	for i := 0; b.Loop(); i++ {
		nodes += mustPlan(b, graphs[i%benchCars], names...).Nodes
	}
	b.ReportMetric(float64(nodes)/float64(b.N), "nodes/op")
}
