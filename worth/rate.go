package worth

import (
	"fmt"

	"gonum.org/v1/gonum/mathext"
)

// Usual is the chance that the intervals of this package are wanted to hold: four times in five.
const Usual = 0.8

// Belief is a Beta distribution of a finding rate: what is known of how often a part is found worn.
type Belief struct{ Alpha, Beta float64 }

// The beliefs that a shop may hold before its first record.
var (
	// Jeffreys says as little as can be said in the same way on any scale; its intervals hold about as often as they
	// promise. It is the one to use without a reason for another.
	// Source: L. D. Brown, T. T. Cai, A. DasGupta, Statistical Science 16 (2001), 101–133 (from memory).
	Jeffreys = Belief{0.5, 0.5}
	// Flat takes every rate for equally likely.
	Flat = Belief{1, 1}
)

// After is the belief after a part was looked at some times and found worn in some of them. The order of the looks
// and whether they come at once does not matter.
//
//	Beta(α, β)  becomes  Beta(α + found, β + looked − found)
//
// Source: A. A. Johnson, M. Q. Ott, M. Dogucu, Bayes Rules!, ch. 3 (package bayesrules, seen).
func (b Belief) After(looked, found int) Belief {
	if found < 0 || found > looked {
		panic(fmt.Sprintf("worth: found worn %d of %d times", found, looked))
	}
	return Belief{b.Alpha + float64(found), b.Beta + float64(looked-found)}
}

// Mean is the chance that the next part looked at is worn: α / (α + β).
func (b Belief) Mean() float64 { return b.Alpha / (b.Alpha + b.Beta) }

// Above is the chance that the true rate lies above a rate: 1 − I(rate; α, β), with the regularised incomplete beta
// function I.
func (b Belief) Above(rate float64) float64 {
	return mathext.RegIncBeta(b.Beta, b.Alpha, 1-max(0, min(1, rate)))
}

// Interval is the equal-tailed interval that holds the true rate with the chance level.
func (b Belief) Interval(level float64) Interval {
	return Interval{
		mathext.InvRegIncBeta(b.Alpha, b.Beta, (1-level)/2),
		mathext.InvRegIncBeta(b.Alpha, b.Beta, (1+level)/2),
	}
}
