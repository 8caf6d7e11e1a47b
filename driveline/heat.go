package driveline

import (
	"fmt"
	"math"
)

// ClutchHeat is what a clutch takes its heat up with.
type ClutchHeat struct {
	Discs           int
	Facing          Facing
	FacingMaterial  Material
	FacingThickness float64  // of one facing, m
	Metal           Material // that the facings rub on
	Flywheel        float64  // thickness behind the rubbed face, m
	PressurePlate   float64  // the same, m
	Intermediate    float64  // whole thickness of a plate between two discs, m; 0 with one disc
	Film            float64  // between metal and the air in the bellhousing, W/(m² K)
	Ambient         float64  // temperature of that air and of the cold clutch, K
	Cells           int      // that each part is cut into; 0 for 80. A third of that is 1 % off and takes a third of the time
}

// Check tells what in the figures cannot be, or nil.
func (c ClutchHeat) Check() error {
	positive := map[string]float64{
		"facing area": c.Facing.Area(), "facing thickness": c.FacingThickness, "flywheel thickness": c.Flywheel,
		"pressure plate thickness": c.PressurePlate, "effusivity of the facing": c.FacingMaterial.Effusivity(),
		"effusivity of the metal": c.Metal.Effusivity(), "ambient temperature": c.Ambient, "number of discs": float64(c.Discs),
	}
	if c.Discs > 1 {
		positive["intermediate plate thickness"] = c.Intermediate
	}
	for name, v := range positive {
		if !(v > 0) || math.IsInf(v, 0) {
			return fmt.Errorf("clutch heat: %s must be above nought, it is %g", name, v)
		}
	}
	if c.Cells < 0 {
		return fmt.Errorf("clutch heat: %d cells; there must be some", c.Cells)
	}
	if !(c.Film >= 0) {
		return fmt.Errorf("clutch heat: the film coefficient must not be negative, it is %g", c.Film)
	}
	return nil
}

// Part is one kind of body in a clutch that heats up.
type Part struct {
	Name  string
	Faces int // rubbed faces of this kind
	*Slab
	share float64 // of the heat made at each of its faces
}

// Stack is a clutch's facings, plates and flywheel while they heat and cool. Every face makes the same heat, which goes
// by HeatShare into metal and facing, each of them a Slab of the facing's area: heat does not spread sideways, which
// errs on the hot side. Facings pass no heat to the air.
type Stack struct {
	Parts []Part // flywheel, pressure plate, intermediate plates if any, facings last
	faces int
	area  float64
}

const usualCells = 80

// NewStack returns the clutch at its ambient temperature. It panics where Check would have complained.
func NewStack(c ClutchHeat) *Stack {
	if err := c.Check(); err != nil {
		panic("driveline: " + err.Error())
	}
	s := &Stack{faces: Faces(c.Discs), area: c.Facing.Area()}
	cells := c.Cells
	if cells == 0 {
		cells = usualCells
	}
	share := HeatShare(c.Metal, c.FacingMaterial)
	metal := func(name string, faces int, thickness float64) {
		slab := NewSlab(c.Metal, thickness, cells, c.Ambient)
		slab.Film, slab.Ambient = c.Film, c.Ambient
		s.Parts = append(s.Parts, Part{name, faces, slab, share})
	}
	metal("flywheel", 1, c.Flywheel)
	metal("pressure plate", 1, c.PressurePlate)
	if c.Discs > 1 {
		// Rubbed on both sides, so that no heat crosses the middle; the film stands for what its rim gives off.
		metal("intermediate plate", s.faces-2, c.Intermediate/2)
	}
	facing := NewSlab(c.FacingMaterial, c.FacingThickness, cells, c.Ambient)
	s.Parts = append(s.Parts, Part{"facing", s.faces, facing, 1 - share})
	return s
}

// Step lets a time dt (s) pass while the clutch makes heat (W).
func (s *Stack) Step(power, dt float64) {
	flux := power / float64(s.faces) / s.area
	for _, p := range s.Parts {
		p.Slab.Step(dt, flux*p.share)
	}
}

// Rubbing returns the mean temperature of the rubbed metal faces, which is what the friction goes by, K.
func (s *Stack) Rubbing() float64 {
	sum := 0.0
	for _, p := range s.Parts[:len(s.Parts)-1] {
		sum += p.Front() * float64(p.Faces)
	}
	return sum / float64(s.faces)
}

// Hottest returns the part whose face is hottest now.
func (s *Stack) Hottest() Part {
	hottest := s.Parts[0]
	for _, p := range s.Parts {
		if p.Front() > hottest.Front() {
			hottest = p
		}
	}
	return hottest
}
