package stripdown

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"layshaft/spelling"
)

// checker collects whatever makes operations or jobs impossible to plan with, in the order they were given.
type checker struct {
	operations, jobs []string
	known            map[string]bool // operations
	knownJobs        map[string]bool
	hours, most      float64 // of all so far, and what may not be passed
	faults           []error
}

// check returns nil, one *Fault, or several joined.
func check(ops []Operation, jobs []Job) error {
	c := &checker{known: map[string]bool{}, knownJobs: map[string]bool{}, most: mostHours(len(ops))}
	for _, op := range ops {
		c.name("operation", op.Name, c.known, &c.operations)
	}
	for _, job := range jobs {
		c.name("job", job.Name, c.knownJobs, &c.jobs)
	}
	for _, op := range ops {
		c.count("operation", op.Name, "off", op.Off)
		c.count("operation", op.Name, "on", op.On)
		if op.People < 0 {
			c.add(BadPeople, "operation", op.Name, "people", "takes %d people; it takes 1 or more", op.People)
		}
		c.asks("operation", op.Name, op.Needs, op.AnyOf)
	}
	for _, job := range jobs {
		c.count("job", job.Name, "work", job.Work)
		c.asks("job", job.Name, job.Needs, job.AnyOf)
	}
	if len(c.faults) == 1 {
		return c.faults[0]
	}
	return errors.Join(c.faults...)
}

func (c *checker) add(kind Kind, in, name, key, format string, args ...any) *Fault {
	f := &Fault{Kind: kind, In: in, Name: name, Key: key}
	f.Message = fmt.Sprintf("%s %q ", in, name) + fmt.Sprintf(format, args...)
	c.faults = append(c.faults, f)
	return f
}

func (c *checker) name(in, name string, known map[string]bool, names *[]string) {
	switch {
	case name == "":
		c.add(NoName, in, name, "name", "has no name; give it one that needs can refer to")
	case known[name]:
		c.add(DuplicateName, in, name, "name", "is there twice; give one of them another name").Reference = name
	default:
		known[name] = true
		*names = append(*names, name)
	}
}

func (c *checker) count(in, name, key string, hours float64) {
	c.hours += max(hours, 0)
	switch {
	case math.IsNaN(hours) || math.IsInf(hours, 0) || hours < 0:
		c.hours = 0 // one fault is enough
		c.add(BadHours, in, name, key, "has %v hours %s; a number from 0 up is wanted", hours, key)
	case c.hours > c.most:
		c.hours = 0
		c.add(BadHours, in, name, key, "takes the sum of all hours past %.0f, more than can be counted", c.most)
	}
}

func (c *checker) asks(in, name string, needs []string, anyOf [][]string) {
	for _, need := range needs {
		c.ask(in, name, "needs", need)
	}
	for _, group := range anyOf {
		if len(group) == 0 {
			c.add(EmptyGroup, in, name, "any_of", "has an empty any_of group; name at least one operation in it or leave it out")
		}
		for _, member := range group {
			c.ask(in, name, "any_of", member)
		}
	}
}

// ask checks one reference. A job may bear an operation's name: a need always means the operation.
func (c *checker) ask(in, name, key, reference string) {
	switch {
	case in == "operation" && reference == name:
		c.add(SelfNeed, in, name, key, "needs itself; take that out").Reference = reference
	case c.known[reference]:
	case c.knownJobs[reference]:
		c.add(Unmet, in, name, key, "needs %q, which is a job; name the operations that it takes instead", reference).Reference = reference
	default:
		nearest := spelling.Nearest(reference, c.operations)
		hint := "no operation has that name"
		if nearest != "" {
			hint = fmt.Sprintf("did you mean %q?", nearest)
		}
		f := c.add(UnknownName, in, name, key, "needs %q, which is unknown; %s", reference, hint)
		f.Reference, f.Nearest = reference, nearest
	}
}

// loopFault tells of operations that wait for one another, as a ring of names; key is where the first names the
// second.
func loopFault(loop []string, key string) *Fault {
	f := &Fault{Kind: Cycle, In: "operation", Name: loop[0], Key: key, Reference: loop[1], Loop: loop}
	f.Message = fmt.Sprintf("operation %q needs itself in a ring: %s; one of them must not wait for the next",
		loop[0], strings.Join(loop, " -> "))
	return f
}

// unknownJob tells of a job that was asked for and does not exist.
func unknownJob(name string, jobs []Job) *Fault {
	names := make([]string, len(jobs))
	for i, job := range jobs {
		names[i] = job.Name
	}
	f := &Fault{Kind: UnknownJob, In: "job", Name: name, Key: "name", Reference: name, Nearest: spelling.Nearest(name, names)}
	f.Message = fmt.Sprintf("job %q does not exist", name)
	switch {
	case f.Nearest != "":
		f.Message += fmt.Sprintf("; did you mean %q?", f.Nearest)
	case len(names) > 0:
		f.Message += "; known are " + strings.Join(names, ", ")
	}
	return f
}
