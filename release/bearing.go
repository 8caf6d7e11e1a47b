package release

import (
	"fmt"
	"math"
	"slices"

	"layshaft/uncertain"
)

// Limits of the readings taken for a hydraulic release bearing, m.
const (
	// FingerSpreadLimit is the most that the depth of the finger tips may differ around the clutch: more is a fault
	// of finger height or of the cover's seat. Makers' limits run from 0.5 to 1.0 mm; this is the strictest.
	FingerSpreadLimit = 0.5e-3
	// SecondReadingLimit is the most that the gaps found by two people may differ. Common practice, no source.
	SecondReadingLimit = 0.3e-3
	// DepthReadingError is how far off one reading of a depth gauge over a straight edge is taken to be. Common
	// practice, no source.
	DepthReadingError = 0.15e-3
)

// ShimReadings are the depths measured to set a bearing that draws back from the fingers, with the clutch fitted
// and tightened and the bell face clean.
type ShimReadings struct {
	Fingers []float64 // from the face that bell and gearbox share to the finger tips, three places or more, straight edge deducted
	Bearing []float64 // from the same face on the gearbox to the bearing, pushed fully back, drained and dry
	Target  float64   // stand-off wanted: the maker's figure
}

// Shim is what goes behind the bearing.
type Shim struct {
	Gap       float64  // as measured
	Thickness float64  // to be added behind the bearing; negative: the bearing stands too far forward by that much
	Error     float64  // of the gap, from DepthReadingError
	Spread    float64  // of the finger readings
	Cautions  []string // to be shown where the work is done
}

// ShimBehindBearing returns the shim that sets the stand-off of a retracting release bearing.
//
//	gap = A - B        shim = gap - target
//
//	A  mean depth of the finger tips below the mating face   m
//	B  mean depth of the bearing face from the mating face   m
//
// It refuses fewer than three finger readings, and readings that differ by more than FingerSpreadLimit: a shim does
// not cure a cover that sits askew. Not for a constant-contact bearing, which has no stand-off: see ContactReserve.
// Method: common practice of suppliers of such bearings, no source.
func ShimBehindBearing(r ShimReadings) (Shim, error) {
	if len(r.Fingers) < 3 {
		return Shim{}, &Fault{"fingers", fmt.Sprintf("%d readings are too few; take three, 120 degrees apart", len(r.Fingers))}
	}
	if len(r.Bearing) == 0 {
		return Shim{}, &Fault{"bearing", "the depth of the bearing face is missing; push the bearing fully back, drained, and measure"}
	}
	if !(r.Target > 0) {
		return Shim{}, &Fault{"target", fmt.Sprintf("a stand-off of %.4g mm is none; take the bearing maker's figure", r.Target*1e3)}
	}
	s := Shim{
		Gap:      uncertain.Mean(r.Fingers) - uncertain.Mean(r.Bearing),
		Spread:   slices.Max(r.Fingers) - slices.Min(r.Fingers),
		Error:    DepthReadingError * math.Sqrt2,
		Cautions: shimCautions,
	}
	if !(s.Spread <= FingerSpreadLimit) {
		return Shim{}, &Fault{"fingers", fmt.Sprintf("the tips differ by %.2f mm, more than %.1f mm: find out first why finger height "+
			"or the cover's seat is uneven", s.Spread*1e3, FingerSpreadLimit*1e3)}
	}
	s.Thickness = s.Gap - r.Target
	if s.Thickness < 0 {
		s.Cautions = append([]string{tooFarForward}, s.Cautions...)
	}
	return s, nil
}

const tooFarForward = "The bearing stands too near: fit a thinner spacer, a shorter carrier or a deeper plate between bell and gearbox. " +
	"Never pack the clutch cover."

var shimCautions = []string{
	"The shim goes behind the bearing, never under the clutch cover.",
	"A bearing that has been bled holds itself forward: drain it and push it fully back before it is measured.",
	"A second person takes both depths again without seeing the first figures; the gaps must agree within 0.3 mm.",
	"Never press the pedal while the bearing has nothing to push on: it comes off its sleeve.",
	"The bearing maker's stand-off and longest travel come before any figure given here.",
}

// SecondReadingAgrees reports whether the gaps that two people found are near enough to go on.
func SecondReadingAgrees(first, second float64) bool {
	return math.Abs(first-second) <= SecondReadingLimit
}

// FingerGrowth returns how far the finger tips move towards the bearing as the facings wear.
//
//	growth = id·w
//
//	id  lever ratio: finger travel / plate lift   –
//	w   wear of all facings together              m
func FingerGrowth(leverRatio, wear float64) float64 { return leverRatio * wear }

// StandOffCheck holds a retracting bearing against wear and against the end of its travel.
type StandOffCheck struct {
	GapWhenWorn float64 // what is left of the gap; at nought the bearing carries load all the time and the clutch slips
	SealReserve float64 // what is left of the bearing's own travel at full stroke; at nought it leaves its seal
}

// OK reports whether both are left.
func (s StandOffCheck) OK() bool { return s.GapWhenWorn > 0 && s.SealReserve > 0 }

// CheckStandOff returns what is left of gap and travel: gap is that after shimming, stroke the finger travel at full
// pedal, and travel what the bearing's maker allows in all, which many bearings have no stop for.
func CheckStandOff(gap, leverRatio, wear, stroke, travel float64) StandOffCheck {
	return StandOffCheck{gap - FingerGrowth(leverRatio, wear), travel - stroke - gap}
}

// ContactReserve is what a constant-contact bearing, which a spring holds against the fingers, has left on either
// side of where it stands when fitted.
type ContactReserve struct {
	Wear    float64 // that the growing fingers can still push it back; below nought it ends on its stop and the clutch slips
	Release float64 // that it can still come forward; below nought it leaves its seal
}

// OK reports whether both are left.
func (r ContactReserve) OK() bool { return r.Wear >= 0 && r.Release >= 0 }

// CheckContact returns the reserves of a constant-contact bearing.
//
//	wear reserve = travel - compression - id·w
//	release reserve = compression - stroke
//
// compression is measured from fully extended to fitted; travel is the bearing's own, stroke the finger travel at
// full pedal.
func CheckContact(travel, compression, leverRatio, wear, stroke float64) ContactReserve {
	return ContactReserve{travel - compression - FingerGrowth(leverRatio, wear), compression - stroke}
}
