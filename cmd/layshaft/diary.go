package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"strings"
	"time"

	"layshaft/diary"
	"layshaft/diaryfile"
)

type diaryCommand struct {
	File    string  `arg:"" help:"Diary file (YAML)."`
	JSON    bool    `name:"json" help:"Print one JSON object instead of text."`
	Check   bool    `help:"Exit with status 1 when a car is late or cannot be planned."`
	Seconds float64 `default:"3" help:"How long to look for a better plan, unless it is proven best sooner."`
	Work    int     `help:"Try so many orders instead, for the same plan on any machine."`
	Seed    uint64  `default:"1" help:"Seed of the search and of the draws."`
	Draws   int     `default:"1000" help:"How many draws tell the promise."`
	Before  string  `help:"A plan printed with --json: stay near it."`
}

// wall is how times are printed: as the clock on the wall shows them.
const wall = "2006-01-02T15:04"

type diaryAnswer struct {
	Cars       []diaryCar   `json:"cars"`
	Tasks      []diaryTask  `json:"tasks"`
	Stays      []diaryStay  `json:"stays"`
	Faults     []diaryFault `json:"faults"`
	LowerBound float64      `json:"lower_bound_h"`
	Makespan   float64      `json:"makespan_h"`
	Late       float64      `json:"weighted_late_h"`
	LateBound  float64      `json:"weighted_late_lower_bound_h"`
	Moved      float64      `json:"moved_h"`
	Tried      int          `json:"tried"`
}

type diaryCar struct {
	Name     string      `json:"name"`
	Start    string      `json:"start"`
	Finish   string      `json:"finish"`
	Promise  string      `json:"promise,omitempty"`
	P80      string      `json:"promise_p80"`
	InTime   *float64    `json:"p_in_time,omitempty"`
	Late     float64     `json:"late_h"`
	Earliest string      `json:"earliest_finish"`
	Waits    []diaryWait `json:"waits"`
}

type diaryWait struct {
	Car  string `json:"car"`
	Task string `json:"task"`
	From string `json:"from"`
	For  string `json:"for"`
}

type diaryTask struct {
	Car    string   `json:"car"`
	Task   string   `json:"task"`
	Start  string   `json:"start"`
	Finish string   `json:"finish"`
	People []string `json:"people"`
	Ramp   string   `json:"ramp,omitempty"`
}

type diaryStay struct {
	Car      string `json:"car"`
	Ramp     string `json:"ramp"`
	From     string `json:"from"`
	To       string `json:"to"`
	Stripped bool   `json:"stripped"`
}

type diaryFault struct {
	Car     string `json:"car"`
	Task    string `json:"task,omitempty"`
	Message string `json:"message"`
	Planned bool   `json:"planned"`
}

func (s *diaryCommand) Run(c console) error {
	if !(s.Seconds > 0 && s.Seconds <= longestBench) || s.Work < 0 || s.Draws < 10 || s.Draws > 100_000 {
		return fmt.Errorf("--seconds wants more than 0, --work 0 or more, --draws 10 to 100000")
	}
	text, err := readFile(s.File)
	if err != nil {
		return err
	}
	d, err := diaryfile.Parse(s.File, text)
	if err != nil {
		return err
	}
	answer, err := s.plan(d)
	if err != nil {
		return err
	}
	if s.JSON {
		err = printJSON(c.out, answer)
	} else {
		printDiary(c.out, answer)
	}
	if err == nil && s.Check {
		return answer.verdict()
	}
	return err
}

func (s *diaryCommand) plan(d *diaryfile.Diary) (*diaryAnswer, error) {
	effort := diary.Effort{Seed: s.Seed, Work: s.Work}
	if s.Work > 0 {
		effort.Workers = 2
	}
	if s.Before != "" {
		before, err := readPlan(s.Before, d)
		if err != nil {
			return nil, err
		}
		effort.Before = before
	}
	ctx := context.Background()
	if s.Work == 0 {
		limited, cancel := context.WithTimeout(ctx, time.Duration(s.Seconds*float64(time.Second)))
		defer cancel()
		ctx = limited
	}
	plan := diary.Make(ctx, d.Shop, d.Cars, effort)
	return answerOf(d, plan, diary.Promise(d.Shop, d.Cars, plan, s.Draws, s.Seed)), nil
}

// readPlan reads a plan that was printed before.
func readPlan(name string, d *diaryfile.Diary) (*diary.Plan, error) {
	text, err := readFile(name)
	if err != nil {
		return nil, err
	}
	var answer diaryAnswer
	if err := json.Unmarshal(text, &answer); err != nil {
		return nil, fmt.Errorf("%s: is no plan printed with --json: %v", name, err)
	}
	plan := &diary.Plan{}
	for _, t := range answer.Tasks {
		at, err := time.Parse(wall, t.Start)
		if err != nil {
			return nil, fmt.Errorf("%s: %s of %s: start %q is not a time such as 2027-03-01T08:00", name, t.Task, t.Car, t.Start)
		}
		plan.Tasks = append(plan.Tasks, diary.Placed{Car: t.Car, Task: t.Task, Span: diary.Span{From: int(at.Sub(d.Start) / time.Minute)}})
	}
	return plan, nil
}

func answerOf(d *diaryfile.Diary, plan *diary.Plan, chances []diary.Chance) *diaryAnswer {
	at := func(minute int) string { return d.At(minute).Format(wall) }
	a := &diaryAnswer{Cars: []diaryCar{}, Tasks: []diaryTask{}, Stays: []diaryStay{}, Faults: []diaryFault{},
		LowerBound: inHours(plan.Bound), Makespan: inHours(plan.End), Late: plan.Late / 60, LateBound: plan.LateBound / 60,
		Moved: inHours(plan.Moved), Tried: plan.Rounds}
	promises := map[string]int{}
	for _, car := range d.Cars {
		promises[car.Name] = car.Promise
	}
	for k, o := range plan.Cars {
		car := diaryCar{Name: o.Name, Start: at(o.From), Finish: at(o.To), P80: at(chances[k].By(0.8)), Late: inHours(o.Late), Earliest: at(o.Bound), Waits: []diaryWait{}}
		if promise := promises[o.Name]; promise != diary.Never {
			chance := chances[k].InTime(promise)
			car.Promise, car.InTime = at(promise), &chance
		}
		for _, w := range o.Waits {
			car.Waits = append(car.Waits, diaryWait{w.Car, w.Task, at(w.From), w.For})
		}
		a.Cars = append(a.Cars, car)
	}
	for _, t := range plan.Tasks {
		a.Tasks = append(a.Tasks, diaryTask{t.Car, t.Task, at(t.From), at(t.To), t.People, t.Ramp})
	}
	for _, s := range plan.Stays {
		a.Stays = append(a.Stays, diaryStay{s.Car, s.Ramp, at(s.From), at(s.To), s.Stripped})
	}
	for _, f := range plan.Faults {
		a.Faults = append(a.Faults, diaryFault{f.Car, f.Task, f.Message, f.Planned})
	}
	return a
}

func inHours(minutes int) float64 { return float64(minutes) / 60 }

// verdict is the answer "no": a car is late or not planned.
func (a *diaryAnswer) verdict() error {
	var why []string
	for _, f := range a.Faults {
		if !f.Planned {
			why = append(why, f.Car+" cannot be planned")
		}
	}
	for _, c := range a.Cars {
		if c.Late > 0 {
			why = append(why, fmt.Sprintf("%s is %.1f h late", c.Name, c.Late))
		}
	}
	if len(why) > 0 {
		return no{strings.Join(why, "; ")}
	}
	return nil
}

func printDiary(w io.Writer, a *diaryAnswer) {
	t := newTable("car", "begun", "ready", "can be promised (80 %)", "promised", "late")
	for _, c := range a.Cars {
		t.row(c.Name, clock(c.Start), clock(c.Finish), clock(c.P80), clock(c.Promise), fmt.Sprintf("%.1f h", c.Late))
	}
	t.print(w)
	fmt.Fprintf(w, "\nAll is done after %.1f h on the clock; no plan can be done before %.1f h.\n", a.Makespan, a.LowerBound)
	fmt.Fprintf(w, "Weighted lateness %.1f h; no plan has less than %.1f h. The promise takes lengths as log-normal and parts as punctual.\n", a.Late, a.LateBound)
	for _, f := range a.Faults {
		fmt.Fprintf(w, "! %s\n", strings.TrimPrefix(f.Car+", "+f.Task+": "+f.Message, ", "))
	}
	fmt.Fprintln(w, "\nDiary:")
	for _, x := range a.Tasks {
		fmt.Fprintf(w, "%s to %s  %s: %s  [%s]%s\n", clock(x.Start), clock(x.Finish), x.Car, x.Task, strings.Join(x.People, ", "), onRamp(x.Ramp))
	}
	fmt.Fprintln(w, "\nWhat each car waits for, from its last task back:")
	for _, c := range a.Cars {
		fmt.Fprintf(w, "%s\n", c.Name)
		for _, x := range c.Waits {
			fmt.Fprintf(w, "  %s  %s: %s  <- %s\n", clock(x.From), x.Car, x.Task, x.For)
		}
	}
}

func clock(s string) string { return strings.Replace(s, "T", " ", 1) }

func onRamp(ramp string) string {
	if ramp == "" {
		return ""
	}
	return " on " + ramp
}
