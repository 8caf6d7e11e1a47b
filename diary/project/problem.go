// Package project plans one project on scarce resources: activities of fixed length, what must come before what, and
// renewable resources of which only so much is there at any time. It looks for the plan that ends soonest and says
// below what end no plan can be.
//
// This is the resource-constrained project scheduling problem of the literature (PS | prec | Cmax). Times are whole
// numbers in any unit. The package is pure: no files, no clock; a context ends a search, a seed decides its course.
package project

import "fmt"

// Problem is one project. Activities and resources are numbered from 0.
type Problem struct {
	Durations  []int   // by activity, 0 or more
	Demands    [][]int // Demands[activity][resource], how much is held while the activity runs
	Successors [][]int // by activity, those that may not start before it has ended
	Capacities []int   // by resource
}

// The largest figures a problem may have: lanes of the resource grid are 16 bits wide, times 32.
const (
	LargestCapacity = 1<<15 - 1
	LargestSum      = 1 << 26
)

// Fault says what is wrong with a problem, and with which activity (-1 if with none in particular).
type Fault struct {
	Activity int
	Message  string
}

func (f *Fault) Error() string {
	if f.Activity < 0 {
		return "project: " + f.Message
	}
	return fmt.Sprintf("project: activity %d: %s", f.Activity, f.Message)
}

// Validate tells the first thing that makes the problem senseless or impossible, as a *Fault.
func (p *Problem) Validate() error {
	n := len(p.Durations)
	if len(p.Demands) != n || len(p.Successors) != n {
		return &Fault{-1, fmt.Sprintf("%d durations, %d rows of demands and %d lists of successors do not match", n, len(p.Demands), len(p.Successors))}
	}
	for r, c := range p.Capacities {
		if c < 0 || c > LargestCapacity {
			return &Fault{-1, fmt.Sprintf("resource %d has capacity %d; 0 to %d are possible", r, c, LargestCapacity)}
		}
	}
	sum := 0
	for i, d := range p.Durations {
		if fault := p.activityFault(i); fault != "" {
			return &Fault{i, fault}
		}
		if sum += d; sum > LargestSum {
			return &Fault{i, fmt.Sprintf("the durations add up to more than %d; take a coarser unit of time", LargestSum)}
		}
	}
	if _, i := p.sorted(); i >= 0 {
		return &Fault{i, "waits for itself through its successors"}
	}
	return nil
}

func (p *Problem) activityFault(i int) string {
	if p.Durations[i] < 0 || p.Durations[i] > LargestSum {
		return fmt.Sprintf("duration %d is not between 0 and %d", p.Durations[i], LargestSum)
	}
	if len(p.Demands[i]) != len(p.Capacities) {
		return fmt.Sprintf("%d demands for %d resources", len(p.Demands[i]), len(p.Capacities))
	}
	for r, need := range p.Demands[i] {
		if need < 0 || (need > p.Capacities[r] && p.Durations[i] > 0) {
			return fmt.Sprintf("needs %d of resource %d, of which there is %d", need, r, p.Capacities[r])
		}
	}
	for _, s := range p.Successors[i] {
		if s < 0 || s >= len(p.Durations) {
			return fmt.Sprintf("successor %d is not an activity; they are numbered 0 to %d", s, len(p.Durations)-1)
		}
	}
	return ""
}

// sorted lists the activities so that each comes after all it waits for; where that cannot be, it names an activity
// that waits for itself, else -1.
func (p *Problem) sorted() (order []int32, circular int) {
	waits := make([]int, len(p.Durations))
	for _, successors := range p.Successors {
		for _, s := range successors {
			waits[s]++
		}
	}
	for i, w := range waits {
		if w == 0 {
			order = append(order, int32(i))
		}
	}
	for k := 0; k < len(order); k++ {
		for _, s := range p.Successors[order[k]] {
			if waits[s]--; waits[s] == 0 {
				order = append(order, int32(s))
			}
		}
	}
	if len(order) == len(waits) {
		return order, -1
	}
	return nil, p.onCircle(waits)
}

// onCircle walks from an activity that still waits to one it waits for, until it meets one again.
func (p *Problem) onCircle(waits []int) int {
	before := make([]int, len(waits))
	at := -1
	for i, successors := range p.Successors {
		if waits[i] > 0 {
			at = i
			for _, s := range successors {
				before[s] = i
			}
		}
	}
	for range waits {
		at = before[at]
	}
	return at
}

// CriticalPath is the length of the longest chain of activities: no plan is shorter, whatever the resources.
func (p *Problem) CriticalPath() int {
	in := compile(p)
	return int(in.criticalPath())
}
