package workshop

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"layshaft/library"
)

// WorkUp answers everything that the job file says enough for. layout may be nil where the job names none. What
// cannot be computed is said in NotComputed; a figure that is wrong is an error.
func WorkUp(ctx context.Context, job *Job, layout *library.Layout, chosen []string, effort Effort) (*Workup, error) {
	w := &Workup{Car: job.Car.Name, Advice: []Advice{}, NotComputed: []Assumption{}, Assumptions: job.Assumed}
	if w.Assumptions == nil {
		w.Assumptions = []Assumption{}
	}
	var err error
	if job.Engine != nil && len(job.Clutches) > 0 {
		if w.Hold, err = Hold(job, effort); err != nil {
			return nil, err
		}
	} else {
		w.leave("hold", "needs engine and clutch")
	}
	if len(job.Clutches) > 0 && len(job.Releases) > 0 {
		if w.Release, err = LetGo(job, "", effort); err != nil {
			return nil, err
		}
	} else {
		w.leave("release", "needs clutch and release")
	}
	if layout == nil || len(job.Work) == 0 {
		w.leave("strip", "needs car.layout and work")
		w.leave("price", "needs car.layout and work")
		return w, nil
	}
	if w.Strip, err = Strip(ctx, job, layout, chosen); err != nil {
		return nil, err
	}
	if job.Shop == nil {
		w.leave("price", "needs shop")
	} else if w.Price, err = priceOf(job, layout, w.Strip, chosen); err != nil {
		return nil, err
	}
	w.Advice = advise(job, layout, w, chosen)
	return w, nil
}

func (w *Workup) leave(key, why string) {
	w.NotComputed = append(w.NotComputed, Assumption{Key: key, Text: why})
}

// LayoutFor finds the layout that the job names.
func LayoutFor(job *Job, layouts *library.Library) (*library.Layout, error) {
	if job.Car.Layout == "" {
		return nil, &Fault{Key: "car", Message: "the car has no layout, so nobody knows what must come off", Example: "layout: rwd-longitudinal"}
	}
	layout, err := layouts.Layout(job.Car.Layout)
	if err != nil {
		return nil, &Fault{Key: "car.layout", Message: err.Error()}
	}
	return layout, nil
}

// advise holds the layout's conditions against the answers: what the shop insists on, and what it advises.
func advise(job *Job, layout *library.Layout, w *Workup, chosen []string) []Advice {
	facts := factsOf(job, w)
	wanted := wantedWork(job, chosen)
	all := []Advice{}
	seen := map[string]bool{}
	for _, weight := range []string{Insisted, Advised} {
		for _, name := range wanted {
			from, _ := layout.Job(name)
			rules := from.Insist
			if weight == Advised {
				rules = from.Advise
			}
			for _, rule := range rules {
				holds, err := rule.When.Holds(facts)
				var unknown *library.NotKnown
				if seen[rule.Job] || (!holds && !errors.As(err, &unknown)) {
					continue
				}
				seen[rule.Job] = true
				advice := Advice{Job: rule.Job, Title: titleOf(layout, rule.Job), Weight: weight, Because: because(rule, job, w), In: slices.Contains(wanted, rule.Job)}
				if err != nil {
					advice.Because = fmt.Sprintf("not known whether it is needed: %s", unknown.Fact)
				}
				all = append(all, advice)
			}
		}
	}
	return all
}

// The weights of advice.
const (
	Insisted = "insisted"
	Advised  = "advised"
	Optional = "optional"
)

func titleOf(layout *library.Layout, name string) string {
	if job, known := layout.Job(name); known && job.Title != "" {
		return job.Title
	}
	return name
}

func factsOf(job *Job, w *Workup) library.Facts {
	clutch, system := job.FittedPair()
	facts := library.Facts{
		Odometer: job.Car.Odometer, FittedClutch: clutch, FittedRelease: system,
		Clutch: map[string]string{}, Release: map[string]string{},
	}
	if w.Hold != nil {
		for name, hold := range w.Hold.Clutches {
			facts.Clutch[name] = hold.Verdict
		}
	}
	proposed, _ := job.ProposedPair()
	if w.Release != nil {
		for _, pair := range w.Release.Pairs {
			if pair.Clutch == proposed {
				facts.Release[pair.Release] = pair.Verdict
			}
		}
	}
	return facts
}

// because gives the reason for advice: the shop's words, and the computed figures where the condition rests on them.
func because(rule library.Advice, job *Job, w *Workup) string {
	why := rule.Why
	if why == "" {
		why = rule.When.String()
	}
	clutch, _ := job.ProposedPair()
	_, fitted := job.FittedPair()
	if pair := w.Release.Pair(clutch, fitted); pair != nil && strings.HasPrefix(rule.When.String(), "release.") {
		why += ": with the new clutch " + pair.Why
	}
	return why
}
