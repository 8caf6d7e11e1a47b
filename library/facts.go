package library

import (
	"fmt"
	"slices"
)

// Facts are what conditions are held against: plain values worked out for one car.
type Facts struct {
	Odometer      float64           // m; 0 where not known
	Clutch        map[string]string // verdict on each clutch candidate: holds, thin or slips
	FittedClutch  string            // name of the candidate that is in the car; empty where none is given
	Release       map[string]string // verdict on each set of release parts with the new clutch: frees, drags, over-travels or bottoms
	FittedRelease string
}

// NotKnown says which fact a condition asks for that nobody has given. It is neither yes nor no: the shop has to
// find out.
type NotKnown struct{ Condition, Fact string }

func (e *NotKnown) Error() string {
	return fmt.Sprintf("%q cannot be judged: %s", e.Condition, e.Fact)
}

// Holds reports whether the condition is met. Where a fact is missing the error is a *NotKnown.
func (c Condition) Holds(f Facts) (bool, error) {
	switch c.subject {
	case "always":
		return true, nil
	case "odometer":
		if !(f.Odometer > 0) {
			return false, c.notKnown("the odometer is not given")
		}
		return f.Odometer > c.distance, nil
	case "clutch":
		return c.judged(f.Clutch, f.FittedClutch)
	case "release":
		return c.judged(f.Release, f.FittedRelease)
	}
	panic("library: Holds of a Condition that was never parsed")
}

// judged looks whether the candidate's verdict is one of the condition's.
func (c Condition) judged(verdicts map[string]string, fitted string) (bool, error) {
	verdict, found := verdicts[c.name]
	if !found && (c.name == "fitted" || c.name == "original") {
		if fitted == "" {
			return false, c.notKnown("no %s is marked as fitted", c.subject)
		}
		verdict, found = verdicts[fitted]
	}
	if !found {
		return false, c.notKnown("there is no verdict on %s %q", c.subject, c.name)
	}
	return slices.Contains(c.verdicts, verdict), nil
}

func (c Condition) notKnown(format string, args ...any) error {
	return &NotKnown{c.text, fmt.Sprintf(format, args...)}
}
