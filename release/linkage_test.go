package release

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// hangingPedal hangs from its pivot, 280 mm long, with the rod 60 mm below the pivot and a rod of 130 mm.
func hangingPedal() Linkage {
	return Linkage{Pad: XY{0.02, -0.28}, RodEnd: XY{-0.005, -0.06}, Seat: XY{0.124, -0.045}, Axis: XY{0.98, 0.05}}
}

// An in-line slider and crank: x = r·(1 - cos a) + L - √(L² - r²·sin² a) from the dead centre, as every textbook on
// mechanisms has it (R. L. Norton, Design of Machinery, ch. 4; from memory). The pedal's pin is the crank, the piston
// the slider.
func TestRodTravelIsThatOfASliderCrank(t *testing.T) {
	const r, L, start = 0.06, 0.15, 0.9 // m, m, rad from the dead centre
	// measured from the outer dead centre, x is how far the slider has come in towards the pivot
	x := func(a float64) float64 { return r*(1-math.Cos(a)) + L - math.Sqrt(L*L-r*r*math.Sin(a)*math.Sin(a)) }
	l := Linkage{
		Pad:    XY{0, 0.28},
		RodEnd: XY{r * math.Cos(start), r * math.Sin(start)},
		Seat:   XY{r + L - x(start), 0},
		Axis:   XY{-1, 0}, // towards the pivot: the rod pulls
	}
	for _, turn := range []float64{0, 0.1, 0.3, 0.5} {
		near(t, "rod travel", l.RodTravel(turn*0.28), x(start+turn)-x(start), 1e-15)
	}
}

func TestPadTravelIsTheInverseOfRodTravel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := hangingPedal()
		turn := rapid.Float64Range(-math.Pi, math.Pi).Draw(t, "axes turned")
		for _, p := range []*XY{&l.Pad, &l.RodEnd, &l.Seat, &l.Axis} {
			*p = p.turned(turn)
			if turn > 0 { // and seen from the other side
				p.X = -p.X
			}
		}
		pad := rapid.Float64Range(-0.03, 0.17).Draw(t, "pad travel")
		if got := l.PadTravel(l.RodTravel(pad)); math.Abs(got-pad) > 1e-9 {
			t.Fatalf("pad travel %g comes back as %g", pad, got)
		}
		const step = 1e-6
		slope := step / (l.RodTravel(pad+step/2) - l.RodTravel(pad-step/2))
		if got := l.RatioAt(pad); math.Abs(got-slope) > 1e-6*slope {
			t.Fatalf("ratio %g, by small steps %g", got, slope)
		}
	})
}

func TestRodBeyondTheDeadCentreIsNeverReached(t *testing.T) {
	l := hangingPedal()
	if got := l.PadTravel(0.2); !math.IsInf(got, 1) {
		t.Errorf("0.2 m of rod travel takes %g m of pedal", got)
	}
}

// A rod square to the arm and to nothing else keeps the ratio of the arms near the middle of its swing.
func TestRatioOfASquareRodIsThatOfTheArms(t *testing.T) {
	l := Linkage{Pad: XY{0, -0.276}, RodEnd: XY{0, -0.06}, Seat: XY{10, -0.06}, Axis: XY{1, 0}}
	near(t, "ratio", l.RatioAt(0), 4.6, 1e-9)
}

func TestChainWithGeometryLosesNoWork(t *testing.T) {
	c := example()
	p, m, s := &c.System.Pedal, &c.System.Master, &c.System.Slave
	p.Linkage = hangingPedal()
	p.Efficiency, m.Efficiency, s.Efficiency = 1, 1, 1
	p.Stiffness, s.ForkStiffness = math.Inf(1), math.Inf(1)
	c.System.Line = Line{}
	const step = 1e-6
	for x := 0.5e-3; x < 12e-3; x += 0.5e-3 {
		in := (c.PedalTravel(x+step/2) - c.PedalTravel(x-step/2)) * c.Effort(x)
		out := c.Clutch.Load(x) * step
		near(t, fmt.Sprintf("work at %g mm", x*1e3), in/out, 1, 1e-6)
	}
}

func TestGeometryNearAConstantRatioGivesItsAnswer(t *testing.T) {
	c := example()
	constant := solve(t, c)
	// so long an arm that the swing is almost straight
	c.System.Pedal.Linkage = Linkage{Pad: XY{0, -5800}, RodEnd: XY{0, -1000}, Seat: XY{1e5, -1000}, Axis: XY{1, 0}}
	a := solve(t, c)
	near(t, "finger travel", a.FingerTravel, constant.FingerTravel, 1e-8)
	near(t, "effort", a.PeakEffort, constant.PeakEffort, 1e-3)
	near(t, "stop", a.StopRecommended, constant.StopRecommended, 1e-7)
}

func TestSharesAddUpWithGeometryToo(t *testing.T) {
	c := example()
	c.System.Pedal.Linkage = hangingPedal()
	pedal, percent := 0.0, 0.0
	for _, share := range c.TravelShares(6e-3) {
		pedal, percent = pedal+share.Pedal, percent+share.Percent
	}
	near(t, "shares", pedal, c.PedalTravel(6e-3), 1e-12)
	near(t, "percent", percent, 100, 1e-9)
}

func TestPeakEffortIsTheHighestOnAFineMap(t *testing.T) {
	c := example()
	c.System.Pedal.Linkage = hangingPedal()
	c.System.Pedal.Travel = 140e-3
	assist, err := c.System.Pedal.Linkage.AssistCurve(overCentre(), c.System.Pedal.Travel)
	if err != nil {
		t.Fatal(err)
	}
	c.System.Pedal.Assist = assist
	a := solve(t, c)
	highest := 0.0
	for _, p := range c.Map(20001) {
		highest = max(highest, p.Effort)
	}
	near(t, "peak effort", a.PeakEffort, highest, 1e-4*highest)
	if a.PeakEffort < highest {
		t.Errorf("peak effort %g lies below %g on the map", a.PeakEffort, highest)
	}
}

// overCentre pushes from the box on to the pedal, and passes the line through the pivot on the way down.
func overCentre() PedalSpring {
	return PedalSpring{Anchor: XY{0, -0.13}, Pin: XY{-0.008, -0.03}, Stiffness: 6e3, FreeLength: 0.115}
}

func TestAssistSpringGivesBackTheEnergyThatItHolds(t *testing.T) {
	l, s := hangingPedal(), overCentre()
	energy := func(pad float64) float64 {
		stretch := s.Anchor.minus(s.Pin.turned(l.turn(pad))).length() - s.FreeLength
		return s.Stiffness * stretch * stretch / 2
	}
	const travel, steps = 0.14, 20000
	work := 0.0
	for i := range steps {
		work += l.SpringForce(s, travel*(float64(i)+0.5)/steps) * travel / steps
	}
	near(t, "work done at the pad", work, energy(0)-energy(travel), 1e-7)
	if !(l.SpringForce(s, 0) < 0 && l.SpringForce(s, travel) > 0) {
		t.Errorf("%g N at rest and %g N at the floor, want it to hold up first and help later", l.SpringForce(s, 0), l.SpringForce(s, travel))
	}
}

func TestAssistSpringThatHoldsThePedalDownIsTold(t *testing.T) {
	c := example()
	c.System.Pedal.Assist = curve(0, -10, 60, 20, 150, 60)
	if a := solve(t, c); len(a.Notes) != 0 {
		t.Errorf("notes %q with a weak spring", a.Notes)
	}
	c.System.Pedal.Assist = curve(0, -10, 60, 120, 150, 250)
	if a := solve(t, c); len(a.Notes) != 1 {
		t.Errorf("notes %q, want one that the pedal may stay down", a.Notes)
	}
}

// Rod M8 x 1.25: half a turn is 0.63 mm at the rod, about 3 mm at the pad of a 4.6:1 pedal (reckoned by the trade's
// rule; common practice, no source).
func ExamplePedal_FreePlayAfter() {
	p := Pedal{Ratio: 4.6, FreePlay: 0, RodPitch: 1.25e-3}
	back := -p.RodPitch / 2
	fmt.Printf("%.1f mm at the pad, %.1f turns\n", p.FreePlayAfter(back)*1e3, p.RodTurns(back))
	// Output: 2.9 mm at the pad, -0.5 turns
}

func TestRodChangeBringsTheFreePlay(t *testing.T) {
	for _, linkage := range []Linkage{{}, hangingPedal()} {
		p := metalMaster().Pedal
		p.Linkage = linkage
		d := p.RodChange(10e-3)
		near(t, "free play", p.FreePlayAfter(d), 10e-3, 1e-12)
		if !(d < 0) {
			t.Errorf("more free play by a rod %g m longer", d)
		}
	}
	if turns := (&Pedal{Ratio: 5}).RodTurns(1e-3); !math.IsInf(turns, 1) {
		t.Errorf("%g turns of a rod without a thread", turns)
	}
}
