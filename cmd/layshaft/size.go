package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"os/signal"
	"strings"

	"layshaft/quantity"
	"layshaft/workshop"
)

type sizeCommand struct {
	jobArgs
	Clutch      string `placeholder:"NAME" help:"The clutch to be let go; the proposed one where not given."`
	Release     string `placeholder:"NAME" help:"The release system to start from; the fitted one where not given."`
	EffortLimit string `placeholder:"FORCE" help:"Most effort at the pad, such as \"180 N\"."`
	All         bool   `help:"List the dominated choices too."`
}

func (s *sizeCommand) Run(c console) error {
	effort, err := s.effort()
	if err != nil {
		return err
	}
	wanted := workshop.SizeWanted{Clutch: s.Clutch, Release: s.Release, Dominated: s.All}
	if s.EffortLimit != "" {
		limit, err := quantity.Parse(s.EffortLimit, quantity.Force)
		if err != nil || limit <= 0 {
			return fmt.Errorf("--effort-limit %q is no force above nought; write for example \"180 N\"", s.EffortLimit)
		}
		wanted.EffortLimit = limit
	}
	job, source, _, err := s.load()
	if err != nil {
		return err
	}
	reference, err := s.reference(job)
	if err != nil {
		return source.Locate(err)
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt)
	defer stop()
	answer, err := workshop.Size(ctx, job, wanted, reference, effort, progressTo(c.err, "choices"))
	if err != nil {
		return source.Locate(err)
	}
	if s.JSON {
		err = printJSON(c.out, answer)
	} else {
		printSizes(c.out, answer)
		printAssumptions(c.out, job.Assumed, "release."+answer.Release+".", "clutch."+answer.Clutch+".")
	}
	if err == nil && s.Check && answer.Good == 0 {
		return no{"nothing frees " + answer.Clutch + " within the limits: " + answer.Nearest}
	}
	return err
}

// progressTo prints how far something has come at every tenth of the way, where it takes more than a moment.
func progressTo(w io.Writer, what string) func(done, total int) {
	const worthTelling = 200
	tenths := 0
	return func(done, total int) {
		if now := done * 10 / total; now > tenths && total >= worthTelling {
			tenths = now
			fmt.Fprintf(w, "%d of %d %s\n", done, total, what)
		}
	}
}

func printSizes(w io.Writer, a *workshop.SizeAnswer) {
	limit := "no limit of effort"
	if a.EffortLimit.Known() {
		limit = fmt.Sprintf("at most %.0f N at the pad", a.EffortLimit)
	}
	fmt.Fprintf(w, "%s, starting from %s: %d choices tried, %s, freeing with at least %.0f in 100\n", a.Clutch, a.Release, a.Tried, limit, a.FreesAtLeast*100)
	for _, out := range a.Out {
		fmt.Fprintf(w, "  %5d out: %s\n", out.Choices, out.Why)
	}
	fmt.Fprintf(w, "  %5d good, %d of them on the front\n\n", a.Good, len(a.Front))
	t := newTable("", "master", "slave", "ratio", "hose", "effort", "5 .. 95 %", "good at stop", "bite height", "stop between", "set to", "new parts")
	t.row(sizeRow("now", a.Present)...)
	for _, choice := range a.Front {
		t.row(sizeRow(fmt.Sprint(choice.Number), choice)...)
	}
	for _, choice := range a.Dominated {
		t.row(sizeRow("dominated", choice)...)
	}
	t.print(w)
	if a.Present.Out != "" {
		fmt.Fprintf(w, "\nas it is now: %s\n", a.Present.Out)
	}
	if a.Nearest != "" {
		fmt.Fprintf(w, "\nnothing keeps all limits; %s\n", a.Nearest)
	}
	fmt.Fprintf(w, "\nBite height: %s.\n", a.BiteHeightIs)
	for _, note := range a.Notes {
		fmt.Fprintf(w, "  %s\n", note)
	}
}

func sizeRow(name string, c workshop.SizeChoice) []string {
	hose := c.Hose
	if len(c.HosesToo) > 0 {
		hose += " (or " + strings.Join(c.HosesToo, ", ") + ")"
	}
	spread, stop, good := "", "", ""
	if c.EffortRange[0].Known() {
		spread = fmt.Sprintf("%.0f .. %.0f N", c.EffortRange[0], c.EffortRange[1])
	}
	if c.Out == "" {
		good = percent(c.PGood)
	}
	if c.Stop.Known() {
		stop = fmt.Sprintf("%.0f .. %.0f mm", c.StopMin, c.StopMax)
	}
	return []string{name, c.Master, c.Slave, fmt.Sprintf("%.2f", c.Ratio), hose, fmt.Sprintf("%.0f N", c.PeakEffort), spread, good,
		fmt.Sprintf("%.0f mm", c.BiteHeight), stop, mm(c.Stop), strings.Join(c.Changes, ", ")}
}
