package release

import (
	"fmt"

	"layshaft/spring"
)

// PedalSpring is a spring between the pedal and its box. One that passes over the line from its anchor to the pivot
// holds the pedal up at rest and helps to press it further down: an assist spring.
type PedalSpring struct {
	Anchor     XY      // on the box
	Pin        XY      // on the pedal, at rest
	Stiffness  float64 // N/m
	FreeLength float64 // m; a spring shorter than it pushes, a longer one pulls
}

// SpringForce is how much a spring helps at the pad when it has been pressed by pad; negative where it pushes the
// pedal back up.
//
//	F = k·(l - l0)·(pin × to anchor)/(l·R)
//
//	l  length of the spring    R  from pivot to pad
//
// The moment of the spring's force about the pivot, at the pad's radius. Friction in its eyes is left out.
func (l *Linkage) SpringForce(s PedalSpring, pad float64) float64 {
	pin := s.Pin.turned(l.turn(pad))
	toAnchor := s.Anchor.minus(pin)
	length := toAnchor.length()
	pull := s.Stiffness * (length - s.FreeLength)
	return pull * pin.cross(toAnchor) / length * l.pressing() / l.Pad.length()
}

// AssistCurve is SpringForce over the pedal's travel, for Pedal.Assist: a point every hundredth of it.
func (l *Linkage) AssistCurve(s PedalSpring, travel float64) (spring.Curve, error) {
	const points = 101
	pads, forces := make([]float64, points), make([]float64, points)
	for i := range pads {
		pads[i] = travel * float64(i) / (points - 1)
		forces[i] = l.SpringForce(s, pads[i])
	}
	curve, err := spring.NewCurve(pads, forces)
	if err != nil {
		return curve, fmt.Errorf("the assist spring has no force that can be told: %w", err)
	}
	return curve, nil
}

// heldDown looks for the least pedal travel at which the assist spring would keep the pedal from coming back. On the
// way back all friction works against the clutch, so that of the effort pressed in only the square of the
// efficiencies comes out again.
func (c *Chain) heldDown() (pad float64, held bool) {
	pedal := &c.System.Pedal
	if pedal.Assist.Zero() {
		return 0, false
	}
	efficiency := pedal.Efficiency * c.System.Master.Efficiency * c.System.Slave.Efficiency
	for _, p := range c.MapBack(201) {
		assist := pedal.Assist.At(p.Pedal)
		if back := (p.Effort + assist) * efficiency * efficiency; assist > 0 && assist > back {
			return p.Pedal, true
		}
	}
	return 0, false
}
