package main

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"layshaft/jobfile"
	"layshaft/release/diagnosis"
	"layshaft/workshop"
)

type diagnoseCommand struct {
	jobArgs
	Readings string `required:"" placeholder:"R.yaml" help:"What was read on the car (YAML)."`
}

func (d *diagnoseCommand) Run(c console) error {
	effort, err := d.effort()
	if err != nil {
		return err
	}
	job, source, _, err := d.load()
	if err != nil {
		return err
	}
	text, err := readFile(d.Readings)
	if err != nil {
		return err
	}
	readings, read, err := jobfile.ParseReadings(d.Readings, text)
	if err != nil {
		return err
	}
	answer, err := workshop.Diagnose(job, readings, effort)
	if err != nil {
		return locateIn(source, read, err)
	}
	if d.JSON {
		err = printJSON(c.out, answer)
	} else {
		printDiagnosis(c.out, answer)
		printAssumptions(c.out, job.Assumed, "release."+answer.Release+".", "clutch."+answer.Clutch+".")
	}
	if err != nil || !d.Check {
		return err
	}
	if first := answer.Causes[0]; first.Cause != string(diagnosis.None) {
		return no{fmt.Sprintf("something is wrong, most likely %s: %s", first.Cause, first.Means)}
	}
	return nil
}

// locateIn finds a fault's place in the readings file or in the job file, by its key.
func locateIn(job, readings *jobfile.Source, err error) error {
	var fault *workshop.Fault
	if errors.As(err, &fault) && (fault.Key == "pair" || strings.HasPrefix(fault.Key, "readings")) {
		return readings.Locate(err)
	}
	return job.Locate(err)
}

func printDiagnosis(w io.Writer, a *workshop.DiagnoseAnswer) {
	fmt.Fprintf(w, "Why %s with %s drags\n\n", a.Clutch, a.Release)
	t := newTable("cause", "odds", "size", "nine in ten", "inside the bell", "means")
	for _, c := range a.Causes {
		t.row(c.Cause, percentOrLess(c.Probability), sizeOf(c, c.Value), between(c), yesOrNo(c.InsideBell), c.Means)
	}
	t.print(w)
	fmt.Fprintf(w, "\nInside the bellhousing, gearbox out: %s\n", percentOrLess(a.GearboxOut))
	if len(a.Readings) > 0 {
		fmt.Fprintln(w)
		t = newTable("reading", "measured", "sound car", "likeliest cause", "off")
		for _, r := range a.Readings {
			t.row(r.Reading, fmt.Sprintf("%.4g +- %.2g %s", r.Measured, r.Uncertainty, r.Unit), fmt.Sprintf("%.4g +- %.2g", r.Sound, r.SoundSD),
				fmt.Sprintf("%.4g +- %.2g", r.Explained, r.ExplainedSD), fmt.Sprintf("%+.1f sd", r.Off))
		}
		t.print(w)
	}
	printNextReadings(w, a)
	for _, note := range a.Notes {
		fmt.Fprintf(w, "\nNote: %s.", note)
	}
	fmt.Fprintln(w)
}

// printNextReadings tells the most telling reading in full and names those behind it.
func printNextReadings(w io.Writer, a *workshop.DiagnoseAnswer) {
	if len(a.NextReadings) == 0 {
		return
	}
	next := a.NextReadings[0]
	fmt.Fprintf(w, "\nRead next: %s, which is expected to take away %s of the doubt, in about %.0f min.\n  %s\n", next.Reading, percent(next.Part), next.Minutes, next.How)
	for _, caution := range slices.Concat(next.Cautions, a.Cautions) {
		fmt.Fprintf(w, "  Caution: %s\n", caution)
	}
	var others []string
	for _, n := range a.NextReadings[1:] {
		others = append(others, fmt.Sprintf("%s %s", n.Reading, percent(n.Part)))
	}
	if len(others) > 0 {
		fmt.Fprintf(w, "Others: %s.\n", strings.Join(others, ", "))
	}
}

func percentOrLess(f workshop.Figure) string {
	if f > 0 && f < 0.005 {
		return "< 1 %"
	}
	return percent(f)
}

func sizeOf(c workshop.CauseAnswer, v workshop.Figure) string {
	if !v.Known() {
		return "–"
	}
	return fmt.Sprintf("%.3g %s", v, c.Unit)
}

func between(c workshop.CauseAnswer) string {
	if !c.Low.Known() {
		return "–"
	}
	return fmt.Sprintf("%.3g .. %.3g", c.Low, c.Top)
}

func yesOrNo(yes bool) string {
	if yes {
		return "yes"
	}
	return "no"
}
