// Package stripdown works out the least that must come off a car to reach a set of jobs.
//
// A car is a graph of operations: each has hours to take off and hours to put back, operations that must all be
// done before it (needs), and groups of which at least one must be done before it (any of). Jobs ask for
// operations in the same way and add hours of their own. For the jobs that are wanted the package finds the
// operations that cost the fewest hours, each counted once, and proves that there is nothing less; it tells what
// each job adds to the others, in which order things come off and go back, and what to mind on the way.
//
// Some graphs are hard: choices that share what they need cannot be made one by one. The search gives its proof
// in milliseconds for cars of hundreds of operations and tens of choices, but nothing bounds it, so whatever waits
// for an answer should use PlanContext.
//
// The package knows nothing of files, money or people's names. A Graph does not change after New and may be used
// by several goroutines at once.
package stripdown

// Operation is one thing that is taken off and put back, or one condition that is set up and undone.
type Operation struct {
	Name      string
	Condition bool       // set up rather than taken off: raised on the ramp, engine supported, battery off
	Off, On   float64    // hours to take off and to put back
	Needs     []string   // operations that must all be done first
	AnyOf     [][]string // groups of operations; at least one of each group must be done first
	Place     string     // where one stands: engine bay, under the car, wheel, cabin; empty for anywhere
	People    int        // how many it takes; 0 is taken as 1
	SingleUse []string   // fasteners and seals that are not used again
	Fluids    []string   // fluids lost
	Tighten   []string   // tightening notes for the refit
	Cautions  []string   // what can hurt people or parts at this step
}

// Job is a piece of work that somebody wants done, and what has to be out of its way.
type Job struct {
	Name  string
	Work  float64    // hours at the work itself
	Needs []string   // operations, all of them
	AnyOf [][]string // groups of operations, at least one of each
}
