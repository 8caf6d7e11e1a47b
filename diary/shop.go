// Package diary plans a workshop's work: which car when, on which ramp, by whom, with which tool, waiting for which
// parts; what each car waits for; and a day that can be promised. It knows nothing of money, files or the clock.
//
// Times are whole minutes from the diary's beginning, which is now: nothing new starts before 0.
package diary

// Never stands for a part that nobody has promised, and for a promise that was not made.
const Never = int(^uint(0) >> 2)

// Span is a stretch of time, From included, To not.
type Span struct{ From, To int }

func (s Span) minutes() int         { return s.To - s.From }
func (s Span) overlaps(o Span) bool { return s.From < o.To && o.From < s.To }

// Shop is who and what there is to work with.
type Shop struct {
	People []Person
	Ramps  []Ramp
	Tools  []Tool
}

// Person works at the given hours, which are in order and apart: breaks, holidays and days off are the gaps.
type Person struct {
	Name   string
	Skills []string
	Hours  []Span
}

// Ramp is one place for a car; its kind says what can be done there.
type Ramp struct{ Name, Kind string }

// Tool is a special tool, of which there are so many.
type Tool struct {
	Name  string
	Count int
}

// Car is one car's work.
type Car struct {
	Name       string
	Arrives    int
	Promise    int     // when it is promised, or Never
	Weight     float64 // what an hour late costs against another car's; long projects have little
	StripEarly bool    // strip before all parts for the stay are there; else the parts come first
	Tasks      []Task
}

// Task is one operation.
type Task struct {
	Name        string
	Minutes     int     // likely length (the median); of work under way, what is left
	Spread      float64 // standard deviation of the logarithm of the length
	Skill       string  // what those who do it must be able to do
	People      int     // who are there all the time: 1 or 2
	Ramps       []string
	Tools       []string
	After       []string // tasks of this car that must have ended
	Parts       int      // when the last of its parts is there; 0: now
	Pauses      bool     // may be left overnight and over breaks
	Strips      string   // from here the car cannot roll ...
	Refits      string   // ... until here, by the same word
	Appointment int      // starts exactly then, or Never
	Under       *Under   // under way already
}

// Under says who is at work under way and on which ramp. It cannot be moved.
type Under struct {
	People []string
	Ramp   string
}

// Plan is when everything happens. Tasks are in the order of their starts.
type Plan struct {
	Tasks     []Placed
	Stays     []Stay
	Cars      []Outcome
	Faults    []Fault
	End       int
	Bound     int     // no plan ends sooner
	Late      float64 // weighted lateness, minutes
	LateBound float64 // no plan has less
	Moved     int     // minutes of starts moved against the plan before, when planning anew
	Rounds    int
}

// Placed is a task with its place in the plan.
type Placed struct {
	Car, Task string
	Span
	People []string
	Ramp   string // empty: anywhere
}

// Stay is a car on a ramp, whether or not anybody works at it.
type Stay struct {
	Car, Ramp string
	Span
	Stripped bool
}

// Outcome is a car's answer.
type Outcome struct {
	Name  string
	Span         // from the first task's start to the last one's end
	Late  int    // minutes
	Bound int    // it cannot be ready sooner, even alone
	Waits []Wait // from its end back: what waited for what
}

// Fault is what keeps a car from being planned, or what its owner must be told.
type Fault struct {
	Car, Task string
	Message   string
	Planned   bool // the car is planned all the same
}

func (f Fault) Error() string {
	if f.Task == "" {
		return f.Car + ": " + f.Message
	}
	return f.Car + ", " + f.Task + ": " + f.Message
}
