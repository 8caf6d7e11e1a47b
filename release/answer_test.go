package release

import (
	"math"
	"testing"
)

func TestVerdictAtFullPedal(t *testing.T) {
	for _, at := range []struct {
		name    string
		change  func(*Chain)
		verdict string
	}{
		{"as it is", func(*Chain) {}, Frees},
		{"short pedal", func(c *Chain) { c.System.Pedal.Travel = 100e-3 }, Drags},
		{"low limit", func(c *Chain) { c.Clutch.FingerTravelMax = 9e-3 }, OverTravels},
		{"short master that drags", func(c *Chain) { c.System.Pedal.Travel, c.System.Master.Stroke = 100e-3, 14e-3 }, Bottoms},
		{"short master that frees", func(c *Chain) { c.System.Master.Stroke = 22e-3 }, Bottoms},
		{"drags and over-travels", func(c *Chain) { c.Clutch.Clearance, c.Clutch.FingerTravelMax = 0.6e-3, 5e-3 }, Drags},
	} {
		c := example()
		at.change(&c)
		if a := solve(t, c); a.Verdict != at.verdict {
			t.Errorf("%s: %q, want %q (%+v)", at.name, a.Verdict, at.verdict, a)
		}
	}
}

func TestMasterThatBottomsIsNotClamped(t *testing.T) {
	c := example()
	long := solve(t, c)
	c.System.Master.Stroke = 14e-3
	a := solve(t, c)
	if a.MasterStroke != long.MasterStroke || a.FingerTravel != long.FingerTravel {
		t.Errorf("stroke %g and finger travel %g, want those of a long master", a.MasterStroke, a.FingerTravel)
	}
	s := c.statics()
	down := s.pressing()
	at := down.at(c.System.Pedal.rodTravel(a.BottomsAt))
	near(t, "stroke where it bottoms", s.strokeAt(0, at), 14e-3, 1e-9)
	if a.PFrees != 0 || a.NoWindow == "" || !math.IsNaN(a.StopRecommended) {
		t.Errorf("frees with chance %g, window %q: the piston ends at %.1f mm of pedal, before %.1f mm", a.PFrees, a.NoWindow,
			a.BottomsAt*1e3, a.StopMin*1e3)
	}
}

func TestStopStandsBeforeTheMasterBottoms(t *testing.T) {
	c := example()
	c.System.Master.Stroke = 20e-3
	a := solve(t, c)
	if a.Verdict != Bottoms || a.PFrees != 1 {
		t.Fatalf("%q with chance %g of freeing, want a master that bottoms after the discs are free", a.Verdict, a.PFrees)
	}
	near(t, "stop", a.StopRecommended, (a.StopMin+a.BottomsAt)/2, 1e-12)
}

func TestBottomingBeforeTheFingersMove(t *testing.T) {
	c := example()
	c.System.Slave.StandOff = 4e-3
	c.System.Master.Stroke = 5e-3 // the gap alone takes 8.7 mm
	a := solve(t, c)
	near(t, "pedal where it bottoms", a.BottomsAt, 6e-3+5.8*5e-3, 1e-12)
	if a.PFrees != 0 {
		t.Errorf("frees with chance %g", a.PFrees)
	}
}

func TestBiteBandIsWhereTheTorqueFalls(t *testing.T) {
	c := example()
	a := solve(t, c)
	s := c.statics()
	down := s.pressing()
	for _, at := range []struct{ pedal, torque, tolerance float64 }{
		{a.BiteEnd, c.Clutch.Capacity, 1e-6},
		{a.BiteStart, 0, 1e-6},
		{0, c.Clutch.Capacity, 0},
		{c.System.Pedal.Travel, 0, 0},
	} {
		near(t, "torque", c.point(down, at.pedal).Torque, at.torque, at.tolerance)
	}
	near(t, "where it starts to fall", a.BiteEnd, c.PedalTravel(0), 1e-12)
	half := c.PedalTravel(c.Clutch.Cushion / 2 * c.Clutch.LeverRatio)
	near(t, "torque half way through the cushion", c.point(down, half).Torque, c.Clutch.Capacity/2, 1e-6)
}

func TestTorqueFollowsTheCushionCurve(t *testing.T) {
	c := example().Clutch
	c.CushionCurve = curve(0, 1, 0.1, 0.4, 0.4, 0) // ends at 0.4 mm, the cushion at 0.35 mm
	near(t, "torque", c.Carried(0.35e-3/4*3.9), 0.4*720, 1e-9)
	near(t, "torque at the end", c.Carried(0.35e-3*3.9), 0, 0)
	c.Cushion = 0
	near(t, "torque of rigid discs at rest", c.Carried(0), 720, 0)
	near(t, "torque of rigid discs lifted", c.Carried(1e-9), 0, 0)
}

func TestLoadBuildsUpBeforeTheFingersMove(t *testing.T) {
	c := example()
	c.Clutch.BearingLoad = curve(0, 600, 4, 2100, 7, 2350, 12, 1950)
	c.System.Slave.StandOff = 1e-3
	c.System.Line.TrappedAir = 0.4e-6
	s := c.statics()
	closed, moves := c.System.Pedal.padTravel(s.rod.rest), c.PedalTravel(0)
	down := s.pressing()
	if p := c.point(down, closed*0.999); p.Effort != 0 || p.Pressure != 0 || p.Finger != 0 {
		t.Errorf("while the gap closes nothing pushes back, not %+v", p)
	}
	middle := c.point(down, (closed+moves)/2)
	if middle.Finger != 0 || !(middle.Pressure > 0 && middle.Pressure < c.Pressure(0)) {
		t.Errorf("while the load builds up: %+v, want a pressure below %g", middle, c.Pressure(0))
	}
	// the pedal has gone so far because line, box and fork give way under that pressure
	load := middle.Pressure / s.pressurePerLoad
	near(t, "pedal", middle.Pedal, c.System.Pedal.padTravel(s.rod.at(0, load)), 1e-12)
	near(t, "pressure as the fingers start", c.point(down, moves).Pressure, c.Pressure(0), 1e-6*c.Pressure(0))
}

func TestPedalThatEndsInTheGapMovesTheBearingPartWay(t *testing.T) {
	c := example()
	c.System.Slave.StandOff = 3e-3
	c.System.Pedal.Travel = 6e-3 + 5.8*(1.2e-3+2e-3) // 2 mm of stroke for the gap
	a := solve(t, c)
	near(t, "master stroke", a.MasterStroke, 3.2e-3, 1e-12)
	near(t, "slave travel", a.SlaveTravel, 2e-3*c.System.Master.Area()/c.System.Slave.Area(), 1e-12)
	near(t, "bearing travel", a.BearingTravel, a.SlaveTravel/1.6, 1e-12)
	if a.FingerTravel != 0 || a.PeakEffort != 0 || a.Verdict != Drags {
		t.Errorf("%+v", a)
	}
}

func TestWindowEndsWithTheCurveWhereTheLimitIsNotKnown(t *testing.T) {
	c := example()
	for _, limit := range []float64{math.Inf(1), 20e-3} {
		c.Clutch.FingerTravelMax = limit
		a := solve(t, c)
		near(t, "stop, most", a.StopMax, c.PedalTravel(c.Clutch.lastFinger()), 1e-12)
		if len(a.Notes) != 1 {
			t.Errorf("notes %q, want one that says so", a.Notes)
		}
	}
}

func TestPedalPastTheLastPointHoldsTheFingersThere(t *testing.T) {
	c := example()
	c.System.Pedal.Travel = 200e-3
	a := solve(t, c)
	if !a.BeyondCurve || a.FingerTravel != c.Clutch.lastFinger() || a.SnapThrough {
		t.Errorf("beyond %v, fingers at %g", a.BeyondCurve, a.FingerTravel)
	}
	if last := c.Map(5)[4]; last.Finger != a.FingerTravel {
		t.Errorf("map ends at %g", last.Finger)
	}
}

func TestNoWindowSaysWhy(t *testing.T) {
	tight := example()
	tight.Clutch.FingerTravelMax = 5e-3 // 5.265 mm needed
	short := example()
	short.System.Pedal.Travel = 100e-3
	for _, c := range []Chain{tight, short} {
		a := solve(t, c)
		if a.NoWindow == "" || !math.IsNaN(a.StopRecommended) || math.IsNaN(a.EffortAtStop) {
			t.Errorf("%q, stop %g, effort %g", a.NoWindow, a.StopRecommended, a.EffortAtStop)
		}
	}
}

// A load curve that ends at the maker's limit holds the fingers there, and they over-travel all the same.
func TestOverTravelIsToldWhereTheLoadCurveEndsAtTheLimit(t *testing.T) {
	c := example()
	c.System.Pedal.Travel = 250e-3
	c.System.Master.Stroke = math.Inf(1)
	c.Clutch.FingerTravelMax = c.Clutch.lastFinger()
	a := solve(t, c)
	if !a.BeyondCurve || a.Verdict != OverTravels || a.POverTravels != 1 {
		t.Errorf("fingers at %g m of %g, beyond the curve %v: %s, with a chance of %g", a.FingerTravel, c.Clutch.FingerTravelMax, a.BeyondCurve, a.Verdict, a.POverTravels)
	}
}
