package main

import (
	"fmt"
	"io"

	"layshaft/release"
	"layshaft/workshop"
)

type releaseCommand struct {
	jobArgs
	Pair string `placeholder:"CLUTCH/RELEASE" help:"Only this pair."`
}

func (r *releaseCommand) Run(c console) error {
	effort, err := r.effort()
	if err != nil {
		return err
	}
	job, source, _, err := r.load()
	if err != nil {
		return err
	}
	answer, err := workshop.LetGo(job, r.Pair, effort)
	if err != nil {
		return source.Locate(err)
	}
	if r.JSON {
		err = printJSON(c.out, answer)
	} else {
		printRelease(c.out, answer)
		printAssumptions(c.out, job.Assumed, "release.", "clutch.")
	}
	if err != nil || !r.Check {
		return err
	}
	return checkPair(job, answer, r.Pair)
}

// checkPair is the "no" of --check: the pair asked for, or else the proposed one, does not free.
func checkPair(job *workshop.Job, answer *workshop.ReleaseAnswer, asked string) error {
	clutch, system := job.ProposedPair()
	pair := answer.Pair(clutch, system)
	if asked != "" {
		pair = &answer.Pairs[0]
	}
	if pair == nil {
		return no{fmt.Sprintf("%s with %s could not be computed", clutch, system)}
	}
	if pair.Verdict != release.Frees {
		return no{fmt.Sprintf("%s with %s: %s", pair.Clutch, pair.Release, pair.Verdict)}
	}
	return nil
}

func printRelease(w io.Writer, a *workshop.ReleaseAnswer) {
	t := newTable("clutch / release", "fingers", "lift (needed)", "bite", "stop between", "set to", "effort", "line", "frees", "over-travels", "verdict")
	for _, p := range a.Pairs {
		t.row(p.Clutch+" / "+p.Release, mm(p.FingerTravel), fmt.Sprintf("%.2f (%.2f) mm", p.PlateLift, p.LiftNeeded),
			fmt.Sprintf("%.0f .. %.0f mm", p.BiteEnd, p.BiteStart), fmt.Sprintf("%.0f .. %.0f mm", p.StopMin, p.StopMax), mm(p.StopRecommended),
			fmt.Sprintf("%.0f N", p.PeakEffort), fmt.Sprintf("%.1f MPa", p.PeakPressure),
			percent(p.PFrees), percent(p.POverTravels), p.Verdict)
	}
	t.print(w)
	for _, p := range a.Pairs {
		fmt.Fprintf(w, "\n%s / %s: %s.\n", p.Clutch, p.Release, p.Why)
		for _, note := range p.Notes {
			fmt.Fprintf(w, "  %s\n", note)
		}
	}
	for _, wear := range a.Wear {
		printWear(w, wear)
	}
	for _, missing := range a.NotComputed {
		fmt.Fprintf(w, "\n%s: not computed, %s\n", missing.Key, missing.Text)
	}
}

func printWear(w io.Writer, a workshop.WearAnswer) {
	fmt.Fprintf(w, "\n%s while its facings wear:\n", a.Clutch)
	t := newTable("", "wear", "clamp load", "bearing load, most", "at the end")
	for _, s := range a.States {
		t.row(s.State, fmt.Sprintf("%.2f mm", s.Wear), fmt.Sprintf("%.0f N", s.Clamp),
			fmt.Sprintf("%.0f N at %.1f mm", s.PeakLoad, s.PeakTravel), fmt.Sprintf("%.0f N at %.1f mm", s.EndLoad, s.EndTravel))
	}
	t.print(w)
}

func mm(f workshop.Figure) string {
	if !f.Known() {
		return "–"
	}
	return fmt.Sprintf("%.1f mm", float64(f))
}

func percent(f workshop.Figure) string { return fmt.Sprintf("%.0f %%", float64(f)*100) }
