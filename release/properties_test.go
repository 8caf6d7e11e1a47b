package release

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// anyChain draws a chain that Check lets pass, from soft to rigid.
func anyChain(t *rapid.T) Chain {
	in := func(lo, hi float64, name string) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	loads := []float64{0, 0}
	for i := range 5 {
		loads = append(loads, 2.5*float64(i+1), in(200, 3500, "load"))
	}
	c := example()
	c.Clutch.BearingLoad = curve(loads...)
	c.Clutch.LoadScale = in(0.5, 1.5, "load scale")
	c.System.Pedal.Ratio = in(3.5, 7, "pedal ratio")
	c.System.Pedal.Stiffness = in(200e3, 5000e3, "box stiffness")
	c.System.Master.Bore = in(12e-3, 26e-3, "master bore")
	c.System.Line.Expansion = in(0, 0.6e-12, "hose expansion")
	c.System.Line.TrappedAir = in(0, 3e-6, "trapped air")
	c.System.Slave.ForkRatio = in(1, 2.2, "fork ratio")
	c.System.Slave.ForkStiffness = in(500e3, 5000e3, "fork stiffness")
	c.System.Slave.StandOff = in(0, 4e-3, "stand-off")
	return c
}

// fingers is the finger travel at full pedal.
func fingers(c Chain) float64 { return c.Map(2)[1].Finger }

func TestMapIsTheInverseOfPedalTravel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChain(t)
		s := c.statics()
		for _, p := range c.Map(40) {
			if p.Finger == 0 || p.Finger == s.bearing.end {
				continue
			}
			if got := c.PedalTravel(p.Finger); math.Abs(got-p.Pedal) > 1e-9 {
				t.Fatalf("map puts the fingers at %.9g mm for %.9g mm of pedal, which takes %.9g mm", p.Finger*1e3, p.Pedal*1e3, got*1e3)
			}
		}
	})
}

func TestFingersNeverGoBackWhileThePedalGoesDown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChain(t)
		drawn, back := c.Map(60), c.MapBack(60)
		for i := 1; i < len(drawn); i++ {
			if drawn[i].Finger < drawn[i-1].Finger || back[i].Finger < back[i-1].Finger {
				t.Fatalf("at %.4g mm of pedal: down %v, back %v", drawn[i].Pedal*1e3, drawn[i-1:i+1], back[i-1:i+1])
			}
			if back[i].Finger < drawn[i].Finger-1e-9 {
				t.Fatalf("at %.4g mm of pedal the fingers stand further out on the way back", drawn[i].Pedal*1e3)
			}
		}
	})
}

func TestWhatMakesTheFingersMoveMoreOrLess(t *testing.T) {
	for name, change := range map[string]func(c *Chain, k float64){ // each with k > 1 makes the fingers move less
		"smaller master": func(c *Chain, k float64) { c.System.Master.Bore /= k },
		"larger slave":   func(c *Chain, k float64) { c.System.Slave.Bore *= k },
		"softer box":     func(c *Chain, k float64) { c.System.Pedal.Stiffness /= k },
		"softer fork":    func(c *Chain, k float64) { c.System.Slave.ForkStiffness /= k },
		"softer hose":    func(c *Chain, k float64) { c.System.Line.Expansion *= k },
		"more air":       func(c *Chain, k float64) { c.System.Line.TrappedAir *= k },
		"more free play": func(c *Chain, k float64) { c.System.Pedal.FreePlay *= k },
		"more stand-off": func(c *Chain, k float64) { c.System.Slave.StandOff *= k },
		"higher ratio":   func(c *Chain, k float64) { c.System.Pedal.Ratio *= k },
	} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				c := anyChain(t)
				// stiff enough that a lighter load does not outweigh a shorter stroke by letting the box spring back
				changed := c
				change(&changed, rapid.Float64Range(1, 1.5).Draw(t, "k"))
				if name == "smaller master" || name == "larger slave" || name == "higher ratio" {
					c.System.Pedal.Stiffness, changed.System.Pedal.Stiffness = math.Inf(1), math.Inf(1)
					c.System.Line.Expansion, changed.System.Line.Expansion = 0, 0
					c.System.Line.TrappedAir, changed.System.Line.TrappedAir = 0, 0
					c.System.Line.FluidVolume, changed.System.Line.FluidVolume = 0, 0
				}
				if before, after := fingers(c), fingers(changed); after > before+1e-9 {
					t.Fatalf("fingers move %.6g mm, before %.6g mm", after*1e3, before*1e3)
				}
			})
		})
	}
}

func TestEffortFollowsTheAreaRatio(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChain(t)
		xf := rapid.Float64Range(0.1e-3, 12e-3).Draw(t, "finger travel")
		k := rapid.Float64Range(0.7, 1.4).Draw(t, "k")
		larger := c
		larger.System.Master.Bore *= k
		if got, want := larger.Effort(xf), c.Effort(xf)*k*k; math.Abs(got-want) > 1e-9*want {
			t.Fatalf("effort %g, want %g: it goes with the master's area", got, want)
		}
	})
}

func TestWorkInIsWorkOutWithoutLosses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChain(t)
		p, m, s := &c.System.Pedal, &c.System.Master, &c.System.Slave
		p.Efficiency, m.Efficiency, s.Efficiency = 1, 1, 1
		p.Stiffness, s.ForkStiffness = math.Inf(1), math.Inf(1)
		c.System.Line = Line{}
		x := rapid.Float64Range(0.5e-3, 12e-3).Draw(t, "finger travel")
		const step = 1e-6
		in := (c.PedalTravel(x+step/2) - c.PedalTravel(x-step/2)) * c.Effort(x)
		if out := c.Clutch.Load(x) * step; math.Abs(in-out) > 1e-6*out {
			t.Fatalf("work in %g J, out %g J", in, out)
		}
	})
}

func TestSharesAddUpToThePedalTravel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChain(t)
		xf := rapid.Float64Range(0, 12e-3).Draw(t, "finger travel")
		pedal, percent := 0.0, 0.0
		for _, share := range c.TravelShares(xf) {
			pedal, percent = pedal+share.Pedal, percent+share.Percent
		}
		if want := c.PedalTravel(xf); math.Abs(pedal-want) > 1e-12 || math.Abs(percent-100) > 1e-9 {
			t.Fatalf("shares make %g m and %g %%, want %g m and 100 %%", pedal, percent, want)
		}
	})
}

func TestFarthestIsTheMostOnTheWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChain(t)
		x := rapid.Float64Range(0, 12e-3).Draw(t, "finger travel")
		s := c.statics()
		for _, r := range []*rise{&s.rod, &s.stroke} {
			most := math.Inf(-1)
			for i := range 2001 {
				most = max(most, s.along(r, x*float64(i)/2000))
			}
			if got := s.farthest(r, x); got < most-1e-12 || got > most+2e-6 {
				t.Fatalf("farthest %g, by a scan %g", got, most)
			}
		}
	})
}

func TestVolumeAbsorbedIsWhatItsSharesCost(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChain(t)
		xf := rapid.Float64Range(0, 12e-3).Draw(t, "finger travel")
		pad := 0.0
		for _, share := range c.TravelShares(xf) {
			switch share.Name {
			case ShareHose, ShareFluid, ShareOther, ShareAir:
				pad += share.Pedal
			}
		}
		want := c.System.Line.VolumeAbsorbed(c.Pressure(xf)) / c.System.Master.Area() * c.System.Pedal.Ratio
		if math.Abs(pad-want) > 1e-12 {
			t.Fatalf("shares cost %g m of pedal, the volume %g m", pad, want)
		}
	})
}
