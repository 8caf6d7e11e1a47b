package picture

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestTicksStepByOneTwoOrFive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		span := math.Pow(10, rapid.Float64Range(-6, 8).Draw(t, "decades"))
		most := rapid.IntRange(2, 15).Draw(t, "most")
		step := tickStep(span, most)
		lead := step / math.Pow(10, math.Floor(math.Log10(step)+1e-9))
		if d := math.Min(math.Abs(lead-1), math.Min(math.Abs(lead-2), math.Abs(lead-5))); d > 1e-6 {
			t.Fatalf("step %v begins with %v", step, lead)
		}
		if n := span / step; n > float64(most)*(1+1e-6) {
			t.Fatalf("%v steps of %v, at most %d wanted", n, step, most)
		}
		// the next finer step of the series would be too many, so no step is coarser than it must be
		if span/(step/2.5) < float64(most)*(1-1e-6) {
			t.Fatalf("step %v is coarser than %d steps need", step, most)
		}
	})
}

func TestTicksOfAKnownRange(t *testing.T) {
	for _, c := range []struct {
		lo, hi float64
		most   int
		want   []string
	}{
		{0, 150, 5, []string{"0", "50", "100", "150"}},
		{0, 11.5, 5, []string{"0", "5", "10", "15"}},
		{0, 1610, 5, []string{"0", "500", "1 000", "1 500", "2 000"}},
		{0, 0.9, 5, []string{"0.0", "0.2", "0.4", "0.6", "0.8", "1.0"}},
		{-3, 4, 4, []string{"-4", "-2", "0", "2", "4"}},
	} {
		a := newAxis(c.lo, c.hi, c.most, 0, 100)
		var got []string
		for _, v := range a.ticks() {
			got = append(got, a.tickText(v))
		}
		if len(got) != len(c.want) {
			t.Errorf("%v to %v: ticks %v, want %v", c.lo, c.hi, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%v to %v: ticks %v, want %v", c.lo, c.hi, got, c.want)
				break
			}
		}
	}
}

func TestAnAxisWithoutARangeStillHasOne(t *testing.T) {
	for _, bad := range []float64{0, -1, math.NaN()} {
		a := newAxis(0, bad, 5, 10, 110)
		if a.lo != 0 || a.hi != 1 || a.at(1) != 110 {
			t.Errorf("up to %v: %+v", bad, a)
		}
	}
	for _, far := range []float64{math.Inf(1), 1e300} {
		if a := newAxis(0, far, 5, 10, 110); a.lo != 0 || a.hi != farthest {
			t.Errorf("up to %v: %+v", far, a)
		}
	}
}

func TestSpreadKeepsOrderAndGap(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		wanted := rapid.SliceOfN(rapid.Float64Range(0, 100), 1, 6).Draw(t, "wanted")
		got := spread(wanted, 15, 0, 100)
		order := rising(wanted)
		for k := 1; k < len(order); k++ {
			if got[order[k]]-got[order[k-1]] < 15-1e-9 {
				t.Fatalf("%v spread to %v", wanted, got)
			}
		}
		for _, y := range got {
			if y < -1e-9 || y > 100+1e-9 {
				t.Fatalf("%v spread to %v", wanted, got)
			}
		}
	})
}

func TestNumberGroupsThousands(t *testing.T) {
	for _, c := range []struct {
		v        float64
		decimals int
		want     string
	}{
		{0, 0, "0"}, {-0.04, 1, "0.0"}, {12.345, 1, "12.3"}, {1610, 0, "1 610"}, {-54321.8, 1, "-54 321.8"},
		{-123, 0, "-123"}, {math.NaN(), 1, "not known"}, {math.Inf(-1), 0, "not known"},
	} {
		if got := number(c.v, c.decimals); got != c.want {
			t.Errorf("number(%v, %d) = %q, want %q", c.v, c.decimals, got, c.want)
		}
	}
}
