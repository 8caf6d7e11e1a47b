package uncertain

import (
	"fmt"
	"math"
	"slices"
)

// Mean is the arithmetic mean of a sample; NaN of none.
func Mean(sample []float64) float64 {
	sum := 0.0
	for _, v := range sample {
		sum += v
	}
	return sum / float64(len(sample))
}

// SD is the experimental standard deviation of a sample, with n - 1 below the line; NaN of fewer than two.
func SD(sample []float64) float64 {
	if len(sample) < 2 {
		return math.NaN()
	}
	mean, squares := Mean(sample), 0.0
	for _, v := range sample {
		squares += (v - mean) * (v - mean)
	}
	return math.Sqrt(squares / float64(len(sample)-1))
}

// checkWeights panics unless there is one weight a figure.
func checkWeights(sample, weights []float64) {
	if len(weights) != len(sample) {
		panic(fmt.Sprintf("uncertain: %d weights for a sample of %d", len(weights), len(sample)))
	}
}

// WeightedMean is Σw·x/Σw. The weights need not add up to one.
func WeightedMean(sample, weights []float64) float64 {
	checkWeights(sample, weights)
	sum, total := 0.0, 0.0
	for i, v := range sample {
		sum += weights[i] * v
		total += weights[i]
	}
	return sum / total
}

// WeightedSD is √(Σw·(x - mean)²/Σw): the spread of the distribution that the weighted sample stands for.
func WeightedSD(sample, weights []float64) float64 {
	mean, squares, total := WeightedMean(sample, weights), 0.0, 0.0
	for i, v := range sample {
		squares += weights[i] * (v - mean) * (v - mean)
		total += weights[i]
	}
	return math.Sqrt(squares / total)
}

// WeightedPercentiles are Percentiles where each figure counts by its weight: it stands in the middle of its own
// share of the total. With equal weights they are Percentiles.
func WeightedPercentiles(sample, weights []float64, percents ...float64) []float64 {
	checkWeights(sample, weights)
	figures := make([]weighed, 0, len(sample))
	total, undefined := 0.0, false
	for i, v := range sample {
		w := weights[i]
		undefined = undefined || math.IsNaN(v) || math.IsNaN(w)
		if w != 0 {
			figures = append(figures, weighed{v, w})
			total += w
		}
	}
	result := make([]float64, len(percents))
	if undefined || len(figures) == 0 {
		for i := range result {
			result[i] = math.NaN()
		}
		return result
	}
	slices.SortFunc(figures, func(a, b weighed) int {
		if a.figure < b.figure {
			return -1
		}
		return 1
	})
	place(figures, total)
	for i, percent := range percents {
		result[i] = atShare(figures, percent/100)
	}
	return result
}

// weighed is a figure with its weight, which place turns into the share of the total below its middle.
type weighed struct{ figure, share float64 }

func place(figures []weighed, total float64) {
	below := 0.0
	for i, f := range figures {
		figures[i].share = (below + f.share/2) / total
		below += f.share
	}
}

// atShare is the figure at a share of the total, by a straight line between its neighbours.
func atShare(figures []weighed, share float64) float64 {
	after, _ := slices.BinarySearchFunc(figures, share, func(f weighed, share float64) int {
		if f.share < share {
			return -1
		}
		return 1
	})
	switch {
	case math.IsNaN(share):
		return math.NaN()
	case after == 0:
		return figures[0].figure
	case after == len(figures):
		return figures[after-1].figure
	}
	a, b := figures[after-1], figures[after]
	if a.figure == b.figure { // two infinite figures have no line between them
		return a.figure
	}
	return a.figure + (b.figure-a.figure)*(share-a.share)/(b.share-a.share)
}
