// Package psplib reads and writes the single-mode project files of the project scheduling problem library
// (Kolisch, Sprecher 1996), and makes projects in the manner of the generator behind it, so that anyone can measure
// how well the diary plans.
package psplib

import (
	"bufio"
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"layshaft/diary/project"
)

// Fault says what is wrong with a file, and in which line (0 if the file as a whole).
type Fault struct {
	File    string
	Line    int
	Message string
}

func (f *Fault) Error() string {
	if f.Line == 0 {
		return fmt.Sprintf("%s: %s", f.File, f.Message)
	}
	return fmt.Sprintf("%s:%d: %s", f.File, f.Line, f.Message)
}

// mostJobs keeps a damaged header from asking for all the memory there is.
const mostJobs = 100_000

// reader goes through the file line by line.
type reader struct {
	file    string
	lines   *bufio.Scanner
	line    int
	problem *project.Problem
	seen    []bool // jobs that the section has told of
}

// Read reads a single-mode file; the name is for messages only. Activities come in file order, the source and the
// sink among them.
func Read(name string, text []byte) (*project.Problem, error) {
	r := &reader{file: name, lines: bufio.NewScanner(bytes.NewReader(text)), problem: &project.Problem{}}
	if err := r.read(); err != nil {
		return nil, err
	}
	if err := r.problem.Validate(); err != nil {
		return nil, &Fault{name, 0, strings.TrimPrefix(err.Error(), "project: ") + " (activities counted from 0)"}
	}
	return r.problem, nil
}

func (r *reader) fault(format string, args ...any) error {
	return &Fault{r.file, r.line, fmt.Sprintf(format, args...)}
}

func (r *reader) next() bool {
	if !r.lines.Scan() {
		return false
	}
	r.line++
	return true
}

// read knows the sections by their headings and the header lines by their names.
func (r *reader) read() error {
	jobs, resources := -1, -1
	sections := map[string]bool{}
	for r.next() {
		text := strings.TrimSpace(r.lines.Text())
		var err error
		switch {
		case strings.HasPrefix(text, "jobs"):
			if jobs, err = r.headerNumber(text, 1, mostJobs); err == nil {
				r.problem.Durations = make([]int, jobs)
				r.problem.Demands = make([][]int, jobs)
				r.problem.Successors = make([][]int, jobs)
			}
		case strings.HasPrefix(text, "- renewable"):
			resources, err = r.headerNumber(text, 0, 1000)
		case strings.HasPrefix(text, "- nonrenewable"), strings.HasPrefix(text, "- doubly"):
			var n int
			if n, err = r.headerNumber(text, 0, 1000); err == nil && n > 0 {
				err = r.fault("resources that are used up are not planned for; only renewable ones")
			}
		case text == "PRECEDENCE RELATIONS:", text == "REQUESTS/DURATIONS:", text == "RESOURCEAVAILABILITIES:":
			if jobs < 0 || resources < 0 {
				return r.fault("%s stands before the number of jobs and of renewable resources", text)
			}
			sections[text] = true
			err = r.section(text, jobs, resources)
		}
		if err != nil {
			return err
		}
	}
	if err := r.lines.Err(); err != nil {
		return r.fault("cannot be read: %v", err)
	}
	for _, want := range []string{"PRECEDENCE RELATIONS:", "REQUESTS/DURATIONS:", "RESOURCEAVAILABILITIES:"} {
		if !sections[want] {
			return &Fault{r.file, 0, "has no section " + want + " and so is no single-mode project file"}
		}
	}
	return nil
}

// headerNumber reads the number behind the colon.
func (r *reader) headerNumber(text string, least, most int) (int, error) {
	_, value, _ := strings.Cut(text, ":")
	fields := strings.Fields(value)
	if len(fields) == 0 {
		return 0, r.fault("no number behind the colon")
	}
	n, err := strconv.Atoi(fields[0])
	if err != nil || n < least || n > most {
		return 0, r.fault("%q is not a whole number from %d to %d", fields[0], least, most)
	}
	return n, nil
}

func (r *reader) section(heading string, jobs, resources int) error {
	switch heading {
	case "PRECEDENCE RELATIONS:":
		return r.rows(jobs, func(row []int) error { return r.successors(row, jobs) })
	case "REQUESTS/DURATIONS:":
		return r.rows(jobs, func(row []int) error { return r.request(row, resources) })
	}
	r.next() // the names of the resources
	if !r.next() {
		return r.fault("the file ends before the capacities")
	}
	row, err := r.numbers(r.lines.Text())
	if err != nil {
		return err
	}
	if len(row) != resources {
		return r.fault("%d capacities for %d resources", len(row), resources)
	}
	r.problem.Capacities = row
	return nil
}

// rows reads one row a job, passing over the column heads and rules before them.
func (r *reader) rows(jobs int, use func(row []int) error) error {
	r.seen = make([]bool, jobs)
	for found := 0; found < jobs; {
		if !r.next() {
			return r.fault("the file ends after %d of %d jobs", found, jobs)
		}
		text := strings.TrimSpace(r.lines.Text())
		if text == "" || strings.HasPrefix(text, "jobnr") || strings.HasPrefix(text, "-") {
			continue
		}
		row, err := r.numbers(text)
		if err != nil {
			return err
		}
		if len(row) < 3 || row[0] < 1 || row[0] > jobs {
			return r.fault("a row begins with the job's number, 1 to %d, and has at least three figures", jobs)
		}
		if r.seen[row[0]-1] {
			return r.fault("job %d stands here a second time", row[0])
		}
		if row[1] != 1 {
			return r.fault("job %d: only files with one mode a job are read", row[0])
		}
		r.seen[row[0]-1] = true
		if err := use(row); err != nil {
			return err
		}
		found++
	}
	return nil
}

func (r *reader) successors(row []int, jobs int) error {
	if len(row) != 3+row[2] {
		return r.fault("job %d has %d successors by the count and %d by the list", row[0], row[2], len(row)-3)
	}
	for _, s := range row[3:] {
		if s < 1 || s > jobs {
			return r.fault("job %d: successor %d is not a job; they are numbered 1 to %d", row[0], s, jobs)
		}
		r.problem.Successors[row[0]-1] = append(r.problem.Successors[row[0]-1], s-1)
	}
	return nil
}

func (r *reader) request(row []int, resources int) error {
	if len(row) != 3+resources {
		return r.fault("job %d: %d demands for %d resources", row[0], len(row)-3, resources)
	}
	r.problem.Durations[row[0]-1] = row[2]
	r.problem.Demands[row[0]-1] = row[3:]
	return nil
}

func (r *reader) numbers(text string) ([]int, error) {
	fields := strings.Fields(text)
	row := make([]int, len(fields))
	for i, f := range fields {
		n, err := strconv.Atoi(f)
		if err != nil {
			return nil, r.fault("%q is not a whole number", f)
		}
		row[i] = n
	}
	return row, nil
}
