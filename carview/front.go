package carview

import (
	"fmt"

	"layshaft/picture"
	"layshaft/workshop"
)

// Front draws what a search for bores found. The numbers are those of the answer's front.
func Front(a *workshop.SizeAnswer) picture.Front {
	v := picture.Front{
		Title: "Bores for " + a.Clutch,
		Desc: fmt.Sprintf("%d choices of master, slave, pedal ratio and hose keep the limits; on %d of them nothing can be made lighter, surer or higher in bite without loss.",
			a.Good, len(a.Front)),
	}
	if a.EffortLimit.Known() {
		v.Limit = float64(a.EffortLimit)
	}
	for _, list := range [][]workshop.SizeChoice{a.Front, a.Dominated} {
		for _, c := range list {
			v.Choices = append(v.Choices, frontChoice(c))
		}
	}
	present := frontChoice(a.Present)
	present.Present, present.Words = true, "as it is now, "+present.Words
	v.Choices = append(v.Choices, present)
	return v
}

func frontChoice(c workshop.SizeChoice) picture.FrontChoice {
	words := fmt.Sprintf("master %s, slave %s, ratio %.2f", c.Master, c.Slave, float64(c.Ratio))
	if c.Hose != "" {
		words += ", hose " + c.Hose
	}
	return picture.FrontChoice{Number: c.Number, Words: words, Bite: float64(c.BiteHeight), Effort: float64(c.PeakEffort), Certainty: float64(c.PGood)}
}
