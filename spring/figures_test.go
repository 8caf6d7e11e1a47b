package spring_test

import (
	"math"
	"strings"
	"testing"

	"layshaft/spring"
)

func TestBearingCurvePassesThroughTheMakersFigures(t *testing.T) {
	built, err := spring.BearingFromFigures(spring.BearingFigures{Travel: 12 * mm, Peak: 2350, PeakTravel: 7 * mm, End: 1950})
	if err != nil {
		t.Fatal(err)
	}
	at, peak := built.Curve.Max()
	if built.Curve.At(0) != 0 || at != 7*mm || peak != 2350 || built.Curve.At(12*mm) != 1950 || built.Largest != 0 {
		t.Errorf("0 -> %g, peak %g at %g, end %g, residual %g", built.Curve.At(0), peak, at, built.Curve.At(12*mm), built.Largest)
	}
	if len(built.Assumptions) != 1 {
		t.Errorf("assumptions %q: only the way up was guessed", built.Assumptions)
	}
}

func TestEveryGuessInABearingCurveIsSaid(t *testing.T) {
	for name, c := range map[string]struct {
		figures spring.BearingFigures
		peak    float64
		at      float64
		end     float64
		said    []string
	}{
		"from clamp load": {spring.BearingFigures{Travel: 10 * mm, Clamp: 7800, LeverRatio: 3.9, Cushion: 0.7 * mm}, 2000, 2.73 * mm, 1700,
			[]string{"clamp load / lever ratio, 2000 N", "cushion lets go, 2.7 mm", "0.85 of the peak, 1700 N: a guess"}},
		"peak alone": {spring.BearingFigures{Travel: 10 * mm, Peak: 2400}, 2400, 5 * mm, 2040,
			[]string{"half the release travel, 5.0 mm: a guess", "0.85 of the peak, 2040 N: a guess"}},
		"peak against clamp load": {spring.BearingFigures{Travel: 10 * mm, Peak: 3000, PeakTravel: 4 * mm, End: 2500, Clamp: 7800, LeverRatio: 3.9}, 3000, 4 * mm, 2500,
			[]string{"3000 N, is far from clamp load / lever ratio, 2000 N"}},
		"peak at the end": {spring.BearingFigures{Travel: 10 * mm, Peak: 3000, PeakTravel: 10 * mm}, 3000, 10 * mm, 3000,
			[]string{"smooth guess"}},
	} {
		built, err := spring.BearingFromFigures(c.figures)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		at, peak := built.Curve.Max()
		near(t, name+": peak", peak, c.peak, 1e-12)
		near(t, name+": its travel", at, c.at, 1e-12)
		near(t, name+": end", built.Curve.At(10*mm), c.end, 1e-12)
		all := strings.Join(built.Assumptions, "; ")
		for _, said := range c.said {
			if !strings.Contains(all, said) {
				t.Errorf("%s: %q does not say %q", name, all, said)
			}
		}
	}
}

func TestClampCurvePassesThroughTheMakersFigures(t *testing.T) {
	given := spring.ClampFigures{New: 6200, Wear: 2 * mm, Worn: 6000, Peak: 6900, PeakWear: 0.8 * mm}
	built, err := spring.ClampFromFigures(given)
	if err != nil {
		t.Fatal(err)
	}
	at, peak := built.Curve.Max()
	if built.Curve.At(0) != 6200 || at != 0.8*mm || peak != 6900 || built.Curve.At(2*mm) != 6000 || len(built.Assumptions) != 0 {
		t.Errorf("new %g, peak %g at %g, worn %g; assumptions %q", built.Curve.At(0), peak, at, built.Curve.At(2*mm), built.Assumptions)
	}
	guessed, err := spring.ClampFromFigures(spring.ClampFigures{New: 6200, Wear: 2 * mm})
	if err != nil {
		t.Fatal(err)
	}
	at, peak = guessed.Curve.Max()
	near(t, "guessed peak", peak, 6820, 1e-12)
	if at != mm || guessed.Curve.At(2*mm) != 6200 || len(guessed.Assumptions) != 3 {
		t.Errorf("guessed peak at %g, worn %g, assumptions %q", at, guessed.Curve.At(2*mm), guessed.Assumptions)
	}
}

func TestFiguresThatContradictEachOtherAreRefused(t *testing.T) {
	for want, f := range map[string]spring.BearingFigures{
		"release travel must be given": {Peak: 2000},
		"peak load, or clamp load":     {Travel: 0.01, Clamp: 9000},
		"past the release travel":      {Travel: 0.01, Peak: 2000, PeakTravel: 0.02},
		"greater than the peak":        {Travel: 0.01, Peak: 2000, End: 2100},
		"clamp load -1 must be":        {Travel: 0.01, Peak: 2000, Clamp: -1},
		"cushion NaN must be":          {Travel: 0.01, Peak: 2000, Cushion: math.NaN()},
	} {
		if _, err := spring.BearingFromFigures(f); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: error %v, want one with %q", f, err, want)
		}
	}
	for want, f := range map[string]spring.ClampFigures{
		"must be given":            {New: 6000},
		"before the facings":       {New: 6000, Wear: 0.002, PeakWear: 0.002},
		"less than the load new":   {New: 6000, Wear: 0.002, Peak: 5000},
		"worn -1 must be a number": {New: 6000, Wear: 0.002, Worn: -1},
	} {
		if _, err := spring.ClampFromFigures(f); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%+v: error %v, want one with %q", f, err, want)
		}
	}
}
