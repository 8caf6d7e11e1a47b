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
	factor := job.Engine.ServiceFactor
	lo, hi, err := demandRange(job.Clutches[0].marginInputs(job.Clutches[0].Friction, demand, 1), effort)
	if err != nil {
		return nil, &Fault{Key: "engine", Message: err.Error()}
	}
	answer := &HoldAnswer{
		Demand: Figure(demand.Mid()), DemandP05: Figure(lo), DemandP95: Figure(hi), DemandFrom: from, Use: job.Engine.Use,
		ServiceFactor: Figure(factor), Wanted: Figure(demand.Mid() * factor),
		Clutches: map[string]ClutchHold{}, Drive: driveLoads(job, demand.Mid()),
	}
	for i := range job.Clutches {
		clutch := &job.Clutches[i]
		hold, err := clutch.hold(demand, factor, effort)
		if err != nil {
			return nil, err
		}
		answer.Clutches[clutch.Name] = hold
		answer.order = append(answer.order, clutch.Name)
	}
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

// demandRange is the 5 to 95 % range of the demand: what is left of a margin's doubt when the clutch is known exactly.
func demandRange(in driveline.MarginInputs, effort Effort) (lo, hi float64, err error) {
	for _, v := range []*uncertain.Value{&in.Outer, &in.Inner, &in.Friction, &in.Clamp} {
		*v = uncertain.Exact(v.Mid())
	}
	if err := in.Check(); err != nil {
		return 0, 0, err
	}
	h := driveline.Margin(in, effort.Samples, effort.Seed)
	return h.Capacity / h.P95, h.Capacity / h.P05, nil
}

func (c *Clutch) marginInputs(friction uncertain.Value, demand driveline.Demand, factor float64) driveline.MarginInputs {
	return driveline.MarginInputs{
		Faces: driveline.Faces(c.Discs), Outer: c.Outer, Inner: c.Inner,
		Friction: friction, Clamp: c.Clamp, Demand: demand, ServiceFactor: factor,
	}
}

func (c *Clutch) facing() driveline.Facing {
	return driveline.Facing{Outer: c.Outer.Mid(), Inner: c.Inner.Mid()}
}

// capacity is the worn-in torque from the single figures, N m.
func (c *Clutch) capacity() float64 {
	return driveline.Capacity(driveline.Faces(c.Discs), c.Friction.Mid(), c.Clamp.Mid(), c.facing().MeanRadiusWear())
}

func (c *Clutch) hold(demand driveline.Demand, factor float64, effort Effort) (ClutchHold, error) {
	inputs := c.marginInputs(c.Friction, demand, factor)
	if err := inputs.Check(); err != nil {
		return ClutchHold{}, &Fault{Key: "clutch." + c.Name, Message: err.Error()}
	}
	h := driveline.Margin(inputs, effort.Samples, effort.Seed)
	out := ClutchHold{
		Fitted:   c.Fitted,
		Capacity: Figure(h.Capacity), CapacityP05: Figure(h.CapacityP05), CapacityP95: Figure(h.CapacityP95),
		CapacityNew: Figure(h.CapacityUniformPressure),
		Margin:      Figure(h.Margin), MarginP05: Figure(h.P05), MarginP95: Figure(h.P95), Verdict: h.Verdict,
	}
	if c.HotFriction == nil {
		return out, nil
	}
	inputs.Friction = *c.HotFriction
	if err := inputs.Check(); err != nil {
		return out, &Fault{Key: "clutch." + c.Name + ".facing.hot_friction", Message: err.Error()}
	}
	hot := driveline.Margin(inputs, effort.Samples, effort.Seed)
	out.Hot = &Hot{Capacity: Figure(hot.Capacity), CapacityP05: Figure(hot.CapacityP05), CapacityP95: Figure(hot.CapacityP95), Margin: Figure(hot.Margin),
		MarginP05: Figure(hot.P05), MarginP95: Figure(hot.P95), Verdict: hot.Verdict}
	return out, nil
}

func millimetres(v float64) Figure { return Figure(v * 1e3) }
