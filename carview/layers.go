package carview

import (
	"fmt"
	"slices"
	"strings"

	"layshaft/picture"
	"layshaft/workshop"
)

// Layers shows the car coming apart, and which work shares what has to come off.
func Layers(a *workshop.StripAnswer) picture.Strip {
	s := picture.Strip{
		Title: "What comes off, and for which work",
		Desc: fmt.Sprintf("%d operations, %s with all the work. Off in this order: %s.", len(a.Steps), Hours(a.Together),
			strings.Join(stepNames(a.Steps), ", ")),
	}
	for _, step := range a.Steps {
		s.Ops = append(s.Ops, picture.StripOp{Key: step.Name, Name: Sentence(TitleOr("", step.Name)),
			Hours: float64(step.Off + step.On), Needs: step.Needs})
	}
	for _, name := range a.JobOrder() {
		job := a.Jobs[name]
		s.Jobs = append(s.Jobs, picture.StripJob{Key: name, Name: TitleOr(job.Title, name), Work: float64(job.Work),
			Adds: float64(job.Adds), Alone: float64(job.Alone), Needs: innermost(a.Steps, name)})
	}
	return s
}

func stepNames(steps []workshop.Step) []string {
	var names []string
	for _, step := range steps {
		names = append(names, TitleOr("", step.Name))
	}
	return names
}

// innermost are the operations that a job stands behind directly: those that come off for it and that nothing else
// which comes off for it waits for.
func innermost(steps []workshop.Step, job string) []string {
	var names []string
	waited := map[string]bool{}
	for _, step := range steps {
		if slices.Contains(step.Jobs, job) {
			names = append(names, step.Name)
			for _, need := range step.Needs {
				waited[need] = true
			}
		}
	}
	return slices.DeleteFunc(names, func(name string) bool { return waited[name] })
}
