package carview

import (
	"fmt"
	"math"

	"layshaft/workshop"
)

// Window says between which pedal travels the stop may stand; where it may stand as far out as the pedal goes, it
// says so.
func Window(pair *workshop.PairAnswer) string {
	switch {
	case pair.NoWindow != "":
		return "none: " + pair.NoWindow
	case pair.StopMax > pair.PedalTravel:
		return Number(pair.StopMin, 0) + " mm to full pedal"
	}
	return Between(pair.StopMin, pair.StopMax, 0, "mm")
}

// BiteBand says between which pedal travels the clutch bites; a sharp one to the tenth, so that it shows.
func BiteBand(pair *workshop.PairAnswer) string {
	decimals := 0
	if Number(pair.BiteEnd, 0) == Number(pair.BiteStart, 0) {
		decimals = 1
	}
	return Between(pair.BiteEnd, pair.BiteStart, decimals, "mm")
}

// ShownPairs are the pair that the shop proposes and, beside it, the same clutch on the release system that is in
// the car, which tells why the original has to go or may stay; without one, the pair in the car. Either may be nil.
func ShownPairs(job *workshop.Job, a *workshop.ReleaseAnswer) (proposed, beside *workshop.PairAnswer) {
	clutch, release := job.ProposedPair()
	fittedClutch, fittedRelease := job.FittedPair()
	proposed = a.Pair(clutch, release)
	for _, name := range []string{clutch, fittedClutch} {
		if pair := a.Pair(name, fittedRelease); pair != nil && pair != proposed {
			return proposed, pair
		}
	}
	return proposed, nil
}

// Setting is one thing to be set or read at the car.
type Setting struct{ Name, Value string }

// Settings are what the pedal of a pair is set to, and what it should read then.
func Settings(job *workshop.Job, pair *workshop.PairAnswer) []Setting {
	stop := Measure(pair.StopRecommended, 0, "mm")
	if pair.NoWindow != "" {
		stop = "no place for it"
	}
	settings := []Setting{
		{"Set the stop at", stop},
		{"The stop may stand", Window(pair)},
		{"Whole pedal travel", Measure(pair.PedalTravel, 0, "mm")},
		{"Bite band", BiteBand(pair)},
	}
	settings = append(settings, rodSettings(job.Clutch(pair.Clutch), job.Release(pair.Release))...)
	return append(settings,
		Setting{"Effort on the way, at most", Measure(pair.PeakEffort, 0, "N")},
		Setting{"Effort at the stop", Measure(pair.EffortAtStop, 0, "N")},
		Setting{"Pressure in the line, at most", Measure(pair.PeakPressure, 1, "MPa")},
		Setting{"Master's stroke used", Used(pair.MasterStroke, pair.MasterHas)},
	)
}

// rodSettings are the free play and, where the rod's thread is known, what a turn of it does.
func rodSettings(clutch *workshop.Clutch, system *workshop.Release) []Setting {
	if clutch == nil || system == nil {
		return nil
	}
	chain, _ := workshop.Chain(clutch, system)
	pedal := chain.System.Pedal
	settings := []Setting{{"Free play at the pad", millimetres(pedal.FreePlay)}}
	if pedal.RodPitch > 0 {
		turn := pedal.FreePlay - pedal.FreePlayAfter(pedal.RodPitch)
		settings = append(settings, Setting{"One turn of the rod", "moves the pad " + millimetres(turn)})
	}
	return settings
}

// Used says how much of what there is is used, in mm.
func Used(used, has workshop.Figure) string {
	if !has.Known() {
		return Measure(used, 1, "mm")
	}
	return Number(used, 1) + " of " + Measure(has, 1, "mm")
}

func millimetres(metres float64) string { return Measure(workshop.Figure(metres*1e3), 1, "mm") }

// HowSure says how far the answers can be trusted: the ranges, the chances and what to measure first.
func HowSure(job *workshop.Job, a *workshop.Workup) []string {
	var all []string
	if a.Hold != nil {
		fitted, _ := job.FittedPair()
		proposed, _ := job.ProposedPair()
		for _, name := range distinct(fitted, proposed) {
			h := a.Hold.Clutches[name]
			if !h.CapacityP05.Known() {
				continue
			}
			all = append(all, fmt.Sprintf("Nine times in ten %s carries %s, which is %s times what is wanted.", name,
				Between(h.CapacityP05, h.CapacityP95, 0, "N m"), Between(h.MarginP05, h.MarginP95, 2, "")))
		}
	}
	proposed, beside := ShownPairs(job, a.Release)
	for _, pair := range []*workshop.PairAnswer{beside, proposed} {
		if pair == nil {
			continue
		}
		text := fmt.Sprintf("%s frees at full pedal: %s; goes past its limit there: %s.", Sentence(PairName(pair.Clutch, pair.Release)),
			Chance(pair.PFrees), Chance(pair.POverTravels))
		if pair == proposed && pair.NoWindow == "" {
			text += fmt.Sprintf(" With the stop set as said both are good: %s.", Chance(pair.PBoth))
		}
		all = append(all, text)
	}
	return append(all, measureFirst(proposed)...)
}

// measureFirst names the figure that the doubt rests on most, where there is one that matters.
func measureFirst(pair *workshop.PairAnswer) []string {
	if pair == nil || pair.Sure == nil || len(pair.Sure.Influences) == 0 {
		return nil
	}
	most := pair.Sure.Influences[0]
	swing := math.Abs(float64(most.Swing))
	if !(swing >= 0.05) {
		return nil
	}
	return []string{fmt.Sprintf("Measure first: %s. It alone moves what is left of the pedal by %s.", figureName(most.Key), Measure(workshop.Figure(swing), 1, "mm"))}
}
