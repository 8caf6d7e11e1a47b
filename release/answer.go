package release

import (
	"fmt"
	"math"
)

// The words for how a chain does with the pedal at full travel. Where several hold, the first named here is told.
const (
	Bottoms     = "bottoms"      // the master's piston comes to its end before the pedal does
	Drags       = "drags"        // the plate does not lift enough to free every disc
	OverTravels = "over-travels" // the fingers are pushed past the maker's limit
	Frees       = "frees"
)

// Answer is all that follows from a chain. Its single figures come from the model with every known at its middle;
// only the chances come from sampling.
type Answer struct {
	// With the pedal at full travel. Nothing is held at a limit: a master stroke beyond what the master has says
	// how much is missing.
	FingerTravel, PlateLift, LiftNeeded      float64
	SlaveTravel, BearingTravel, MasterStroke float64
	PeakEffort, PeakPressure                 float64 // the highest on the way there
	EffortAtStop                             float64 // at StopRecommended, else at full travel

	// Pedal travels, at the pad.
	BiteStart, BiteEnd float64 // where the torque carried reaches nought, and where it starts to fall
	StopMin, StopMax   float64 // the window for the stop: the discs are free, the fingers are at their limit
	StopRecommended    float64 // NaN where there is no window: NoWindow says why
	Margin             float64 // left of the travel after the discs are free; negative where it drags
	BottomsAt          float64 // where the master's piston comes to its end; NaN where it does not

	PFrees, POverTravels float64 // chances at full travel
	PBoth                float64 // chance that it frees and does not over-travel at StopRecommended, else at full travel
	Impossible           float64 // share of the draws left out since such a chain cannot be

	SnapThrough bool   // the fingers jump within the pedal's travel
	Snaps       []Snap // where, on the way down and back
	BeyondCurve bool   // full travel pushes the fingers past the last load point; they are held there
	Verdict     string
	NoWindow    string   // why there is no place for the stop; "" where there is one
	Notes       []string // what was assumed, and what to look at
}

// solveExact is the answer with every figure as it stands, chances left out.
func (c *Chain) solveExact() Answer {
	s := c.statics()
	down := s.pressing()
	pedal := &c.System.Pedal
	full := pedal.rodTravel(pedal.Travel)
	at := down.at(full)

	a := Answer{
		FingerTravel:  at.finger,
		PlateLift:     c.Clutch.Lift(at.finger),
		LiftNeeded:    c.Clutch.LiftNeeded(),
		BearingTravel: s.bearingTravel(c, full, at),
		SlaveTravel:   s.slaveTravel(c, full, at),
		MasterStroke:  s.strokeAt(full, at),
		BiteStart:     c.firstAt(&s, c.Clutch.Cushion*c.Clutch.LeverRatio),
		BiteEnd:       c.firstAt(&s, 0),
		BottomsAt:     c.bottomsAt(&s),
		BeyondCurve:   at.beyond,
	}
	a.PeakEffort, a.PeakPressure = c.peaks(down, full, at)
	a.Snaps = c.snaps(down, at)
	a.SnapThrough = len(a.Snaps) > 0
	w := c.window(&s)
	a.StopMin, a.StopMax = w.free, w.limit
	a.Margin = pedal.Travel - w.free
	a.Verdict = c.verdict(&a)
	a.StopRecommended, a.NoWindow = c.middleOfWindow(&a)
	a.Notes = c.notes(&a)
	return a
}

func (c *Chain) verdict(a *Answer) string {
	switch {
	case a.MasterStroke > c.System.Master.Stroke:
		return Bottoms
	case a.PlateLift < a.LiftNeeded:
		return Drags
	case a.FingerTravel > c.Clutch.FingerTravelMax, a.BeyondCurve && c.Clutch.FingerTravelMax <= c.Clutch.lastFinger():
		return OverTravels
	}
	return Frees
}

// middleOfWindow is the place for the stop when nothing is uncertain: half way between freeing and the nearest of
// the fingers' limit, the floor and the end of the master's stroke.
func (c *Chain) middleOfWindow(a *Answer) (float64, string) {
	travel := c.System.Pedal.Travel
	switch end := min(a.StopMax, travel); {
	case a.StopMin > a.StopMax:
		return math.NaN(), fmt.Sprintf("the discs are free at %.1f mm of pedal, but the fingers are at their limit at %.1f mm",
			a.StopMin*1e3, a.StopMax*1e3)
	case a.StopMin > end:
		return math.NaN(), fmt.Sprintf("the discs would be free at %.1f mm of pedal, which has only %.1f mm", a.StopMin*1e3, travel*1e3)
	case a.StopMin > a.BottomsAt:
		return math.NaN(), fmt.Sprintf("the discs would be free at %.1f mm of pedal, but the master bottoms at %.1f mm",
			a.StopMin*1e3, a.BottomsAt*1e3)
	case end > a.BottomsAt:
		return (a.StopMin + a.BottomsAt) / 2, ""
	default:
		return (a.StopMin + end) / 2, ""
	}
}

func (c *Chain) notes(a *Answer) []string {
	var notes []string
	note := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	end := c.Clutch.lastFinger()
	switch {
	case !c.Clutch.LimitKnown():
		note("the maker's limit of finger travel is not known; the window for the stop ends where the load curve does, at %.1f mm", end*1e3)
	case c.Clutch.FingerTravelMax > end:
		note("the load curve ends at %.1f mm of finger travel, before the maker's limit; the window for the stop ends there", end*1e3)
	}
	if a.BeyondCurve {
		note("full pedal pushes the fingers past the last load point at %.1f mm; nothing is known beyond, figures are those at that point", end*1e3)
	}
	if pad, held := c.heldDown(); held {
		note("at %.0f mm of pedal the assist spring is stronger than what pushes the pedal back: it may stay down", pad*1e3)
	}
	if slave := &c.System.Slave; slave.strokeKnown() && a.SlaveTravel > slave.Stroke {
		note("full pedal moves the slave %.1f mm, more than its stroke of %.1f mm", a.SlaveTravel*1e3, slave.Stroke*1e3)
	}
	return notes
}

func (c *Clutch) lastFinger() float64 {
	_, end := c.BearingLoad.Domain()
	return end
}
