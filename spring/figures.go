package spring

import (
	"fmt"
	"math"
)

// What is taken where a maker gives no figure. Common practice, no source.
const (
	usualPeakPart  = 0.5  // finger travel at the peak bearing load, as a part of the release travel
	usualEndPart   = 0.85 // bearing load at the release travel, as a part of the peak
	usualClampPeak = 1.10 // peak clamp load over that of new discs; 1.05 to 1.15 is common
)

// BearingFigures are the few numbers that a maker gives of a clutch's bearing load. Nought means not given.
type BearingFigures struct {
	Travel     float64 // release travel at the fingertips, m; must be given
	Peak       float64 // greatest bearing load, N; this, or clamp load and lever ratio, must be given
	PeakTravel float64 // finger travel at it, m
	End        float64 // bearing load at the release travel, N
	Clamp      float64 // clamp load, N
	LeverRatio float64 // finger travel over plate lift
	Cushion    float64 // of all discs together, m
}

// BearingFromFigures lays a bearing load curve through nought, the peak and the end of the release travel. What was not
// given is guessed, and each guess is among the assumptions:
//
//   - peak load: clamp load over lever ratio, what the bearing carries when the plate is free (lever law, no friction)
//   - travel at the peak: where the cushion lets go, cushion times lever ratio; without those, half the release travel
//   - load at the end: 0.85 of the peak
//
// The last two are common practice, no source. Good enough for the size of effort and pressure; for the bite band
// measure the curve on a bench.
func BearingFromFigures(f BearingFigures) (Built, error) {
	if err := notNegative("bearing load", figure{"travel", f.Travel}, figure{"peak", f.Peak},
		figure{"peak travel", f.PeakTravel}, figure{"end load", f.End}, figure{"clamp load", f.Clamp},
		figure{"lever ratio", f.LeverRatio}, figure{"cushion", f.Cushion}); err != nil {
		return Built{}, err
	}
	if f.Travel == 0 {
		return Built{}, fmt.Errorf("bearing load: the release travel must be given")
	}
	var assumptions []string
	assume := func(format string, args ...any) { assumptions = append(assumptions, fmt.Sprintf(format, args...)) }
	byLever := math.NaN()
	if f.Clamp > 0 && f.LeverRatio > 0 {
		byLever = f.Clamp / f.LeverRatio
	}
	switch {
	case f.Peak == 0 && math.IsNaN(byLever):
		return Built{}, fmt.Errorf("bearing load: the peak load, or clamp load and lever ratio, must be given")
	case f.Peak == 0:
		f.Peak = byLever
		assume("peak bearing load taken as clamp load / lever ratio, %.0f N", f.Peak)
	case math.Abs(f.Peak/byLever-1) > 0.25:
		assume("the peak bearing load given, %.0f N, is far from clamp load / lever ratio, %.0f N: one of them may be wrong",
			f.Peak, byLever)
	}
	if f.PeakTravel == 0 {
		f.PeakTravel = f.Cushion * f.LeverRatio
		if f.PeakTravel > 0 && f.PeakTravel < f.Travel {
			assume("peak taken to be where the cushion lets go, %.1f mm", f.PeakTravel*1000)
		} else {
			f.PeakTravel = usualPeakPart * f.Travel
			assume("peak taken to be at half the release travel, %.1f mm: a guess", f.PeakTravel*1000)
		}
	}
	if f.PeakTravel > f.Travel {
		return Built{}, fmt.Errorf("bearing load: the peak, at %g m, lies past the release travel, %g m", f.PeakTravel, f.Travel)
	}
	if f.End > f.Peak {
		return Built{}, fmt.Errorf("bearing load: the load at the end, %g N, is greater than the peak, %g N", f.End, f.Peak)
	}
	x, y := []float64{0, f.PeakTravel}, []float64{0, f.Peak}
	if f.PeakTravel < f.Travel {
		if f.End == 0 {
			f.End = usualEndPart * f.Peak
			assume("load at the release travel taken as %.2f of the peak, %.0f N: a guess", usualEndPart, f.End)
		}
		x, y = append(x, f.Travel), append(y, f.End)
	}
	assume("the way up to the peak is a smooth guess between two known points")
	curve, err := NewCurve(x, y)
	return built(curve, x, y, assumptions...), err
}

// ClampFigures are the few numbers known of a clamp load over the life of the facings. Nought means not given.
type ClampFigures struct {
	New      float64 // clamp load with new discs, N; must be given
	Wear     float64 // wear of all faces together when they are worn out, m; must be given
	Worn     float64 // clamp load then, N
	Peak     float64 // greatest clamp load between, N
	PeakWear float64 // wear at it, m
}

// ClampFromFigures lays a diaphragm's clamp load against wear through new, peak and worn. What was not given is guessed,
// each guess being among the assumptions: a peak of 1.10 times the new load at half the wear, and the new load again
// when worn out. Shape from teaching slides, figures common practice, no source. Not for coil springs, whose load falls
// throughout.
func ClampFromFigures(f ClampFigures) (Built, error) {
	if err := notNegative("clamp load", figure{"new", f.New}, figure{"wear", f.Wear}, figure{"worn", f.Worn},
		figure{"peak", f.Peak}, figure{"peak wear", f.PeakWear}); err != nil {
		return Built{}, err
	}
	if f.New == 0 || f.Wear == 0 {
		return Built{}, fmt.Errorf("clamp load: the load with new discs and the wear allowed must be given")
	}
	var assumptions []string
	assume := func(format string, args ...any) { assumptions = append(assumptions, fmt.Sprintf(format, args...)) }
	if f.Worn == 0 {
		f.Worn = f.New
		assume("clamp load when worn out taken as that with new discs, %.0f N: a guess", f.Worn)
	}
	if f.Peak == 0 {
		f.Peak = math.Max(usualClampPeak*f.New, f.Worn)
		assume("peak clamp load taken as %.0f N, %.2f of new: a guess", f.Peak, f.Peak/f.New)
	}
	if f.PeakWear == 0 {
		f.PeakWear = f.Wear / 2
		assume("peak taken to be at half the wear, %.2f mm: a guess", f.PeakWear*1000)
	}
	if f.PeakWear >= f.Wear {
		return Built{}, fmt.Errorf("clamp load: the peak, at %g m of wear, must come before the facings are worn out, at %g m",
			f.PeakWear, f.Wear)
	}
	if f.Peak < math.Max(f.New, f.Worn) {
		return Built{}, fmt.Errorf("clamp load: the peak, %g N, is less than the load new or worn, %g and %g N",
			f.Peak, f.New, f.Worn)
	}
	x, y := []float64{0, f.PeakWear, f.Wear}, []float64{f.New, f.Peak, f.Worn}
	curve, err := NewCurve(x, y)
	return built(curve, x, y, assumptions...), err
}

// figure is a number with the name that a message gives it.
type figure struct {
	name  string
	value float64
}

// notNegative refuses figures that are less than nought or not finite.
func notNegative(what string, figures ...figure) error {
	for _, f := range figures {
		if !(f.value >= 0) || !finite(f.value) {
			return fmt.Errorf("%s: %s %g must be a number from nought up", what, f.name, f.value)
		}
	}
	return nil
}
