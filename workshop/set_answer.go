package workshop

import (
	"fmt"
	"strings"

	"layshaft/release"
)

// SetAnswer is how a pedal is to be set: the record of what was read before, what is advised, what should be read
// afterwards, and what was.
type SetAnswer struct {
	Clutch  string `json:"clutch"`
	Release string `json:"release"`

	Before   []SetRead     `json:"before"` // but for the free play, which is a setting and nothing to be explained
	Advice   SetAdvice     `json:"advice"`
	Expected []SetExpected `json:"expected"`
	After    *SetAfter     `json:"after,omitempty"`

	Learned   []SetLearned `json:"learned"` // in SI units, the one that the readings tell most of first
	Draws     int          `json:"draws"`
	Stages    int          `json:"stages"`
	Effective Figure       `json:"effective_draws"`
	Notes     []string     `json:"notes,omitempty"`
}

// SetRead is a reading beside what the job file's figures let expect and what the learned ones make of it.
type SetRead struct {
	Reading     string `json:"reading"`
	Unit        string `json:"unit"`
	Read        Figure `json:"read"`
	Uncertainty Figure `json:"uncertainty"`
	BeforeP05   Figure `json:"expected_p05"`
	BeforeP95   Figure `json:"expected_p95"`
	LearnedP05  Figure `json:"learned_p05"`
	LearnedP95  Figure `json:"learned_p95"`
	Off         Figure `json:"off_by_sd"`
	Unexplained bool   `json:"unexplained"`
}

// SetAdvice is how rod and stop belong.
type SetAdvice struct {
	Rod          string `json:"rod"` // longer, shorter, leave
	RodLonger    Figure `json:"rod_longer_mm"`
	TurnsLonger  Figure `json:"turns_longer"`
	Stop         Figure `json:"stop_mm"`
	StopMin      Figure `json:"stop_min_mm"`
	StopMax      Figure `json:"stop_max_mm"`
	NoStop       string `json:"no_stop,omitempty"`
	PGood        Figure `json:"p_good"`
	PPortOpen    Figure `json:"p_port_open"`
	FreePlayMin  Figure `json:"free_play_min_mm"`
	FreePlayMax  Figure `json:"free_play_max_mm"`
	FreePlayFrom string `json:"free_play_from"`
	Steps        []Do   `json:"steps"`
}

// Do is one step of the setting, with what may go wrong at it.
type Do struct {
	Do       string   `json:"do"`
	Cautions []string `json:"cautions,omitempty"`
}

// SetExpected is one reading as it should come out, with the error that such a reading usually has.
type SetExpected struct {
	Reading string `json:"reading"`
	Unit    string `json:"unit"`
	P05     Figure `json:"p05"`
	P50     Figure `json:"p50"`
	P95     Figure `json:"p95"`
	AtStop  bool   `json:"at_stop,omitempty"` // read with the pedal held at the stop
}

// SetLearned is one unsure figure before and after the readings.
type SetLearned struct {
	Key      string `json:"key"`
	Before   Figure `json:"before"`
	BeforeSD Figure `json:"before_sd"`
	After    Figure `json:"after"`
	AfterSD  Figure `json:"after_sd"`
	Told     Figure `json:"told"` // the part of its variance that is gone
}

// SetAfter is what was read once rod and stop were set.
type SetAfter struct {
	RodLonger Figure       `json:"rod_longer_mm"` // as it was set
	Stop      Figure       `json:"stop_mm"`
	Readings  []SetChecked `json:"readings"`
	PGood     Figure       `json:"p_good"` // by these readings
	Word      string       `json:"word"`
	WhatNow   string       `json:"what_now"`
}

// SetChecked is one reading held against what it should be.
type SetChecked struct {
	Reading     string `json:"reading"`
	Unit        string `json:"unit"`
	Read        Figure `json:"read"`
	Uncertainty Figure `json:"uncertainty"`
	P05         Figure `json:"p05"`
	P95         Figure `json:"p95"`
	Chance      Figure `json:"chance"` // of a reading at least as far out on either side
	Word        string `json:"word"`
}

// conclude says what the readings come to together: the worst of them counts.
func (a *SetAfter) conclude() {
	a.Word = release.AsExpected
	for _, r := range a.Readings {
		switch {
		case r.Word == release.NotExpected:
			a.Word = release.NotExpected
		case r.Word == release.AtTheEdge && a.Word == release.AsExpected:
			a.Word = release.AtTheEdge
		}
	}
	switch {
	case a.Word == release.NotExpected:
		a.WhatNow = "something is not as it was when the first readings were taken: do not drive it. Read again; if it stays, find out why (diagnose) before anything else is set"
	case a.Word == release.AtTheEdge:
		a.WhatNow = "read again what lies at the edge, best by another person; one reading in ten does by chance"
	case a.PGood < 0.95:
		a.WhatNow = fmt.Sprintf("it reads as it should, but is good with only %.0f in 100: set it anew from these readings", a.PGood*100)
	default:
		a.WhatNow = "lock rod and stop, have a second person check both, and enter the readings"
	}
}

// steps put the setting in the order in which it is done.
func (s *setting) steps(a *SetAnswer) []Do {
	concentric := s.chain.System.Slave.Sleeve > 0
	var steps []Do
	if doubted := unexplained(a.Before); len(doubted) > 0 {
		steps = append(steps, Do{Do: "Before anything is set, read again what no figure within its range explains: " + strings.Join(doubted, ", ") + ".",
			Cautions: []string{"If it stays, find out why (diagnose): a setting does not cure a fault, and what follows rests on sound parts."}})
	}
	steps = append(steps, Do{Do: "Engine off, gear lever in neutral, wheels chocked. Set the pedal's rest height on its own stop before the rod is touched.",
		Cautions: []string{"Nobody is under the car, and no hand at fork or slave, while anyone is at the pedal."}})
	rod := Do{Do: "Leave the rod as it is; see that its lock nut is tight."}
	if a.Advice.Rod != "leave" {
		rod = Do{Do: fmt.Sprintf("Slacken the lock nut and make the rod %s %s, then tighten the lock nut.", a.Advice.Rod, turnsWords(&a.Advice)),
			Cautions: []string{"A rod that is not locked works itself longer or shorter on the road.", "Enough of the thread must stay in: go by the maker's least length of engagement."}}
	}
	steps = append(steps, rod)
	port := Do{Do: "Port check: press slave or fork fully back by hand. It must go back.",
		Cautions: []string{"If it does not, the rod holds the master's port shut: the pedal would pump up and the clutch slip. Shorten the rod until it does, before bleeding is blamed."}}
	if concentric {
		port = Do{Do: "Port check: with the reservoir's cap off, press the pedal slowly. Fluid must well up in the reservoir before the pedal meets resistance.",
			Cautions: []string{"If it does not, the rod holds the master's port shut: shorten the rod before bleeding is blamed.",
				"Clutch fluid harms eyes, skin and paint.", "Never stroke a concentric slave that has nothing to push on."}}
	}
	steps = append(steps, port)
	steps = append(steps, Do{Do: fmt.Sprintf("Read the free play at the pad: %s.", expectedWords(a.Expected, release.FreePlayRead)),
		Cautions: []string{fmt.Sprintf("Wanted are %.3g to %.3g mm (%s).", a.Advice.FreePlayMin, a.Advice.FreePlayMax, a.Advice.FreePlayFrom)}})
	if a.Advice.NoStop != "" {
		return append(steps, Do{Do: "No place for the stop: " + a.Advice.NoStop + ".",
			Cautions: []string{"Do not drive it. Find out why it does not free (diagnose), or choose other parts (size)."}})
	}
	return append(steps,
		Do{Do: fmt.Sprintf("Set the pedal's stop at %.0f mm of travel at the pad and lock it.", a.Advice.Stop),
			Cautions: []string{"A stop of metal, not the carpet.", "Too little and it drags, too much and the fingers go past the maker's limit.", "A second person measures rest, free play and stop without seeing the first figures."}},
		Do{Do: fmt.Sprintf("Read where it bites as the pedal is let up: %s of travel.", expectedWords(a.Expected, release.BiteRead)),
			Cautions: []string{"In gear, wheels free, engine off, a helper turning a wheel by hand: keep clear of shafts and joints."}},
		Do{Do: fmt.Sprintf("Hold the pedal at the stop, with a clamp and not a foot, and read the slave's travel: %s; where the bearing can be seen, its travel: %s.",
			expectedWords(a.Expected, release.SlaveTravelRead), expectedWords(a.Expected, release.BearingTravelRead)),
			Cautions: []string{"A pedal that slips off its clamp moves fork and bearing at once: keep fingers out."}},
		Do{Do: "Idle, pedal down, wait 3 s: reverse must go in without a rattle. Again hot, after ten quick strokes, and after five minutes of idling.",
			Cautions: []string{"Hand brake on, wheels chocked, nobody in front or behind.", "Road tests by insured, licensed drivers on suitable roads."}})
}

func unexplained(before []SetRead) []string {
	var all []string
	for _, r := range before {
		if r.Unexplained {
			all = append(all, fmt.Sprintf("%s %.4g %s", r.Reading, r.Read, r.Unit))
		}
	}
	return all
}

func expectedWords(all []SetExpected, kind release.SettingKind) string {
	for _, e := range all {
		if e.Reading == kind.Key() {
			return fmt.Sprintf("%.1f %s, between %.1f and %.1f", e.P50, e.Unit, e.P05, e.P95)
		}
	}
	return "not known"
}
