package stripdown

// Kind says what is wrong with a graph or with what is asked of it.
type Kind string

const (
	NoName        Kind = "no name"        // an operation or a job without a name
	DuplicateName Kind = "duplicate name" // two operations, or two jobs, of one name
	BadHours      Kind = "bad hours"      // hours below nought, not a number, or too many to count
	BadPeople     Kind = "bad people"     // fewer than no people
	UnknownName   Kind = "unknown name"   // a need that names nothing known
	Unmet         Kind = "unmet need"     // a need that no operation can meet: it names a job
	EmptyGroup    Kind = "empty group"    // an any-of group without a name in it
	SelfNeed      Kind = "self need"      // an operation that needs itself
	Cycle         Kind = "cycle"          // operations that wait for one another
	UnknownJob    Kind = "unknown job"    // a job was asked for that does not exist
)

// Fault is what is wrong, and where, so that a caller can point at the line.
type Fault struct {
	Kind      Kind
	In        string   // "operation" or "job"
	Name      string   // of the operation or job that is at fault
	Key       string   // the part of it at fault: "name", "off", "on", "work", "people", "needs" or "any_of"
	Reference string   // the name that it gives, where it gives a wrong one
	Nearest   string   // the known name nearest to Reference, or empty
	Loop      []string // for a Cycle: the operations in a ring, the first again at the end
	Message   string   // the whole in one sentence
}

func (f *Fault) Error() string { return f.Message }
