// Package carview turns a car's answers into the pictures and sentences that the pages and the paper share. It
// computes nothing: it picks figures, gives them their decimals and puts them beside the part they belong to.
package carview

import (
	"fmt"
	"strings"

	"layshaft/picture"
	"layshaft/quantity"
	"layshaft/uncertain"
	"layshaft/workshop"
)

// Tone is how good or bad news a verdict is.
func Tone(verdict string) picture.Tone {
	switch verdict {
	case "holds", "frees":
		return picture.Fine
	case "thin":
		return picture.Near
	case "":
		return picture.Plain
	}
	return picture.Wrong
}

// PairName names a clutch with a release system in words.
func PairName(clutch, release string) string { return clutch + " with " + release }

// Chance says a probability the way people do, without claiming more than sampling can tell.
func Chance(p workshop.Figure) string {
	switch v := float64(p); {
	case !p.Known():
		return "–"
	case v <= 0:
		return "never in the range given"
	case v < 0.005:
		return "less than 1 in 100"
	case v >= 1:
		return "always in the range given"
	case v > 0.995:
		return "more than 99 in 100"
	default:
		return fmt.Sprintf("%.0f in 100", v*100)
	}
}

func written(v uncertain.Value, unit string, decimals int) string {
	return quantity.FormatValue(v, unit, decimals)
}

// Lead says in a few sentences what the answers come to: does the clutch in the car hold, does the proposed one,
// and can the pedal work it.
func Lead(job *workshop.Job, a *workshop.Workup) []string {
	var lead []string
	fittedClutch, fittedRelease := job.FittedPair()
	clutch, release := job.ProposedPair()
	if a.Hold != nil {
		lead = append(lead, holdSentence(a.Hold, fittedClutch, clutch))
	}
	for _, system := range distinct(fittedRelease, release) {
		if pair := a.Release.Pair(clutch, system); pair != nil {
			lead = append(lead, fmt.Sprintf("%s %s: %s.", Sentence(PairName(clutch, system)), pair.Verdict, pair.Why))
		}
	}
	if pair := a.Release.Pair(clutch, release); pair != nil && pair.StopRecommended.Known() {
		lead = append(lead, fmt.Sprintf("Set the stop at %s of pedal (window %s); the pedal then takes %s at most.",
			Measure(pair.StopRecommended, 0, "mm"), Window(pair), Measure(pair.PeakEffort, 0, "N")))
	}
	return lead
}

func holdSentence(hold *workshop.HoldAnswer, names ...string) string {
	var parts []string
	for _, name := range distinct(names...) {
		h := hold.Clutches[name]
		parts = append(parts, fmt.Sprintf("%s %s (%s)", name, h.Verdict, Measure(h.Capacity, 0, "N m")))
	}
	return Sentence(fmt.Sprintf("%s; wanted are %s: %s from the engine times %s for %s use.", strings.Join(parts, ", "),
		Measure(hold.Wanted, 0, "N m"), Measure(hold.Demand, 0, "N m"), Number(hold.ServiceFactor, 2), hold.Use))
}

// Short is the answer in half a line, for the list of cars.
func Short(job *workshop.Job, a *workshop.Workup) string {
	var parts []string
	fittedClutch, fittedRelease := job.FittedPair()
	clutch, release := job.ProposedPair()
	if a.Hold != nil {
		for _, name := range distinct(fittedClutch, clutch) {
			parts = append(parts, name+" "+a.Hold.Clutches[name].Verdict)
		}
	}
	for _, system := range distinct(fittedRelease, release) {
		if pair := a.Release.Pair(clutch, system); pair != nil {
			parts = append(parts, fmt.Sprintf("%s %s", PairName(clutch, system), pair.Verdict))
		}
	}
	return strings.Join(parts, "; ")
}

func distinct(names ...string) []string {
	var out []string
	for _, name := range names {
		if name != "" && (len(out) == 0 || out[len(out)-1] != name) {
			out = append(out, name)
		}
	}
	return out
}
