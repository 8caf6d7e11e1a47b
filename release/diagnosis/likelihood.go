package diagnosis

import "math"

// A reading in fifty is a slip, five times as far out as readings usually are. Without slips one misread gauge would
// settle the matter. The model after Tukey; the figures are common practice, no source.
const (
	slipOften = 0.02
	slipWide  = 5
)

// misfit says how ill a reading fits, by how many of its spreads z it lies off, as the root whose half square is the
// loss of log-likelihood: z itself for small z, and less for a likely slip.
func misfit(z float64) float64 {
	fit := func(z2 float64) float64 {
		return (1-slipOften)*math.Exp(-z2/2) + slipOften/slipWide*math.Exp(-z2/(2*slipWide*slipWide))
	}
	return math.Copysign(math.Sqrt(2*math.Log(fit(0)/fit(z*z))), z)
}

// How a clutch is said to drag. The share that drags though the chain lets it go stands for all that the chain knows
// nothing of, and for a word too quickly said; some find it free although it should drag a little. Common practice,
// no source.
const (
	saidFalsely = 0.05
	notNoticed  = 0.02
	liftError   = 0.05e-3 // m, by which the lift worked out may be out,
	liftPart    = 0.15    // and the part of the running clearance that a clutch may do without
)

// dragging is the chance that a clutch is said to drag whose lift falls short by missing.
func dragging(missing, clearance float64) float64 {
	return saidFalsely + (1-saidFalsely-notNoticed)*standard.CDF(missing/math.Hypot(liftError, liftPart*clearance))
}

// sinking is the chance that the pedal sinks under a steady load: a seal that lets fluid by is mostly found so, and a
// sound system sometimes seems to be, as when a hose or a pocket of air creeps. Common practice, no source.
func sinking(c Cause) float64 {
	switch c {
	case SealBypass:
		return 0.92
	case TrappedAir, HoseSwelling:
		return 0.05
	}
	return 0.02
}

// holding is the logarithm of the chance of what was seen under a steady load.
func holding(seen Known, c Cause) float64 {
	switch seen {
	case Yes:
		return math.Log(1 - sinking(c))
	case No:
		return math.Log(sinking(c))
	}
	return 0
}
