package driveline

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"layshaft/quantity"

	"pgregory.net/rapid"
)

// hotHatch is a car of middling size that is launched in first gear.
func hotHatch() Launch {
	return Launch{
		Engine:        func(omega float64) float64 { return 420 - 0.4*math.Abs(omega-420) },
		EngineInertia: 0.22,
		StartSpeed:    quantity.From(4500, "rpm"),
		Limiter:       quantity.From(6800, "rpm"),
		Stall:         quantity.From(600, "rpm"),
		Clutch:        Ramp(650, 0.5),
		InputInertia:  0.012,
		Ratio:         3.1 * 4.1, Efficiency: 0.92,
		Vehicle: Vehicle{
			Mass: 1550, FrontShare: 0.58, Wheelbase: 2.6, CentreHeight: 0.52,
			TyreRadius: 0.32, WheelInertia: 4.5, Driven: FourWheels, Grip: 1.0,
		},
		Resistance: func(v float64) float64 { return 0.013*1550*Gravity + 0.4*v*v },
		Step:       1e-3, Duration: 3,
	}
}

func mustRun(t testing.TB, l Launch) Launched {
	t.Helper()
	out, err := l.Run()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// By hand, no published source: a car of 1550 kg in a 12.71:1 gear on 0.32 m tyres, the engine held at 4000 rpm until
// the clutch has caught up, takes m·v²/2 with v = ω·r/G, 86.2 kJ, and as much again goes into the clutch.
func TestLaunchFromAHeldEngineHeatsTheClutchAsMuchAsItMovesTheCar(t *testing.T) {
	l := hotHatch()
	l.StartSpeed = quantity.From(4000, "rpm")
	l.Limiter = l.StartSpeed
	l.Engine = func(float64) float64 { return 700 }
	l.Efficiency, l.Resistance, l.Vehicle.WheelInertia, l.Vehicle.Grip = 1, nil, 0, math.Inf(1)
	l.InputInertia = 1e-9
	l.Clutch = func(t float64) float64 { return 200 + 100*math.Sin(20*t) } // however it is let in
	out := mustRun(t, l)
	v := l.StartSpeed * l.Vehicle.TyreRadius / l.Ratio
	near(t, "heat in the clutch", out.Clutch, 1550*v*v/2, 1e-6)
	near(t, "heat in the clutch", out.Clutch, 86e3, 0.005) // "about 86 kJ"
	near(t, "work of the engine", out.Engine, 2*out.Clutch, 1e-6)
	if !out.Locked {
		t.Error("the clutch did not lock")
	}
}

func TestEnergyOfALaunchBalances(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		draw := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(rt, name) }
		l := hotHatch()
		l.Step, l.Duration = 2e-3, 1.5
		l.StartSpeed = draw("start", 150, 700)
		l.Clutch = Ramp(draw("clutch", 300, 1500), draw("over", 0.02, 1.5))
		l.Vehicle.Grip = draw("grip", 0.3, 1.6)
		l.Vehicle.Driven = rapid.SampledFrom([]DrivenWheels{FrontWheels, RearWheels, FourWheels}).Draw(rt, "driven")
		l.Efficiency = draw("efficiency", 0.8, 1)
		l.Vehicle.Mass = draw("mass", 700, 2500)
		slope := draw("slope", 0, 0.2)
		l.Resistance = func(v float64) float64 { return l.Vehicle.Mass*Gravity*(0.013+slope) + 0.4*v*v }
		out, err := l.Run()
		if err != nil {
			rt.Fatal(err)
		}
		// The ramp's corner mostly falls inside a step of 2 ms, which costs some millijoules.
		if off := math.Abs(out.Unbalanced()); off > 1e-5*(math.Abs(out.Engine)+1000) {
			rt.Fatalf("%.3g J are left over of %+v", off, out.Energies)
		}
		if out.Clutch < 0 || out.Tyres < 0 || out.Resistance < 0 {
			rt.Fatalf("heat flows backwards: %+v", out.Energies)
		}
	})
}

func TestLaunchHardlyDependsOnTheStep(t *testing.T) {
	l := hotHatch()
	l.Vehicle.Grip, l.Vehicle.Driven = 0.9, FrontWheels
	coarse := mustRun(t, l)
	l.Step /= 10
	fine := mustRun(t, l)
	near(t, "clutch heat", coarse.Clutch, fine.Clutch, 1e-6)
	near(t, "tyre heat", coarse.Tyres, fine.Tyres, 1e-6)
	near(t, "locking", coarse.LockedAt, fine.LockedAt, 1e-6)
}

func TestSpinningTyresHoldTheCarToItsTractionLimit(t *testing.T) {
	for _, driven := range []DrivenWheels{FrontWheels, RearWheels, FourWheels} {
		l := hotHatch()
		l.Clutch = Ramp(900, 0.05)
		l.Vehicle.Driven, l.Vehicle.Grip = driven, 0.4
		l.Resistance = nil
		l.Duration = 0.5
		out := mustRun(t, l)
		if out.SpinTime < 0.4 {
			t.Fatalf("the tyres spun for %g s only", out.SpinTime)
		}
		first, last := out.Moments[len(out.Moments)/2], out.Moments[len(out.Moments)-1]
		near(t, "acceleration", (last.Speed-first.Speed)/(last.Time-first.Time), l.Vehicle.TractionAcceleration(), 1e-9)
	}
}

func TestGrippyTyresNeitherSpinNorHeat(t *testing.T) {
	l := hotHatch()
	l.Vehicle.Grip = 3
	if out := mustRun(t, l); out.SpinTime != 0 || out.Tyres != 0 {
		t.Errorf("spin %g s, heat %g J", out.SpinTime, out.Tyres)
	}
}

func TestLimiterHoldsTheEngineWhileTheClutchPasses(t *testing.T) {
	l := hotHatch()
	l.Clutch = Ramp(250, 1) // weaker than the engine
	out := mustRun(t, l)
	held := 0
	for _, m := range out.Moments {
		if m.Engine > l.Limiter+1e-6 {
			t.Fatalf("the engine reached %g rad/s at %g s", m.Engine, m.Time)
		}
		if m.Engine == l.Limiter {
			held++
		}
	}
	if held < 100 {
		t.Errorf("the limiter held for %d steps only", held)
	}
}

func TestClutchDroppedAtLowSpeedStallsTheEngine(t *testing.T) {
	l := hotHatch()
	l.StartSpeed = quantity.From(900, "rpm")
	l.Clutch = func(float64) float64 { return 650 }
	if out := mustRun(t, l); !out.Stalled {
		t.Errorf("it went on to %g rad/s", out.Moments[len(out.Moments)-1].Engine)
	}
}

func TestCarRestsUntilTheClutchPullsHarderThanTheSlope(t *testing.T) {
	l := hotHatch()
	const slope = 4000.0 // N
	l.Resistance = func(float64) float64 { return slope }
	out := mustRun(t, l)
	needed := slope * l.Vehicle.TyreRadius / (l.Ratio * l.Efficiency) // at the gearbox input
	starts := needed / 650 * 0.5                                      // on the clutch's ramp
	for _, m := range out.Moments {
		if m.Time < starts-1e-9 && m.Speed != 0 || m.Speed < 0 {
			t.Fatalf("it rolls at %g m/s at %g s, though it should start at %g s", m.Speed, m.Time, starts)
		}
		if m.Time > starts+0.01 && m.Speed == 0 {
			t.Fatalf("it still stands at %g s", m.Time)
		}
	}
}

func TestFadingFrictionLetsTheClutchSlipLonger(t *testing.T) {
	fresh := mustRun(t, hotHatch())
	l := hotHatch()
	heat := 0.0
	l.Fade = func(power, step float64) float64 {
		heat += power * step
		return 1 - heat/200e3
	}
	faded := mustRun(t, l)
	near(t, "heat that was told", heat, faded.Clutch, 1e-9)
	if faded.SlipTime <= fresh.SlipTime || faded.Clutch <= fresh.Clutch {
		t.Errorf("fading: %g s, %g J; fresh: %g s, %g J", faded.SlipTime, faded.Clutch, fresh.SlipTime, fresh.Clutch)
	}
}

// Here the tyres stick for a moment while the engine still pulls harder and harder: once they broke loose again, the
// rest of slip that they had met with stood for meeting anew, and they stuck and slipped without end.
func TestTyresThatStickForAMomentBreakLooseAgain(t *testing.T) {
	l := hotHatch()
	l.Step, l.Duration = 2e-3, 1.5
	l.StartSpeed = 150
	l.Clutch = Ramp(512, 0.03125)
	l.Vehicle.Grip, l.Vehicle.Mass, l.Efficiency = 1.1875, 735.875, 0.8
	l.Resistance = func(v float64) float64 { return l.Vehicle.Mass*Gravity*(0.013+0.0625) + 0.4*v*v }
	if out := mustRun(t, l); math.Abs(out.Unbalanced()) > 1e-6*out.Engine {
		t.Errorf("%.3g J are left over", out.Unbalanced())
	}
}

func TestClutchBreaksLooseAgainWhenItsTorqueIsTakenAway(t *testing.T) {
	l := hotHatch()
	full := l.Clutch
	l.Clutch = func(t float64) float64 {
		if t > 2.2 {
			return 50
		}
		return full(t)
	}
	out := mustRun(t, l)
	if math.IsNaN(out.LockedAt) || out.Locked {
		t.Errorf("locked at %g s, locked at the end: %t", out.LockedAt, out.Locked)
	}
}

func TestLaunchThatEndsWithTheClutchAllInMissesNoHeat(t *testing.T) {
	l := hotHatch()
	long := mustRun(t, l)
	l.AllIn = 0.5
	short := mustRun(t, l)
	near(t, "heat in the clutch", short.Clutch, long.Clutch, 1e-12)
	if end := short.Moments[len(short.Moments)-1].Time; !short.Locked || end > 0.52 {
		t.Errorf("it went on to %g s, locked: %t", end, short.Locked)
	}
}

func TestLaunchRefusesWhatCannotBe(t *testing.T) {
	for says, spoil := range map[string]func(*Launch){
		"mass":                 func(l *Launch) { l.Vehicle.Mass = 0 },
		"step":                 func(l *Launch) { l.Step = 0 },
		"steps are too many":   func(l *Launch) { l.Step = 1e-9 },
		"efficiency":           func(l *Launch) { l.Efficiency = 1.1 },
		"above its limiter":    func(l *Launch) { l.Limiter = 100 },
		"stalls":               func(l *Launch) { l.Stall = l.StartSpeed },
		"torques are not kno":  func(l *Launch) { l.Engine = func(float64) float64 { return math.NaN() } },
		"grip":                 func(l *Launch) { l.Vehicle.Grip = math.NaN() },
		"engine speed at the ": func(l *Launch) { l.StartSpeed = -1 },
	} {
		l := hotHatch()
		spoil(&l)
		if _, err := l.Run(); err == nil || !strings.Contains(err.Error(), says) {
			t.Errorf("%s: %v", says, err)
		}
	}
}

func TestExtendedCurveKeepsItsEndPoints(t *testing.T) {
	c, err := NewEngineCurve([]float64{100, 200}, []float64{300, 400})
	if err != nil {
		t.Fatal(err)
	}
	for omega, want := range map[float64]float64{0: 300, 100: 300, 150: 350, 200: 400, 1000: 400} {
		if got := c.Extended()(omega); got != want {
			t.Errorf("%g rad/s: %g, want %g", omega, got, want)
		}
	}
}

func BenchmarkLaunch(b *testing.B) {
	l := hotHatch()
	for b.Loop() {
		mustRun(b, l)
	}
}

func ExampleLaunch() {
	out, err := hotHatch().Run()
	if err != nil {
		panic(err)
	}
	fmt.Printf("locked after %.2f s, %.0f kJ into the clutch, tyres spun for %.2f s\n",
		out.LockedAt, out.Clutch/1000, out.SpinTime)
	// Output: locked after 0.49 s, 75 kJ into the clutch, tyres spun for 1.02 s
}
