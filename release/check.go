package release

import (
	"fmt"
	"math"
	"strings"

	"layshaft/spring"
)

// Fault is something about a chain that cannot be.
type Fault struct {
	Key     string // the figure to look at, such as "clutch.bearing_load" or "release.slave.bore"
	Message string // what is wrong and what would be right
}

func (f *Fault) Error() string { return f.Key + ": " + f.Message }

// Faults are all the faults of one chain.
type Faults []*Fault

func (f Faults) Error() string {
	texts := make([]string, len(f))
	for i, fault := range f {
		texts[i] = fault.Error()
	}
	return strings.Join(texts, "; ")
}

// Check returns nil where the chain can be computed, and else Faults: figures that are impossible, or that
// contradict each other.
func (c *Chain) Check() error {
	var k checker
	k.clutch(&c.Clutch)
	k.system(&c.System)
	if len(k.faults) == 0 { // what follows needs figures that are right one by one
		k.travels(c)
	}
	if len(k.faults) == 0 {
		return nil
	}
	return k.faults
}

type checker struct{ faults Faults }

func (k *checker) must(ok bool, key, message string, args ...any) {
	if !ok {
		k.faults = append(k.faults, &Fault{key, fmt.Sprintf(message, args...)})
	}
}

// over, known and share are written so that NaN fails.
func (k *checker) over(v float64, key string) {
	k.must(v > 0 && !math.IsInf(v, 1), key, "%g must be more than nought and finite", v)
}

func (k *checker) overOrUnknown(v float64, key string) {
	k.must(v > 0, key, "%g must be more than nought; leave it out where it is not known", v)
}

func (k *checker) noughtOrMore(v float64, key string) {
	k.must(v >= 0 && !math.IsInf(v, 1), key, "%g must not be negative", v)
}

func (k *checker) efficiency(v float64, key string) {
	k.must(v > 0 && v <= 1, key, "%g %% must be more than 0 %% and at most 100 %%", v*100)
}

func (k *checker) clutch(c *Clutch) {
	k.must(c.Faces > 0, "clutch.discs", "there must be a disc; each has two faces, here are %d faces", c.Faces)
	k.over(c.LeverRatio, "clutch.lever_ratio")
	k.noughtOrMore(c.Cushion, "clutch.cushion")
	k.noughtOrMore(c.Clearance, "clutch.clearance")
	k.overOrUnknown(c.FingerTravelMax, "clutch.finger_travel_max")
	k.noughtOrMore(c.Capacity, "clutch.capacity")
	k.over(c.LoadScale, "clutch.bearing_load")
	k.loadCurve(c.BearingLoad)
	k.cushionCurve(c.CushionCurve)
}

func (k *checker) loadCurve(curve spring.Curve) {
	const key = "clutch.bearing_load"
	if curve.Zero() {
		k.must(false, key, "the bearing load is missing: give load against finger travel, from 0 mm on")
		return
	}
	travels, loads := curve.Points()
	k.must(travels[0] == 0, key, "the first point lies at %.4g mm of finger travel; the curve must begin at 0 mm", travels[0]*1e3)
	for i := range loads {
		k.must(loads[i] >= 0, key, "the load at %.4g mm of finger travel is %.4g N; the bearing can push but not pull",
			travels[i]*1e3, loads[i])
	}
}

func (k *checker) cushionCurve(curve spring.Curve) {
	if curve.Zero() {
		return
	}
	lifts, parts := curve.Points()
	last := len(parts) - 1
	k.must(lifts[0] == 0 && parts[0] == 1 && parts[last] == 0, "clutch.cushion",
		"the curve must fall from 1 at a lift of 0 mm to 0 at its end")
	for i := 1; i <= last; i++ {
		k.must(parts[i] <= parts[i-1], "clutch.cushion", "the torque carried rises again at a lift of %.4g mm", lifts[i]*1e3)
	}
}

func (k *checker) system(s *System) {
	k.over(s.Pedal.Travel, "release.pedal.travel")
	k.pedalDrive(&s.Pedal)
	k.noughtOrMore(s.Pedal.FreePlay, "release.pedal.free_play")
	k.efficiency(s.Pedal.Efficiency, "release.pedal.efficiency")
	k.overOrUnknown(s.Pedal.Stiffness, "release.pedal.stiffness")
	k.noughtOrMore(s.Pedal.RodPitch, "release.pedal.rod_pitch")

	k.over(s.Master.Bore, "release.master.bore")
	k.overOrUnknown(s.Master.Stroke, "release.master.stroke")
	k.noughtOrMore(s.Master.DeadStroke, "release.master.dead_stroke")
	k.efficiency(s.Master.Efficiency, "release.master.efficiency")

	k.noughtOrMore(s.Line.Length, "release.line.length")
	k.noughtOrMore(s.Line.Expansion, "release.line.expansion")
	k.noughtOrMore(s.Line.FluidVolume, "release.line.fluid_volume")
	k.must(s.Line.BulkModulus >= 0, "release.line.bulk_modulus", "%g must not be negative", s.Line.BulkModulus)
	k.noughtOrMore(s.Line.Compliance, "release.line.compliance")
	k.noughtOrMore(s.Line.TrappedAir, "release.line.trapped_air")

	k.over(s.Slave.Bore, "release.slave.bore")
	k.noughtOrMore(s.Slave.Sleeve, "release.slave.sleeve")
	k.must(!(s.Slave.Sleeve >= s.Slave.Bore && s.Slave.Bore > 0), "release.slave.sleeve",
		"%.4g mm leaves no ring inside the bore of %.4g mm", s.Slave.Sleeve*1e3, s.Slave.Bore*1e3)
	k.over(s.Slave.ForkRatio, "release.slave.fork_ratio")
	k.must(!(s.Slave.Sleeve > 0 && s.Slave.ForkRatio > 0) || s.Slave.ForkRatio == 1, "release.slave.fork_ratio",
		"%.4g must be 1: a concentric slave pushes the bearing without a fork", s.Slave.ForkRatio)
	k.overOrUnknown(s.Slave.ForkStiffness, "release.slave.fork_stiffness")
	k.noughtOrMore(s.Slave.StandOff, "release.slave.stand_off")
	k.must(s.Slave.Stroke >= 0, "release.slave.stroke", "%g must not be negative", s.Slave.Stroke)
	k.efficiency(s.Slave.Efficiency, "release.slave.efficiency")
}

// pedalDrive looks at the ratio, or the geometry that takes its place, and the assist spring.
func (k *checker) pedalDrive(p *Pedal) {
	if p.Linkage.Zero() {
		k.over(p.Ratio, "release.pedal.ratio")
	} else {
		there := p.Linkage.PadTravel(p.Linkage.RodTravel(p.Travel))
		k.must(math.Abs(there-p.Travel) <= 1e-6*p.Travel, "release.pedal.linkage",
			"the pedal does not push the rod forward over its whole travel of %.4g mm: pin, pivot and seat come into line, or a place is wrong",
			p.Travel*1e3)
	}
	if !p.Assist.Zero() {
		first, last := p.Assist.Domain()
		k.must(first <= 0 && last >= p.Travel, "release.pedal.assist",
			"the force is known from %.4g to %.4g mm of pedal; it must be from 0 to %.4g mm", first*1e3, last*1e3, p.Travel*1e3)
	}
}

// travels holds the figures against each other.
func (k *checker) travels(c *Chain) {
	pedal := &c.System.Pedal
	k.must(pedal.FreePlay < pedal.Travel, "release.pedal.free_play",
		"%.4g mm takes up the pedal's whole travel of %.4g mm", pedal.FreePlay*1e3, pedal.Travel*1e3)
	_, end := c.Clutch.BearingLoad.Domain()
	needed := c.Clutch.FingerTravelNeeded()
	k.must(needed <= end, "clutch.bearing_load",
		"the last point lies at %.4g mm of finger travel, short of the %.4g mm (lift %.4g mm x lever ratio %.4g) at which "+
			"the discs are free; give points up to the clutch's limit, or look at lever ratio, cushion and clearance",
		end*1e3, needed*1e3, c.Clutch.LiftNeeded()*1e3, c.Clutch.LeverRatio)
	if slave := &c.System.Slave; needed <= end && slave.strokeKnown() {
		k.must(c.SlaveTravel(needed) <= slave.Stroke, "release.slave.stroke",
			"%.4g mm is short of the %.4g mm that the slave must move to free the discs", slave.Stroke*1e3,
			c.SlaveTravel(needed)*1e3)
	}
}

func (s *Slave) strokeKnown() bool { return s.Stroke > 0 && !math.IsInf(s.Stroke, 1) }
