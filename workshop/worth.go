package workshop

import (
	"context"
	"slices"
	"strings"

	"layshaft/library"
	"layshaft/worth"
)

// WorthAnswer says of each further job whether it is worth doing now, while the way to it is open.
type WorthAnswer struct {
	Currency    string              `json:"currency"`
	Horizon     Figure              `json:"horizon_km"` // how far ahead one asks whether it will be needed
	Level       Figure              `json:"level"`      // of the intervals
	Records     string              `json:"records"`    // where the shop's records come from
	Jobs        map[string]WorthNow `json:"jobs"`
	Assumptions []Assumption        `json:"assumptions"`
	order       []string
}

// Order lists the options as the job file has them, and then the jobs that are advised.
func (a *WorthAnswer) Order() []string { return a.order }

// WorthNow is one further job, or a look at the part that another would renew. Amounts are gross, in the shop's
// currency.
type WorthNow struct {
	Title      string        `json:"title"`
	Weight     string        `json:"weight"`             // optional or advised
	LooksAt    string        `json:"looks_at,omitempty"` // the job that this one is a look for; what follows is about that job
	Adds       string        `json:"adds_gross"`         // done now
	With       []string      `json:"with,omitempty"`     // of that, jobs which the shop insists on beside it
	Later      string        `json:"later_gross"`        // by itself, with what the shop always insists on beside it
	Collateral Figure        `json:"collateral"`         // damage that comes with waiting, as a part of Later
	WhenNeeded Figure        `json:"when_needed"`        // Later and the damage
	BreakEven  Figure        `json:"break_even"`
	Look       *LookFirst    `json:"look,omitempty"`
	Rate       *FindingRate  `json:"rate,omitempty"`
	Life       *FittedLife   `json:"life,omitempty"`
	NoLife     string        `json:"no_life,omitempty"` // why the known distances do not tell how it stands with this car
	Chance     *ChanceOfNeed `json:"chance,omitempty"`
	Expected   *ExpectedCost `json:"expected,omitempty"`
	Verdict    worth.Verdict `json:"verdict"`
	Words      string        `json:"words"`
}

// LookFirst is the way between doing a job unseen and leaving it.
type LookFirst struct {
	Job        string `json:"job"`
	Title      string `json:"title"`
	Adds       string `json:"adds_gross"`
	Detects    Figure `json:"detects"`
	FalseAlarm Figure `json:"false_alarm"`
	From       Figure `json:"pays_from"` // the chances of need between which looking is the cheapest; where From is not
	To         Figure `json:"pays_to"`   // below To it never is
}

// FindingRate is how often the shop found the part worn.
type FindingRate struct {
	Looked int    `json:"looked"`
	Found  int    `json:"found"`
	Means  string `json:"means,omitempty"` // what counts as worn
	Mean   Figure `json:"mean"`
	Low    Figure `json:"low"`
	High   Figure `json:"high"`
}

// FittedLife is the life that the shop's findings tell, in distance driven.
type FittedLife struct {
	Shape   Figure `json:"shape"`
	Scale   Figure `json:"scale_km"`
	Mean    Figure `json:"mean_km"`
	B10     Figure `json:"b10_km"`
	B10Low  Figure `json:"b10_low_km"`
	B10High Figure `json:"b10_high_km"`
	// IfSound is the chance of a part that is found sound now to be worn by the end of the distance asked ahead.
	IfSound     Figure `json:"if_sound"`
	IfSoundLow  Figure `json:"if_sound_low"`
	IfSoundHigh Figure `json:"if_sound_high"`
}

// ChanceOfNeed is what the verdict rests on.
type ChanceOfNeed struct {
	From string `json:"from"` // FromRate or FromLife
	Best Figure `json:"best"`
	Low  Figure `json:"low"`
	High Figure `json:"high"`
}

// What a chance of need can come from.
const (
	FromRate = "rate" // the share of parts found worn
	FromLife = "life" // the life fitted to the findings, at this car's odometer
)

// ExpectedCost is what each way costs on average, at the best guess of the chance of need.
type ExpectedCost struct {
	Now       Figure  `json:"now"`
	Leave     Figure  `json:"leave"`
	LookFirst *Figure `json:"look_first,omitempty"`
}

// usualHorizon is how far ahead one asks where the shop has not said: common practice, no source.
const usualHorizon = 40_000e3 // m

// Worth reckons for each option and each advised job of a worked-up car whether it is worth doing now. findings may be
// nil. Without a price there is no answer, and no error.
func Worth(ctx context.Context, job *Job, layout *library.Layout, w *Workup, chosen []string, findings *library.Findings) (*WorthAnswer, error) {
	if w.Price == nil {
		return nil, nil
	}
	s := &scales{ctx: ctx, job: job, layout: layout, wanted: wantedWork(job, chosen), findings: findings, horizon: usualHorizon}
	answer := &WorthAnswer{
		Currency: w.Price.Currency, Level: worth.Usual, Records: string(worth.NoRecords),
		Jobs: map[string]WorthNow{}, Assumptions: []Assumption{},
	}
	if findings != nil {
		answer.Records = findings.Basis
	}
	if findings != nil && findings.Horizon > 0 {
		s.horizon = findings.Horizon
	} else {
		answer.assume("worth.horizon", "asked whether it is needed within "+kilometres(s.horizon)+": common practice, no source")
	}
	answer.Horizon = Figure(s.horizon / 1e3)
	var harmless []string
	for _, candidate := range candidates(job, w.Advice) {
		now, err := s.weigh(candidate)
		if err != nil {
			return nil, err
		}
		answer.Jobs[candidate.Job] = now
		answer.order = append(answer.order, candidate.Job)
		if now.Collateral == 0 {
			harmless = append(harmless, candidate.Job)
		}
	}
	if len(harmless) > 0 {
		answer.assume("worth.collateral", "no damage counted for waiting until it is needed: "+strings.Join(harmless, ", "))
	}
	return answer, nil
}

func (a *WorthAnswer) assume(key, text string) {
	a.Assumptions = append(a.Assumptions, Assumption{Key: key, Text: text})
}

// candidates are the options and the advised jobs, where there is a choice: not those in the work already, nor those
// that the shop insists on.
func candidates(job *Job, advice []Advice) []Advice {
	var all []Advice
	for _, option := range job.Options {
		at := slices.IndexFunc(advice, func(a Advice) bool { return a.Job == option })
		switch {
		case at < 0:
			all = append(all, Advice{Job: option, Weight: Optional})
		case advice[at].Weight == Advised:
			all = append(all, advice[at])
		}
	}
	for _, a := range advice {
		if a.Weight == Advised && !a.In && !slices.Contains(job.Options, a.Job) {
			all = append(all, a)
		}
	}
	return all
}

// scales weigh one further job after the other.
type scales struct {
	ctx      context.Context
	job      *Job
	layout   *library.Layout
	wanted   []string
	findings *library.Findings
	horizon  float64 // m
}

// weigh reckons one candidate. One that is a look at the part which another job renews is weighed by what that job
// costs.
func (s *scales) weigh(candidate Advice) (WorthNow, error) {
	renews, isLook := s.findings.SeenBy(candidate.Job, s.layout)
	if !isLook {
		renews = candidate.Job
	}
	records := s.findings.On(renews)
	p, err := s.price(renews, records.Collateral)
	if err != nil {
		return WorthNow{}, err
	}
	now := WorthNow{
		Title: titleOf(s.layout, candidate.Job), Weight: candidate.Weight,
		Adds: p.now.Amount(), With: p.with, Later: p.later.Amount(),
		Collateral: Figure(records.Collateral), WhenNeeded: reckoned(p.costs.WhenNeeded()), BreakEven: Figure(p.costs.BreakEven()),
	}
	look, err := s.look(&now, p.costs, records.Look)
	if err != nil {
		return now, err
	}
	if isLook {
		now.LooksAt, now.Adds, now.With, now.BreakEven = renews, now.Look.Adds, nil, now.Look.From
	}
	s.evidence(&now, records)
	now.judge(p.costs, look)
	now.Words = now.sentence(titleOf(s.layout, renews), s.horizon, s.job.Car.Odometer)
	return now, nil
}

// look adds the way by a look at the part, where the shop has said how it looks and the layout has the job.
func (s *scales) look(now *WorthNow, costs worth.Costs, by *library.Look) (*worth.Look, error) {
	if by == nil {
		return nil, nil
	}
	if _, known := s.layout.Job(by.Job); !known {
		return nil, nil
	}
	p, err := s.price(by.Job, 0)
	if err != nil {
		return nil, err
	}
	look := worth.Look{Cost: p.costs.Now, Detects: by.Detects, FalseAlarm: by.FalseAlarm}
	from, to := costs.LookPays(look)
	now.Look = &LookFirst{
		Job: by.Job, Title: titleOf(s.layout, by.Job), Adds: p.now.Amount(),
		Detects: Figure(by.Detects), FalseAlarm: Figure(by.FalseAlarm), From: Figure(from), To: Figure(to),
	}
	return &look, nil
}

// judge holds the evidence against the costs.
func (now *WorthNow) judge(costs worth.Costs, look *worth.Look) {
	breakEven := float64(now.BreakEven)
	never := now.LooksAt != "" && now.Look.From >= now.Look.To
	switch {
	case never:
		now.Verdict = worth.DoesNotPay
	case now.Chance == nil:
		now.Verdict = worth.Unrecorded(breakEven)
	default:
		now.Verdict = worth.Judge(breakEven, worth.Interval{Low: float64(now.Chance.Low), High: float64(now.Chance.High)})
	}
	if now.Chance == nil {
		return
	}
	p := float64(now.Chance.Best)
	now.Expected = &ExpectedCost{Now: reckoned(costs.Now), Leave: reckoned(costs.Leave(p))}
	if look != nil {
		first := reckoned(costs.LookFirst(*look, p))
		now.Expected.LookFirst = &first
	}
}
