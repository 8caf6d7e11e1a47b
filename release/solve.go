package release

import (
	"fmt"

	"layshaft/uncertain"
)

// Known is one figure of a chain, how sure it is, and where in the chain it goes.
type Known struct {
	Name  string
	Value uncertain.Value
	Set   func(*Chain, float64)
}

// Solve works out the answer for base with its knowns. The single figures take every known at its middle; the
// chances come from that many draws of those that are not exact. The same seed gives the same answer on any number
// of processors.
func Solve(base Chain, knowns []Known, samples int, seed uint64) (Answer, error) {
	middle, err := base.middle(knowns)
	if err != nil {
		return Answer{}, err
	}
	a := middle.solveExact()
	if unsure := notExact(knowns); len(unsure) > 0 {
		if samples < 1 {
			return Answer{}, fmt.Errorf("%d draws are too few to tell how sure the answer is; 10000 will do", samples)
		}
		if err := a.sample(&middle, unsure, samples, seed); err != nil {
			return Answer{}, err
		}
	} else {
		a.PFrees, a.POverTravels, a.PBoth = middle.certain(&a)
	}
	a.EffortAtStop = middle.effortAtStop(&a)
	return a, nil
}

// middle is the chain with every known at its middle figure, if that can be.
func (c Chain) middle(knowns []Known) (Chain, error) {
	for _, k := range knowns {
		k.Set(&c, k.Value.Mid())
	}
	return c, c.Check()
}

func notExact(knowns []Known) []Known {
	var unsure []Known
	for _, k := range knowns {
		if !k.Value.IsExact() {
			unsure = append(unsure, k)
		}
	}
	return unsure
}

// certain gives the chances, 0 or 1, when every figure is known.
func (c *Chain) certain(a *Answer) (frees, over, both float64) {
	s := c.statics()
	w := c.window(&s)
	travel := c.System.Pedal.Travel
	frees, over = float64(count(w.frees(travel))), float64(count(w.overTravels(travel)))
	return frees, over, float64(count(a.NoWindow == ""))
}

// effortAtStop is the effort with the pedal held at the recommended stop, or at full travel where there is none.
func (c *Chain) effortAtStop(a *Answer) float64 {
	at := c.System.Pedal.Travel
	if a.NoWindow == "" {
		at = a.StopRecommended
	}
	s := c.statics()
	return c.point(s.pressing(), at).Effort
}
