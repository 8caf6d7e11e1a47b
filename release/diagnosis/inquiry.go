package diagnosis

import (
	"math"

	"layshaft/release"
	"layshaft/uncertain"
)

// inquiry is one car with its readings, to be held against each suspicion. A point of it is a row of standard normal
// coordinates: one for each figure that is not exact, for each doubt about one that claims to be, for the pedal travel
// where that was read, for each part that pumping wins back, and for what describes the fault.
type inquiry struct {
	middle  release.Chain
	unsure  []release.Known
	doubts  []doubt          // about figures that are given as if exact
	travel  *uncertain.Value // of the pedal at the readings; nil is its whole travel
	seen    []observation
	wanted  [kinds]bool // what is in seen
	dragged bool
}

// newInquiry expects readings that have been checked.
func newInquiry(base release.Chain, knowns []release.Known, r *Readings) *inquiry {
	q := &inquiry{middle: base, seen: r.observations(), dragged: r.Drags != No}
	for _, k := range knowns {
		k.Set(&q.middle, k.Value.Mid())
		if !k.Value.IsExact() {
			q.unsure = append(q.unsure, k)
		}
	}
	q.doubts = doubtsAbout(&q.middle, q.unsure)
	if r.PedalTravel != nil {
		travel := *r.PedalTravel
		if travel.IsExact() {
			travel = uncertain.Normal(travel.Mid(), DefaultPedalUncertainty)
		}
		q.travel = &travel
	}
	for _, o := range q.seen {
		q.wanted[o.kind] = true
	}
	return q
}

// DefaultPedalUncertainty is the standard uncertainty of a pedal travel that was given without one, m. Common
// practice, no source.
const DefaultPedalUncertainty = 1e-3

func (q *inquiry) dims(s *suspicion) int {
	dims := len(q.unsure) + len(q.doubts) + partsWonBack + s.dims
	if q.travel != nil {
		dims++
	}
	return dims
}

var standard = uncertain.Normal(0, 1)

// trial is a chain at one point, with its fault and where the pedal is held.
type trial struct {
	faulty
	size      float64
	pad, full float64 // where the pedal is held for the readings, and its whole travel
	wonBack   pumping
}

const partsWonBack = 3

func (q *inquiry) at(s *suspicion, z []float64) trial {
	next := func(v uncertain.Value) float64 {
		x := v.AtScore(z[0])
		z = z[1:]
		return x
	}
	t := trial{faulty: faulty{Chain: q.middle}}
	for i := range q.unsure {
		q.unsure[i].Set(&t.Chain, next(q.unsure[i].Value))
	}
	for _, d := range q.doubts {
		d.shift(d.of(&t.Chain), z[0])
		z = z[1:]
	}
	t.full = t.System.Pedal.Travel
	t.pad = t.full
	if q.travel != nil {
		t.pad = next(*q.travel)
		t.full = max(t.full, t.pad)
	}
	t.wonBack = pumping{air: next(airWonBack), gap: next(gapWonBack), leak: next(leakWonBack)}
	u := make([]float64, len(z))
	for i := range u {
		u[i] = standard.CDF(z[i])
	}
	t.size = s.inflict(&t.faulty, u)
	return t
}

// misfits are those of the readings, and of the word that the clutch drags or does not.
func (q *inquiry) misfits(s *suspicion) uncertain.Misfits {
	return func(z, r []float64) []float64 {
		t := q.at(s, z)
		p := t.predict(&q.wanted)
		for _, o := range q.seen {
			r = append(r, misfit((o.value-p.readings[o.kind])/o.spread))
		}
		chance := dragging(p.missingLift, float64(t.Clutch.Faces)*t.Clutch.Clearance)
		if !q.dragged {
			chance = 1 - chance
		}
		return append(r, math.Sqrt(-2*math.Log(chance)))
	}
}
