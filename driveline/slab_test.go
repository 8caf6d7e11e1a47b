package driveline

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// material makes one of a published example's figures; one of k and alpha may be missing.
func (p *published) material() Material {
	m := Material{Density: p.in("rho"), SpecificHeat: p.in("c")}
	if _, ok := p.inputs["k"]; ok {
		m.Conductivity = p.in("k")
	} else {
		m.Conductivity = p.in("alpha") * m.Density * m.SpecificHeat
	}
	return m
}

// pass steps a slab evenly through a time.
func pass(s *Slab, time float64, steps int, flux float64) {
	for range steps {
		s.Step(time/float64(steps), flux)
	}
}

var heatExamples = map[string]func(*published){
	"ENG-07": func(p *published) {
		mass := p.in("W") / (32.2 * 0.3048) // the book's g is 32.2 ft/s²
		p.check("KE", mass*p.in("V")*p.in("V")/2)
		p.check("dT", BulkRise(p.answer("KE"), p.in("m_brake"), p.in("c")))
		p.check("t", p.in("V")/p.in("a"))
		p.check("hp", p.answer("KE")/3.7) // the book rounds the time first
	},
	"ENG-11": func(p *published) {
		m := p.material()
		p.check("T_2mm", p.in("T0")+PulseRise(m, p.in("Q"), p.in("x"), p.in("t")))
		// The same by the slab: the pulse in one short step, then nothing.
		s := NewSlab(m, 0.05, 500, p.in("T0"))
		pass(s, 1e-4, 1, p.in("Q")/1e-4)
		pass(s, p.in("t"), 20000, 0)
		at := int(p.in("x") / s.width)
		p.check("T_2mm", (s.cells[at-1]+s.cells[at])/2)
	},
	"ENG-12": func(p *published) {
		m, L := p.material(), p.in("L")
		fourier := func(t float64) float64 { return m.Diffusivity() * t / (L * L) }
		p.check("Bi", p.in("h")*L/m.Conductivity)
		p.check("Fo", p.in("alpha")*p.in("t")/(L*L))
		s := NewSlab(m, L, 100, p.in("Ti"))
		s.Film, s.Ambient = p.in("h"), p.in("Tinf")
		excess := func() float64 { return (s.Front() - s.Ambient) / (p.in("Ti") - s.Ambient) }
		pass(s, 400, 8000, 0)
		early := excess()
		pass(s, p.in("t")-400, 1600, 0)
		p.check("T_mid", s.Front())
		p.check("q", p.in("h")*(s.Back()-s.Ambient))
		stored := m.Density * m.SpecificHeat * L * (p.in("Ti") - s.Mean())
		p.check("Q", stored*math.Pi*p.in("D"))
		// The slab's late decay must be the one term of the book's series: C1·exp(-ζ²·Fo).
		zeta := math.Sqrt(math.Log(early/excess()) / (fourier(p.in("t")) - fourier(400)))
		p.check("zeta", zeta)
		p.check("C1", excess()*math.Exp(zeta*zeta*fourier(p.in("t"))))
	},
	"ENG-13": func(p *published) {
		s := NewSlab(p.material(), 5, 500, p.in("Ti"))
		s.Film, s.Ambient = 1e9, p.in("Ts") // a film that holds the surface at the given temperature
		pass(s, p.in("t"), 4000, 0)
		const freezing = 273.15
		last := len(s.cells) - 1
		for i := last; i > 0; i-- {
			if a, b := s.cells[i], s.cells[i-1]; a <= freezing && b > freezing {
				p.check("xm", (float64(last-i)+0.5+(freezing-a)/(b-a))*s.width)
			}
		}
	},
	"ENG-15": func(p *published) {
		rate := CoolingRate(p.material(), p.in("h"), p.in("d")/6) // a sphere's volume over its surface
		p.check("rate", rate)
		p.check("t", math.Log((p.in("T0")-p.in("Tinf"))/(p.in("T")-p.in("Tinf")))/rate)
	},
	"ENG-16": func(p *published) {
		m := Material{Conductivity: p.in("alpha"), Density: 1, SpecificHeat: 1}
		p.check("t", SemiInfiniteUntil(m, p.in("half_thickness")))
		near(p, "share that arrives", math.Erfc(p.in("zeta")/2), 0.01, 0.01)
	},
}

func TestConstantFluxHeatsAThickSlabAsTheClosedForm(t *testing.T) {
	for name, m := range map[string]Material{"iron": GreyIron(), "organic": OrganicFacing(), "sintered": SinteredFacing()} {
		const flux = 1e6
		thick := 6 * math.Sqrt(m.Diffusivity())
		s := NewSlab(m, thick, 400, 300)
		for second := 0.25; second <= 1; second += 0.25 {
			pass(s, 0.25, 250, flux)
			near(t, fmt.Sprintf("%s after %g s", name, second), s.Front()-300, FluxRise(m, flux, second), 0.005)
		}
		if until := SemiInfiniteUntil(m, thick); until < 1 {
			t.Errorf("the slab is not thick enough for the comparison: %g s", until)
		}
	}
}

// Long after the start an insulated slab under constant flux rises evenly, its front q·L/(3k) above its mean (Carslaw &
// Jaeger, from memory; it follows from a parabolic profile).
func TestConstantFluxLeavesAParabolaInAFiniteSlab(t *testing.T) {
	const flux, L = 2e5, 0.012
	m := GreyIron()
	s := NewSlab(m, L, 200, 300)
	pass(s, 60, 6000, flux)
	near(t, "mean rise", s.Mean()-300, flux*60/(m.Density*m.SpecificHeat*L), 1e-9)
	near(t, "front above mean", s.Front()-s.Mean(), flux*L/(3*m.Conductivity), 1e-4)
	near(t, "back below mean", s.Mean()-s.Back(), flux*L/(6*m.Conductivity), 1e-4)
}

func TestThinSlabCoolsAsALump(t *testing.T) {
	m := GreyIron()
	s := NewSlab(m, 0.01, 20, 500)
	s.Film, s.Ambient = 40, 300
	pass(s, 600, 6000, 0)
	near(t, "excess", s.Mean()-300, 200*math.Exp(-600*CoolingRate(m, 40, 0.01)), 0.005) // h·L/k is 0.008
}

func TestSlabKeepsEveryJouleAndNeverOvershoots(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom([]Material{GreyIron(), OrganicFacing(), SinteredFacing()}).Draw(t, "material")
		L := rapid.Float64Range(1e-3, 0.03).Draw(t, "thickness")
		s := NewSlab(m, L, rapid.IntRange(1, 60).Draw(t, "cells"), 300)
		s.Ambient = rapid.Float64Range(250, 350).Draw(t, "ambient")
		s.Film = rapid.SampledFrom([]float64{0, 30, 3000}).Draw(t, "film")
		dt := rapid.Float64Range(1e-4, 5).Draw(t, "step")
		put, highest := 0.0, math.Max(300, s.Ambient)
		for _, flux := range rapid.SliceOfN(rapid.Float64Range(0, 5e6), 1, 20).Draw(t, "flux") {
			before := s.Front()
			s.Step(dt, flux)
			lost := s.throughBack() * (s.cells[len(s.cells)-1] - s.Ambient)
			put += (flux - lost) * dt
			if flux == 0 && s.Front() > math.Max(before, highest)+1e-6 {
				t.Fatalf("it warmed from %g to %g without heat", before, s.Front())
			}
			highest = math.Max(highest, s.Front())
		}
		kept := m.Density * m.SpecificHeat * L * (s.Mean() - 300)
		rounding := 1e-10 * m.Density * m.SpecificHeat * L * highest // of all the heat in the slab
		if math.Abs(kept-put) > rounding {
			t.Fatalf("%g J/m² went in, %g are there", put, kept)
		}
	})
}

// Two thick bodies that share the heat by effusivity stay at one temperature where they touch.
func TestHeatShareGivesBothSurfacesOneTemperature(t *testing.T) {
	iron, facing := GreyIron(), OrganicFacing()
	share := HeatShare(iron, facing)
	near(t, "sum of shares", share+HeatShare(facing, iron), 1, 1e-15)
	near(t, "rise", FluxRise(facing, (1-share)*1e6, 1), FluxRise(iron, share*1e6, 1), 1e-12)
	if share < 0.85 || share > 0.98 {
		t.Errorf("iron against an organic facing takes %.2f", share)
	}
}

// Holman, Heat Transfer, example 4.3: 10 MJ/m² flashed onto steel at 40 °C; 513 °C at 2 mm after 2 s (seen in a
// companion).
func ExamplePulseRise() {
	steel := Material{Conductivity: 4.4e-6 * 7800 * 460, Density: 7800, SpecificHeat: 460}
	fmt.Printf("%.0f °C\n", 40+PulseRise(steel, 10e6, 0.002, 2))
	// Output: 513 °C
}

func BenchmarkSlab(b *testing.B) {
	s := NewSlab(GreyIron(), 0.02, 80, 300)
	for b.Loop() {
		s.Step(1e-3, 1e6)
	}
}
