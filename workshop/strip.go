package workshop

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/library"
	"layshaft/stripdown"
)

// StripAnswer says what must come off for the wanted work, in which order, and in how many hours.
type StripAnswer struct {
	Layout     string `json:"layout"`
	Version    string `json:"layout_version"`
	Together   Figure `json:"together_h"`
	Apart      Figure `json:"apart_h"`
	Saved      Figure `json:"saved_h"`
	Proven     bool   `json:"proven"`
	LowerBound Figure `json:"lower_bound_h"`

	Jobs      map[string]JobHours    `json:"jobs"`
	Options   map[string]OptionHours `json:"options"`
	Off       []string               `json:"off"`
	On        []string               `json:"on"`
	SingleUse []string               `json:"single_use"`
	Fluids    []string               `json:"fluids"`

	Conditions []string `json:"conditions"`
	People     int      `json:"people"`
	Steps      []Step   `json:"steps"`
	Basis      string   `json:"basis"`

	jobOrder, optionOrder []string
}

// JobOrder and OptionOrder list the jobs and options as the job file has them.
func (s *StripAnswer) JobOrder() []string    { return s.jobOrder }
func (s *StripAnswer) OptionOrder() []string { return s.optionOrder }

// JobHours is what one wanted job takes.
type JobHours struct {
	Title    string   `json:"title"`
	Work     Figure   `json:"work_h"`
	Adds     Figure   `json:"adds_h"`
	Alone    Figure   `json:"alone_h"`
	Parts    []string `json:"parts"`
	Cautions []string `json:"cautions"`
	WhichWay []string `json:"which_way"`
	Checks   []string `json:"second_checks"`
}

// OptionHours is what an offered job adds to the wanted work, and what it would take by itself later.
type OptionHours struct {
	Title string `json:"title"`
	Adds  Figure `json:"adds_h"`
	Alone Figure `json:"alone_h"`
}

// Step is one operation in the order off.
type Step struct {
	Name      string   `json:"name"`
	TakeOff   string   `json:"take_off"`
	PutBack   string   `json:"put_back"`
	Off       Figure   `json:"off_h"`
	On        Figure   `json:"on_h"`
	Place     string   `json:"place"`
	Condition bool     `json:"condition"`
	People    int      `json:"people"`
	Depth     int      `json:"depth"`
	Needs     []string `json:"needs"` // of the operations that come off
	Jobs      []string `json:"jobs"`  // that lead to it
	Tools     []string `json:"tools"`
	SingleUse []string `json:"single_use"`
	Fluids    []string `json:"fluids"`
	Tighten   []string `json:"tighten"`
	WhichWay  []string `json:"which_way"`
	Cautions  []string `json:"cautions"`
	Checks    []string `json:"second_checks"`
}

// Strip works out the least work for the job's wanted work and what each option would add.
func Strip(ctx context.Context, job *Job, layout *library.Layout, chosen []string) (*StripAnswer, error) {
	if err := checkWork(job, layout); err != nil {
		return nil, err
	}
	wanted := wantedWork(job, chosen)
	plan, err := layout.Graph.PlanContext(ctx, wanted)
	if err != nil {
		return nil, &Fault{Key: "work", Message: err.Error()}
	}
	answer := &StripAnswer{
		Layout: layout.Name, Version: layout.Version(), Basis: layout.Basis,
		Together: Figure(plan.Together), Apart: Figure(plan.Apart), Saved: Figure(plan.Saved),
		Proven: plan.Proven, LowerBound: Figure(plan.LowerBound),
		Jobs: map[string]JobHours{}, Options: map[string]OptionHours{},
		Off: plan.Off, On: plan.On, SingleUse: texts(plan.SingleUse), Fluids: plan.Fluids,
		Conditions: plan.Conditions, People: plan.People, Steps: steps(plan, layout),
		jobOrder: wanted, optionOrder: job.Options,
	}
	for _, hours := range plan.Jobs {
		answer.Jobs[hours.Name] = jobHours(hours, layout)
	}
	for _, option := range job.Options {
		hours, err := optionHours(ctx, option, slices.Contains(job.Work, option), wanted, plan.Together, layout)
		if err != nil {
			return nil, err
		}
		answer.Options[option] = hours
	}
	return answer, nil
}

// wantedWork is the work of the file with the options that were chosen, each once.
func wantedWork(job *Job, chosen []string) []string {
	wanted := slices.Clone(job.Work)
	for _, option := range chosen {
		if !slices.Contains(wanted, option) {
			wanted = append(wanted, option)
		}
	}
	return wanted
}

// CheckChosen sees to it that only offered options are chosen.
func CheckChosen(job *Job, chosen []string) error {
	for _, name := range chosen {
		if !slices.Contains(job.Options, name) {
			return &Fault{Key: "options", Message: fmt.Sprintf("%q is not offered for this car; offered are: %s", name, strings.Join(job.Options, ", "))}
		}
	}
	return nil
}

func checkWork(job *Job, layout *library.Layout) error {
	if len(job.Work) == 0 {
		return &Fault{Key: "work", Message: "no work is wanted", Example: "work: [replace-clutch]"}
	}
	return errors.Join(checkNames("work", job.Work, layout), checkNames("options", job.Options, layout))
}

func checkNames(key string, names []string, layout *library.Layout) error {
	for i, name := range names {
		if _, known := layout.Job(name); !known {
			_, err := layout.Graph.Plan([]string{name})
			return &Fault{Key: fmt.Sprintf("%s[%d]", key, i), Message: fmt.Sprintf("layout %s: %v", layout.Name, err)}
		}
	}
	return nil
}

// optionHours is what a job adds to the others; of one that is chosen already, what it added.
func optionHours(ctx context.Context, option string, included bool, wanted []string, together float64, layout *library.Layout) (OptionHours, error) {
	with, without := slices.Clone(wanted), slices.DeleteFunc(slices.Clone(wanted), func(name string) bool { return name == option })
	if !slices.Contains(with, option) {
		with = append(with, option)
	}
	plan, err := layout.Graph.PlanContext(ctx, with)
	if err != nil {
		return OptionHours{}, &Fault{Key: "options", Message: err.Error()}
	}
	base := together
	if len(with) == len(wanted) {
		less, err := layout.Graph.PlanContext(ctx, without)
		if err != nil {
			return OptionHours{}, &Fault{Key: "options", Message: err.Error()}
		}
		base = less.Together
	}
	title := option
	if job, known := layout.Job(option); known && job.Title != "" {
		title = job.Title
	}
	hours := OptionHours{Title: title, Adds: Figure(tidyHours(plan.Together - base))}
	if included {
		hours.Adds = 0 // it is in the work anyway
	}
	for _, job := range plan.Jobs {
		if job.Name == option {
			hours.Alone = Figure(job.Alone)
		}
	}
	return hours, nil
}

func jobHours(hours stripdown.JobHours, layout *library.Layout) JobHours {
	job, _ := layout.Job(hours.Name)
	out := JobHours{
		Title: job.Title, Work: Figure(hours.Work), Adds: Figure(hours.Adds), Alone: Figure(hours.Alone),
		Cautions: job.Cautions, WhichWay: job.WhichWay, Checks: job.Checks,
	}
	for _, part := range job.Parts {
		out.Parts = append(out.Parts, part.Name)
	}
	return out
}

func steps(plan stripdown.Plan, layout *library.Layout) []Step {
	var all []Step
	for _, step := range plan.Steps {
		op, _ := layout.Operation(step.Name)
		all = append(all, Step{
			Name: step.Name, TakeOff: op.TakeOff, PutBack: op.PutBack, Off: Figure(step.Off), On: Figure(step.On),
			Place: step.Place, Condition: step.Condition, People: max(step.People, 1), Depth: step.Depth,
			Needs: needsWithin(step.Operation, plan.Off), Jobs: step.Jobs, Tools: op.Tools,
			SingleUse: step.SingleUse, Fluids: step.Fluids, Tighten: step.Tighten,
			WhichWay: op.WhichWay, Cautions: step.Cautions, Checks: op.Checks,
		})
	}
	return all
}

// needsWithin lists what an operation waits for, among the operations that come off.
func needsWithin(op stripdown.Operation, off []string) []string {
	needs := slices.Clone(op.Needs)
	for _, group := range op.AnyOf {
		for _, member := range group {
			if slices.Contains(off, member) && !slices.Contains(needs, member) {
				needs = append(needs, member)
			}
		}
	}
	return needs
}

func texts(notes []stripdown.Note) []string {
	all := make([]string, len(notes))
	for i, note := range notes {
		all[i] = note.Text
	}
	return all
}

// tidyHours takes off the dust that a difference of decimal hours leaves in binary.
func tidyHours(hours float64) float64 { return math.Round(hours*1e6) / 1e6 }
