package driveline

import "layshaft/uncertain"

// picked is one figure for each of the margin's inputs.
type picked struct {
	faces           int
	facing          Facing
	friction, clamp float64
	demand          float64
	serviceFactor   float64
}

// pick takes one figure for each input, as figure chooses it. The order of the calls is fixed.
func (in *MarginInputs) pick(figure func(uncertain.Value) float64) picked {
	d := &in.Demand
	return picked{
		faces:    in.Faces,
		facing:   Facing{figure(in.Outer), figure(in.Inner)},
		friction: figure(in.Friction),
		clamp:    figure(in.Clamp),
		demand: crankTorque(figure(d.Measured), figure(d.Speed), figure(d.PeakRatio),
			figure(d.Repeatability), figure(d.Loss)),
		serviceFactor: in.ServiceFactor,
	}
}

func (p *picked) capacity(meanRadius float64) float64 {
	return Capacity(p.faces, p.friction, p.clamp, meanRadius)
}

func (p *picked) margin() float64 {
	return p.capacity(p.facing.MeanRadiusWear()) / (p.demand * p.serviceFactor)
}

// spread fills in the 5 and 95 % figures of demand, capacity and margin.
func (in *MarginInputs) spread(h *Hold, samples int, seed uint64) {
	if samples < 1 {
		panic("driveline: a margin needs at least one sample")
	}
	demands, capacities, margins := make([]float64, samples), make([]float64, samples), make([]float64, samples)
	draws := newDraws(in, seed)
	figure := draws.figure
	for i := range samples {
		draws.turnTo(i)
		p := in.pick(figure)
		demands[i], capacities[i], margins[i] = p.demand, p.capacity(p.facing.MeanRadiusWear()), p.margin()
	}
	h.DemandP05, h.DemandP95 = middle90(demands)
	h.CapacityP05, h.CapacityP95 = middle90(capacities)
	h.P05, h.P95 = middle90(margins)
}

func middle90(sample []float64) (p05, p95 float64) {
	p := uncertain.Percentiles(sample, 5, 95)
	return p[0], p[1]
}

// draws hands out figures sample by sample, from a quasi-random sequence with one coordinate for each input that is
// a range.
type draws struct {
	sequence uncertain.Sequence
	point    []float64
	next     int // coordinate
}

func newDraws(in *MarginInputs, seed uint64) *draws {
	ranges := 0
	in.pick(func(v uncertain.Value) float64 {
		if !v.IsExact() {
			ranges++
		}
		return v.Mid()
	})
	return &draws{uncertain.NewSequence(ranges, seed), make([]float64, ranges), 0}
}

func (d *draws) turnTo(sample int) {
	d.sequence.At(sample, d.point)
	d.next = 0
}

func (d *draws) figure(v uncertain.Value) float64 {
	if v.IsExact() {
		return v.Mid()
	}
	d.next++
	return v.Quantile(d.point[d.next-1])
}
