package driveline

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

var partExamples = map[string]func(*published){
	"MEC-01": func(p *published) {
		P, d := p.in("P"), p.in("d")
		p.check("tau_pin", PinShear(P, d, 2))
		p.check("bearing", BearingPressure(P, d, p.in("t_eye")))
		// The eye tears across the section beside the pin; the fork presses the pin with two eyes.
		p.check("sigma_eye", P/((p.in("d_outer")-d)*p.in("t_eye")))
		p.check("sigma_fork", BearingPressure(P/2, d, p.in("t_fork")))
	},
	"MEC-05": func(p *published) {
		s := Shaft{Diameter: p.in("d"), Length: p.in("L"), ShearModulus: p.in("G")}
		p.check("tau", s.Stress(p.in("T")))
		p.check("phi", s.Twist(p.in("T")))
		byTwist := p.in("phi_allow") / s.Twist(1)
		p.check("Tmax", min(s.TorqueAtStress(p.in("tau_allow")), byTwist))
	},
	"MEC-06": func(p *published) {
		solid := Shaft{Diameter: p.answer("d_solid"), Length: 1, ShearModulus: p.in("G")}
		hollow := Shaft{Diameter: p.answer("d_hollow_stress"), Bore: 0.8 * p.answer("d_hollow_stress")}
		near(p, "stress of the solid shaft", solid.Stress(p.in("T")), p.in("tau"), 1e-3)
		near(p, "stress of the hollow shaft", hollow.Stress(p.in("T")), p.in("tau"), 1e-3)
		// The twist asks for more, 58.8 mm solid and 67.1 mm hollow, and these are what the ratios compare.
		stiff := math.Pow(32*p.in("T")/(math.Pi*p.in("G")*p.in("rate")), 0.25)
		near(p, "twist", Shaft{Diameter: stiff, Length: 1, ShearModulus: p.in("G")}.Twist(p.in("T")), p.in("rate"), 1e-12)
		wide := math.Pow(32*p.in("T")/(math.Pi*p.in("G")*p.in("rate")*(1-math.Pow(0.8, 4))), 0.25)
		p.check("r_diam", wide/stiff)
		p.check("r_weight", wide*wide*(1-0.8*0.8)/(stiff*stiff))
	},
	"MEC-08": func(p *published) {
		bore := p.in("ri/ro")
		solid, hollow := Shaft{Diameter: 1}, Shaft{Diameter: 1, Bore: bore}
		p.check("stress_ratio", hollow.Stress(1)/solid.Stress(1))
		p.check("weight_ratio", 1-bore*bore)
	},
}

// saloon is a four-wheel-drive car reckoned by another hand; no published source.
func saloon() (Gearing, Vehicle) {
	return Gearing{Gears: []float64{3.1, 2.0, 1.4, 1.1, 0.9}, Final: 4.1, FrontTorque: 0.5},
		Vehicle{Mass: 1500, FrontShare: 0.5, TyreRadius: 0.32, Driven: FourWheels, Grip: 1.1}
}

func TestAxleSeesTheEngineOrTheTyresWhicheverIsLess(t *testing.T) {
	g, v := saloon()
	first := Loads(560, g, v)[0]
	// 560 x 3.1 x 4.1 x 0.5 = 3559 N m; the tyres pass 750 kg x 9.81 x 1.1 x 0.32 m = 2590 N m.
	near(t, "tyre limit", first.Rear.Case, 2590, 1e-3)
	if !first.Rear.TyreLimited || !first.Front.TyreLimited {
		t.Error("first gear should be limited by the tyres")
	}
	near(t, "half shaft", first.Rear.HalfShaft, 2590/2.0, 1e-3)
	near(t, "propshaft", first.Rear.Propshaft, 2590/4.1, 1e-3)
	near(t, "gearbox out", first.GearboxOut, 2*2590/4.1, 1e-3)
	v.Grip = math.Inf(1)
	first = Loads(560, g, v)[0]
	near(t, "without a limit", first.Rear.Case, 3559, 1e-3)
	near(t, "gearbox in", first.GearboxIn, 560, 1e-12)
	if first.Rear.TyreLimited {
		t.Error("endless grip limits nothing")
	}
}

func TestLoadsNeverPassTheEngineNorTheTyres(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		g, v := saloon()
		v.Driven = rapid.SampledFrom([]DrivenWheels{FrontWheels, RearWheels, FourWheels}).Draw(t, "driven")
		g.FrontTorque = map[DrivenWheels]float64{FrontWheels: 1, RearWheels: 0, FourWheels: 0.4}[v.Driven]
		v.CentreHeight, v.Wheelbase = 0.5, 2.6
		torque := rapid.Float64Range(1, 900).Draw(t, "torque")
		front, rear := v.TyreLimits()
		for _, l := range Loads(torque, g, v) {
			if l.GearboxIn > torque*(1+1e-12) || l.Front.Case > front || l.Rear.Case > rear {
				t.Fatalf("%+v is above %g N m, %g, %g", l, torque, front, rear)
			}
			if !l.Front.TyreLimited && !l.Rear.TyreLimited && math.Abs(l.GearboxIn-torque) > 1e-9*torque {
				t.Fatalf("nothing limits gear %d and yet it takes %g of %g N m", l.Gear, l.GearboxIn, torque)
			}
		}
	})
}

// A cross pin reckoned by another hand: 16 mm, pinions at 24 mm with 14 mm bores, seats at 38 mm and 12 mm long; no
// published source.
func TestCrossPinOfAWorkedCase(t *testing.T) {
	for _, c := range []struct {
		torque                                float64
		pinions                               int
		force, pressure, seat, seatMPa, shear float64
	}{
		{3559, 2, 74e3, 331e6, 47e3, 244e6, 233e6},
		{2590, 2, 54e3, 241e6, 34.1e3, 177.5e6, 169.5e6},
		{3559, 4, 37e3, 165e6, 23.4e3, 122e6, 116.5e6},
		{2590, 4, 27e3, 120e6, 17.0e3, 88.7e6, 84.7e6},
	} {
		load := CrossPin{
			Pinions: c.pinions, Diameter: 0.016, PinionRadius: 0.024, PinionLength: 0.014, CaseRadius: 0.038, CaseLength: 0.012,
		}.Load(c.torque)
		near(t, "force on a pinion", load.PinionForce, c.force, 0.005)
		near(t, "pressure in a pinion", load.PinionPressure, c.pressure, 0.005)
		near(t, "force on a seat", load.CaseForce, c.seat, 0.005)
		near(t, "pressure in a seat", load.CasePressure, c.seatMPa, 0.005)
		near(t, "shear", load.Shear, c.shear, 0.005)
	}
}

func TestUnknownSeatIsTakenOnTheHighSide(t *testing.T) {
	known := CrossPin{Pinions: 2, Diameter: 0.016, PinionRadius: 0.024, PinionLength: 0.014, CaseRadius: 0.038, CaseLength: 0.012}
	unknown := known
	unknown.CaseRadius, unknown.CaseLength = 0, 0
	if a, b := known.Load(3000), unknown.Load(3000); b.Shear <= a.Shear || !math.IsNaN(b.CasePressure) {
		t.Errorf("known %+v, unknown %+v", a, b)
	}
}

func TestShaftStressAndTorqueAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := Shaft{Diameter: rapid.Float64Range(0.02, 0.06).Draw(t, "diameter"), Length: 0.5, ShearModulus: SteelShearModulus}
		s.Bore = s.Diameter * rapid.Float64Range(0, 0.9).Draw(t, "bore")
		T := rapid.Float64Range(1, 5000).Draw(t, "torque")
		if back := s.TorqueAtStress(s.Stress(T)); math.Abs(back-T) > 1e-9*T {
			t.Fatalf("%g N m came back as %g", T, back)
		}
		if thin, thick := s.Stress(T), (Shaft{Diameter: s.Diameter}).Stress(T); thin < thick {
			t.Fatal("a bore must not relieve a shaft")
		}
	})
}

// Gere, Mechanics of Materials, example 3-1: a solid steel bar of 1.5 in, 54 in long, under 250 lbf ft; 4530 psi and
// 1.62° (seen in a companion).
func ExampleShaft() {
	const inch, psi, lbfft = 0.0254, 6894.757293168, 1.3558179483
	bar := Shaft{Diameter: 1.5 * inch, Length: 54 * inch, ShearModulus: 11.5e6 * psi}
	fmt.Printf("%.0f psi, %.2f°\n", bar.Stress(250*lbfft)/psi, bar.Twist(250*lbfft)*180/math.Pi)
	// Output: 4527 psi, 1.62°
}
