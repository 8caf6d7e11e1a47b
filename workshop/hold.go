package workshop

import (
	"fmt"

	"layshaft/driveline"
	"layshaft/quantity"
	"layshaft/uncertain"
)

// Hold answers whether each candidate clutch carries the engine's torque.
func Hold(job *Job, effort Effort) (*HoldAnswer, error) {
	switch {
	case job.Engine == nil:
		return nil, &Fault{Key: "engine", Message: "without an engine there is no torque to hold", Example: "engine: {power: 380 bhp, at: 6200 rpm, use: road}"}
	case len(job.Clutches) == 0:
		return nil, &Fault{Key: "clutch", Message: "no clutch is given"}
	}
	demand, from, err := job.Engine.demand()
	if err != nil {
		return nil, err
	}
	if err := demand.Check(); err != nil {
		return nil, &Fault{Key: "engine", Message: err.Error()}
	}
	factor := job.Engine.ServiceFactor
	answer := &HoldAnswer{
		Demand: Figure(demand.Mid()), DemandFrom: from, Use: job.Engine.Use,
		ServiceFactor: Figure(factor), Wanted: Figure(demand.Mid() * factor),
		Clutches: map[string]ClutchHold{}, Drive: driveLoads(job, demand.Mid()),
	}
	for i := range job.Clutches {
		clutch := &job.Clutches[i]
		cold, err := clutch.margin(clutch.Friction, demand, factor, effort)
		if err != nil {
			return nil, &Fault{Key: "clutch." + clutch.Name, Message: err.Error()}
		}
		if i == 0 {
			answer.DemandP05, answer.DemandP95 = Figure(cold.DemandP05), Figure(cold.DemandP95)
		}
		hold := clutch.hold(cold)
		if hold.Hot, err = clutch.hot(demand, factor, effort); err != nil {
			return nil, err
		}
		answer.Clutches[clutch.Name] = hold
		answer.order = append(answer.order, clutch.Name)
	}
	answer.launch(job, demand, effort)
	return answer, nil
}

// demand is the engine's peak torque and, in words, where it comes from.
func (e *Engine) demand() (driveline.Demand, string, error) {
	if e.Run == nil {
		lo, hi := driveline.PeakRatio().Bounds()
		words := fmt.Sprintf("%s at %s alone; the peak is taken as %.2f (%.2f .. %.2f) times the torque there: common practice, no source",
			quantity.FormatValue(e.Power, "bhp", 0), quantity.FormatValue(e.PowerSpeed, "rpm", 0), driveline.PeakRatio().Mid(), lo, hi)
		return driveline.DemandFromPower(e.Power, e.PowerSpeed), words, nil
	}
	curve, err := e.Run.Curve()
	if err != nil {
		return driveline.Demand{}, "", &Fault{Key: "engine.dyno", Message: err.Error()}
	}
	omega, peak := curve.Peak()
	words := fmt.Sprintf("dyno run: %s at %s", quantity.Format(peak, "N m", 0), quantity.Format(omega, "rpm", 0))
	if !e.AtWheels {
		return driveline.DemandFromCurve(curve, uncertain.Exact(0), e.Repeatability), words + " at the crank", nil
	}
	words += fmt.Sprintf(" measured at the wheels; %s of the crank's torque is taken as lost before them", quantity.FormatValue(e.Loss, "%", 0))
	return driveline.DemandFromCurve(curve, e.Loss, e.Repeatability), words, nil
}

func (c *Clutch) facing() driveline.Facing {
	return driveline.Facing{Outer: c.Outer.Mid(), Inner: c.Inner.Mid()}
}

// capacity is the worn-in torque from the single figures, N m.
func (c *Clutch) capacity() float64 {
	return driveline.Capacity(driveline.Faces(c.Discs), c.Friction.Mid(), c.Clamp.Mid(), c.facing().MeanRadiusWear())
}

func (c *Clutch) margin(friction uncertain.Value, demand driveline.Demand, factor float64, effort Effort) (driveline.Hold, error) {
	inputs := driveline.MarginInputs{
		Faces: driveline.Faces(c.Discs), Outer: c.Outer, Inner: c.Inner,
		Friction: friction, Clamp: c.Clamp, Demand: demand, ServiceFactor: factor,
	}
	if err := inputs.Check(); err != nil {
		return driveline.Hold{}, err
	}
	return driveline.Margin(inputs, effort.Samples, effort.Seed), nil
}

func (c *Clutch) hold(h driveline.Hold) ClutchHold {
	return ClutchHold{
		Fitted:   c.Fitted,
		Capacity: Figure(h.Capacity), CapacityP05: Figure(h.CapacityP05), CapacityP95: Figure(h.CapacityP95),
		CapacityNew: Figure(h.CapacityUniformPressure),
		Margin:      Figure(h.Margin), MarginP05: Figure(h.P05), MarginP95: Figure(h.P95), Verdict: h.Verdict,
	}
}

// hot is nil where no hot friction is given.
func (c *Clutch) hot(demand driveline.Demand, factor float64, effort Effort) (*Hot, error) {
	if c.HotFriction == nil {
		return nil, nil
	}
	h, err := c.margin(*c.HotFriction, demand, factor, effort)
	if err != nil {
		return nil, &Fault{Key: "clutch." + c.Name + ".facing.hot_friction", Message: err.Error()}
	}
	return &Hot{
		Capacity: Figure(h.Capacity), CapacityP05: Figure(h.CapacityP05), CapacityP95: Figure(h.CapacityP95),
		Margin: Figure(h.Margin), MarginP05: Figure(h.P05), MarginP95: Figure(h.P95), Verdict: h.Verdict,
	}, nil
}

func millimetres(v float64) Figure { return Figure(v * 1e3) }
