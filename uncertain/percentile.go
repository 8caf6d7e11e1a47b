package uncertain

import (
	"math"
	"slices"
)

// Percentiles are the figures below which the given percents (0 to 100) of a sample lie, by straight lines between
// the ordered figures, the i-th of n standing at 100·(i-½)/n percent; beyond the first and last, those. The sample
// is left as it was. NaN where the sample is empty or holds a NaN.
//
// Source: Hyndman, Fan, "Sample quantiles in statistical packages", Am. Stat. 50 (1996) 361, definition 5 (from memory).
func Percentiles(sample []float64, percents ...float64) []float64 {
	result := make([]float64, len(percents))
	undefined := len(sample) == 0 || slices.ContainsFunc(sample, math.IsNaN)
	partly := slices.Clone(sample)
	for i, percent := range percents {
		if undefined || math.IsNaN(percent) {
			result[i] = math.NaN()
			continue
		}
		result[i] = atPercent(partly, percent)
	}
	return result
}

// atPercent is the figure at a percent of a sample, which it puts partly in order.
func atPercent(sample []float64, percent float64) float64 {
	last := len(sample) - 1
	place := percent/100*float64(len(sample)) - 0.5 // the least figure stands at nought
	switch {
	case place <= 0:
		return slices.Min(sample)
	case place >= float64(last):
		return slices.Max(sample)
	}
	before := int(place)
	a := nth(sample, before)
	b := slices.Min(sample[before+1:])
	if a == b { // two infinite figures have no line between them
		return a
	}
	return a + (b-a)*(place-float64(before))
}

// nth is the figure at place n, from nought, of the sample in order. It moves the smaller ones before that place and
// the greater ones behind it, which takes far fewer steps than to put all in order.
//
// Source: Hoare, "Algorithm 65: Find", Comm. ACM 4 (1961) 321 (from memory).
func nth(sample []float64, n int) float64 {
	first, last := 0, len(sample)-1
	for first < last {
		pivot := sample[n]
		i, j := first, last
		for i <= j {
			for sample[i] < pivot {
				i++
			}
			for pivot < sample[j] {
				j--
			}
			if i <= j {
				sample[i], sample[j] = sample[j], sample[i]
				i++
				j--
			}
		}
		if j < n {
			first = i
		}
		if n < i {
			last = j
		}
	}
	return sample[n]
}
