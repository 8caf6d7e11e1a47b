package web

import (
	"fmt"
	"slices"
	"strings"

	"layshaft/carview"
	"layshaft/workshop"
)

// stripView is the answer to "what must come off".
type stripView struct {
	Layers     *drawing
	Sums       string
	Basis      string
	Jobs       []jobLine
	Off        []stepLine
	Work       []workLine
	On         []stepLine
	SingleUse  []string
	Fluids     []string
	Conditions []string
}

// stepLine is one operation in the order off, or on again.
type stepLine struct {
	Number    int
	Key       string
	Do        string
	Where     string
	Hours     string
	Serves    string // the jobs that need it, keys apart by blanks
	Cautions  []string
	WhichWay  []string
	Tighten   []string
	Checks    []string
	SingleUse []string
	Fluids    []string
	Tools     []string
}

// workLine is what belongs to one wanted job rather than to reaching it.
type workLine struct {
	Key, Title, Hours                 string
	Parts, Cautions, WhichWay, Checks []string
}

func viewStrip(a *workshop.StripAnswer) *stripView {
	v := &stripView{Basis: a.Basis, SingleUse: a.SingleUse, Fluids: a.Fluids, Sums: stripSums(a), Jobs: jobLines(a), Layers: draw(carview.Layers(a))}
	byName := map[string]workshop.Step{}
	for i, step := range a.Steps {
		byName[step.Name] = step
		v.Off = append(v.Off, offLine(i+1, step))
		if step.Condition {
			v.Conditions = append(v.Conditions, carview.TitleOr(step.TakeOff, step.Name))
		}
	}
	for i, name := range a.On {
		v.On = append(v.On, onLine(i+1, byName[name]))
	}
	for _, name := range a.JobOrder() {
		job := a.Jobs[name]
		v.Work = append(v.Work, workLine{Key: name, Title: carview.TitleOr(job.Title, name), Hours: carview.Hours(job.Work),
			Parts: job.Parts, Cautions: job.Cautions, WhichWay: job.WhichWay, Checks: job.Checks})
	}
	return v
}

func stripSums(a *workshop.StripAnswer) string {
	text := carview.Hours(a.Together) + " for all of it at once, " + carview.Hours(a.Apart) + " if each job were done by itself: doing it at once saves " + carview.Hours(a.Saved) + ". "
	if a.Proven {
		return text + "Nothing less reaches all the work; that is proven."
	}
	return text + "That nothing less would do is not proven; it cannot be less than " + carview.Hours(a.LowerBound) + "."
}

// jobLine is what one job adds. A job of the work can be picked, to see what comes off for it.
type jobLine struct {
	Key, Title, Adds, Alone string
	In                      bool
	Says                    string
}

func jobLines(a *workshop.StripAnswer) []jobLine {
	var lines []jobLine
	for _, name := range a.JobOrder() {
		job := a.Jobs[name]
		line := jobLine{Key: name, Title: carview.TitleOr(job.Title, name), Adds: carview.Hours(job.Adds), Alone: carview.Hours(job.Alone), In: true}
		line.Says = fmt.Sprintf("%s: %d of the %d operations come off for it. It adds %s to the rest of the work; by itself it would take %s.",
			line.Title, serving(a.Steps, name), len(a.Steps), line.Adds, line.Alone)
		lines = append(lines, line)
	}
	for _, name := range a.OptionOrder() {
		if !slices.Contains(a.JobOrder(), name) {
			option := a.Options[name]
			lines = append(lines, jobLine{Key: name, Title: carview.TitleOr(option.Title, name), Adds: carview.Hours(option.Adds), Alone: carview.Hours(option.Alone)})
		}
	}
	return lines
}

// serving counts the operations that come off for a job.
func serving(steps []workshop.Step, job string) int {
	n := 0
	for _, step := range steps {
		if slices.Contains(step.Jobs, job) {
			n++
		}
	}
	return n
}

func offLine(number int, step workshop.Step) stepLine {
	return stepLine{Number: number, Key: step.Name, Do: carview.TitleOr(step.TakeOff, step.Name), Where: where(step), Hours: carview.Hours(step.Off),
		Serves: strings.Join(step.Jobs, " "), Cautions: step.Cautions, Fluids: step.Fluids, Tools: step.Tools}
}

func onLine(number int, step workshop.Step) stepLine {
	return stepLine{Number: number, Key: step.Name, Do: carview.TitleOr(step.PutBack, step.Name), Where: where(step), Hours: carview.Hours(step.On),
		Serves: strings.Join(step.Jobs, " "), Cautions: step.Cautions, WhichWay: step.WhichWay, Tighten: step.Tighten,
		Checks: step.Checks, SingleUse: step.SingleUse}
}

// where is where the work is done and by how many.
func where(step workshop.Step) string {
	if step.People > 1 {
		return step.Place + ", " + carview.Number(workshop.Figure(step.People), 0) + " people"
	}
	return step.Place
}
