package main

import (
	"fmt"
	"io"

	"layshaft/workshop"
)

type holdCommand struct{ jobArgs }

func (h *holdCommand) Run(c console) error {
	effort, err := h.effort()
	if err != nil {
		return err
	}
	job, source, _, err := h.load()
	if err != nil {
		return err
	}
	answer, err := workshop.Hold(job, effort)
	if err != nil {
		return source.Locate(err)
	}
	if h.JSON {
		err = printJSON(c.out, answer)
	} else {
		printHold(c.out, answer)
		printAssumptions(c.out, job.Assumed, "engine.", "clutch.")
	}
	if err != nil || !h.Check {
		return err
	}
	clutch, _ := job.ProposedPair()
	if verdict := answer.Clutches[clutch].Verdict; verdict != "holds" {
		return no{fmt.Sprintf("the clutch %s: %s", clutch, verdict)}
	}
	return nil
}

func printHold(w io.Writer, a *workshop.HoldAnswer) {
	fmt.Fprintf(w, "Demand   %.0f N m at the crank (%s)\n", a.Demand, a.DemandFrom)
	fmt.Fprintf(w, "         times %.2f for %s use: %.0f N m wanted\n\n", a.ServiceFactor, a.Use, a.Wanted)
	t := newTable("clutch", "worn in", "5 .. 95 %", "new", "margin", "5 .. 95 %", "verdict")
	for _, name := range a.Order() {
		h := a.Clutches[name]
		t.row(name+fitted(h.Fitted), fmt.Sprintf("%.0f N m", h.Capacity), fmt.Sprintf("%.0f .. %.0f", h.CapacityP05, h.CapacityP95),
			fmt.Sprintf("%.0f N m", h.CapacityNew), fmt.Sprintf("%.2f", h.Margin), fmt.Sprintf("%.2f .. %.2f", h.MarginP05, h.MarginP95), h.Verdict)
		if h.Hot != nil {
			t.row("  hot", fmt.Sprintf("%.0f N m", h.Hot.Capacity), "", "", fmt.Sprintf("%.2f", h.Hot.Margin),
				fmt.Sprintf("%.2f .. %.2f", h.Hot.MarginP05, h.Hot.MarginP95), h.Hot.Verdict)
		}
	}
	t.print(w)
	if a.Drive != nil {
		printDrive(w, a.Drive)
	}
	printLaunches(w, a)
}

func fitted(is bool) string {
	if is {
		return " (fitted)"
	}
	return ""
}
