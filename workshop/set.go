package workshop

import (
	"errors"
	"fmt"
	"strings"

	"layshaft/release"
	"layshaft/uncertain"
)

// CarSetting is what was read on a car while its pedal is set: before, and again once rod and stop were set. A setting
// file is its written form; package jobfile reads that.
type CarSetting struct {
	Pair   string // "clutch/release", as fitted
	Before SettingTaken
	Wanted *release.Wanted // nil: what makers usually ask for
	After  *SettingTaken   // nil: not read yet
	Done   SettingDone
}

// SettingTaken are the readings of one setting. The bite may be told by its height instead.
type SettingTaken struct {
	release.SettingReadings
	BiteHeight *uncertain.Value // above the pedal's fully-down end, m
}

// SettingDone is what was really set; nil is what was advised.
type SettingDone struct {
	Rod, Turns *float64 // longer, m or turns of its thread; one of them at most
	Stop       *float64 // pedal travel, m
}

// SetUp learns from readings how the car really is, and says how rod and stop belong, what to read afterwards, and
// whether what was read afterwards is as it should be.
func SetUp(job *Job, car *CarSetting, effort Effort) (*SetAnswer, error) {
	clutch, system, err := job.pairFor(car.Pair)
	if err != nil {
		return nil, err
	}
	chain, knowns := Chain(clutch, system)
	wanted := release.UsualFreePlay()
	if car.Wanted != nil {
		wanted = *car.Wanted
	}
	s := setting{chain: &chain, knowns: knowns, wanted: wanted, samples: max(effort.Samples/4, 1024), seed: effort.Seed}
	setup, err := s.learn(car.Before)
	if err != nil {
		return nil, settingFault(err, "setting", clutch, system)
	}
	answer := &SetAnswer{Clutch: clutch.Name, Release: system.Name}
	s.answer(answer, setup, car.Wanted != nil)
	if car.After != nil {
		if err := s.check(answer, setup, car); err != nil {
			return nil, settingFault(err, "after", clutch, system)
		}
	}
	return answer, nil
}

// setting is one car's pedal being set.
type setting struct {
	chain   *release.Chain
	knowns  []release.Known
	wanted  release.Wanted
	samples int
	seed    uint64
}

// readings has the bite as a travel, however it was told.
func (s *setting) readings(t SettingTaken) release.SettingReadings {
	r := t.SettingReadings
	if t.BiteHeight != nil {
		taken := map[release.SettingKind]uncertain.Value{}
		for k, v := range r.Taken {
			taken[k] = v
		}
		travel := s.chain.System.Pedal.Travel - t.BiteHeight.Mid()
		taken[release.BiteRead] = uncertain.Normal(travel, t.BiteHeight.SD())
		r.Taken = taken
	}
	return r
}

func (s *setting) learn(taken SettingTaken) (*release.Setup, error) {
	return release.SetUp(*s.chain, s.knowns, s.readings(taken), s.wanted, s.samples, s.seed)
}

// check holds the readings taken afterwards against what they should be, and learns from them how good the setting is.
func (s *setting) check(answer *SetAnswer, setup *release.Setup, car *CarSetting) error {
	rod, stop := setup.Rod, setup.Stop
	pitch := s.chain.System.Pedal.RodPitch
	switch {
	case car.Done.Turns != nil && pitch == 0:
		return &release.Fault{Key: "done.turns_longer", Message: "the pitch of the rod's thread is not known; write how much longer it is by rod_longer"}
	case car.Done.Turns != nil:
		rod = *car.Done.Turns * pitch
	case car.Done.Rod != nil:
		rod = *car.Done.Rod
	}
	if car.Done.Stop != nil {
		stop = *car.Done.Stop
	}
	checked, err := setup.CheckAfter(s.readings(*car.After), rod)
	if err != nil {
		return err
	}
	now, err := s.learn(*car.After)
	if err != nil {
		return err
	}
	answer.After = &SetAfter{RodLonger: millimetres(rod), Stop: millimetres(stop), PGood: Figure(now.ChanceAt(0, stop, s.wanted))}
	for _, c := range checked {
		unit, per := settingUnit(c.Kind)
		answer.After.Readings = append(answer.After.Readings, SetChecked{
			Reading: c.Kind.Key(), Unit: unit, Read: Figure(c.Read / per), Uncertainty: Figure(c.SD / per),
			P05: Figure(c.P05 / per), P95: Figure(c.P95 / per), Chance: Figure(c.Tail), Word: c.Word,
		})
	}
	answer.After.conclude()
	return nil
}

// settingFault gives a fault the key of the part of the file that it is about.
func settingFault(err error, part string, clutch *Clutch, system *Release) error {
	var one *release.Fault
	if errors.As(err, &one) {
		for _, own := range []string{"setting", "wanted", "done"} {
			if rest, found := strings.CutPrefix(one.Key, own); found {
				if own == "setting" {
					own = part
				}
				return &Fault{Key: own + rest, Message: one.Message}
			}
		}
	}
	return faultOf(err, clutch, system)
}

func settingUnit(k release.SettingKind) (unit string, per float64) {
	switch k {
	case release.EffortRead:
		return "N", 1
	case release.PressureRead:
		return "MPa", 1e6
	}
	return "mm", 1e-3
}

// answer fills in what was learned and what is advised.
func (s *setting) answer(a *SetAnswer, setup *release.Setup, makers bool) {
	a.Draws, a.Stages, a.Effective, a.Notes = setup.Draws, setup.Stages, Figure(setup.Effective), setup.Notes
	for _, m := range setup.Met {
		unit, per := settingUnit(m.Kind)
		a.Before = append(a.Before, SetRead{
			Reading: m.Kind.Key(), Unit: unit, Read: Figure(m.Read / per), Uncertainty: Figure(m.SD / per),
			BeforeP05: Figure(m.Before.P05 / per), BeforeP95: Figure(m.Before.P95 / per),
			LearnedP05: Figure(m.After.P05 / per), LearnedP95: Figure(m.After.P95 / per), Off: Figure(m.Far), Unexplained: m.Unexplained,
		})
	}
	for _, l := range setup.Learned {
		a.Learned = append(a.Learned, SetLearned{Key: l.Name, Before: Figure(l.Before), BeforeSD: Figure(l.BeforeSD), After: Figure(l.After), AfterSD: Figure(l.AfterSD), Told: Figure(l.Told)})
	}
	for _, e := range setup.Expected {
		unit, per := settingUnit(e.Kind)
		a.Expected = append(a.Expected, SetExpected{e.Kind.Key(), unit, Figure(e.P05 / per), Figure(e.P50 / per), Figure(e.P95 / per), e.Kind.HeldAt()})
	}
	a.Advice = SetAdvice{
		Rod: rodWord(setup.Rod), RodLonger: millimetres(setup.Rod), TurnsLonger: Figure(setup.Turns),
		Stop: millimetres(setup.Stop), StopMin: millimetres(setup.StopMin), StopMax: millimetres(setup.StopMax),
		PGood: Figure(setup.PGood), PPortOpen: Figure(setup.PPortOpen), NoStop: setup.NoStop,
		FreePlayMin: millimetres(s.wanted.FreePlayMin), FreePlayMax: millimetres(s.wanted.FreePlayMax), FreePlayFrom: freePlayFrom(makers),
	}
	a.Advice.Steps = s.steps(a)
}

func freePlayFrom(makers bool) string {
	if makers {
		return "the setting file"
	}
	return "what makers usually ask of the push rod's play at the pad; the maker's own figure comes first"
}

func rodWord(rod float64) string {
	switch {
	case rod > 0:
		return "longer"
	case rod < 0:
		return "shorter"
	}
	return "leave"
}

// turnsWords says how far a rod is turned.
func turnsWords(a *SetAdvice) string {
	length := fmt.Sprintf("%.2f mm", abs(float64(a.RodLonger)))
	if !a.TurnsLonger.Known() {
		return "by " + length
	}
	turns := fmt.Sprintf("%.4g turns", abs(float64(a.TurnsLonger)))
	if abs(float64(a.TurnsLonger)) == 1 {
		turns = "1 turn"
	}
	return fmt.Sprintf("by %s (%s)", turns, length)
}

func abs(v float64) float64 { return max(v, -v) }
