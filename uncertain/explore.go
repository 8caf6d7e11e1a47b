package uncertain

import (
	"fmt"
	"math"
)

// Misfits appends to r by how many standard uncertainties each reading lies off what it would be at the point z, whose
// coordinates are standard normal before anything is read: the log-likelihood is minus half the sum of their squares. A
// NaN among them says that the point cannot be. It is called from several goroutines at once and must not keep z.
type Misfits func(z, r []float64) []float64

// Exploration is what readings say of points: weighted draws of them.
type Exploration struct {
	Points  [][]float64
	Weights []float64 // add up to one; all nought where no point explains the readings

	LogEvidence float64 // logarithm of the mean likelihood over what was known before; -Inf where nothing explains the readings
	Effective   float64 // how many draws of equal weight these are worth
	Stages      int     // 2 where the draws from what was known before were worth too few
}

// enough is the part of the first stage's draws, as effective ones, from which a second stage is not worth while.
const enough = 0.25

// Explore finds what readings say of points that are standard normal in each coordinate, by importance sampling.
//
//	w = L(z)·φ(z)/q(z)
//
//	φ  density before the readings, standard normal
//	L  likelihood of the readings
//	q  density that the draws are taken from
//
// In a first stage the draws are quasi-random ones from φ. One rough reading leaves enough of them with weight; three
// good ones leave hardly any. Where fewer than a quarter count, a second stage draws as many from a normal density about
// the likeliest point (Laplace's approximation; where the readings are planes over the points that is the answer
// itself, the Kalman update). All draws then count with q the mixture of both densities, so that no weight exceeds twice
// the likelihood: where the approximation is poor the answer stays right and only gets less sharp.
//
// Sources: Owen, Zhou, "Safe and effective importance sampling", J. Am. Stat. Assoc. 95 (2000) 135; Tierney, Kadane, J.
// Am. Stat. Assoc. 81 (1986) 82 (both from memory).
func Explore(dimensions int, misfits Misfits, draws int, seed uint64) Exploration {
	if draws < 1 {
		panic(fmt.Sprintf("uncertain: explored with %d draws", draws))
	}
	before := standardHill(dimensions)
	e := Exploration{Points: before.draws(draws, seed), Stages: 1}
	logs := logLikelihoods(misfits, e.Points)
	e.weigh(logs)
	start := highest(e.Points, logs)
	if e.Effective >= enough*float64(draws) || start < 0 {
		return e
	}
	near, ok := laplace(misfits, e.Points[start])
	if !ok {
		return e
	}
	e.Stages = 2
	more := near.draws(draws, seed+1<<32)
	e.Points, logs = append(e.Points, more...), append(logs, logLikelihoods(misfits, more)...)
	for i, z := range e.Points {
		// log φ - log(½φ + ½q), written so that neither density underflows
		logs[i] += math.Ln2 - math.Log1p(math.Exp(near.logDensity(z)-before.logDensity(z)))
	}
	e.weigh(logs)
	return e
}

func (e *Exploration) weigh(logs []float64) {
	e.Weights, e.LogEvidence = NormaliseWeights(logs)
	e.Effective = EffectiveSampleSize(e.Weights)
}

// Pick returns n points that are all equally likely, each of the exploration's as often as its weight says but for less
// than one (systematic resampling). Nil where no point explains the readings.
//
// Source: Kitagawa, J. Comput. Graph. Stat. 5 (1996) 1 (from memory).
func (e *Exploration) Pick(n int) [][]float64 {
	if e.Effective == 0 {
		return nil
	}
	picked := make([][]float64, 0, n)
	below := 0.0
	for i, w := range e.Weights {
		below += w
		for len(picked) < n && (float64(len(picked))+0.5)/float64(n) < below {
			picked = append(picked, e.Points[i])
		}
	}
	return picked
}

func logLikelihoods(misfits Misfits, points [][]float64) []float64 {
	logs := make([]float64, len(points))
	inChunks(len(points), func(from, to int) {
		var r []float64
		for i := from; i < to; i++ {
			r = misfits(points[i], r[:0])
			logs[i] = -halfSquare(r)
			if math.IsNaN(logs[i]) {
				logs[i] = math.Inf(-1)
			}
		}
	})
	return logs
}

// highest is the point that is likeliest after the readings; -1 where none is possible.
func highest(points [][]float64, logs []float64) int {
	best, height := -1, math.Inf(-1)
	for i, z := range points {
		if h := logs[i] - halfSquare(z); h > height {
			best, height = i, h
		}
	}
	return best
}

func halfSquare(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x * x
	}
	return sum / 2
}
