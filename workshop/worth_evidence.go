package workshop

import (
	"errors"
	"math"

	"layshaft/library"
	"layshaft/worth"
)

// evidence adds what the shop's findings tell: the rate, and the life where distances are known. The life says how
// things stand at this car's odometer and is what the chance of need rests on if there is one; else the rate is.
func (s *scales) evidence(now *WorthNow, records library.JobFindings) {
	if records.Looked == 0 {
		return
	}
	belief := worth.Jeffreys.After(records.Looked, records.Found)
	likely := belief.Interval(worth.Usual)
	now.Rate = &FindingRate{
		Looked: records.Looked, Found: records.Found, Means: records.Means,
		Mean: Figure(belief.Mean()), Low: Figure(likely.Low), High: Figure(likely.High),
	}
	now.Chance = &ChanceOfNeed{From: FromRate, Best: now.Rate.Mean, Low: now.Rate.Low, High: now.Rate.High}
	if len(records.Lives) > 0 {
		s.life(now, records.Lives)
	}
}

func (s *scales) life(now *WorthNow, lives []worth.Finding) {
	fit, err := worth.FitWeibull(lives)
	var few *worth.TooFewToFit
	switch {
	case errors.As(err, &few):
		now.NoLife = few.Reason
		return
	case err != nil:
		now.NoLife = err.Error()
		return
	}
	unknown := Figure(math.NaN())
	likely := fit.Likely(worth.Usual)
	b10 := likely.Range(func(w worth.Weibull) float64 { return w.Life(0.1) })
	now.Life = &FittedLife{
		Shape: Figure(fit.Shape), Scale: Figure(fit.Scale / 1e3), Mean: Figure(fit.Mean() / 1e3),
		B10: Figure(fit.Life(0.1) / 1e3), B10Low: Figure(b10.Low / 1e3), B10High: Figure(b10.High / 1e3),
		IfSound: unknown, IfSoundLow: unknown, IfSoundHigh: unknown,
	}
	odometer := s.job.Car.Odometer
	if odometer <= 0 {
		now.NoLife = "the car's odometer is not given, so the fitted life cannot say how it stands with this car"
		return
	}
	ifSound := func(w worth.Weibull) float64 { return w.Within(s.horizon, odometer) }
	sound := likely.Range(ifSound)
	now.Life.IfSound, now.Life.IfSoundLow, now.Life.IfSoundHigh = Figure(ifSound(fit.Weibull)), Figure(sound.Low), Figure(sound.High)

	worn := func(w worth.Weibull) float64 { return w.Chance(odometer + s.horizon) }
	need := likely.Range(worn)
	now.Chance = &ChanceOfNeed{From: FromLife, Best: Figure(worn(fit.Weibull)), Low: Figure(need.Low), High: Figure(need.High)}
}
