package diagnosis

import (
	"math"

	"layshaft/release"
)

// doubt is how far a figure may be out that the job file gives as if it were exact. A figure given with a range is
// taken at its word.
type doubt struct {
	of    func(*release.Chain) *float64
	shift func(figure *float64, z float64) // by a standard normal z
}

// times moves a figure by a factor that is off by so much, one standard deviation.
func times(off float64) func(*float64, float64) {
	return func(figure *float64, z float64) { *figure *= math.Exp(off * z) }
}

// plus moves a length, which cannot become negative.
func plus(off float64) func(*float64, float64) {
	return func(figure *float64, z float64) { *figure = max(0, *figure+off*z) }
}

// friction moves what an efficiency is short of one by a factor.
func friction(off float64) func(*float64, float64) {
	return func(figure *float64, z float64) { *figure = max(0.01, 1-(1-*figure)*math.Exp(off*z)) }
}

// doubts are about the figures that move the readings and are seldom as sure as they are written. Common practice, no
// source.
var doubts = []doubt{
	{func(c *release.Chain) *float64 { return &c.System.Pedal.FreePlay }, plus(1e-3)},
	{func(c *release.Chain) *float64 { return &c.System.Pedal.Stiffness }, times(0.35)},
	{func(c *release.Chain) *float64 { return &c.System.Pedal.Efficiency }, friction(0.25)},
	{func(c *release.Chain) *float64 { return &c.System.Master.DeadStroke }, plus(0.2e-3)},
	{func(c *release.Chain) *float64 { return &c.System.Master.Efficiency }, friction(0.25)},
	{func(c *release.Chain) *float64 { return &c.System.Line.Expansion }, times(0.25)},
	{func(c *release.Chain) *float64 { return &c.System.Slave.ForkRatio }, times(0.01)},
	{func(c *release.Chain) *float64 { return &c.System.Slave.ForkStiffness }, times(0.35)},
	{func(c *release.Chain) *float64 { return &c.System.Slave.Efficiency }, friction(0.25)},
	{func(c *release.Chain) *float64 { return &c.Clutch.LoadScale }, times(0.05)},
}

// doubtsAbout lists the doubts that matter for a chain: those about figures that none of the knowns sets, that are
// there at all, and that are not fixed by the kind of slave.
func doubtsAbout(c *release.Chain, unsure []release.Known) []doubt {
	var all []doubt
	for _, d := range doubts {
		figure := *d.of(c)
		fixed := figure == 0 || math.IsInf(figure, 1) || c.System.Slave.Sleeve > 0 && d.of(c) == &c.System.Slave.ForkRatio
		if !fixed && !setByAny(unsure, c, d.of) {
			all = append(all, d)
		}
	}
	return all
}

// setByAny reports whether any of the knowns changes a figure.
func setByAny(unsure []release.Known, c *release.Chain, of func(*release.Chain) *float64) bool {
	for _, k := range unsure {
		changed := *c
		k.Set(&changed, k.Value.Quantile(0.25))
		low := *of(&changed)
		k.Set(&changed, k.Value.Quantile(0.75))
		if *of(&changed) != low {
			return true
		}
	}
	return false
}
