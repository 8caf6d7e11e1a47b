package main

import (
	"fmt"
	"io"
	"slices"

	"layshaft/workshop"
)

// printLaunches shows what a launch does to each clutch, or what is missing to tell.
func printLaunches(w io.Writer, a *workshop.HoldAnswer) {
	var assumed []string
	t := newTable("clutch", "heat", "slips for", "at most", "hottest face", "first to slip", "within heat limit", "until it slips")
	for _, name := range a.Order() {
		l := a.Clutches[name].Launch
		if l == nil {
			continue
		}
		if len(t.rows) == 1 {
			fmt.Fprintf(w, "\nA launch in gear %d from %.0f rpm, the pedal through its bite band in %.1f s:\n", l.Gear, l.StartSpeed, l.BiteTime)
		}
		t.row(name, fmt.Sprintf("%.0f kJ", l.Energy), fmt.Sprintf("%.2f s", l.SlipTime), fmt.Sprintf("%.0f kW", l.PeakPower),
			fmt.Sprintf("+%.0f K, %s", l.Rise, l.Hottest), l.SlipsFirst, fmt.Sprintf("%d launches", l.Row.Within), inARow(l))
		for _, text := range l.Assumed {
			if !slices.Contains(assumed, text) {
				assumed = append(assumed, text)
			}
		}
	}
	if len(t.rows) > 1 {
		t.print(w)
	}
	for _, text := range assumed {
		fmt.Fprintln(w, "  "+text)
	}
	for _, gap := range a.NotComputed {
		fmt.Fprintf(w, "\nNot computed: %s %s\n", gap.Key, gap.Text)
	}
}

// inARow says in words how many launches the clutch takes and still carries the engine's peak torque.
func inARow(l *workshop.Launch) string {
	switch {
	case l.Stalls:
		return "the engine stalls"
	case l.Row.More:
		return fmt.Sprintf("more than %d, %.0f s apart", l.Row.Held, l.Row.Interval)
	case l.Row.Held == 0:
		return "slips at the first under the engine's peak"
	}
	return fmt.Sprintf("%d, %.0f s apart, then it slips", l.Row.Held, l.Row.Interval)
}
