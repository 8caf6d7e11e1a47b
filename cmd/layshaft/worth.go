package main

import (
	"context"
	"fmt"
	"io"

	"layshaft/workshop"
)

type worthCommand struct{ jobArgs }

func (w *worthCommand) Run(c console) error {
	effort, err := w.effort()
	if err != nil {
		return err
	}
	job, source, layouts, err := w.load()
	if err != nil {
		return err
	}
	layout, err := workshop.LayoutFor(job, layouts)
	if err != nil {
		return source.Locate(err)
	}
	ctx := context.Background()
	car, err := workshop.WorkUp(ctx, job, layout, nil, effort) // which jobs are advised rests on all other answers
	if err != nil {
		return source.Locate(err)
	}
	answer, err := workshop.Worth(ctx, job, layout, car, nil, layouts.Findings())
	if err == nil && answer == nil {
		err = &workshop.Fault{Key: "shop", Message: "without the shop's terms and the wanted work there is no price, and so no telling what is worth doing"}
	}
	if err != nil {
		return source.Locate(err)
	}
	if w.JSON {
		return printJSON(c.out, answer)
	}
	printWorth(c.out, answer)
	printAssumptions(c.out, answer.Assumptions)
	return nil
}

func printWorth(w io.Writer, a *workshop.WorthAnswer) {
	if len(a.Order()) == 0 {
		fmt.Fprintln(w, "No further job is offered or advised for this car.")
		return
	}
	fmt.Fprintf(w, "Records  %s\n\n", a.Records)
	t := newTable("further job", "adds now", "left and needed", "pays above", "")
	for _, name := range a.Order() {
		job := a.Jobs[name]
		t.row(job.Title, "+"+job.Adds, fmt.Sprintf("%.2f %s", float64(job.WhenNeeded), a.Currency), chance(job.BreakEven), string(job.Verdict))
	}
	t.print(w)
	fmt.Fprintln(w)
	for _, name := range a.Order() {
		job := a.Jobs[name]
		fmt.Fprintf(w, "%s: %s\n", job.Title, job.Words)
		if job.NoLife != "" {
			fmt.Fprintf(w, "  Distances tell no more: %s.\n", job.NoLife)
		}
	}
}

// chance prints a break-even chance; at 1 and above there is none.
func chance(p workshop.Figure) string {
	if p >= 1 {
		return "never"
	}
	return percent(p)
}
