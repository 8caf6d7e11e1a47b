package release

import (
	"cmp"
	"math"
	"slices"
)

// certainty is the chance of being good at the stop in whole percents: sampling tells no finer, and a front decided by
// the luck of the draw would be no help.
func (c *Choice) certainty() float64 { return math.Round(100 * c.PBoth) }

// better orders good choices from the lightest on; where efforts are equal, the surer and then the one that bites
// higher comes first.
func better(a, b *Choice) int {
	return cmp.Or(cmp.Compare(a.PeakEffort, b.PeakEffort), cmp.Compare(b.certainty(), a.certainty()), cmp.Compare(b.BiteHeight(), a.BiteHeight()))
}

// dominates reports whether a is nowhere worse than b and somewhere better: lighter, surer at the stop, biting higher.
func (a *Choice) dominates(b *Choice) bool {
	return a.PeakEffort <= b.PeakEffort && a.certainty() >= b.certainty() && a.BiteHeight() >= b.BiteHeight() && better(a, b) != 0
}

// markDominated marks the good choices that another good one dominates. In the order of effort a choice can only be
// dominated by one before it, and then also by one of those before it that nothing dominates.
func markDominated(choices []Choice) {
	var good, front []*Choice
	for i := range choices {
		if choices[i].Good() {
			good = append(good, &choices[i])
		}
	}
	slices.SortStableFunc(good, better)
	for _, c := range good {
		if slices.ContainsFunc(front, func(before *Choice) bool { return before.dominates(c) }) {
			c.Dominated = true
			continue
		}
		front = append(front, c)
	}
}

// Front picks the good choices that no other dominates, the lightest first: each of them can only be made lighter,
// surer or higher in bite at the cost of another of the three.
func Front(choices []Choice) []Choice {
	var front []Choice
	for _, c := range choices {
		if c.Good() && !c.Dominated {
			front = append(front, c)
		}
	}
	slices.SortStableFunc(front, func(a, b Choice) int { return better(&a, &b) })
	return front
}
