// Package check looks whether a plan keeps all the rules. It shares no code with the planner, so that a mistake in
// one does not hide in the other: it goes by the definition, minute by minute, and does not try to be fast.
package check

import (
	"fmt"

	"layshaft/diary/project"
)

// Project lists all that is wrong with the starts as a plan of the problem, and when the plan ends.
func Project(p *project.Problem, starts []int) (end int, wrong []string) {
	if len(starts) != len(p.Durations) {
		return 0, []string{fmt.Sprintf("%d starts for %d activities", len(starts), len(p.Durations))}
	}
	for i, t := range starts {
		if t < 0 {
			wrong = append(wrong, fmt.Sprintf("activity %d starts at %d, before the project", i, t))
		}
		end = max(end, t+p.Durations[i])
		for _, s := range p.Successors[i] {
			if starts[s] < t+p.Durations[i] {
				wrong = append(wrong, fmt.Sprintf("activity %d starts at %d, before activity %d ends at %d", s, starts[s], i, t+p.Durations[i]))
			}
		}
	}
	for now := range end {
		for r, capacity := range p.Capacities {
			held := 0
			for i, t := range starts {
				if t <= now && now < t+p.Durations[i] {
					held += p.Demands[i][r]
				}
			}
			if held > capacity {
				wrong = append(wrong, fmt.Sprintf("at %d, %d of resource %d are held and there are %d", now, held, r, capacity))
			}
		}
	}
	return end, wrong
}
