package library

import (
	"slices"

	"layshaft/pricing"
	"layshaft/stripdown"
)

// Layout is the knowledge of one kind of car. It does not change after Load.
type Layout struct {
	Name, Title string
	Basis       string // what the hours rest on
	About       string
	File        string // that it came from, as messages name it
	Hash        string // SHA-256 of the file's bytes, in hexadecimal
	Operations  []Operation
	Jobs        []Job
	Graph       *stripdown.Graph

	bytes []byte
}

// Operation is one thing that is taken off and put back, or one condition that is set up and undone.
type Operation struct {
	stripdown.Operation
	TakeOff, PutBack string   // what is done, as it stands on the sheet; may be empty
	Tools            []string // special ones that have to be free
	WhichWay         []string // parts that fit more ways than one
	Checks           []string // that a second person makes after refitting
}

// Job is a piece of work that a customer can order.
type Job struct {
	stripdown.Job
	Title    string
	Place    string
	Parts    []Part
	Insist   []Advice // jobs that the shop will not do this one without
	Advise   []Advice // jobs that are worth doing now
	Tighten  []string
	WhichWay []string
	Cautions []string
	Checks   []string // that a second person makes
}

// Part is fitted by a job; Price is for one, before tax.
type Part struct {
	Name     string
	Price    pricing.Money
	Quantity float64
}

// Advice names a further job, when it is called for, and why.
type Advice struct {
	Job  string
	When Condition
	Why  string
}

// Version is a short form of Hash, enough to tell two states of a layout apart on paper.
func (l *Layout) Version() string { return l.Hash[:12] }

// Operation finds an operation by its name.
func (l *Layout) Operation(name string) (Operation, bool) {
	i := slices.IndexFunc(l.Operations, func(op Operation) bool { return op.Name == name })
	if i < 0 {
		return Operation{}, false
	}
	return l.Operations[i], true
}

// Job finds a job by its name.
func (l *Layout) Job(name string) (Job, bool) {
	i := slices.IndexFunc(l.Jobs, func(job Job) bool { return job.Name == name })
	if i < 0 {
		return Job{}, false
	}
	return l.Jobs[i], true
}

// JobNames lists the jobs in the order of the file.
func (l *Layout) JobNames() []string {
	names := make([]string, len(l.Jobs))
	for i, job := range l.Jobs {
		names[i] = job.Name
	}
	return names
}

// Export returns the file that the layout was loaded from, byte for byte: a job keeps it to stay with the version
// it was made with, and a shop takes it as the start of its own.
func (l *Layout) Export() []byte { return slices.Clone(l.bytes) }
