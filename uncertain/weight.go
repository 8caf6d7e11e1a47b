package uncertain

import "math"

// NormaliseWeights turns logarithms of importance weights into weights that add up to one, without overflow, and
// returns the logarithm of their mean beside them. Where each weight is the likelihood of some readings at a point
// drawn from what was known before, that mean is how well the whole supposition explains the readings (its evidence).
// If no point explains the readings at all, all weights are nought and the logarithm of the mean is -Inf.
func NormaliseWeights(logarithms []float64) (weights []float64, logMean float64) {
	weights = make([]float64, len(logarithms))
	greatest := math.Inf(-1)
	for _, l := range logarithms {
		greatest = math.Max(greatest, l)
	}
	if math.IsInf(greatest, -1) {
		return weights, greatest
	}
	sum := 0.0
	for i, l := range logarithms {
		weights[i] = math.Exp(l - greatest)
		sum += weights[i]
	}
	for i := range weights {
		weights[i] /= sum
	}
	return weights, greatest + math.Log(sum/float64(len(weights)))
}

// EffectiveSampleSize is how many equally weighted points a weighted sample is worth.
//
//	n_eff = (Σw)² / Σw²
//
// From 1, one point carries all the weight, to the number of points, all weigh the same. When it is small the answer
// rests on a few lucky points: take more of them. Nought for no weight at all.
//
// Source: Kish, Survey Sampling, Wiley, 1965 (from memory).
func EffectiveSampleSize(weights []float64) float64 {
	sum, squares := 0.0, 0.0
	for _, w := range weights {
		sum += w
		squares += w * w
	}
	if sum == 0 {
		return 0
	}
	return sum * sum / squares
}
