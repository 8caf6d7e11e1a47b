package worth

import (
	"errors"
	"fmt"
	"math"
)

// LeastWorn is how many parts must have been found worn before a life is fitted: with fewer, two unknowns follow the
// luck of the draw (common practice, no source).
const LeastWorn = 5

// Fit is the Weibull life that explains findings best, by maximum likelihood.
type Fit struct {
	Weibull
	LogLikelihood float64 // with exact lives in the unit of the findings
	Looked, Worn  int

	likelihood likelihood
	peak       line
	spread     matrix // information at the peak
}

// TooFewToFit says why findings do not tell a life.
type TooFewToFit struct{ Reason string }

func (e *TooFewToFit) Error() string { return e.Reason }

// FitWeibull fits a life to findings. Where they cannot tell one, the error is a *TooFewToFit; a finding that is none
// is another error.
//
// The likelihood is the product over the findings of f(t) for an exact life, 1 − F(t) for a part that was still
// sound, F(t) for one that was worn at the first look and F(t₂) − F(t₁) between two looks. Lives must not depend on
// when one looks: a shop that opens only what already rattles finds more worn than there are.
//
// Source: W. Q. Meeker, L. A. Escobar, Statistical Methods for Reliability Data (1998), ch. 2 and 8 (from memory);
// NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1.2 (from memory) and 8.4.1.3 (seen).
func FitWeibull(findings []Finding) (*Fit, error) {
	fit := &Fit{Looked: len(findings)}
	for i, f := range findings {
		if err := f.check(); err != nil {
			return nil, fmt.Errorf("finding %d: %w", i+1, err)
		}
		if f.Worn() {
			fit.Worn++
		}
	}
	if fit.Worn < LeastWorn {
		return nil, &TooFewToFit{fmt.Sprintf("found worn %d times with the distance known, and a life takes %d", fit.Worn, LeastWorn)}
	}
	fit.likelihood = newLikelihood(findings)
	if reason := fit.likelihood.flat(); reason != "" {
		return nil, &TooFewToFit{reason}
	}
	if err := fit.climb(); err != nil {
		return nil, err
	}
	if fit.peak.slope < leastShape {
		return nil, &TooFewToFit{noRise}
	}
	fit.Weibull = fit.likelihood.weibull(fit.peak)
	fit.LogLikelihood = fit.likelihood.log(fit.peak) - fit.likelihood.exactLives()*math.Log(fit.likelihood.unit)
	return fit, nil
}

// flat tells why the likelihood has no peak at a shape above nothing, or is empty where it has one.
//
// It has none at infinite shape unless some part was worn before another was last sound: else one sharp life for all
// explains everything. And at vanishing shape the chance no longer depends on distance; where nothing but single looks
// are known, the likelihood must rise from there.
func (l likelihood) flat() string {
	lastSound, firstWorn := math.Inf(-1), math.Inf(1)
	singleLooks := true
	worn := 0.0
	for _, m := range l.marks {
		lastSound, firstWorn = math.Max(lastSound, m.after), math.Min(firstWorn, m.by)
		singleLooks = singleLooks && (math.IsInf(m.after, -1) || math.IsInf(m.by, 1))
		if math.IsInf(m.after, -1) {
			worn++
		}
	}
	if lastSound <= firstWorn {
		return "no part was still sound beyond the distance at which another was worn, so nothing tells how far lives scatter"
	}
	if singleLooks && l.riseFromNoShape(worn) <= 0 {
		return noRise
	}
	return ""
}

const noRise = "parts were found worn no more often at long distances than at short ones"

// riseFromNoShape is how the likelihood of single looks changes with the shape where it leaves nothing.
func (l likelihood) riseFromNoShape(worn float64) float64 {
	part := worn / float64(len(l.marks))
	hazard := -math.Log1p(-part)
	rise := 0.0
	for _, m := range l.marks {
		if math.IsInf(m.by, 1) {
			rise -= hazard * m.after
		} else {
			rise += hazard / math.Expm1(hazard) * m.by
		}
	}
	return rise
}

func (l likelihood) exactLives() float64 {
	count := 0.0
	for _, m := range l.marks {
		if m.exact {
			count++
		}
	}
	return count
}

// climb goes up to the peak by Newton's steps, each halved until it does not lead down by more than the sum over many
// findings may be wrong in its last digits.
func (f *Fit) climb() error {
	at := line{slope: 1}
	height := f.likelihood.log(at)
	for range 200 {
		first, information := f.likelihood.slopes(at)
		step, gain := information.solve(first)
		if math.Abs(gain) < 1e-18*(1+math.Abs(height)) {
			f.peak, f.spread = at, information
			return nil
		}
		for range 60 {
			next := line{at.slope + step.slope, at.level + step.level}
			if h := f.likelihood.log(next); h >= height-1e-11*(1+math.Abs(height)) {
				at, height = next, h
				break
			}
			step = line{step.slope / 2, step.level / 2}
		}
	}
	return errors.New("the likelihood of these findings was not climbed to its peak in 200 steps")
}

// solve finds the step with information·step = first, and first·step, twice the height that the step promises.
func (m matrix) solve(first line) (step line, gain float64) {
	// Far from the peak one finding can outweigh all others by more than the digits hold, and the matrix has no
	// inverse; a little more on its diagonal keeps the step uphill, and it fades as the others come to count.
	if d := m.determinant(); !(d > 1e-12*m.ss*m.ll) {
		m.ss, m.ll = m.ss*(1+1e-6), m.ll*(1+1e-6)
	}
	d := m.determinant()
	step = line{(m.ll*first.slope - m.sl*first.level) / d, (m.ss*first.level - m.sl*first.slope) / d}
	return step, step.slope*first.slope + step.level*first.level
}
