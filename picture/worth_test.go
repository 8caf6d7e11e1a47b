package picture

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// placesOf are where a row's mark and the middle of its bar stand.
func placesOf(row *Group) (mark, middle float64) {
	mark, middle = math.NaN(), math.NaN()
	for _, it := range row.Items {
		shape, ok := it.(Shape)
		switch {
		case ok && shape.Style.Stroke == Proposed:
			mark = shape.Path[0].P[0].X
		case ok && shape.Style.Fill == Ink:
			middle = shape.Path[1].P[0].X
		}
	}
	return mark, middle
}

func TestWorthBarsAndMarksStandOnOneScale(t *testing.T) {
	w := Worth{Rows: []WorthRow{
		{Name: "as likely as it takes", BreakEven: 0.4, Chance: Range{0.2, 0.4, 0.6}},
		{Name: "twice as far", BreakEven: 0.8, Chance: Range{0.1, 0.2, 0.3}},
	}}
	rows := groups(w.Scene(Wide).Root.Items, "worth")
	mark, middle := placesOf(rows[0])
	further, nearer := placesOf(rows[1])
	if math.Abs(mark-middle) > 1e-9 {
		t.Errorf("mark at %v, bar's middle at %v", mark, middle)
	}
	if start := 2*mark - further; math.Abs(start-(2*nearer-mark)) > 1e-9 { // both reach back to nought
		t.Errorf("marks at %v and %v, middles at %v and %v", mark, further, middle, nearer)
	}
}

func TestWhatNeverPaysIsSaid(t *testing.T) {
	for breakEven, want := range map[float64]string{1.1: "never pays", 0: "always pays", 0.111: "pays above 11 %", 0.002: "pays above 0.2 %"} {
		told := false
		for _, x := range texts(Worth{Rows: []WorthRow{{Name: "job", BreakEven: breakEven}}}.Scene(Wide).Root.Items) {
			told = told || x.Words == want
		}
		if !told {
			t.Errorf("%v: not told %q", breakEven, want)
		}
	}
}

func TestAnyWorthKeepsItsWordsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		chance := func(name string) float64 {
			return rapid.OneOf(rapid.Float64Range(-0.1, 1.5), rapid.Just(math.NaN()), rapid.Just(math.Inf(1))).Draw(t, name)
		}
		var w Worth
		for range rapid.IntRange(0, 6).Draw(t, "rows") {
			name := rapid.StringMatching(`[A-Za-z ]{0,50}`).Draw(t, "name")
			w.Rows = append(w.Rows, WorthRow{name, name, chance("break-even"), Range{chance("l"), chance("m"), chance("h")}, "too few to tell", Near})
		}
		for _, size := range []Size{Wide, Narrow} {
			checkText(t, "worth", w.Scene(size))
		}
	})
}
