package release

import (
	"fmt"
	"slices"

	"layshaft/uncertain"
)

// MarginSpread is how sure the pedal travel left after the discs are free is, and what makes it unsure. All travels
// are in m at the pad.
type MarginSpread struct {
	// Both sets the plain reckoning with standard deviations (GUM) beside the sampled one, and says whether the plain
	// one may stand.
	Both uncertain.Comparison

	Influences []Influence // the one that matters most first: the one to measure
}

// Influence is one known's part in how unsure the margin is.
type Influence struct {
	Name  string
	First float64 // part of the variance that would go if this were measured
	Total float64 // part that would stay if all else were measured
	Swing float64 // by which the margin moves when this moves up by its standard deviation
}

// Margin finds out which known matters most for the pedal travel left after the discs are free. It works the chain
// out samples·(k + 3) times for k knowns that are not exact; take a power of two, 1024 or more.
//
// A draw whose discs would only be free past the last load point counts with the margin at that point.
func Margin(base Chain, knowns []Known, samples int, seed uint64) (MarginSpread, error) {
	middle, err := base.middle(knowns)
	if err != nil {
		return MarginSpread{}, err
	}
	unsure := notExact(knowns)
	load := newBearingLoad(middle.Clutch.BearingLoad)
	model := uncertain.Model{Output: func(x []float64) float64 {
		c := middle
		for i, k := range unsure {
			k.Set(&c, x[i])
		}
		if c.Clutch.BearingLoad != load.Curve {
			return c.margin(newBearingLoad(c.Clutch.BearingLoad))
		}
		return c.margin(load)
	}}
	for _, k := range unsure {
		model.Inputs = append(model.Inputs, k.Value)
	}
	both, err := model.Compare(samples, seed)
	if err != nil {
		return MarginSpread{}, fmt.Errorf("a range reaches so far that the pedal's margin has no end: %w", err)
	}
	indices, err := uncertain.Sensitivity(model.Inputs, model.Output, samples, seed)
	if err != nil {
		return MarginSpread{}, fmt.Errorf("a range reaches so far that the pedal's margin has no end: %w", err)
	}
	spread := MarginSpread{Both: both}
	for i, k := range unsure {
		spread.Influences = append(spread.Influences, Influence{k.Name, indices.First[i], indices.Total[i], both.Linear.Contributions[i]})
	}
	slices.SortStableFunc(spread.Influences, func(a, b Influence) int {
		switch {
		case a.Total > b.Total:
			return -1
		case a.Total < b.Total:
			return 1
		}
		return 0
	})
	return spread, nil
}

// margin is the pedal travel left after the discs are free.
func (c *Chain) margin(load *bearingLoad) float64 {
	s := c.staticsOn(load)
	return c.System.Pedal.Travel - c.firstAt(&s, min(c.Clutch.FingerTravelNeeded(), s.bearing.end))
}
