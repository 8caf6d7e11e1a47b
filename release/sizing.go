package release

import (
	"context"
	"fmt"
	"sync"

	"layshaft/uncertain"
)

// Options are the parts to put together in every way. An empty list leaves that part as it is.
type Options struct {
	Masters []float64 // bores, m
	Slaves  []float64 // bores, m; of a concentric slave the outer diameter, its sleeve staying as it is
	Ratios  []float64 // pedal ratios that the bracket allows; none where a Linkage gives the ratio
	Hoses   []Hose
}

// Hose is a kind of hose for the whole length of the line.
type Hose struct {
	Name      string
	Expansion uncertain.Value // volume per length of hose and pressure, m3/m/Pa
}

// Limits are what a set of parts must keep to be worth offering.
type Limits struct {
	Effort float64 // most at the pad on the way to full travel, with every known at its middle, N; +Inf for any
	Frees  float64 // least chance of freeing at full travel
}

// Why a choice is not good. Where several hold, the first named here is told.
const (
	CannotBe = "cannot be" // the figures contradict each other
	TooHeavy = "too heavy" // the effort is over the limit
	NoStop   = "no stop"   // no place of the stop frees the discs and keeps fingers and master within their limits
	Unsure   = "unsure"    // the chance of freeing is under the limit
)

// Choice is one set of parts and what comes of it.
type Choice struct {
	Master, Slave float64 // bores, m
	Ratio         float64 // of the pedal; 0 where a Linkage gives it
	Hose          string  // "" for the hose as it is

	Answer    // as Solve gives it; the chances are nought where it is out before they count
	Travel    float64
	Out       string // why it is not good; "" for a good one
	Dominated bool   // another good choice is nowhere worse and somewhere better

	hose int // in Options.Hoses, -1 as it is
}

// Good reports whether the choice keeps the limits and leaves a place for the stop.
func (c *Choice) Good() bool { return c.Out == "" }

// BiteHeight is how far above its fully-down end the pedal stands when the clutch begins to bite on the way up, at
// the pad. The lower it is, the less pedal is left to be sure of freeing.
func (c *Choice) BiteHeight() float64 { return c.Travel - c.BiteStart }

// Number is how many choices the options make.
func (o *Options) Number() int {
	each := func(n int) int { return max(n, 1) }
	return each(len(o.Masters)) * each(len(o.Slaves)) * each(len(o.Ratios)) * each(len(o.Hoses))
}

// Size works out every choice that the options make of base, and marks those that are good and those of them that
// another good one dominates. All choices meet the same draws, so that differences between them are the parts' own.
// progress, which may be nil, is called after every choice, never twice at once. It ends early, with ctx's error, when
// ctx is done.
func Size(ctx context.Context, base Chain, knowns []Known, options Options, limits Limits, samples int, seed uint64,
	progress func(done, total int)) ([]Choice, error) {
	middle, err := base.middle(knowns)
	if err != nil {
		return nil, err
	}
	if len(options.Ratios) > 0 && !base.System.Pedal.Linkage.Zero() {
		return nil, &Fault{"release.pedal.linkage", "the pedal's geometry gives its ratio; there is none to choose"}
	}
	s := sizing{middle: middle, options: options, limits: limits, drawn: drawChains(&middle, knowns, &options, samples, seed)}
	s.load = newBearingLoad(middle.Clutch.BearingLoad)
	choices := options.choices(&middle)
	var counting sync.Mutex
	done := 0
	inChunks(len(choices), 1, func(from, to int) {
		for i := from; i < to && ctx.Err() == nil; i++ {
			s.judge(&choices[i])
			counting.Lock()
			if done++; progress != nil {
				progress(done, len(choices))
			}
			counting.Unlock()
		}
	})
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("stopped after %d of %d choices: %w", done, len(choices), err)
	}
	markDominated(choices)
	return choices, nil
}

// choices lists every way to put the options together, hoses changing first and masters last.
func (o *Options) choices(c *Chain) []Choice {
	or := func(list []float64, present float64) []float64 {
		if len(list) == 0 {
			return []float64{present}
		}
		return list
	}
	ratio := c.System.Pedal.Ratio
	if !c.System.Pedal.Linkage.Zero() {
		ratio = 0
	}
	all := make([]Choice, 0, o.Number())
	for _, master := range or(o.Masters, c.System.Master.Bore) {
		for _, slave := range or(o.Slaves, c.System.Slave.Bore) {
			for _, ratio := range or(o.Ratios, ratio) {
				choice := Choice{Master: master, Slave: slave, Ratio: ratio, hose: -1}
				if len(o.Hoses) == 0 {
					all = append(all, choice)
				}
				for i, hose := range o.Hoses {
					choice.hose, choice.Hose = i, hose.Name
					all = append(all, choice)
				}
			}
		}
	}
	return all
}
