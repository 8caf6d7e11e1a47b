package release

import (
	"math"

	"layshaft/uncertain"
)

// sizing is what all choices share.
type sizing struct {
	middle  Chain
	load    *bearingLoad
	options Options
	limits  Limits
	drawn   []drawnChain
}

// drawnChain is one draw of everything that no choice decides, and where in its range any hose stands.
type drawnChain struct {
	chain Chain
	load  *bearingLoad
	hose  float64
}

// drawChains takes the draws once for all choices. Hoses have a coordinate of their own, the last.
func drawChains(middle *Chain, knowns []Known, o *Options, samples int, seed uint64) []drawnChain {
	unsure := notExact(knowns)
	coordinates := len(unsure)
	for _, hose := range o.Hoses {
		if !hose.Expansion.IsExact() {
			coordinates = len(unsure) + 1
		}
	}
	if coordinates == 0 {
		samples = 1
	}
	sequence, drawn := uncertain.NewSequence(coordinates, seed), make([]drawnChain, samples)
	middleLoad := newBearingLoad(middle.Clutch.BearingLoad)
	inChunks(samples, 256, func(from, to int) {
		u := make([]float64, coordinates)
		for i := from; i < to; i++ {
			d := &drawn[i]
			*d = drawnChain{*middle, middleLoad, 0.5}
			sequence.At(i, u)
			for j := range unsure {
				unsure[j].Set(&d.chain, unsure[j].Value.Quantile(u[j]))
			}
			if coordinates > len(unsure) {
				d.hose = u[len(unsure)]
			}
			if d.chain.Clutch.BearingLoad != middleLoad.Curve {
				d.load = newBearingLoad(d.chain.Clutch.BearingLoad)
			}
		}
	})
	return drawn
}

// fit puts a choice's parts into a chain.
func (s *sizing) fit(c *Chain, choice *Choice, expansion func(uncertain.Value) float64) {
	c.System.Master.Bore, c.System.Slave.Bore = choice.Master, choice.Slave
	if choice.Ratio > 0 {
		c.System.Pedal.Ratio = choice.Ratio
	}
	if choice.hose >= 0 {
		c.System.Line.Expansion = expansion(s.options.Hoses[choice.hose].Expansion)
	}
}

// judge works one choice out: what is cheap to know first, the chances only where they may still decide.
func (s *sizing) judge(choice *Choice) {
	c := s.middle
	s.fit(&c, choice, uncertain.Value.Mid)
	choice.Travel = c.System.Pedal.Travel
	if err := c.Check(); err != nil {
		choice.Out = CannotBe
		choice.Notes = []string{err.Error()}
		return
	}
	choice.Answer = c.solveExact()
	choice.EffortAtStop = c.effortAtStop(&choice.Answer)
	switch {
	case choice.PeakEffort > s.limits.Effort:
		choice.Out = TooHeavy
		return
	case choice.NoWindow != "":
		choice.Out = NoStop
		return
	}
	if err := choice.chances(&c, s.outcomes(choice)); err != nil {
		choice.Out = CannotBe
		choice.Notes = append(choice.Notes, err.Error())
		return
	}
	choice.EffortAtStop = c.effortAtStop(&choice.Answer)
	if choice.PFrees < s.limits.Frees {
		choice.Out = Unsure
	}
}

// outcomes puts a choice's parts into every draw.
func (s *sizing) outcomes(choice *Choice) []outcome {
	outcomes := make([]outcome, len(s.drawn))
	for i := range s.drawn {
		d := &s.drawn[i]
		c := d.chain
		s.fit(&c, choice, func(v uncertain.Value) float64 { return v.Quantile(d.hose) })
		if c.possible() {
			outcomes[i] = c.outcome(d.load)
		}
	}
	return outcomes
}

// EffortSpans is the 5 and 95 % figure of each choice's highest effort on the way to full travel, over that many
// draws.
func EffortSpans(base Chain, knowns []Known, options Options, choices []Choice, samples int, seed uint64) ([]Span, error) {
	middle, err := base.middle(knowns)
	if err != nil {
		return nil, err
	}
	s := sizing{middle: middle, options: options, drawn: drawChains(&middle, knowns, &options, samples, seed)}
	spans := make([]Span, len(choices))
	inChunks(len(choices), 1, func(from, to int) {
		for i := from; i < to; i++ {
			spans[i] = s.effortSpan(&choices[i])
		}
	})
	return spans, nil
}

func (s *sizing) effortSpan(choice *Choice) Span {
	var efforts []float64
	for i := range s.drawn {
		d := &s.drawn[i]
		c := d.chain
		s.fit(&c, choice, func(v uncertain.Value) float64 { return v.Quantile(d.hose) })
		if !c.possible() {
			continue
		}
		on := c.staticsOn(d.load)
		down, full := on.pressing(), c.System.Pedal.rodTravel(c.System.Pedal.Travel)
		effort, _ := c.peaks(down, full, down.at(full))
		efforts = append(efforts, effort)
	}
	if len(efforts) == 0 {
		return Span{math.NaN(), math.NaN()}
	}
	ends := uncertain.Percentiles(efforts, 5, 95)
	return Span{ends[0], ends[1]}
}
