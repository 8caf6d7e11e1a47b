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
	Stages      int     // more than one where the draws from what was known before were worth too few
}

// enough is the part of one stage's draws, as effective ones, from which a further stage is not worth while.
const enough = 0.25

const mostStages = 4

// Explore finds what readings say of points that are standard normal in each coordinate, by importance sampling.
//
//	w = L(z)·φ(z)/q(z),  q = mean of the densities of all stages
//
//	φ  density before the readings, standard normal
//	L  likelihood of the readings
//
// In a first stage the draws are quasi-random ones from φ. One rough reading leaves enough of them with weight; three
// good ones leave hardly any. Where fewer than a quarter count, a second stage draws as many from a normal density about
// the likeliest point (Laplace's approximation; where the readings are planes over the points that is the answer
// itself, the Kalman update), and where that does not do either, further ones from normal densities fitted to the
// weighted draws so far. All draws count with q the mixture of the densities of all stages, so that no weight exceeds
// their number times the likelihood: where the approximations are poor the answer stays right and only gets less sharp.
//
// Sources: Owen, Zhou, "Safe and effective importance sampling", J. Am. Stat. Assoc. 95 (2000) 135; Tierney, Kadane, J.
// Am. Stat. Assoc. 81 (1986) 82; Cornuet, Marin, Mira, Robert, "Adaptive multiple importance sampling", Scand. J. Stat.
// 39 (2012) 798 (all from memory).
func Explore(dimensions int, misfits Misfits, draws int, seed uint64) Exploration {
	if draws < 1 {
		panic(fmt.Sprintf("uncertain: explored with %d draws", draws))
	}
	var e Exploration
	var likelihoods []float64
	stages := []hill{standardHill(dimensions)}
	for {
		points := stages[e.Stages].draws(draws, seed+uint64(e.Stages)<<32)
		e.Stages++
		e.Points, likelihoods = append(e.Points, points...), append(likelihoods, logLikelihoods(misfits, points)...)
		e.weigh(likelihoods, stages)
		if e.Effective >= enough*float64(draws) || e.Effective == 0 || e.Stages == mostStages {
			return e
		}
		next, ok := e.nearer(misfits, likelihoods, stages)
		if !ok {
			return e
		}
		stages = append(stages, next)
	}
}

// nearer is the density that the next stage draws from.
func (e *Exploration) nearer(misfits Misfits, likelihoods []float64, stages []hill) (hill, bool) {
	if e.Stages == 1 {
		return laplace(misfits, highest(e.Points, likelihoods))
	}
	return fitted(e, &stages[1])
}

// weigh gives each point its weight, and notes what the points are worth.
func (e *Exploration) weigh(likelihoods []float64, stages []hill) {
	logs := make([]float64, len(e.Points))
	inChunks(len(e.Points), func(from, to int) {
		for i := from; i < to; i++ {
			// log φ - log q, written so that no density underflows
			before, mixture := stages[0].logDensity(e.Points[i]), 1.0
			for _, stage := range stages[1:] {
				mixture += math.Exp(stage.logDensity(e.Points[i]) - before)
			}
			logs[i] = likelihoods[i] - math.Log(mixture/float64(len(stages)))
		}
	})
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

// highest is the point that is likeliest after the readings.
func highest(points [][]float64, likelihoods []float64) []float64 {
	best, height := 0, math.Inf(-1)
	for i, z := range points {
		if h := likelihoods[i] - halfSquare(z); h > height {
			best, height = i, h
		}
	}
	return points[best]
}

func halfSquare(v []float64) float64 {
	sum := 0.0
	for _, x := range v {
		sum += x * x
	}
	return sum / 2
}
