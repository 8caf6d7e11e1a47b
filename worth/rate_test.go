package worth

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Published Jeffreys intervals at 95 %: example output of RSurveillance::binom.jeffreys (rdrr.io, seen).
func TestJeffreysIntervalsAsPublished(t *testing.T) {
	for _, c := range []struct {
		found, looked int
		low, high     float64
	}{
		{25, 200, 0.08462743, 0.176126}, {10, 200, 0.02599340, 0.08687509}, {40, 200, 0.14910087, 0.25950769},
		{70, 200, 0.28642624, 0.41787992}, {90, 200, 0.38218245, 0.51925306},
	} {
		within(t, "interval", Jeffreys.After(c.looked, c.found).Interval(0.95), c.low, c.high, 4e-7)
	}
}

// 80 % intervals by R 4.2.2, qbeta(c(0.1, 0.9), found + 1/2, looked - found + 1/2).
func TestIntervalsAgreeWithR(t *testing.T) {
	for _, c := range []struct {
		found, looked int
		low, high     float64
	}{
		{7, 10, 0.4982188819, 0.849408774124}, {0, 10, 0.000769755304685, 0.123574206329}, {10, 10, 0.876425793671, 0.999230244695},
		{1, 40, 0.00732393995457, 0.0756270396195}, {3, 2995, 0.000473058362803, 0.00200500825576},
	} {
		within(t, "interval", Jeffreys.After(c.looked, c.found).Interval(Usual), c.low, c.high, 1e-9)
	}
}

// Beta(1, 15) after 25 of 50: mean, mode, variance and standard deviation as bayesrules prints them.
// Source: package bayesrules, docs/reference/summarize_beta_binomial.html (seen).
func TestBeliefAfterRecordsAsPublished(t *testing.T) {
	b := Belief{1, 15}.After(50, 25)
	near(t, "mean", b.Mean(), 0.3939394, 2e-7)
	near(t, "mode", (b.Alpha-1)/(b.Alpha+b.Beta-2), 0.390625, 1e-9)
	sum := b.Alpha + b.Beta
	near(t, "variance", b.Alpha*b.Beta/(sum*sum*(sum+1)), 0.00356345, 1e-6)
	near(t, "standard deviation", math.Sqrt(b.Alpha*b.Beta/(sum*sum*(sum+1))), 0.05969464, 1e-6)
}

// With the belief Beta(1, 0), n looks that find nothing put the rate below 1 − (1 − level)^(1/n), which is the
// classical bound: for a rate below 1 in 1000 at 95 %, 2995 of them; over three distances each, 999.
// Source: package reliability, docs/Sample size required for no failures.rst (seen).
func TestLooksThatFindNothing(t *testing.T) {
	enough := func(looked int, rate float64) bool {
		return 1-Belief{1, 0}.After(looked, 0).Above(rate) >= 0.95
	}
	if !enough(2995, 0.001) || enough(2994, 0.001) {
		t.Error("2995 looks are not the least that do")
	}
	if three := 1 - math.Pow(0.999, 3); !enough(999, three) || enough(998, three) {
		t.Error("999 looks over three distances each are not the least that do")
	}
}

func TestMoreFoundIsMoreLikely(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		looked := rapid.IntRange(1, 300).Draw(t, "looked")
		found := rapid.IntRange(0, looked-1).Draw(t, "found")
		rate := rapid.Float64Range(0.01, 0.99).Draw(t, "rate")
		less, more := Jeffreys.After(looked, found), Jeffreys.After(looked, found+1)
		a, b := less.Interval(Usual), more.Interval(Usual)
		if !(less.Mean() < more.Mean() && a.Low < b.Low && a.High < b.High && less.Above(rate) <= more.Above(rate)) {
			t.Fatalf("%d found %v, %d found %v", found, a, found+1, b)
		}
		longer := Jeffreys.After(looked+1, found).Interval(Usual)
		if !(longer.Low < a.Low && longer.High < a.High) {
			t.Fatalf("one look more without finding any: %v, before %v", longer, a)
		}
	})
}

func TestMoreRecordsOfOneRateNarrowTheInterval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		looked := rapid.IntRange(1, 60).Draw(t, "looked")
		found := rapid.IntRange(0, looked).Draw(t, "found")
		times := rapid.IntRange(2, 9).Draw(t, "times")
		few, many := Jeffreys.After(looked, found).Interval(Usual), Jeffreys.After(times*looked, times*found).Interval(Usual)
		if many.High-many.Low >= few.High-few.Low {
			t.Fatalf("%d of %d: %v; %d times as many: %v", found, looked, few, times, many)
		}
	})
}

func TestIntervalHoldsItsChance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		looked := rapid.IntRange(0, 400).Draw(t, "looked")
		found := rapid.IntRange(0, looked).Draw(t, "found")
		level := rapid.Float64Range(0.05, 0.99).Draw(t, "level")
		b := rapid.SampledFrom([]Belief{Jeffreys, Flat}).Draw(t, "belief").After(looked, found)
		i := b.Interval(level)
		if below, above := 1-b.Above(i.Low), b.Above(i.High); math.Abs(below-(1-level)/2) > 1e-9 || math.Abs(above-(1-level)/2) > 1e-9 {
			t.Fatalf("%v: %v below and %v above %v", b, below, above, i)
		}
	})
}

func TestFoundAndNotFoundMirrorEachOther(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		looked := rapid.IntRange(0, 200).Draw(t, "looked")
		found := rapid.IntRange(0, looked).Draw(t, "found")
		worn, sound := Jeffreys.After(looked, found).Interval(Usual), Jeffreys.After(looked, looked-found).Interval(Usual)
		if math.Abs(worn.Low-(1-sound.High)) > 1e-9 || math.Abs(worn.High-(1-sound.Low)) > 1e-9 {
			t.Fatalf("worn %v, sound %v", worn, sound)
		}
	})
}

// Looks may be entered in any order and at any time.
func TestRecordsAddUp(t *testing.T) {
	if a, b := Jeffreys.After(10, 7).After(4, 1), Jeffreys.After(14, 8); a != b {
		t.Errorf("%v, %v", a, b)
	}
}

func TestImpossibleRecordsPanic(t *testing.T) {
	for _, c := range [][2]int{{3, 4}, {3, -1}, {-1, 0}} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%v accepted", c)
				}
			}()
			Jeffreys.After(c[0], c[1])
		}()
	}
}
