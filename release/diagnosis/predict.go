package diagnosis

import (
	"layshaft/release"
	"layshaft/uncertain"
)

// pumping is what quick strokes of the pedal win back. Each stroke draws a little more fluid from the reservoir than
// the slave gives back before the next: air stays squeezed, a gap stays closed, and there is less time to leak. What
// swells, bends or is of the wrong size comes out the same as before.
type pumping struct {
	air  float64 // part of the trapped air that stays squeezed
	gap  float64 // part of the bearing's gap that stays closed
	leak float64 // part of the leakage that there is no time for
}

// The ranges of these parts. Common practice, no source.
var (
	airWonBack  = uncertain.Uniform(0.3, 0.8)
	gapWonBack  = uncertain.Uniform(0, 0.5)
	leakWonBack = uncertain.Uniform(0.2, 0.7)
)

// prediction is what a chain would show.
type prediction struct {
	readings    [kinds]float64
	missingLift float64 // by which the lift at full pedal falls short of what the discs need
}

// boxMovement is how far the master's mounting gives way along the rod.
func boxMovement(c *release.Chain, pressure float64) float64 {
	return pressure * c.System.Master.Area() / c.System.Master.Efficiency / c.System.Pedal.Stiffness
}

// feltAt is the pedal travel at which the bearing meets the fingers.
func feltAt(c release.Chain) float64 {
	c.Clutch.LoadScale = 0
	return c.PedalTravel(0)
}

// every wants all readings.
var every = func() (all [kinds]bool) {
	for _, k := range Kinds {
		all[k] = true
	}
	return all
}()

// predict works out the readings that are wanted, and the lift at full pedal.
func (t *trial) predict(wanted *[kinds]bool) prediction {
	leaking := t.Chain
	leaking.System.Master.DeadStroke += t.leak / leaking.System.Master.Area()
	at := leaking.At(t.pad)
	out := prediction{readings: [kinds]float64{
		SlaveTravel:   at.Slave,
		BoxMovement:   boxMovement(&leaking, at.Pressure),
		Effort:        at.Effort,
		Pressure:      at.Pressure,
		BearingTravel: max(0, at.Bearing-t.forkPlay),
		FreePlay:      t.System.Pedal.FreePlay,
	}}
	if wanted[SlaveTravelAfterPumping] {
		out.readings[SlaveTravelAfterPumping] = t.pumped(at.Slave)
	}
	if wanted[LoadFeltAt] {
		out.readings[LoadFeltAt] = feltAt(t.Chain)
	}
	if t.full != t.pad {
		at = leaking.At(t.full)
	}
	out.missingLift = t.Clutch.LiftNeeded() + t.extraLift - t.Clutch.Lift(at.Finger)
	return out
}

// pumped is the slave travel after quick strokes, from the same rest as that before them. What the gap still holds
// from the last stroke counts as fluid that is in the line beforehand, like a dead stroke spared.
func (t *trial) pumped(before float64) float64 {
	c := t.Chain
	master, slave := &c.System.Master, &c.System.Slave
	gap := slave.StandOff - t.forkPlay
	if c.System.Line.TrappedAir == 0 && gap == 0 && t.leak == 0 {
		return before
	}
	held := t.wonBack.gap * gap * slave.ForkRatio * slave.Area()
	master.DeadStroke += (t.leak*(1-t.wonBack.leak) - held) / master.Area()
	c.System.Line.TrappedAir *= 1 - t.wonBack.air
	return c.At(t.pad).Slave
}
