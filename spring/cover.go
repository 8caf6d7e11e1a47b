package spring

import "fmt"

// Cover is a diaphragm as it stands in a clutch.
type Cover struct {
	Diaphragm Diaphragm
	Set       float64 // deflection at the plate contact when the discs are new, m
	Wear      float64 // how far the plate may follow the facings before they are worn out, m, all faces together
	Cushion   float64 // by how much the discs spring apart while the clamp load goes, m, all together
}

// Check tells what makes the cover impossible.
func (c Cover) Check() error {
	switch err := c.Diaphragm.Check(); {
	case err != nil:
		return err
	case !(c.Wear > 0 && c.Wear < c.Set):
		return fmt.Errorf("cover: wear %g m must lie between nought and the deflection when new, %g m; past it nothing "+
			"clamps", c.Wear, c.Set)
	case !(c.Cushion >= 0) || !finite(c.Cushion):
		return fmt.Errorf("cover: cushion %g m must not be less than nought", c.Cushion)
	}
	return nil
}

// ClampAgainstWear returns the clamp load against wear, from 0 (new) to Wear. As the facings wear, the plate follows
// and the spring relaxes: F(Set - wear), see Diaphragm.ClampLoad. Set near or past flat it rises first and falls later.
func (c Cover) ClampAgainstWear() (Built, error) {
	if err := c.Check(); err != nil {
		return Built{}, err
	}
	return c.through(evenly(0, c.Wear, 40), func(wear float64) float64 { return c.Diaphragm.ClampLoad(c.Set - wear) })
}

// BearingLoad returns the load on the release bearing against finger travel, at a state of wear.
//
//	F_b(x) = ( F(λ + y) - F_c(y) ) / i,  y = x/i
//
//	x    finger travel from where the bearing touches    m
//	y    plate lift                                      m
//	λ    deflection at this wear, Set - wear             m
//	F_c  what the cushion still carries: F(λ) at y = 0, falling evenly to 0 at y = Cushion
//	i    lever ratio
//
// Without a cushion the bearing carries the whole load at once, so the curve does not begin at nought. Valid as
// Diaphragm.ClampLoad; the straps that draw the plate back are left out.
func (c Cover) BearingLoad(wear, travel float64) (Built, error) {
	if err := c.Check(); err != nil {
		return Built{}, err
	}
	if !(wear >= 0 && wear <= c.Wear) {
		return Built{}, fmt.Errorf("cover: wear %g m must lie from 0 to %g m", wear, c.Wear)
	}
	if !(travel > 0) || !finite(travel) {
		return Built{}, fmt.Errorf("cover: finger travel %g m must be greater than nought", travel)
	}
	ratio, deflection := c.Diaphragm.LeverRatio(), c.Set-wear
	load := func(x float64) float64 {
		y := x / ratio
		return (c.Diaphragm.ClampLoad(deflection+y) - c.cushionLoad(deflection, y)) / ratio
	}
	free := c.Cushion * ratio
	var at []float64
	if free > 0 && free < travel { // a point where the cushion lets go, so that the corner is not rounded off
		at = append(evenly(0, free, 20)[:20], evenly(free, travel, 20)...)
	} else {
		at = evenly(0, travel, 40)
	}
	return c.through(at, load)
}

func (c Cover) cushionLoad(deflection, lift float64) float64 {
	if lift >= c.Cushion {
		return 0
	}
	return c.Diaphragm.ClampLoad(deflection) * (1 - lift/c.Cushion)
}

// evenly cuts a range into so many steps, both ends included.
func evenly(from, to float64, steps int) []float64 {
	at := make([]float64, steps+1)
	for i := range at {
		at[i] = from + (to-from)*float64(i)/float64(steps)
	}
	at[steps] = to
	return at
}

// through lays a curve through the model at the points given and states how far it leaves the model between them.
func (c Cover) through(at []float64, load func(float64) float64) (Built, error) {
	y := make([]float64, len(at))
	for i, x := range at {
		y[i] = load(x)
		if y[i] < 0 {
			return Built{}, fmt.Errorf("cover: the load falls below nought at %.4g m: the diaphragm stays inside out; "+
				"check thickness, cone height and travel", x)
		}
	}
	curve, err := NewCurve(at, y)
	if err != nil {
		return Built{}, err
	}
	var between, loads []float64
	for i := range len(at) - 1 {
		x := (at[i] + at[i+1]) / 2
		between, loads = append(between, x), append(loads, load(x))
	}
	return built(curve, between, loads,
		"worked out from the spring's dimensions (Almen and Laszlo) with stiff fingers and without friction: "+
			"prefer loads measured on a bench"), nil
}

// WorkingPoint is how a clutch stands at one state of wear.
type WorkingPoint struct {
	Name       string  // "new", "half worn", "worn"
	Wear       float64 // m
	Deflection float64 // at the plate contact, m
	Clamp      float64 // N
	PeakLoad   float64 // on the bearing, N
	PeakTravel float64 // finger travel at it, m
	EndLoad    float64 // on the bearing at the full travel asked for, N
}

// WorkingPoints returns the clutch new, half worn and worn, released by the same finger travel each time.
func (c Cover) WorkingPoints(travel float64) ([]WorkingPoint, error) {
	var points []WorkingPoint
	for _, state := range []struct {
		name string
		part float64
	}{{"new", 0}, {"half worn", 0.5}, {"worn", 1}} {
		wear := state.part * c.Wear
		bearing, err := c.BearingLoad(wear, travel)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", state.name, err)
		}
		at, peak := bearing.Curve.Max()
		points = append(points, WorkingPoint{
			Name: state.name, Wear: wear, Deflection: c.Set - wear, Clamp: c.Diaphragm.ClampLoad(c.Set - wear),
			PeakLoad: peak, PeakTravel: at, EndLoad: bearing.Curve.At(travel),
		})
	}
	return points, nil
}
