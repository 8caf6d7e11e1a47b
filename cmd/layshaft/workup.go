package main

import (
	"context"
	"fmt"
	"io"
	"time"

	"layshaft/library"
	"layshaft/paper"
	"layshaft/workshop"
)

type workupCommand struct {
	jobArgs
	PDF  string `name:"pdf" placeholder:"OUT.pdf" help:"Write the paper to this file."`
	Shop string `placeholder:"NAME" help:"Name of the shop, as the paper shows it."`
}

func (w *workupCommand) Run(c console) error {
	effort, err := w.effort()
	if err != nil {
		return err
	}
	job, source, layouts, err := w.load()
	if err != nil {
		return err
	}
	var layout *library.Layout
	if job.Car.Layout != "" {
		if layout, err = workshop.LayoutFor(job, layouts); err != nil {
			return source.Locate(err)
		}
	}
	ctx := context.Background()
	answer, err := workshop.WorkUp(ctx, job, layout, nil, effort)
	if err == nil {
		answer.Worth, err = workshop.Worth(ctx, job, layout, answer, nil, layouts.Findings())
	}
	if err != nil {
		return source.Locate(err)
	}
	if w.JSON {
		err = printJSON(c.out, answer)
	} else {
		printWorkup(c.out, job, answer)
	}
	if err == nil && w.PDF != "" {
		err = writeFile(w.PDF, func(to io.Writer) error {
			return paper.Write(to, paper.Sheet{ShopName: w.Shop, Job: job, Answer: answer, At: time.Now()})
		})
	}
	if err != nil || !w.Check || answer.Release == nil {
		return err
	}
	return checkPair(job, answer.Release, "")
}

func printWorkup(w io.Writer, job *workshop.Job, a *workshop.Workup) {
	fmt.Fprintf(w, "%s  %s\n", job.Car.Name, job.Car.Registration)
	if a.Hold != nil {
		fmt.Fprint(w, "\nHOLD\n")
		printHold(w, a.Hold)
	}
	if a.Release != nil {
		fmt.Fprint(w, "\nLET GO\n")
		printRelease(w, a.Release)
	}
	if a.Strip != nil {
		fmt.Fprint(w, "\nSTRIP\n")
		printStrip(w, a.Strip)
	}
	if a.Price != nil {
		fmt.Fprint(w, "\nPRICE\n")
		printPrice(w, a.Price)
	}
	if a.Worth != nil {
		fmt.Fprint(w, "\nWORTH DOING NOW\n")
		printWorth(w, a.Worth)
	}
	printAdvice(w, a.Advice)
	for _, missing := range a.NotComputed {
		fmt.Fprintf(w, "\nnot computed: %s %s\n", missing.Key, missing.Text)
	}
	printAssumptions(w, a.Assumptions)
}

func printAdvice(w io.Writer, advice []workshop.Advice) {
	if len(advice) > 0 {
		fmt.Fprint(w, "\nADVICE\n")
	}
	for _, a := range advice {
		state := ""
		if a.In {
			state = " (already in the work)"
		}
		fmt.Fprintf(w, "%s: %s%s. %s\n", a.Weight, a.Title, state, a.Because)
	}
}
