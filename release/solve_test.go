package release

import (
	"math"
	"reflect"
	"runtime"
	"testing"

	"layshaft/uncertain"
	"pgregory.net/rapid"
)

func setFreePlay(c *Chain, v float64) { c.System.Pedal.FreePlay = v }

// Free play shifts every pedal travel by itself, so that each chance is that of the free play lying below a bound.
func TestChancesOfOneUnsureFigureAreThoseOfItsBounds(t *testing.T) {
	c := example()
	c.System.Pedal.Travel = 104e-3
	a := solve(t, c, Known{"free play", uncertain.Uniform(2e-3, 10e-3), setFreePlay})
	slack := c.System.Pedal.Travel - a.StopMin // at the middle, 6 mm
	near(t, "frees", a.PFrees, (6e-3+slack-2e-3)/8e-3, 2e-3)
	near(t, "over-travels", a.POverTravels, 0, 0)

	c.System.Pedal.Travel = 168e-3
	a = solve(t, c, Known{"free play", uncertain.Uniform(2e-3, 10e-3), setFreePlay})
	over := c.System.Pedal.Travel - a.StopMax
	near(t, "frees", a.PFrees, 1, 0)
	near(t, "over-travels", a.POverTravels, (6e-3+over-2e-3)/8e-3, 2e-3)
	near(t, "both, with a stop", a.PBoth, 1, 0)

	normal := solve(t, c, Known{"free play", uncertain.Normal(6e-3, 1.5e-3), setFreePlay})
	near(t, "over-travels", normal.POverTravels, uncertain.Normal(6e-3, 1.5e-3).CDF(6e-3+over), 2e-3)
}

func TestSingleFiguresAreThoseOfTheMiddle(t *testing.T) {
	c := example()
	exact := solve(t, c)
	sampled := solve(t, c, Known{"free play", uncertain.Uniform(2e-3, 10e-3), setFreePlay})
	sampled.PFrees, sampled.POverTravels, sampled.PBoth = exact.PFrees, exact.POverTravels, exact.PBoth
	sampled.StopRecommended, sampled.EffortAtStop = exact.StopRecommended, exact.EffortAtStop
	sampled.BottomsAt, exact.BottomsAt = 0, 0 // NaN is not equal to itself
	if !reflect.DeepEqual(sampled, exact) {
		t.Errorf("sampled %+v\nexact %+v", sampled, exact)
	}
}

func TestStopStandsInTheMiddleOfThePlacesThatAreEquallyLikely(t *testing.T) {
	c := example()
	c.System.Pedal.Travel = 200e-3
	exact := solve(t, c)
	near(t, "exact", exact.StopRecommended, (exact.StopMin+exact.StopMax)/2, 1e-12)
	// every window holds the places from the latest opening to the earliest end; their middle stays where it was
	a := solve(t, c, Known{"free play", uncertain.Uniform(0, 12e-3), setFreePlay})
	near(t, "plateau", a.StopRecommended, exact.StopRecommended, 0.1e-3)
	near(t, "chance there", a.PBoth, 1, 1e-3)

	// windows narrower than the scatter: each place inside is held by the same share of them
	narrow := c
	narrow.Clutch.FingerTravelMax = narrow.Clutch.FingerTravelNeeded() + 0.2e-3
	a = solve(t, narrow, Known{"free play", uncertain.Uniform(0, 12e-3), setFreePlay})
	width := a.StopMax - a.StopMin
	near(t, "chance in a narrow window", a.PBoth, width/12e-3, 3e-3)

	// a lone peak
	a = solve(t, narrow, Known{"free play", uncertain.Normal(6e-3, 3e-3), setFreePlay})
	near(t, "peak", a.StopRecommended, (a.StopMin+a.StopMax)/2, 0.3e-3)
}

func TestAnswerDoesNotDependOnProcessors(t *testing.T) {
	c, knowns := example(), twentyKnowns()
	many := solve(t, c, knowns...)
	one := runtime.GOMAXPROCS(1)
	single := solve(t, c, knowns...)
	runtime.GOMAXPROCS(one)
	many.BottomsAt, single.BottomsAt = 0, 0
	if !reflect.DeepEqual(many, single) {
		t.Errorf("several processors %+v\none %+v", many, single)
	}
}

// The window of each draw says whether it frees and over-travels without the map; here each draw is put on the map.
func TestChancesAgreeWithTheMapOfEachDraw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChain(t)
		knowns := []Known{
			{"free play", uncertain.Uniform(2e-3, 12e-3), setFreePlay},
			{"box stiffness", uncertain.Uniform(150e3, 900e3), func(c *Chain, v float64) { c.System.Pedal.Stiffness = v }},
			{"trapped air", uncertain.Uniform(0, 3e-6), func(c *Chain, v float64) { c.System.Line.TrappedAir = v }},
			{"bearing load", uncertain.Normal(1, 0.1), func(c *Chain, v float64) { c.Clutch.LoadScale = v }},
			{"clearance", uncertain.Uniform(0.1e-3, 0.4e-3), func(c *Chain, v float64) { c.Clutch.Clearance = v }},
		}
		const samples = 200
		a, err := Solve(c, knowns, samples, 7)
		if err != nil {
			t.Fatal(err)
		}
		frees, over := 0, 0
		sequence, u := uncertain.NewSequence(len(knowns), 7), make([]float64, len(knowns))
		for i := range samples {
			sequence.At(i, u)
			for j, k := range knowns {
				k.Set(&c, k.Value.Quantile(u[j]))
			}
			full := c.Map(2)[1].Finger
			s := c.statics()
			if full >= c.Clutch.FingerTravelNeeded() && s.farthest(&s.stroke, c.Clutch.FingerTravelNeeded()) <= c.System.Master.Stroke {
				frees++
			}
			if full > c.Clutch.FingerTravelMax {
				over++
			}
		}
		if a.PFrees != float64(frees)/samples || a.POverTravels != float64(over)/samples {
			t.Fatalf("frees %g over-travels %g, on the maps %d and %d of %d", a.PFrees, a.POverTravels, frees, over, samples)
		}
	})
}

func TestDrawsThatCannotBeAreLeftOut(t *testing.T) {
	a := solve(t, example(), Known{"trapped air", uncertain.Normal(0, 0.1e-6), func(c *Chain, v float64) { c.System.Line.TrappedAir = v }})
	near(t, "left out", a.Impossible, 0.5, 2e-3)
	near(t, "frees", a.PFrees, 1, 0)
	if len(a.Notes) != 1 {
		t.Errorf("notes %q, want one that says so", a.Notes)
	}
	_, err := Solve(example(), []Known{{"dead stroke", uncertain.Uniform(-2e-3, -1e-3), func(c *Chain, v float64) { c.System.Master.DeadStroke = v }}}, 100, 1)
	if err == nil {
		t.Error("a dead stroke below nought passes")
	}
}

func TestBestStopOfAFewWindows(t *testing.T) {
	for _, at := range []struct {
		name        string
		good        []stretch
		stop, share float64
	}{
		{"none", []stretch{nowhere}, math.NaN(), 0},
		{"one", []stretch{{1, 3}}, 2, 1},
		{"overlap", []stretch{{1, 3}, {2, 5}}, 2.5, 1},
		{"apart, the first of equals", []stretch{{1, 2}, {4, 5}}, 1.5, 0.5},
		{"two of three", []stretch{{1, 2}, {4, 6}, {5, 7}}, 5.5, 2. / 3},
		{"beyond the pedal", []stretch{{1, 3}, {12, 14}}, 2, 0.5},
		{"open end is cut at the pedal", []stretch{{8, math.Inf(1)}}, 9, 1},
		{"a point", []stretch{{4, 4}}, 4, 1},
		{"touching", []stretch{{1, 2}, {2, 3}}, 2, 1},
	} {
		stop, share := bestStop(at.good, 10)
		if stop != at.stop && !(math.IsNaN(stop) && math.IsNaN(at.stop)) || share != at.share {
			t.Errorf("%s: stop %g with %g, want %g with %g", at.name, stop, share, at.stop, at.share)
		}
	}
}
