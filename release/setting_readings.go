package release

import (
	"fmt"
	"math"

	"layshaft/uncertain"
)

// SettingKind is something that can be read on the car while its pedal is set.
type SettingKind int

// What can be read. All but the first two are read with the pedal held at SettingReadings.At.
const (
	FreePlayRead      SettingKind = iota // m at the pad, until the rod meets the master's piston
	BiteRead                             // m of pedal travel where the clutch begins to bite as the pedal is let up
	SlaveTravelRead                      // m
	BearingTravelRead                    // m
	EffortRead                           // N at the pad
	PressureRead                         // Pa, gauge
	settingKinds
)

// SettingKinds lists them all.
var SettingKinds = []SettingKind{FreePlayRead, BiteRead, SlaveTravelRead, BearingTravelRead, EffortRead, PressureRead}

// Key is the reading's name in a file.
func (k SettingKind) Key() string {
	return [...]string{"free_play", "bite", "slave_travel", "bearing_travel", "effort", "pressure"}[k]
}

// HeldAt reports whether the reading belongs to a place where the pedal is held.
func (k SettingKind) HeldAt() bool { return k > BiteRead }

// DefaultUncertainty is the standard uncertainty taken for a reading that was given without one. Common practice, no
// source.
func (k SettingKind) DefaultUncertainty() float64 {
	return [...]float64{0.5e-3, 3e-3, 0.3e-3, 0.3e-3, 10, 0.1e6}[k]
}

// chainError is the part of a reading by which the chain itself, being simpler than the car, may be out. Common
// practice, no source.
func (k SettingKind) chainError() float64 { return [...]float64{0, 0.01, 0.01, 0.01, 0.05, 0.03}[k] }

// SettingReadings are what was read at one setting of rod and stop; any of them may be missing.
type SettingReadings struct {
	At    *uncertain.Value // pedal travel at which the held ones were read, m
	Taken map[SettingKind]uncertain.Value
}

// Check refuses what cannot be used.
func (r *SettingReadings) Check() error {
	if len(r.Taken) == 0 {
		return &Fault{"setting", "nothing was read; give two or three of free_play, bite, slave_travel, bearing_travel, effort, pressure"}
	}
	for _, k := range SettingKinds {
		v, taken := r.Taken[k]
		switch {
		case !taken:
		case k.HeldAt() && r.At == nil:
			return &Fault{"setting.at", fmt.Sprintf("say at which pedal travel %s was read", k.Key())}
		case !(v.Mid() >= 0) || math.IsInf(v.Mid(), 1):
			return &Fault{"setting." + k.Key(), fmt.Sprintf("%g must not be negative", v.Mid())}
		}
	}
	if r.At != nil && !(r.At.Mid() > 0) {
		return &Fault{"setting.at", fmt.Sprintf("%g must be more than nought", r.At.Mid())}
	}
	return nil
}

// at is the pedal travel of the held readings; nought where none was taken.
func (r *SettingReadings) at() uncertain.Value {
	if r.At == nil {
		return uncertain.Exact(0)
	}
	return *r.At
}

// reading is one reading with its standard uncertainty, what the chain may be out by included.
type reading struct {
	kind   SettingKind
	value  float64
	u      float64 // of the reading
	spread float64 // of reading and chain together
}

func (r *SettingReadings) list() []reading {
	var all []reading
	for _, k := range SettingKinds {
		v, taken := r.Taken[k]
		if !taken {
			continue
		}
		u := v.SD()
		if v.IsExact() {
			u = k.DefaultUncertainty()
		}
		all = append(all, reading{k, v.Mid(), u, math.Hypot(u, k.chainError()*v.Mid())})
	}
	return all
}

// predict works out what would be read on a chain.
func (c *Chain) predict(load *bearingLoad, at float64) [settingKinds]float64 {
	s := c.staticsOn(load)
	there := c.standing(&s, at)
	return [settingKinds]float64{
		FreePlayRead:      c.System.Pedal.FreePlay,
		BiteRead:          c.firstAt(&s, c.Clutch.Cushion*c.Clutch.LeverRatio),
		SlaveTravelRead:   there.Slave,
		BearingTravelRead: there.Bearing,
		EffortRead:        there.Effort,
		PressureRead:      there.Pressure,
	}
}
