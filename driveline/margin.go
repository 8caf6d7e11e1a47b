package driveline

import (
	"errors"
	"fmt"

	"layshaft/uncertain"
)

// MarginInputs is all that the margin of a clutch depends on.
type MarginInputs struct {
	Faces         int             // friction faces, two for each disc
	Outer, Inner  uncertain.Value // diameters of the facing, m
	Friction      uncertain.Value // –; the hot range for the hot answer
	Clamp         uncertain.Value // N; at the wear that is asked about
	Demand        Demand
	ServiceFactor float64
}

// Hold is the answer to "will it hold": torques in N m, margin as a bare ratio.
type Hold struct {
	Demand                   float64 // engine's peak torque before the service factor
	Capacity                 float64 // worn in: uniform wear
	CapacityUniformPressure  float64 // new: uniform pressure
	Margin                   float64 // Capacity / (Demand · service factor), from the single figures
	DemandP05, DemandP95     float64 // Demand lies between them with 90 % probability,
	CapacityP05, CapacityP95 float64 // Capacity between these
	P05, P95                 float64 // and the margin between these
	Verdict                  string  // "holds", "thin" or "slips"
}

// Judge puts the range of a margin into a word: it "holds" when the 5 % figure is at least 1, "slips" when the 95 %
// figure is below 1, and is "thin" in between.
func Judge(p05, p95 float64) string {
	switch {
	case p05 >= 1:
		return "holds"
	case p95 < 1:
		return "slips"
	}
	return "thin"
}

// Margin tells whether the clutch holds. The single figures come from the midpoints of the inputs; the 5 and 95 %
// figures from that many draws of every input that is a range. With nothing but exact inputs they are all the same.
// It panics where Check would have complained, and without samples.
func Margin(in MarginInputs, samples int, seed uint64) Hold {
	if err := in.Check(); err != nil {
		panic("driveline: margin of unchecked inputs: " + err.Error())
	}
	mid := in.pick(uncertain.Value.Mid)
	h := Hold{
		Demand:                  mid.demand,
		Capacity:                mid.capacity(mid.facing.MeanRadiusWear()),
		CapacityUniformPressure: mid.capacity(mid.facing.MeanRadiusPressure()),
		Margin:                  mid.margin(),
	}
	in.spread(&h, samples, seed)
	h.Verdict = Judge(h.P05, h.P95)
	return h
}

// Check tells what in the inputs cannot be, or nil.
func (in MarginInputs) Check() error {
	if in.Faces < 1 {
		return fmt.Errorf("clutch: %d friction faces; a disc has two", in.Faces)
	}
	return errors.Join(
		above("facing inner diameter", in.Inner, 0),
		above("facing outer diameter", in.Outer, largest(in.Inner)),
		above("friction", in.Friction, 0),
		above("clamp load", in.Clamp, 0),
		in.Demand.Check(),
		above("service factor", uncertain.Exact(in.ServiceFactor), 0),
	)
}

// above refuses a value that its range takes down to a limit. A normal value is judged four standard deviations
// from its mean, beyond which draws are too rare to move a 5 % figure.
func above(name string, v uncertain.Value, limit float64) error {
	if low := v.Mid() - reach(v); !(low > limit) || !finite(low) {
		return fmt.Errorf("%s: %v is not surely above %g", name, v, limit)
	}
	return nil
}

func largest(v uncertain.Value) float64 { return v.Mid() + reach(v) }

func reach(v uncertain.Value) float64 {
	if v.Kind() == uncertain.NormalKind {
		return 4 * v.SD()
	}
	_, hi := v.Bounds()
	return hi - v.Mid()
}
