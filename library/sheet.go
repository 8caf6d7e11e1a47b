package library

import (
	"fmt"
	"slices"

	"layshaft/stripdown"
)

// Act is what is done at a line of the sheet.
type Act string

const (
	TakeOff Act = "take off"
	Work    Act = "work"
	PutBack Act = "put back"
)

// SheetLine is one thing to do at the car, with all that belongs to it at that moment.
type SheetLine struct {
	Act      Act
	Name     string // of the operation or job
	Text     string // what to do, in words; the name where the layout has none
	Place    string
	Hours    float64
	People   int
	Tools    []string
	Fluids   []string // taken off: lost; put back: filled
	NewParts []string // single-use fasteners and seals, when put back
	Tighten  []string
	WhichWay []string
	Cautions []string
	Checks   []string // that a second person makes
}

// Sheet writes a plan of this layout out as lines in the order of the work: off, the jobs themselves, on. A plan
// made with another layout panics.
func (l *Layout) Sheet(plan stripdown.Plan) []SheetLine {
	var lines []SheetLine
	for _, name := range plan.Off {
		lines = append(lines, l.must(name).takenOff())
	}
	for _, planned := range plan.Jobs {
		job, ok := l.Job(planned.Name)
		if !ok {
			panic(fmt.Sprintf("library: layout %s has no job %q", l.Name, planned.Name))
		}
		lines = append(lines, job.done())
	}
	for _, name := range plan.On {
		lines = append(lines, l.must(name).putBack())
	}
	return lines
}

// Tools lists the special tools of a plan, each once, in the order they are wanted.
func (l *Layout) Tools(plan stripdown.Plan) []string {
	var tools []string
	for _, name := range plan.Off {
		for _, tool := range l.must(name).Tools {
			if !slices.Contains(tools, tool) {
				tools = append(tools, tool)
			}
		}
	}
	return tools
}

func (l *Layout) must(operation string) *Operation {
	op, ok := l.Operation(operation)
	if !ok {
		panic(fmt.Sprintf("library: layout %s has no operation %q", l.Name, operation))
	}
	return &op
}

func (op *Operation) takenOff() SheetLine { return op.line(TakeOff, op.TakeOff, op.Off) }

func (op *Operation) putBack() SheetLine {
	line := op.line(PutBack, op.PutBack, op.On)
	line.NewParts, line.Tighten, line.Checks = op.SingleUse, op.Tighten, op.Checks
	return line
}

// line is what both ways share: what can hurt going off can hurt going on.
func (op *Operation) line(act Act, text string, hours float64) SheetLine {
	return SheetLine{
		Act: act, Name: op.Name, Text: orName(text, op.Name), Place: op.Place, Hours: hours, People: max(op.People, 1),
		Tools: op.Tools, Fluids: op.Fluids, WhichWay: op.WhichWay, Cautions: op.Cautions,
	}
}

func (job *Job) done() SheetLine {
	return SheetLine{
		Act: Work, Name: job.Name, Text: orName(job.Title, job.Name), Place: job.Place, Hours: job.Work, People: 1,
		Tighten: job.Tighten, WhichWay: job.WhichWay, Cautions: job.Cautions, Checks: job.Checks,
	}
}

func orName(text, name string) string {
	if text == "" {
		return name
	}
	return text
}
