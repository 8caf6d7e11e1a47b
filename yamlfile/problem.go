package yamlfile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Problem is one thing wrong in a file, where it is, and what would be right.
type Problem struct {
	File         string
	Line, Column int    // from 1; the column counts characters
	Key          string // dotted path, list items from 0: "jobs.replace-clutch.parts[2].price"; may be empty
	Message      string // the sentence: `"9.8" has no unit`
	Example      string // what would be accepted; may be empty
}

// Error prints `car.yaml:14:19: clutch.uprated.clamp_load: "9.8" has no unit; write for example 9.8 kN`.
func (p Problem) Error() string {
	var text strings.Builder
	fmt.Fprintf(&text, "%s:%d:%d: ", p.File, p.Line, p.Column)
	if p.Key != "" {
		text.WriteString(p.Key + ": ")
	}
	text.WriteString(p.Message)
	if p.Example != "" {
		text.WriteString("; write for example " + p.Example)
	}
	return text.String()
}

// maxProblems is how many problems are told at once; more would bury the first.
const maxProblems = 20

// Problems are all that is wrong in a file, in the order of its lines, at most twenty.
type Problems []Problem

// Error prints one problem a line.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.Error()
	}
	return strings.Join(lines, "\n")
}

// Unwrap lets errors.As find the first Problem.
func (ps Problems) Unwrap() []error {
	each := make([]error, len(ps))
	for i, p := range ps {
		each[i] = p
	}
	return each
}

// asError is nil for no problems, so that a typed nil never leaves the package.
func (ps Problems) asError() error {
	if len(ps) == 0 {
		return nil
	}
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return ps
}

func (ps Problems) full() bool { return len(ps) >= maxProblems }
