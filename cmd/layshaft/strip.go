package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"layshaft/workshop"
)

type stripCommand struct{ jobArgs }

func (s *stripCommand) Run(c console) error {
	job, source, layouts, err := s.load()
	if err != nil {
		return err
	}
	layout, err := workshop.LayoutFor(job, layouts)
	if err != nil {
		return source.Locate(err)
	}
	answer, err := workshop.Strip(context.Background(), job, layout, nil)
	if err != nil {
		return source.Locate(err)
	}
	if s.JSON {
		return printJSON(c.out, answer)
	}
	printStrip(c.out, answer)
	return nil
}

func printStrip(w io.Writer, a *workshop.StripAnswer) {
	fmt.Fprintf(w, "%s (version %s)\n%s\n\n", a.Layout, a.Version, a.Basis)
	t := newTable("job", "alone", "adds")
	for _, name := range a.JobOrder() {
		t.row(a.Jobs[name].Title, hours(a.Jobs[name].Alone), hours(a.Jobs[name].Adds))
	}
	for _, name := range a.OptionOrder() {
		t.row("offered: "+a.Options[name].Title, hours(a.Options[name].Alone), hours(a.Options[name].Adds))
	}
	t.print(w)
	fmt.Fprintf(w, "\ntogether %s, apart %s, saved by doing it at once %s (%s)\n", hours(a.Together), hours(a.Apart), hours(a.Saved), proof(a))
	fmt.Fprintln(w, "\nOff, in this order:")
	for i, step := range a.Steps {
		fmt.Fprintf(w, "%3d. %s  [%s, %s]\n", i+1, orName(step.TakeOff, step.Name), hours(step.Off), placeOf(step))
		for _, caution := range step.Cautions {
			fmt.Fprintf(w, "       ! %s\n", caution)
		}
	}
	fmt.Fprintln(w, "\nOn again, in this order:")
	byName := map[string]workshop.Step{}
	for _, step := range a.Steps {
		byName[step.Name] = step
	}
	for i, name := range a.On {
		step := byName[name]
		fmt.Fprintf(w, "%3d. %s  [%s]\n", i+1, orName(step.PutBack, name), hours(step.On))
		for _, note := range append(append(append([]string{}, step.WhichWay...), step.Tighten...), step.Checks...) {
			fmt.Fprintf(w, "       - %s\n", note)
		}
	}
	printList(w, "New, not used again", a.SingleUse)
	printList(w, "Fluids lost", a.Fluids)
}

func proof(a *workshop.StripAnswer) string {
	if a.Proven {
		return "proven least"
	}
	return fmt.Sprintf("not proven; at least %s", hours(a.LowerBound))
}

func placeOf(step workshop.Step) string {
	if step.People > 1 {
		return fmt.Sprintf("%s, %d people", step.Place, step.People)
	}
	return step.Place
}

func orName(text, name string) string {
	if text == "" {
		return name
	}
	return text
}

func hours(f workshop.Figure) string { return fmt.Sprintf("%.2f h", float64(f)) }

func printList(w io.Writer, head string, items []string) {
	if len(items) > 0 {
		fmt.Fprintf(w, "\n%s: %s\n", head, strings.Join(items, "; "))
	}
}
