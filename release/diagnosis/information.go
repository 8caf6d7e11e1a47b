package diagnosis

import (
	"math"
	"slices"

	"layshaft/uncertain"
)

// Entropy is the doubt that odds leave, in bits.
//
//	H = -Σ p·log₂ p
func Entropy(odds []float64) float64 {
	sum := 0.0
	for _, p := range odds {
		if p > 0 {
			sum -= p * math.Log2(p)
		}
	}
	return sum
}

// Information is how much of the doubt between causes an outcome is expected to take away, in bits: the mutual
// information of cause and outcome.
//
//	I = Σ_c p_c Σ_y p(y|c)·log₂( p(y|c) / Σ_c p_c·p(y|c) )
//
// odds are the p_c; outcomes[c][y] is p(y|c), each row adding up to one.
//
// Source: Lindley, "On a measure of the information provided by an experiment", Ann. Math. Stat. 27 (1956) 986
// (from memory).
func Information(odds []float64, outcomes [][]float64) float64 {
	if len(outcomes) == 0 {
		return 0
	}
	mixed := make([]float64, len(outcomes[0]))
	for c, row := range outcomes {
		for y, p := range row {
			mixed[y] += odds[c] * p
		}
	}
	sum := 0.0
	for c, row := range outcomes {
		for y, p := range row {
			if p > 0 && odds[c] > 0 {
				sum += odds[c] * p * math.Log2(p/mixed[y])
			}
		}
	}
	return sum
}

// scattered are weighted figures that a reading is expected to show under one cause.
type scattered struct{ figures, weights []float64 }

// chances spreads each cause's figures by a reading's own scatter and cuts the line into cells of a third of it: the
// chance of each cell under each cause.
func chances(of []scattered, spread float64) [][]float64 {
	const perSpread, reach, mostCells = 3, 4, 20000
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, s := range of {
		if len(s.figures) > 0 {
			lo, hi = min(lo, slices.Min(s.figures)), max(hi, slices.Max(s.figures))
		}
	}
	rows := make([][]float64, len(of))
	if !(lo <= hi) || (hi-lo)/spread*perSpread > mostCells {
		return rows
	}
	width := spread / perSpread
	cells := int((hi-lo)/width) + 1 + 2*reach*perSpread
	kernel := make([]float64, 2*reach*perSpread+1)
	for i := range kernel {
		kernel[i] = math.Exp(uncertain.Normal(0, perSpread).LogDensity(float64(i - reach*perSpread)))
	}
	for c, s := range of {
		rows[c] = make([]float64, cells)
		total := 0.0
		for i, x := range s.figures {
			first := int((x - lo) / width)
			for j, k := range kernel {
				rows[c][first+j] += s.weights[i] * k
				total += s.weights[i] * k
			}
		}
		for y := range rows[c] {
			rows[c][y] /= max(total, math.SmallestNonzeroFloat64)
		}
	}
	return rows
}
