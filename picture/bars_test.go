package picture

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"
)

func TestTravelPartsFollowEachOtherWithoutGap(t *testing.T) {
	b := sampleTravelBars()
	rows := groups(b.Scene(Wide).Root.Items, "travel")
	if len(rows) != 2 {
		t.Fatalf("%d rows", len(rows))
	}
	for r, row := range rows {
		at, perMM := -1.0, 0.0
		k := 0
		for _, part := range b.Rows[r].Parts {
			if part.MM == 0 {
				continue // nothing to draw
			}
			area := groups(row.Items, "travel-part")[k].Items[0].(Shape).Path
			k++
			left, right := area[0].P[0].X, area[1].P[0].X
			if at >= 0 && math.Abs(left-at) > 1e-9 {
				t.Errorf("%s begins at %v, the part before ends at %v", part.Name, left, at)
			}
			if perMM == 0 {
				perMM = (right - left) / part.MM
			}
			if math.Abs((right-left)-part.MM*perMM) > 1e-6 {
				t.Errorf("%s: %v long for %v mm", part.Name, right-left, part.MM)
			}
			at = right
		}
	}
}

func TestTheWorstDoubtStandsFirstAndIsTheOneToMeasure(t *testing.T) {
	s := sampleSensitivity().Scene(Wide)
	rows := groups(s.Root.Items, "known")
	if rows[0].datum("known") != "Cushion of the discs" || rows[4].datum("known") != "Pedal box stiffness" {
		t.Errorf("first %s, last %s", rows[0].datum("known"), rows[4].datum("known"))
	}
	for i, row := range rows {
		told := false
		for _, x := range texts(row.Items) {
			told = told || x.Words == "measure this first"
		}
		if told != (i == 0) {
			t.Errorf("row %d told to be measured first: %v", i, told)
		}
	}
}

func TestHoldBarsStandOnOneScale(t *testing.T) {
	h := sampleHoldBars()
	h.Rows = []HoldRow{{Name: "as asked", Capacity: h.Peak.scaled(h.Factor)}}
	s := h.Scene(Wide)
	// the mark of a clutch that carries just what is asked stands under the mark of what is asked
	middle := func(items []Item) (at []float64) {
		for _, it := range items {
			if shape, ok := it.(Shape); ok && len(shape.Path) == 5 && shape.Style.Stroke == "" && shape.Path[0].P[0].Y == shape.Path[2].P[0].Y {
				at = append(at, shape.Path[1].P[0].X)
			}
		}
		return at
	}
	asked := middle(s.Root.Items)
	clutch := middle(groups(s.Root.Items, "candidate")[0].Items)
	if len(asked) != 2 || len(clutch) != 1 || math.Abs(asked[1]-clutch[0]) > 1e-9 || asked[0] >= asked[1] {
		t.Errorf("peak and asked at %v, clutch at %v", asked, clutch)
	}
}

func TestAnyBarsKeepTheirWordsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		figure := func(name string, most float64) float64 { return rapid.Float64Range(0, most).Draw(t, name) }
		h := HoldBars{Peak: Range{figure("l", 900), figure("m", 900), figure("h", 900)}, Factor: figure("factor", 3), Use: "track"}
		b := TravelBars{FullPedal: figure("full", 200)}
		var v Sensitivity
		for i := range rapid.IntRange(0, 6).Draw(t, "rows") {
			name := rapid.StringMatching(`[A-Za-z ]{0,30}`).Draw(t, "name")
			h.Rows = append(h.Rows, HoldRow{name, Series(i % 4), Range{figure("l", 2e3), figure("m", 2e3), figure("h", 2e3)}, "holds", Fine})
			row := TravelRow{Name: name, Series: Series(i % 4)}
			for j := range rapid.IntRange(0, 14).Draw(t, "parts") {
				row.Parts = append(row.Parts, TravelPart{fmt.Sprint("part ", j), figure("mm", 60), j == 5})
			}
			b.Rows = append(b.Rows, row)
			v.Rows = append(v.Rows, SensitivityRow{name, name, figure("first", 1), figure("total", 1.2)})
		}
		for _, size := range []Size{Wide, Narrow} {
			checkText(t, "hold", h.Scene(size))
			checkText(t, "travel", b.Scene(size))
			checkText(t, "sensitivity", v.Scene(size))
		}
	})
}
