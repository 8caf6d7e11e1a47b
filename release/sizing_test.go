package release

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"layshaft/uncertain"
	"pgregory.net/rapid"
)

// millis turns millimetres into metres.
func millis(of ...float64) []float64 {
	for i := range of {
		of[i] *= 1e-3
	}
	return of
}

// someOptions are 5 x 5 x 3 x 3 choices around the example.
func someOptions() Options {
	return Options{
		Masters: millis(15.87, 17.46, 17.78, 19.05, 20.64),
		Slaves:  millis(17.46, 19.05, 20.64, 22.22, 23.81),
		Ratios:  []float64{5.0, 5.6, 6.2},
		Hoses: []Hose{
			{"rubber", uncertain.Exact(0.30e-12)}, {"lined", uncertain.Exact(0.10e-12)}, {"steel", uncertain.Exact(0.01e-12)},
		},
	}
}

// sizingKnowns leave alone what the options decide, so that Solve meets the same draws.
func sizingKnowns() []Known {
	return []Known{
		{"free play", uncertain.Uniform(4e-3, 8e-3), setFreePlay},
		{"trapped air", uncertain.Uniform(0, 0.6e-6), func(c *Chain, v float64) { c.System.Line.TrappedAir = v }},
		{"box stiffness", uncertain.Uniform(300e3, 900e3), func(c *Chain, v float64) { c.System.Pedal.Stiffness = v }},
		{"cushion", uncertain.Normal(0.35e-3, 0.06e-3), func(c *Chain, v float64) { c.Clutch.Cushion = v }},
		{"bearing load", uncertain.Normal(1, 0.04), func(c *Chain, v float64) { c.Clutch.LoadScale = v }},
	}
}

func size(t testing.TB, base Chain, knowns []Known, o Options, l Limits, samples int) []Choice {
	t.Helper()
	choices, err := Size(context.Background(), base, knowns, o, l, samples, 5, nil)
	if err != nil {
		t.Fatal(err)
	}
	return choices
}

// naive tries everything one by one with Solve, and finds the front by holding every good choice against every other.
func naive(t *testing.T, base Chain, knowns []Known, o Options, l Limits, samples int) (good, front map[[4]float64]Answer) {
	good, front = map[[4]float64]Answer{}, map[[4]float64]Answer{}
	for h, hose := range o.Hoses {
		for _, ratio := range o.Ratios {
			for _, slave := range o.Slaves {
				for _, master := range o.Masters {
					c := base
					c.System.Master.Bore, c.System.Slave.Bore, c.System.Pedal.Ratio = master, slave, ratio
					c.System.Line.Expansion = hose.Expansion.Mid()
					a, err := Solve(c, knowns, samples, 5)
					if err != nil {
						t.Fatal(err)
					}
					if a.PFrees >= l.Frees && a.PeakEffort <= l.Effort && !math.IsNaN(a.StopRecommended) {
						good[[4]float64{master, slave, ratio, float64(h)}] = a
					}
				}
			}
		}
	}
	percent := func(a Answer) int { return int(a.PBoth*100 + 0.5) }
	for key, a := range good {
		beaten := false
		for _, b := range good {
			noWorse := b.PeakEffort <= a.PeakEffort && percent(b) >= percent(a) && b.BiteStart <= a.BiteStart
			differs := b.PeakEffort < a.PeakEffort || percent(b) > percent(a) || b.BiteStart < a.BiteStart
			beaten = beaten || noWorse && differs
		}
		if !beaten {
			front[key] = a
		}
	}
	return good, front
}

func TestSizingFindsWhatTryingEverythingFinds(t *testing.T) {
	base, knowns, options := example(), sizingKnowns(), someOptions()
	base.Clutch.FingerTravelMax = 9.5e-3
	for _, limits := range []Limits{{math.Inf(1), 0.95}, {230, 0.95}, {230, 0.5}, {260, 0.999}, {100, 0.95}} {
		const samples = 512
		good, front := naive(t, base, knowns, options, limits, samples)
		choices := size(t, base, knowns, options, limits, samples)
		if len(choices) != options.Number() || len(choices) != 5*5*3*3 {
			t.Fatalf("%d choices of %d", len(choices), options.Number())
		}
		for _, c := range choices {
			key := [4]float64{c.Master, c.Slave, c.Ratio, float64(c.hose)}
			want, isGood := good[key]
			_, isFront := front[key]
			if c.Good() != isGood || (c.Good() && !c.Dominated) != isFront {
				t.Errorf("%+v: out %q, dominated %v; by trying everything good %v, on the front %v", limits, c.Out, c.Dominated, isGood, isFront)
			}
			if isGood && (c.PeakEffort != want.PeakEffort || c.PBoth != want.PBoth || c.StopRecommended != want.StopRecommended ||
				c.PFrees != want.PFrees || c.EffortAtStop != want.EffortAtStop) {
				t.Errorf("%v: %+v\nSolve gives %+v", key, c.Answer, want)
			}
		}
		if len(Front(choices)) != len(front) {
			t.Errorf("%+v: %d on the front, by trying everything %d", limits, len(Front(choices)), len(front))
		}
	}
}

func TestEveryReasonToLeaveAChoiceOutOccurs(t *testing.T) {
	base := example()
	base.Clutch.FingerTravelMax = 9.5e-3
	options := someOptions()
	options.Slaves = append(options.Slaves, 0.3e-3)
	base.System.Slave.Sleeve, base.System.Slave.ForkRatio = 1e-3, 1 // a slave smaller than its sleeve cannot be
	reasons := map[string]int{}
	for _, c := range size(t, base, sizingKnowns(), options, Limits{300, 0.95}, 256) {
		reasons[c.Out]++
		if c.Out == CannotBe && (len(c.Notes) != 1 || !strings.Contains(c.Notes[0], "leaves no ring")) {
			t.Errorf("notes %q do not say why it cannot be", c.Notes)
		}
	}
	for _, why := range []string{"", CannotBe, TooHeavy, NoStop} {
		if reasons[why] == 0 {
			t.Errorf("no choice is out for %q: %v", why, reasons)
		}
	}
	doubtful := example() // free at 118 mm on the middle, and nearly half the draws beyond 119 mm
	doubtful.System.Pedal.Travel = 119e-3
	choices := size(t, doubtful, sizingKnowns(), Options{}, Limits{math.Inf(1), 0.95}, 256)
	if len(choices) != 1 || choices[0].Out != Unsure {
		t.Errorf("a pedal that hardly frees gives %+v", choices)
	}
}

func TestWithoutOptionsThePresentPartsAreTheOnlyChoice(t *testing.T) {
	base := example()
	choices := size(t, base, sizingKnowns(), Options{}, Limits{math.Inf(1), 0.95}, 512)
	want, err := Solve(base, sizingKnowns(), 512, 5)
	if err != nil {
		t.Fatal(err)
	}
	c := choices[0]
	if len(choices) != 1 || c.Master != base.System.Master.Bore || c.Slave != base.System.Slave.Bore || c.Ratio != base.System.Pedal.Ratio || c.PBoth != want.PBoth {
		t.Errorf("got %+v, want the present parts with %+v", choices, want)
	}
	near(t, "bite height", c.BiteHeight(), base.System.Pedal.Travel-want.BiteStart, 0)
}

// Whatever the parts, none on the front is dominated by any good choice, and each good one off it is by one on it.
func TestFrontIsWhatNothingDominates(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		choices := make([]Choice, rapid.IntRange(0, 40).Draw(t, "number"))
		few := rapid.IntRange(0, 4) // so that equal figures are common
		for i := range choices {
			c := &choices[i]
			c.PeakEffort, c.PBoth, c.BiteStart = float64(few.Draw(t, "effort")), float64(few.Draw(t, "sure"))/100, float64(few.Draw(t, "bite"))
			if rapid.Bool().Draw(t, "out") {
				c.Out = NoStop
			}
		}
		markDominated(choices)
		front := Front(choices)
		for _, f := range front {
			for _, c := range choices {
				if c.Good() && c.dominates(&f) {
					t.Fatalf("%+v on the front is dominated by %+v", f, c)
				}
			}
		}
		for _, c := range choices {
			byFront := slices.ContainsFunc(front, func(f Choice) bool { return f.dominates(&c) })
			if c.Good() && c.Dominated != byFront || !c.Good() && c.Dominated {
				t.Fatalf("%+v: dominated by the front %v", c, byFront)
			}
		}
	})
}

func TestAHoseKnownAsARangeCountsWithItsRange(t *testing.T) {
	base := example()
	base.System.Pedal.Travel = 106e-3
	exact := Options{Hoses: []Hose{{"hose", uncertain.Exact(0.10e-12)}}}
	unsure := Options{Hoses: []Hose{{"hose", uncertain.Uniform(0, 0.20e-12)}}}
	any := Limits{math.Inf(1), 0}
	if got := size(t, base, nil, exact, any, 1024)[0].PFrees; got != 1 {
		t.Errorf("with a hose known exactly the chance is %g", got)
	}
	// the chance is that of the expansion lying under what just frees: the margin is a straight line in it
	margin := func(expansion float64) float64 {
		c := base
		c.System.Line.Expansion = expansion
		return solve(t, c).Margin
	}
	frees := 0.2e-12 * margin(0) / (margin(0) - margin(0.2e-12))
	near(t, "chance", size(t, base, nil, unsure, any, 1024)[0].PFrees, frees/0.2e-12, 2e-3)
}

func TestSizingReportsProgressAndEndsWhenTold(t *testing.T) {
	base, options := example(), someOptions()
	var calls []int
	_, err := Size(context.Background(), base, sizingKnowns(), options, Limits{math.Inf(1), 0.95}, 32, 1, func(done, total int) {
		if total != options.Number() {
			t.Fatalf("%d of %d", done, total)
		}
		calls = append(calls, done)
	})
	if err != nil {
		t.Fatal(err)
	}
	for i, done := range calls {
		if done != i+1 {
			t.Fatalf("call %d says %d are done", i+1, done)
		}
	}
	if len(calls) != options.Number() {
		t.Errorf("%d calls for %d choices", len(calls), options.Number())
	}

	ctx, stop := context.WithCancel(context.Background())
	var last atomic.Int64
	_, err = Size(ctx, base, sizingKnowns(), options, Limits{math.Inf(1), 0.95}, 32, 1, func(done, _ int) {
		last.Store(int64(done))
		if done == 7 {
			stop()
		}
	})
	if !errors.Is(err, context.Canceled) || last.Load() > 20 {
		t.Errorf("told to stop after 7, it went on to %d and said %v", last.Load(), err)
	}
}

func TestSizingRefusesWhatCannotBeChosen(t *testing.T) {
	geometry := example()
	geometry.System.Pedal.Linkage = hangingPedal()
	_, err := Size(context.Background(), geometry, nil, Options{Ratios: []float64{5}}, Limits{}, 1, 1, nil)
	if err == nil || err.Error() != "release.pedal.linkage: the pedal's geometry gives its ratio; there is none to choose" {
		t.Errorf("got %v", err)
	}
	broken := example()
	broken.System.Pedal.Travel = -1
	if _, err := Size(context.Background(), broken, nil, someOptions(), Limits{}, 1, 1, nil); err == nil {
		t.Error("a pedal of negative travel passes")
	}
}

func TestEffortSpansHoldTheMiddle(t *testing.T) {
	base, knowns, options := example(), sizingKnowns(), someOptions()
	front := Front(size(t, base, knowns, options, Limits{math.Inf(1), 0.95}, 256))
	spans, err := EffortSpans(base, knowns, options, front, 4096, 1)
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for i, s := range spans {
		if front[i].FingerTravel < 8e-3 {
			continue // some draws do not come to the load's peak at 7 mm
		}
		checked++
		// only the load's scatter moves the effort: 4 % one standard deviation, 1.645 of them at the 5 and 95 % figures
		near(t, "5 %", s.P05, front[i].PeakEffort*(1-1.645*0.04), 0.004*front[i].PeakEffort)
		near(t, "95 %", s.P95, front[i].PeakEffort*(1+1.645*0.04), 0.004*front[i].PeakEffort)
	}
	if checked == 0 {
		t.Error("no choice comes past the peak of the load")
	}
}

// 2,178 choices, most of them good.
func BenchmarkSize2000Choices(b *testing.B) {
	base, knowns := example(), twentyKnowns()
	options := Options{Ratios: []float64{5.2, 5.6, 6.0}}
	for i := range 11 {
		options.Masters = append(options.Masters, (15+0.5*float64(i))*1e-3)
		options.Slaves = append(options.Slaves, (18+0.6*float64(i))*1e-3)
	}
	for i := range 6 {
		options.Hoses = append(options.Hoses, Hose{"", uncertain.Uniform(0, 0.05e-12*float64(i+1))})
	}
	for b.Loop() {
		choices, err := Size(context.Background(), base, knowns, options, Limits{math.Inf(1), 0.95}, 2048, 1, nil)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(choices)), "choices")
		b.ReportMetric(float64(len(Front(choices))), "front")
	}
}
