package workshop

import (
	"math"
	"slices"

	"layshaft/driveline"
	"layshaft/release"
)

// bite is the torque that a clutch can carry at places evenly through its bite band, from none to all, N m.
type bite []float64

// letIn goes by the pedal map of the release system that this clutch would be worked with, and names it. Where that
// is not known, or the discs have no springing that would make a bite band, the torque rises evenly.
func (j *Job) letIn(c *Clutch) (torque bite, by string) {
	even := bite{0, c.capacity()}
	system := j.releaseFor(c)
	if system == nil || len(c.MissingForRelease) > 0 || c.Cushion.Mid() == 0 {
		return even, ""
	}
	chain, _ := Chain(c, system)
	if chain.Check() != nil {
		return even, ""
	}
	const places = 601
	back := chain.MapBack(places)
	slices.Reverse(back)
	begins := slices.IndexFunc(back, func(p release.Point) bool { return p.Torque > 0 })
	carries := slices.IndexFunc(back, func(p release.Point) bool { return p.Torque >= chain.Clutch.Capacity })
	if begins < 0 || carries <= begins {
		return even, ""
	}
	torque = bite{0}
	for _, p := range back[begins : carries+1] {
		torque = append(torque, p.Torque)
	}
	return torque, system.Name
}

// releaseFor is the fitted system for the fitted clutch, else the one that the shop proposes.
func (j *Job) releaseFor(c *Clutch) *Release {
	_, fitted := j.FittedPair()
	_, proposed := j.ProposedPair()
	if c.Fitted && fitted != "" {
		return j.Release(fitted)
	}
	return j.Release(proposed)
}

// over is the torque against time for a pedal that goes through the bite band evenly in the time given.
func (b bite) over(duration float64) func(t float64) float64 {
	if len(b) == 2 {
		return driveline.Ramp(b[1], duration)
	}
	last := len(b) - 1
	return func(t float64) float64 {
		place := math.Max(t/duration, 0) * float64(last)
		if place >= float64(last) {
			return b[last]
		}
		i := int(place)
		return b[i] + (b[i+1]-b[i])*(place-float64(i))
	}
}
