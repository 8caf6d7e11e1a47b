// Package dyno reads a dynamometer's run, saved as comma-separated values, into the torque over engine speed that it
// measured. It guesses nothing that would change a figure: a column without a unit, a speed that does not rise, commas
// that may be decimal or not, power and torque that contradict each other are refused with the line to look at.
package dyno

import (
	"fmt"
	"strings"

	"layshaft/driveline"
	"layshaft/quantity"
)

// Run is what a dynamometer measured, as it was measured: whether at the wheels or at the crank only people know.
type Run struct {
	Omega  []float64 // engine speed, rad/s, strictly rising
	Torque []float64 // engine torque, N m
	Notes  []string  // what a reader should know about how the file was understood
}

// Curve returns the run as an engine's torque curve.
func (r Run) Curve() (driveline.Curve, error) { return driveline.NewEngineCurve(r.Omega, r.Torque) }

// Error is one fault in a run's file. Line and Column are 0 where the fault lies in no particular place.
type Error struct {
	File    string
	Line    int
	Column  string // the column's name: "torque"
	Message string
}

// Error prints the fault as "run.csv:14: torque: what is wrong".
func (e *Error) Error() string {
	var b strings.Builder
	b.WriteString(e.File)
	if e.Line > 0 {
		fmt.Fprintf(&b, ":%d", e.Line)
	}
	if e.Column != "" {
		b.WriteString(": " + e.Column)
	}
	return b.String() + ": " + e.Message
}

// fault makes an Error whose file Parse fills in.
func fault(line int, column, format string, args ...any) *Error {
	return &Error{Line: line, Column: column, Message: fmt.Sprintf(format, args...)}
}

// Parse reads a run. The first row names the columns: engine speed and power or torque or both, each with its unit
// there or in a second row of units; other columns are left aside and listed in the notes. Columns are parted by
// semicolons, tabs or commas. The name serves the errors, which are all *Error.
func Parse(name string, data []byte) (Run, error) {
	run, err := parse(data)
	if err != nil {
		err.File = name
		return Run{}, err
	}
	return run, nil
}

func parse(data []byte) (Run, *Error) {
	text, err := textOf(data)
	if err != nil {
		return Run{}, err
	}
	rows, err := split(text)
	if err != nil {
		return Run{}, err
	}
	cols, rows, err := readHeader(rows)
	if err != nil {
		return Run{}, err
	}
	if err := readFigures(cols, rows); err != nil {
		return Run{}, err
	}
	return assemble(cols)
}

// assemble makes the run of the columns' figures.
func assemble(cols *columns) (Run, *Error) {
	if err := checkSpeed(cols.speed); err != nil {
		return Run{}, err
	}
	run := Run{Omega: cols.speed.si(), Notes: cols.notes()}
	switch {
	case cols.torque == nil:
		run.Torque = make([]float64, len(run.Omega))
		for i, power := range cols.power.si() {
			run.Torque[i] = driveline.PowerTorque(power, run.Omega[i])
		}
		run.Notes = append(run.Notes, "torque worked out from power and engine speed")
	case cols.power == nil:
		run.Torque = cols.torque.si()
	default:
		run.Torque = cols.torque.si()
		note, err := checkAgreement(cols)
		if err != nil {
			return Run{}, err
		}
		run.Notes = append(run.Notes, note)
	}
	return run, nil
}

// Speeds outside these, in rpm, are a slip of the unit or a point that parts thousands.
const slowest, fastest = 100, 30000

// checkSpeed wants the engine speed plausible and rising from row to row.
func checkSpeed(speed *column) *Error {
	cells := speed.cells
	if len(cells) < 2 {
		return fault(cells[0].line, "", "one row of figures only; a run needs at least two")
	}
	lowest, highest := quantity.From(slowest, "rpm"), quantity.From(fastest, "rpm")
	for i, omega := range speed.si() {
		c := cells[i]
		switch {
		case omega < lowest || omega > highest:
			return fault(c.line, speed.name, "%s %s is not a speed that an engine is measured at (%d to %d rpm)",
				c.text, speed.unit, slowest, fastest)
		case i > 0 && c.value == cells[i-1].value:
			return fault(c.line, speed.name, "%s is the same speed as on line %d; keep one of the two rows", c.text, cells[i-1].line)
		case i > 0 && c.value < cells[i-1].value:
			return fault(c.line, speed.name, "%s falls below the %s of line %d; keep only the pull, where the speed rises",
				c.text, cells[i-1].text, cells[i-1].line)
		}
	}
	return nil
}
