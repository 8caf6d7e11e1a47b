package release

import (
	"math"
	"testing"

	"layshaft/uncertain"
)

// Free play, dead stroke and pedal travel shift the margin in straight lines, so that each one's part of the variance
// is known beforehand.
func TestMarginSpreadOfAStraightLine(t *testing.T) {
	c := example()
	knowns := []Known{
		{"pedal travel", uncertain.Normal(150e-3, 1e-3), func(c *Chain, v float64) { c.System.Pedal.Travel = v }},
		{"free play", uncertain.Uniform(2e-3, 10e-3), setFreePlay},
		{"lever ratio", uncertain.Exact(3.9), func(c *Chain, v float64) { c.Clutch.LeverRatio = v }},
		{"dead stroke", uncertain.Uniform(0.8e-3, 1.6e-3), func(c *Chain, v float64) { c.System.Master.DeadStroke = v }},
	}
	spread, err := Margin(c, knowns, 4096, 1)
	if err != nil {
		t.Fatal(err)
	}
	travel, play, dead := 1e-3, -8e-3/math.Sqrt(12), -5.8*0.8e-3/math.Sqrt(12) // the margin's move per standard deviation
	variance := travel*travel + play*play + dead*dead
	near(t, "linear", spread.Both.Linear.Value, solve(t, c).Margin, 1e-12)
	near(t, "linear SD", spread.Both.Linear.SD, math.Sqrt(variance), 1e-9)
	near(t, "sampled SD", spread.Both.SD, math.Sqrt(variance), 1e-5)
	for i, want := range []struct {
		name  string
		swing float64
	}{{"free play", play}, {"dead stroke", dead}, {"pedal travel", travel}} {
		got := spread.Influences[i]
		if got.Name != want.name {
			t.Fatalf("place %d goes to %s, want %s", i+1, got.Name, want.name)
		}
		part := want.swing * want.swing / variance
		near(t, want.name+" first", got.First, part, 0.01)
		near(t, want.name+" total", got.Total, part, 0.01)
		near(t, want.name+" swing", got.Swing, want.swing, 1e-9)
	}
	if len(spread.Influences) != 3 {
		t.Errorf("%d influences, want none of an exact figure", len(spread.Influences))
	}
}

func TestMarginSpreadOfTheExampleAddsUp(t *testing.T) {
	spread, err := Margin(example(), twentyKnowns(), 2048, 1)
	if err != nil {
		t.Fatal(err)
	}
	first := 0.0
	for i, influence := range spread.Influences {
		first += influence.First
		if influence.Total < influence.First-0.02 {
			t.Errorf("%s: total %g below first %g", influence.Name, influence.Total, influence.First)
		}
		if i > 0 && influence.Total > spread.Influences[i-1].Total {
			t.Errorf("%s stands behind one that matters less", influence.Name)
		}
	}
	near(t, "all first indices of a nearly straight chain", first, 1, 0.05)
	near(t, "sampled SD against linear", spread.Both.SD/spread.Both.Linear.SD, 1, 0.1)
}

func TestMarginOfDrawsPastTheCurveStaysFinite(t *testing.T) {
	spread, err := Margin(example(), []Known{
		{"clearance", uncertain.Normal(0.25e-3, 0.3e-3), func(c *Chain, v float64) { c.Clutch.Clearance = math.Abs(v) }},
	}, 1024, 1)
	if err != nil || math.IsInf(spread.Both.SD, 0) || math.IsNaN(spread.Both.SD) {
		t.Errorf("SD %g, %v", spread.Both.SD, err)
	}
}

// With free play alone unsure, the fingers' 5 % figure is where they stand at its 95 % figure.
func TestBandFollowsTheUnsureFigure(t *testing.T) {
	c := example()
	play := uncertain.Uniform(2e-3, 10e-3)
	band, err := Band(c, []Known{{"free play", play, setFreePlay}}, 31, 4096, 1)
	if err != nil {
		t.Fatal(err)
	}
	c.System.Pedal.FreePlay = play.Quantile(0.95)
	low := c.Map(31)
	c.System.Pedal.FreePlay = play.Quantile(0.05)
	high := c.Map(31)
	for i, at := range band {
		near(t, "pedal", at.Pedal, low[i].Pedal, 1e-15)
		near(t, "finger 5 %", at.Finger.P05, low[i].Finger, 5e-6)
		near(t, "finger 95 %", at.Finger.P95, high[i].Finger, 5e-6)
		near(t, "torque 5 %", at.Torque.P05, high[i].Torque, 3)
		near(t, "torque 95 %", at.Torque.P95, low[i].Torque, 3)
		if at.Effort.P05 > at.Effort.P95 || at.Pressure.P05 > at.Pressure.P95 {
			t.Errorf("at %g mm effort %v pressure %v", at.Pedal*1e3, at.Effort, at.Pressure)
		}
	}
}

func TestBandOfExactFiguresIsTheMap(t *testing.T) {
	c := example()
	band, err := Band(c, nil, 16, 100, 1)
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range c.Map(16) {
		if want := (Span{p.Finger, p.Finger}); band[i].Finger != want || band[i].Pedal != p.Pedal {
			t.Errorf("point %d: %+v, map %+v", i, band[i], p)
		}
	}
}

func TestComparisonTellsWhichPartMakesTheDifference(t *testing.T) {
	after := example()
	before := after
	before.System.Master.Bore = 14.29e-3
	before.System.Pedal.FreePlay = 9e-3
	both, err := Compare(before, after)
	if err != nil {
		t.Fatal(err)
	}
	if len(both.Parts) != 2 || both.Parts[0].Part != "pedal" || both.Parts[1].Part != "master" {
		t.Fatalf("parts %+v, want pedal and master", both.Parts)
	}
	near(t, "pedal alone", both.Parts[0].Gain, 3e-3, 1e-12)
	near(t, "both parts", both.Parts[0].Gain+both.Parts[1].Gain, both.After.Margin-both.Before.Margin, 1e-12)
	var old, now float64
	for _, share := range both.Shares {
		old, now = old+share.Before, now+share.After
	}
	near(t, "shares before", old, both.Before.StopMin, 1e-12)
	near(t, "shares after", now, both.After.StopMin, 1e-12)
	if both.Before.Verdict != Drags || both.After.Verdict != Frees {
		t.Errorf("%q before, %q after", both.Before.Verdict, both.After.Verdict)
	}
}
