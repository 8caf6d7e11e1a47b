package main

import (
	"fmt"
	"io"

	"layshaft/workshop"
)

// printDrive shows what the parts behind the clutch see.
func printDrive(w io.Writer, d *workshop.DriveAnswer) {
	fmt.Fprintf(w, "\nBehind the clutch, with %.0f N m put in:\n", d.Torque)
	t := newTable("gear", "gearbox out", "propshaft", "differential", "half shaft", "")
	for _, g := range d.Gears {
		limit := ""
		if g.TyreLimited {
			limit = "the tyres' limit"
		}
		t.row(fmt.Sprint(g.Gear), newtonMetres(g.GearboxOut), newtonMetres(g.Propshaft), newtonMetres(g.Case), newtonMetres(g.HalfShaft), limit)
	}
	t.print(w)
	if d.Pin != nil {
		fmt.Fprintf(w, "cross pin, gear %d: %.0f kN on each pinion, %.0f MPa in its bore, %s%.0f MPa in shear\n",
			d.Pin.Gear, d.Pin.PinionForce, d.Pin.PinionPressure, inCase(d.Pin.CasePressure), d.Pin.Shear)
	}
	if d.HalfShaft != nil {
		fmt.Fprintf(w, "half shaft, gear %d: %.0f MPa in torsion, twists %.1f deg\n", d.HalfShaft.Gear, d.HalfShaft.Stress, d.HalfShaft.Twist)
	}
	for _, note := range d.Notes {
		fmt.Fprintln(w, "  "+note)
	}
}

func newtonMetres(f workshop.Figure) string { return fmt.Sprintf("%.0f N m", float64(f)) }

func inCase(pressure workshop.Figure) string {
	if !pressure.Known() {
		return ""
	}
	return fmt.Sprintf("%.0f MPa in its seat in the case, ", pressure)
}
