package driveline

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// twinPlate is a clutch with two organic discs.
func twinPlate() ClutchHeat {
	return ClutchHeat{
		Discs: 2, Facing: Facing{0.215, 0.145}, FacingMaterial: OrganicFacing(), FacingThickness: 3.2e-3,
		Metal: GreyIron(), Flywheel: 0.020, PressurePlate: 0.015, Intermediate: 0.010,
		Film: 40, Ambient: 300,
	}
}

func TestFadeRunsEvenlyBetweenColdAndHot(t *testing.T) {
	f := Fade{Cold: 0.28, Hot: 0.20, From: 473, To: 573}
	for T, want := range map[float64]float64{300: 0.28, 473: 0.28, 523: 0.24, 573: 0.20, 900: 0.20} {
		near(t, fmt.Sprintf("friction at %g K", T), f.At(T), want, 1e-12)
	}
}

func TestFacingFamiliesAreOrderly(t *testing.T) {
	for _, f := range FacingFamilies() {
		lo, _ := f.Friction.Bounds()
		hot, _ := f.HotFriction.Bounds()
		if !(lo > 0.1 && hot > 0.1 && f.From > 300 && f.To > f.From) {
			t.Errorf("%+v", f)
		}
	}
}

func TestHeatMadeIsTheHeatInTheParts(t *testing.T) {
	c := twinPlate()
	c.Film = 0
	s := NewStack(c)
	for range 1000 {
		s.Step(80e3, 1e-3)
	}
	found := 0.0
	for _, p := range s.Parts {
		mass := float64(p.Faces) * c.Facing.Area() * p.width * float64(len(p.cells)) * p.material.Density
		found += mass * p.material.SpecificHeat * (p.Mean() - c.Ambient)
	}
	near(t, "heat in the parts", found, 80e3, 1e-9)
}

func TestThinPlatesGetHottest(t *testing.T) {
	s := NewStack(twinPlate())
	for range 3000 {
		s.Step(40e3, 1e-3)
	}
	if hottest := s.Hottest(); hottest.Name != "intermediate plate" {
		t.Errorf("the %s is hottest", hottest.Name)
	}
	lowest, highest := math.Inf(1), 0.0
	for _, p := range s.Parts[:3] {
		lowest, highest = math.Min(lowest, p.Front()), math.Max(highest, p.Front())
	}
	if r := s.Rubbing(); r <= lowest || r >= highest {
		t.Errorf("the mean %g is not between %g and %g", r, lowest, highest)
	}
}

func TestImpossibleHeatPathsAreRefused(t *testing.T) {
	for says, spoil := range map[string]func(*ClutchHeat){
		"facing area":        func(c *ClutchHeat) { c.Facing = Facing{0.1, 0.1} },
		"flywheel":           func(c *ClutchHeat) { c.Flywheel = 0 },
		"intermediate plate": func(c *ClutchHeat) { c.Intermediate = 0 },
		"effusivity":         func(c *ClutchHeat) { c.Metal = Material{} },
		"film":               func(c *ClutchHeat) { c.Film = -1 },
		"discs":              func(c *ClutchHeat) { c.Discs = 0 },
	} {
		c := twinPlate()
		spoil(&c)
		if err := c.Check(); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", says, err)
		}
	}
}
