package diagnosis

import (
	"math"

	"layshaft/uncertain"
)

// Kind is a reading that has a figure.
type Kind int

// The readings. All but FreePlay and LoadFeltAt are taken with the pedal held at Readings.PedalTravel, both slave
// travels from the same rest.
const (
	SlaveTravel             Kind = iota // m
	SlaveTravelAfterPumping             // m, after quick strokes of the whole pedal
	BoxMovement                         // m, of the master's mounting along the rod
	Effort                              // N at the pad
	Pressure                            // Pa, gauge
	BearingTravel                       // m
	FreePlay                            // m at the pad, until the rod meets the piston
	LoadFeltAt                          // m at the pad, where the pedal turns heavy since the bearing meets the fingers
	kinds
)

// Kinds lists the readings that have a figure.
var Kinds = []Kind{SlaveTravel, SlaveTravelAfterPumping, BoxMovement, Effort, Pressure, BearingTravel, FreePlay, LoadFeltAt}

// Key is the reading's name in a readings file.
func (k Kind) Key() string {
	return [...]string{"slave_travel", "slave_travel_after_pumping", "box_movement", "effort", "pressure", "bearing_travel",
		"free_play", "load_felt_at"}[k]
}

// HoldsPressureKey is the name of the reading that has no figure: whether the pedal stays where it is under a steady
// load.
const HoldsPressureKey = "holds_pressure"

// trust is how near a reading is taken to come. Common practice, no source.
type trust struct {
	reading float64 // standard uncertainty where none is given with the reading
	model   float64 // by which the chain may be out, and
	part    float64 // part of the reading by which it may be out besides
}

var trusts = [kinds]trust{
	SlaveTravel:             {0.3e-3, 0.15e-3, 0.01},
	SlaveTravelAfterPumping: {0.3e-3, 0.15e-3, 0.01},
	BoxMovement:             {0.1e-3, 0.05e-3, 0.03},
	Effort:                  {10, 3, 0.05},
	Pressure:                {0.1e6, 0.03e6, 0.03},
	BearingTravel:           {0.3e-3, 0.15e-3, 0.01},
	FreePlay:                {1e-3, 0.3e-3, 0},
	LoadFeltAt:              {3e-3, 1e-3, 0},
}

// DefaultUncertainty is the standard uncertainty of a reading that was given without one.
func (k Kind) DefaultUncertainty() float64 { return trusts[k].reading }

// Known says whether something was looked at, and how it came out.
type Known int

const (
	NotLookedAt Known = iota
	Yes
	No
)

// Readings are what was measured on the car; any of them may be missing. The mean of a value is the reading, its
// standard deviation the reading's standard uncertainty; an exact one gets the default.
type Readings struct {
	PedalTravel   *uncertain.Value // at which the others were taken; nil is the pedal's whole travel
	Taken         map[Kind]uncertain.Value
	HoldsPressure Known
	Drags         Known // with the pedal at its whole travel; NotLookedAt counts as Yes, the reason for asking
}

// observation is one reading ready to be held against a prediction.
type observation struct {
	kind        Kind
	value       float64
	uncertainty float64 // of the reading alone
	spread      float64 // of the reading and the model together
}

// observations lists the readings in the order of Kinds, so that the order they were given in does not matter.
func (r *Readings) observations() []observation {
	var all []observation
	for _, k := range Kinds {
		if v, taken := r.Taken[k]; taken {
			u := v.SD()
			if v.IsExact() {
				u = k.DefaultUncertainty()
			}
			all = append(all, observation{k, v.Mid(), u, k.spread(v.Mid(), u)})
		}
	}
	return all
}

// spread is how far a reading near value may lie from what the right model predicts.
func (k Kind) spread(value, uncertainty float64) float64 {
	t := trusts[k]
	return math.Hypot(uncertainty, math.Hypot(t.model, t.part*value))
}
