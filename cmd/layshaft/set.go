package main

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"layshaft/jobfile"
	"layshaft/release"
	"layshaft/workshop"
)

type setCommand struct {
	jobArgs
	Readings string `required:"" placeholder:"S.yaml" help:"What was read on the car (YAML)."`
}

func (s *setCommand) Run(c console) error {
	effort, err := s.effort()
	if err != nil {
		return err
	}
	job, source, _, err := s.load()
	if err != nil {
		return err
	}
	text, err := readFile(s.Readings)
	if err != nil {
		return err
	}
	car, read, err := jobfile.ParseSetting(s.Readings, text)
	if err != nil {
		return err
	}
	answer, err := workshop.SetUp(job, car, effort)
	if err != nil {
		return locateSetting(source, read, err)
	}
	if s.JSON {
		err = printJSON(c.out, answer)
	} else {
		printSetting(c.out, answer)
		printAssumptions(c.out, job.Assumed, "release."+answer.Release+".", "clutch."+answer.Clutch+".")
	}
	if err != nil || !s.Check {
		return err
	}
	return checkSetting(answer)
}

// checkSetting is the "no" of --check: no setting frees, or what was read afterwards is not as it should be.
func checkSetting(a *workshop.SetAnswer) error {
	switch {
	case a.After != nil && a.After.Word == release.NotExpected:
		return no{a.After.WhatNow}
	case a.Advice.NoStop != "":
		return no{a.Advice.NoStop}
	}
	return nil
}

// locateSetting finds a fault's place in the setting file or in the job file, by its key.
func locateSetting(job, read *jobfile.Source, err error) error {
	var fault *workshop.Fault
	if errors.As(err, &fault) {
		switch part, _, _ := strings.Cut(fault.Key, "."); part {
		case "pair", "setting", "wanted", "done", "after":
			return read.Locate(err)
		}
	}
	return job.Locate(err)
}

func printSetting(w io.Writer, a *workshop.SetAnswer) {
	fmt.Fprintf(w, "Setting the pedal of %s with %s\n\n", a.Clutch, a.Release)
	if len(a.Before) > 0 {
		t := newTable("read", "", "expected before", "learned", "off")
		for _, r := range a.Before {
			mark := ""
			if r.Unexplained {
				mark = ", not explained"
			}
			t.row(r.Reading, fmt.Sprintf("%.4g +- %.2g %s", r.Read, r.Uncertainty, r.Unit), fmt.Sprintf("%.4g .. %.4g", r.BeforeP05, r.BeforeP95),
				fmt.Sprintf("%.4g .. %.4g", r.LearnedP05, r.LearnedP95), fmt.Sprintf("%.1f sd%s", r.Off, mark))
		}
		t.print(w)
	}
	for i, l := range a.Learned {
		if i < 5 && l.Told >= 0.05 {
			fmt.Fprintf(w, "  learned of %s: %s of its doubt is gone\n", l.Key, percent(l.Told))
		}
	}
	fmt.Fprintf(w, "  rests on %.0f effective draws of %d, in %d stages\n\nTo be done:\n", a.Effective, a.Draws, a.Stages)
	for i, step := range a.Advice.Steps {
		fmt.Fprintf(w, "%3d. %s\n", i+1, step.Do)
		for _, caution := range step.Cautions {
			fmt.Fprintf(w, "       ! %s\n", caution)
		}
	}
	fmt.Fprintf(w, "\nGood with %s", percent(a.Advice.PGood))
	if a.Advice.NoStop == "" {
		fmt.Fprintf(w, "; the stop may stand between %s and %s", mm(a.Advice.StopMin), mm(a.Advice.StopMax))
	}
	fmt.Fprintf(w, ". The rod leaves the port open with %s.\n\n", percent(a.Advice.PPortOpen))
	t := newTable("to be read afterwards", "", "between")
	for _, e := range a.Expected {
		where := ""
		if e.AtStop {
			where = " at the stop"
		}
		t.row(e.Reading+where, fmt.Sprintf("%.4g %s", e.P50, e.Unit), fmt.Sprintf("%.4g .. %.4g", e.P05, e.P95))
	}
	t.print(w)
	for _, note := range a.Notes {
		fmt.Fprintf(w, "\nNote: %s.\n", note)
	}
	if a.After != nil {
		printAfter(w, a.After)
	}
}

func printAfter(w io.Writer, a *workshop.SetAfter) {
	fmt.Fprintf(w, "\nAfterwards, with the rod %.2f mm longer and the stop at %s:\n", a.RodLonger, mm(a.Stop))
	t := newTable("read", "", "should be", "")
	for _, r := range a.Readings {
		t.row(r.Reading, fmt.Sprintf("%.4g +- %.2g %s", r.Read, r.Uncertainty, r.Unit), fmt.Sprintf("%.4g .. %.4g", r.P05, r.P95), r.Word)
	}
	t.print(w)
	fmt.Fprintf(w, "%s; good with %s by these readings: %s.\n", a.Word, percent(a.PGood), a.WhatNow)
}
