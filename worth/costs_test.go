package worth

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// someCosts draws a job that is dearer later than now, and a look at it.
func someCosts(t *rapid.T) (Costs, Look) {
	c := Costs{Now: rapid.Float64Range(1, 900).Draw(t, "now"), Collateral: rapid.Float64Range(0, 2).Draw(t, "collateral")}
	c.Later = c.Now * rapid.Float64Range(1.001, 30).Draw(t, "times dearer")
	look := Look{
		Cost: rapid.Float64Range(0, 300).Draw(t, "look"), Detects: rapid.Float64Range(0, 1).Draw(t, "detects"),
		FalseAlarm: rapid.Float64Range(0, 1).Draw(t, "false alarm"),
	}
	return c, look
}

func TestBreakEvenIsWhereNowAndLaterCostTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, _ := someCosts(t)
		p := c.BreakEven()
		if !(p > 0 && p < 1) || math.Abs(c.Leave(p)-c.Now) > 1e-9*c.Now {
			t.Fatalf("break-even %v: leaving costs %v, now %v", p, c.Leave(p), c.Now)
		}
	})
}

func TestBreakEvenRisesWithWhatItAddsAndFallsWithWhatItSaves(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, _ := someCosts(t)
		more := rapid.Float64Range(1.01, 3).Draw(t, "more")
		dearerNow, dearerLater, worse := c, c, c
		dearerNow.Now *= more
		dearerLater.Later *= more
		worse.Collateral += more
		if p := c.BreakEven(); !(dearerNow.BreakEven() > p && dearerLater.BreakEven() < p && worse.BreakEven() < p) {
			t.Fatalf("%v: %v, dearer now %v, dearer later %v, more damage %v", c, p, dearerNow.BreakEven(), dearerLater.BreakEven(), worse.BreakEven())
		}
	})
}

func TestBreakEvenAtItsLimits(t *testing.T) {
	for _, c := range []struct {
		costs   Costs
		want    float64
		verdict Verdict
	}{
		{Costs{Now: 0, Later: 500}, 0, Pays},
		{Costs{Now: 0, Later: 0}, 0, Pays},
		{Costs{Now: 500, Later: 500}, 1, DoesNotPay},
		{Costs{Now: 500, Later: 500, Collateral: 1}, 0.5, NoRecords},
		{Costs{Now: 500, Later: 100}, 5, DoesNotPay},
		{Costs{Now: 500, Later: 0}, math.Inf(1), DoesNotPay},
	} {
		if got := c.costs.BreakEven(); got != c.want || Unrecorded(got) != c.verdict {
			t.Errorf("%+v: %v, %s", c.costs, got, Unrecorded(got))
		}
	}
}

// Looking pays between the two chances, and nowhere else.
func TestLookPaysWhereItIsTheCheapest(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, look := someCosts(t)
		p := rapid.Float64Range(0, 1).Draw(t, "chance")
		from, to := c.LookPays(look)
		best, cost := math.Min(c.Now, c.Leave(p)), c.LookFirst(look, p)
		if math.Abs(best-cost) < 1e-9*c.WhenNeeded() {
			return // on the border itself
		}
		if cheapest := cost < best; cheapest != (p > from && p < to) {
			t.Fatalf("at %v leaving costs %v, now %v, looking %v, but it pays from %v to %v", p, c.Leave(p), c.Now, cost, from, to)
		}
	})
}

// A look that is free and never wrong always pays; one that sees nothing, or costs as much as the job, never does.
func TestLooksAtTheirLimits(t *testing.T) {
	c := Costs{Now: 300, Later: 1500}
	for name, want := range map[string]struct {
		look     Look
		from, to float64
	}{
		"perfect":   {Look{0, 1, 0}, 0, 1},
		"blind":     {Look{30, 0, 0}, 1, 0.18},
		"as dear":   {Look{300, 1, 0}, 0.25, 0},
		"dear":      {Look{30, 1, 0}, 0.025, 0.9},
		"imperfect": {Look{30, 0.9, 0.1}, 60.0 / 1110, 240.0 / 390},
	} {
		from, to := c.LookPays(want.look)
		if math.Abs(from-want.from) > 1e-12 || math.Abs(to-want.to) > 1e-12 {
			t.Errorf("%s: from %v to %v, want %v to %v", name, from, to, want.from, want.to)
		}
	}
}

// The value of a forecast as meteorologists reckon it, (E(climate) − E(forecast)) / (E(climate) − E(perfect)), is
// greatest where cost/loss equals the climate's chance, and there it is the hit rate less the false alarm rate.
// Source: CAWCR, Forecast Verification, relative value, after Richardson (2000) (seen).
func TestValueOfALookIsThatOfAForecast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c, look := someCosts(t)
		look.Cost = 0
		value := func(p float64) float64 {
			guess := math.Min(c.Now, c.Leave(p))
			return (guess - c.LookFirst(look, p)) / (guess - p*c.Now)
		}
		p := c.BreakEven()
		if p > 0.999 {
			return // the difference that the value is a part of has no digits left
		}
		if got, want := value(p), look.Detects-look.FalseAlarm; math.Abs(got-want) > 1e-9 {
			t.Fatalf("value %v, hits less false alarms %v", got, want)
		}
		if other := rapid.Float64Range(0.01, 0.99).Draw(t, "other chance"); value(other) > value(p)+1e-9 {
			t.Fatalf("greater at %v than at %v", other, p)
		}
	})
}

func TestVerdictTakesTheWholeInterval(t *testing.T) {
	for _, c := range []struct {
		breakEven float64
		chance    Interval
		want      Verdict
	}{
		{0.11, Interval{0.5, 0.85}, Pays}, {0.6, Interval{0.5, 0.85}, TooFew}, {0.9, Interval{0.5, 0.85}, DoesNotPay},
		{0.5, Interval{0.5, 0.85}, TooFew}, {0.85, Interval{0.5, 0.85}, TooFew},
		{0, Interval{0, 0.1}, Pays}, {1, Interval{0.9, 1}, DoesNotPay}, {math.Inf(1), Interval{0.9, 1}, DoesNotPay},
	} {
		if got := Judge(c.breakEven, c.chance); got != c.want {
			t.Errorf("%v against %v: %s, want %s", c.chance, c.breakEven, got, c.want)
		}
	}
}
