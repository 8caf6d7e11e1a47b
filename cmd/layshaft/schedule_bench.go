package main

import (
	"context"
	"fmt"
	"time"

	"layshaft/diary/project"
	"layshaft/diary/psplib"
)

// scheduleBenchCommand measures the diary's planner on a project of the public library.
type scheduleBenchCommand struct {
	File    string  `arg:"" help:"Single-mode project file (.sm) of the project scheduling problem library."`
	Seconds float64 `default:"10" help:"How long to look, unless the plan is proven sooner."`
	Seed    uint64  `default:"1" help:"Seed of the search."`
	JSON    bool    `name:"json" help:"Print one JSON object instead of text."`
}

type benchAnswer struct {
	Makespan     int   `json:"makespan"`
	LowerBound   int   `json:"lower_bound"`
	CriticalPath int   `json:"critical_path"`
	Proven       bool  `json:"proven"`
	Starts       []int `json:"starts"`
}

// longestBench keeps a slip of the keyboard from running for weeks.
const longestBench = 24 * 3600

func (s *scheduleBenchCommand) Run(c console) error {
	if !(s.Seconds > 0 && s.Seconds <= longestBench) {
		return fmt.Errorf("--seconds %g: more than 0 and at most %d", s.Seconds, longestBench)
	}
	text, err := readFile(s.File)
	if err != nil {
		return err
	}
	problem, err := psplib.Read(s.File, text)
	if err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), time.Duration(s.Seconds*float64(time.Second)))
	defer cancel()
	plan, err := project.Solve(ctx, problem, project.Effort{Seed: s.Seed})
	if err != nil {
		return err
	}
	answer := benchAnswer{plan.End, plan.LowerBound, problem.CriticalPath(), plan.Proven(), plan.Starts}
	if s.JSON {
		return printJSON(c.out, answer)
	}
	fmt.Fprintf(c.out, "ends at %d; no plan ends before %d; critical path %d\n", answer.Makespan, answer.LowerBound, answer.CriticalPath)
	for i, start := range answer.Starts {
		fmt.Fprintf(c.out, "%4d starts at %d\n", i+1, start)
	}
	return nil
}
