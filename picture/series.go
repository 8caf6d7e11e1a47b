package picture

import (
	"cmp"
	"slices"
)

// Series tells curves and bars apart, by dash and hatching as well as by colour.
type Series int

const (
	ProposedParts Series = iota
	OriginalParts
	ThirdParts
	FourthParts
)

// line is how a series' curve is drawn.
func (s Series) line() Style {
	return [...]Style{
		{Stroke: Proposed, Width: 2.4},
		{Stroke: Original, Width: 2, Dash: []float64{8, 4}},
		{Stroke: Ink, Width: 1.6, Dash: []float64{2, 3}},
		{Stroke: Quiet, Width: 1.6, Dash: []float64{10, 3, 2, 3}},
	}[s]
}

// hatch is how a series' bar is filled.
func (s Series) hatch() hatch {
	return [...]hatch{{angle: -45, spacing: 4}, {angle: 45, spacing: 4}, {angle: 0, spacing: 4}, {angle: 90, spacing: 4}}[s]
}

// rising lists the indices of values from the least to the greatest; equal ones keep their order.
func rising(values []float64) []int {
	order := make([]int, len(values))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(values[i], values[j]) })
	return order
}
