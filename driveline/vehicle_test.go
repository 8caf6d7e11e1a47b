package driveline

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// vehicleExamples are the published cars and the geared masses that they come down to.
var vehicleExamples = map[string]func(*published){
	"VEH-01": func(p *published) {
		acceleration := func(G float64) float64 {
			pull := p.in("eta")*G*p.in("T_engine")/p.in("r") - p.in("F_res") - p.in("m")*9.81*p.in("sin")
			return pull / EquivalentMass(p.in("m"), p.in("r"), p.in("I_wheels"), G, p.in("I_engine"), p.in("eta"))
		}
		best := 1.0
		for G := 1.0; G < 40; G++ {
			if acceleration(G) > acceleration(best) {
				best = G
			}
		}
		if best != p.answer("G") {
			p.Errorf("the best whole ratio is %g", best)
		}
		p.check("a", acceleration(best))
		omega := EngineSpeed(p.in("v"), p.in("r"), best)
		p.check("omega", omega)
		p.check("P", p.in("T_engine")*omega)
	},
	"VEH-02": func(p *published) {
		for i := range 4 {
			G, eta := p.nth("G", i), p.nth("eta", i)
			mass := EquivalentMass(p.in("Me0"), 1, 0, G, p.in("Me_per_eta_G2"), eta)
			force := p.in("F_per_eta_G") * eta * G
			p.check(fmt.Sprintf("a%d", i+1), force/mass*32.2/32.174) // the book's g is 32.2 ft/s²
		}
	},
	"VEH-03": func(p *published) {
		fall := func(eta float64) float64 {
			// The falling mass drives the fast shaft, hence 1/η.
			return p.in("M") * 9.81 / EquivalentMass(p.in("M"), p.in("r"), p.in("IA"), p.in("G"), p.in("IB"), 1/eta)
		}
		p.check("a", fall(1))
		p.check("a90", fall(p.in("eta")))
	},
	"VEH-05": func(p *published) {
		alpha := func(G float64) float64 {
			return G * p.in("T") / EquivalentMass(0, 1, p.in("IB"), G, p.in("IA"), 1)
		}
		G := p.answer("G")
		p.check("alphaB", alpha(G))
		p.check("alphaA", G*alpha(G))
		if alpha(0.99*G) >= alpha(G) || alpha(1.01*G) >= alpha(G) {
			p.Errorf("%g is not the best ratio", G)
		}
	},
	"VEH-06": func(p *published) {
		v := Vehicle{Mass: 1000, FrontShare: 1 - p.in("rear_share"), Driven: RearWheels, Grip: p.in("mu")}
		p.check("a", v.TractionAcceleration())
		p.check("t", p.in("v")/v.TractionAcceleration())
	},
	"VEH-07": func(p *published) {
		for name, driven := range map[string]DrivenWheels{"a_4wd": FourWheels, "a_rwd": RearWheels, "a_fwd": FrontWheels} {
			v := Vehicle{
				Mass: 1000, FrontShare: p.in("front_static"), Wheelbase: p.in("L"), CentreHeight: p.in("h"),
				Driven: driven, Grip: p.in("mu"),
			}
			p.check(name, v.TractionAcceleration())
		}
	},
	"VEH-08": func(p *published) {
		omega := EngineSpeed(p.in("v"), p.in("Dw")/2, p.in("ratio"))
		near(p, "engine speed", omega, 1909.9*2*math.Pi/60, 3e-5) // printed to 0.1 rpm on the way
		swept := p.in("cyl") * math.Pi / 4 * p.in("D") * p.in("D") * p.in("L")
		p.check("IP", p.in("pmi")*swept/(4*math.Pi)*omega) // mean torque of a four-stroke engine times speed
	},
	"ENG-09": func(p *published) {
		const brakes, wheels = 4, 4
		mass := EquivalentMass(p.in("m"), p.in("R"), wheels*p.in("I_wheel"), p.in("ratio"), p.in("I_engine"), 1)
		E := mass * p.in("v") * p.in("v") / 2 / brakes
		p.check("E", E)
		turned := p.in("v") * p.in("v") / (2 * p.in("decel")) / p.in("R")
		p.check("M", E/turned)
	},
}

func TestTyreLimitsOfBothAxlesAddUpToTheTraction(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := Vehicle{
			Mass: rapid.Float64Range(600, 2500).Draw(t, "mass"), FrontShare: rapid.Float64Range(0.35, 0.65).Draw(t, "front"),
			Wheelbase: 2.6, CentreHeight: rapid.Float64Range(0, 0.7).Draw(t, "height"), TyreRadius: 0.32,
			Driven: rapid.SampledFrom([]DrivenWheels{FrontWheels, RearWheels, FourWheels}).Draw(t, "driven"),
			Grip:   rapid.Float64Range(0.2, 1.3).Draw(t, "grip"),
		}
		front, rear := v.TyreLimits()
		pull := v.Mass * v.TractionAcceleration() * v.TyreRadius
		if math.Abs(front+rear-pull) > 1e-9*pull {
			t.Fatalf("axles pass %g + %g N m, the car takes %g", front, rear, pull)
		}
		if v.Driven == FrontWheels && rear != 0 || v.Driven == RearWheels && front != 0 {
			t.Fatalf("an axle that is not driven passes torque: %g, %g", front, rear)
		}
		higher := v
		higher.CentreHeight += 0.1
		switch a, b := v.TractionAcceleration(), higher.TractionAcceleration(); {
		case v.Driven == RearWheels && b <= a, v.Driven == FrontWheels && b >= a, v.Driven == FourWheels && a != b:
			t.Fatalf("raising the centre changed %g into %g", a, b)
		}
	})
}

func TestEndlessGripHasNoLimit(t *testing.T) {
	for _, driven := range []DrivenWheels{FrontWheels, RearWheels, FourWheels} {
		v := Vehicle{Mass: 1000, FrontShare: 0.5, Wheelbase: 2.5, CentreHeight: 0.5, TyreRadius: 0.3, Driven: driven, Grip: math.Inf(1)}
		front, rear := v.TyreLimits()
		if !math.IsInf(front+rear, 1) || math.IsNaN(front) || math.IsNaN(rear) {
			t.Errorf("%v: %g, %g", driven, front, rear)
		}
	}
}

// Beer & Johnston, Vector Mechanics, 8th ed., problem 16.6: the same car with four-, rear- and front-wheel drive
// (seen; with g = 9.81 m/s² the solution prints 7.85, 3.74 and 4.06).
func ExampleVehicle_TractionAcceleration() {
	for _, driven := range []DrivenWheels{FourWheels, RearWheels, FrontWheels} {
		car := Vehicle{FrontShare: 0.6, Wheelbase: 2.5, CentreHeight: 0.5, Driven: driven, Grip: 0.8}
		fmt.Printf("%.2f m/s²\n", car.TractionAcceleration()*9.81/Gravity)
	}
	// Output:
	// 7.85 m/s²
	// 3.74 m/s²
	// 4.06 m/s²
}
