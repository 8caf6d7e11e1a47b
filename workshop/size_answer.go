package workshop

import (
	"fmt"
	"math"
	"slices"

	"layshaft/release"
)

// SizeAnswer is what a search for bores found.
type SizeAnswer struct {
	Clutch       string       `json:"clutch"`
	Release      string       `json:"release"` // the system that the search started from
	EffortLimit  Figure       `json:"effort_limit_n"`
	FreesAtLeast Figure       `json:"frees_at_least"`
	BiteHeightIs string       `json:"bite_height_is"`
	Tried        int          `json:"tried"`
	Good         int          `json:"good"`
	Out          []OutCount   `json:"out"`
	Present      SizeChoice   `json:"present"` // how the parts do that the search started from
	Front        []SizeChoice `json:"front"`   // the lightest first
	Dominated    []SizeChoice `json:"dominated,omitempty"`
	Nearest      string       `json:"nearest,omitempty"` // where nothing is good: what comes nearest
	Notes        []string     `json:"notes"`
}

// OutCount is a reason to leave choices out, and how many it left out.
type OutCount struct {
	Why     string `json:"why"`
	Choices int    `json:"choices"`
}

// SizeChoice is one set of parts.
type SizeChoice struct {
	Number     int      `json:"number,omitempty"` // on the front, from 1
	Master     string   `json:"master"`           // as sold
	MasterBore Figure   `json:"master_bore_mm"`
	Slave      string   `json:"slave"`
	SlaveBore  Figure   `json:"slave_bore_mm"`
	Ratio      Figure   `json:"pedal_ratio"`
	Hose       string   `json:"hose,omitempty"`          // empty for the present one
	HosesToo   []string `json:"hoses_that_do,omitempty"` // other hoses that are good with the same cylinders and pedal
	Changes    []string `json:"changes"`                 // what is not as it is now

	PeakEffort   Figure    `json:"peak_effort_n"`
	EffortRange  [2]Figure `json:"peak_effort_p05_p95_n"` // on the front only
	PFrees       Figure    `json:"p_frees"`
	POverTravels Figure    `json:"p_over_travels"` // at full travel, without a stop
	PGood        Figure    `json:"p_good_at_stop"`
	BiteStart    Figure    `json:"bite_start_mm"`
	BiteHeight   Figure    `json:"bite_height_mm"`
	StopMin      Figure    `json:"stop_min_mm"`
	StopMax      Figure    `json:"stop_max_mm"`
	Stop         Figure    `json:"stop_recommended_mm"`
	MasterStroke Figure    `json:"master_stroke_used_mm"`
	SlaveTravel  Figure    `json:"slave_travel_mm"`
	PeakPressure Figure    `json:"peak_pressure_mpa"`
	Out          string    `json:"out,omitempty"` // why it is not good
}

// outWords tell why choices were left out.
var outWords = map[string]string{
	release.CannotBe: "the figures contradict each other",
	release.TooHeavy: "heavier than the limit",
	release.NoStop:   "no place for the stop: it does not free, or pushes the fingers too far before it does",
	release.Unsure:   "frees, but not surely enough",
}

func (s *sizes) answer(choices, front []release.Choice, spans []release.Span, limits release.Limits) *SizeAnswer {
	a := &SizeAnswer{
		Clutch: s.clutch.Name, Release: s.system.Name, EffortLimit: Figure(limits.Effort), FreesAtLeast: Figure(limits.Frees),
		BiteHeightIs: BiteHeightIs, Tried: len(choices), Front: []SizeChoice{}, Out: []OutCount{}, Notes: s.notes,
	}
	for _, why := range []string{release.TooHeavy, release.NoStop, release.Unsure, release.CannotBe} {
		n := 0
		for i := range choices {
			if choices[i].Out == why {
				n++
			}
		}
		if n > 0 {
			a.Out = append(a.Out, OutCount{outWords[why], n})
		}
	}
	for i := range choices {
		if choices[i].Good() {
			a.Good++
		}
	}
	for i := range front {
		choice := s.choice(&front[i])
		choice.Number, choice.HosesToo = i+1, hosesToo(&front[i], choices)
		choice.EffortRange = [2]Figure{Figure(spans[i].P05), Figure(spans[i].P95)}
		a.Front = append(a.Front, choice)
	}
	if a.Good == 0 {
		a.Nearest = s.nearest(choices)
	}
	return a
}

// dominated lists the good choices off the front, the lightest first.
func (s *sizes) dominated(choices []release.Choice) []SizeChoice {
	all := []SizeChoice{}
	for i := range choices {
		if choices[i].Dominated {
			all = append(all, s.choice(&choices[i]))
		}
	}
	slices.SortStableFunc(all, func(a, b SizeChoice) int {
		switch {
		case a.PeakEffort < b.PeakEffort:
			return -1
		case a.PeakEffort > b.PeakEffort:
			return 1
		}
		return 0
	})
	return all
}

func (s *sizes) choice(c *release.Choice) SizeChoice {
	out := SizeChoice{
		Master: s.bores.BoreName(c.Master), MasterBore: millimetres(c.Master), Slave: s.bores.BoreName(c.Slave), SlaveBore: millimetres(c.Slave),
		Ratio: Figure(c.Ratio), Hose: c.Hose, Changes: []string{},
		PeakEffort: Figure(c.PeakEffort), EffortRange: [2]Figure{Figure(math.NaN()), Figure(math.NaN())},
		PFrees: Figure(c.PFrees), POverTravels: Figure(c.POverTravels), PGood: Figure(c.PBoth),
		BiteStart: millimetres(c.BiteStart), BiteHeight: millimetres(c.BiteHeight()),
		StopMin: millimetres(c.StopMin), StopMax: millimetres(c.StopMax), Stop: millimetres(c.StopRecommended),
		MasterStroke: millimetres(c.MasterStroke), SlaveTravel: millimetres(c.SlaveTravel), PeakPressure: Figure(c.PeakPressure / 1e6),
		Out: outWords[c.Out],
	}
	if c.Ratio == 0 {
		out.Ratio = Figure(s.system.PedalRatio.Mid())
	}
	if s.chain.System.Slave.Sleeve > 0 {
		out.Slave = fmt.Sprintf("%.1f mm on %.1f mm", c.Slave*1e3, s.chain.System.Slave.Sleeve*1e3)
	}
	for _, part := range []struct {
		name    string
		changed bool
	}{
		{"master", out.Master != s.bores.BoreName(s.chain.System.Master.Bore)},
		{"slave", math.Abs(c.Slave-s.chain.System.Slave.Bore) > 0.02e-3},
		{"pedal ratio", c.Ratio != 0 && math.Abs(c.Ratio-s.chain.System.Pedal.Ratio) > 1e-9},
		{"hose", c.Hose != ""},
	} {
		if part.changed {
			out.Changes = append(out.Changes, part.name)
		}
	}
	return out
}

// hosesToo are the other hoses that are good with the cylinders and the pedal of a choice: a better hose is always on
// the front, and need not be bought.
func hosesToo(on *release.Choice, choices []release.Choice) []string {
	var names []string
	for i := range choices {
		c := &choices[i]
		if c.Good() && c.Hose != on.Hose && c.Master == on.Master && c.Slave == on.Slave && c.Ratio == on.Ratio {
			names = append(names, c.Hose)
		}
	}
	return names
}

// nearest says what comes nearest where nothing is good.
func (s *sizes) nearest(choices []release.Choice) string {
	var lightest, surest *release.Choice
	for i := range choices {
		switch c := &choices[i]; {
		case c.Out == release.TooHeavy && c.NoWindow == "" && (lightest == nil || c.PeakEffort < lightest.PeakEffort):
			lightest = c
		case c.Out == release.Unsure && (surest == nil || c.PFrees > surest.PFrees):
			surest = c
		}
	}
	switch {
	case surest != nil:
		c := s.choice(surest)
		return fmt.Sprintf("the surest within the effort is master %s with slave %s and pedal ratio %.2f: it frees with %.0f in 100", c.Master, c.Slave, c.Ratio, surest.PFrees*100)
	case lightest != nil:
		c := s.choice(lightest)
		return fmt.Sprintf("the lightest that frees is master %s with slave %s and pedal ratio %.2f: it takes %.0f N", c.Master, c.Slave, c.Ratio, lightest.PeakEffort)
	}
	return "none of these frees the clutch with any effort: look at pedal travel, box stiffness and the clutch's own figures"
}
