package picture

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// sheets draws a load path in both sizes and keeps what the arrangement noted.
func sheets(l LoadPath) map[string]*sheet {
	return map[string]*sheet{"wide": l.wideSheet(), "narrow": l.narrowSheet()}
}

// fullest is a load path whose labels are all as large as they can get.
func fullest(layout Layout, discs int, concentric bool) LoadPath {
	l := sampleLoadPath(layout, discs, concentric)
	for i := range l.Parts {
		words := strings.Repeat("wide words ", 9)
		l.Parts[i].Name, l.Parts[i].Word = words, "over-travels"
		l.Parts[i].Numbers = []string{words, words, words}
		l.Parts[i].Tone = Wrong
	}
	return l
}

// forms calls f with every layout, number of discs and kind of slave.
func forms(f func(Layout, int, bool)) {
	for _, layout := range Layouts {
		for discs := 1; discs <= 3; discs++ {
			f(layout, discs, false)
			f(layout, discs, true)
		}
	}
}

func TestLabelsKeepApartHoweverFull(t *testing.T) {
	forms(func(layout Layout, discs int, concentric bool) {
		for size, s := range sheets(fullest(layout, discs, concentric)) {
			paper := Rect{0, 0, s.scene.Width, s.scene.Height}
			for i, a := range s.labels {
				if !a.Inside(paper) {
					t.Errorf("%s %s: label %+v leaves %+v", layout, size, a, paper)
				}
				for _, b := range s.labels[:i] {
					if a.Overlaps(b) {
						t.Errorf("%s %s, %d discs: labels %+v and %+v overlap", layout, size, discs, a, b)
					}
				}
			}
			checkText(t, string(layout)+" "+size, s.scene)
		}
	})
}

func TestLeaderLinesNeverCross(t *testing.T) {
	forms(func(layout Layout, discs int, concentric bool) {
		for _, l := range []LoadPath{sampleLoadPath(layout, discs, concentric), fullest(layout, discs, concentric)} {
			s := l.wideSheet()
			for i, a := range s.leaders {
				for j, b := range s.leaders[:i] {
					if cross(a, b) {
						t.Errorf("%s, %d discs, concentric %v: leaders of %s and %s cross",
							layout, discs, concentric, l.labelled()[i].ID, l.labelled()[j].ID)
					}
				}
			}
		}
	})
}

// cross reports whether two straight lines share a point between their ends.
func cross(a, b [2]Point) bool {
	side := func(p, q, r Point) bool { return (q.X-p.X)*(r.Y-p.Y) > (q.Y-p.Y)*(r.X-p.X) }
	return side(a[0], a[1], b[0]) != side(a[0], a[1], b[1]) && side(b[0], b[1], a[0]) != side(b[0], b[1], a[1])
}

func TestLeaderLinesDoNotRunThroughOtherLabels(t *testing.T) {
	forms(func(layout Layout, discs int, concentric bool) {
		l := sampleLoadPath(layout, discs, concentric)
		s := l.wideSheet()
		for i, a := range s.leaders {
			for j, box := range s.labels {
				if i != j && touches(a, box) {
					t.Errorf("%s: the leader of %s runs through the label of %s", layout, l.labelled()[i].ID, l.labelled()[j].ID)
				}
			}
		}
	})
}

func touches(a [2]Point, r Rect) bool {
	tl, tr := Point{r.X, r.Y}, Point{r.X + r.W, r.Y}
	bl, br := Point{r.X, r.Y + r.H}, Point{r.X + r.W, r.Y + r.H}
	for _, edge := range [][2]Point{{tl, tr}, {tr, br}, {br, bl}, {bl, tl}} {
		if cross(a, edge) {
			return true
		}
	}
	return false
}

func TestEveryLabelledPartIsDrawnAndPointedAt(t *testing.T) {
	forms(func(layout Layout, discs int, concentric bool) {
		l := sampleLoadPath(layout, discs, concentric)
		for size, s := range sheets(l) {
			drawn := map[string]bool{}
			for _, it := range s.drawing.Items {
				if g, ok := it.(*Group); ok && len(g.Items) > 0 {
					drawn[g.Data[0].Value] = true
				}
			}
			for _, p := range l.labelled() {
				if _, ok := s.anchors[p.ID]; !ok || !drawn[string(p.ID)] {
					t.Errorf("%s %s: %s is not drawn or has nothing to point at", layout, size, p.ID)
				}
			}
		}
	})
}

func TestPartsThatALayoutLacksHaveNoLabel(t *testing.T) {
	for _, l := range sampleLoadPath(MidTransaxle, 1, true).labelled() {
		if l.ID == Fork || l.ID == Propshaft {
			t.Errorf("a concentric slave in a mid transaxle has a label for %s", l.ID)
		}
	}
}

func TestMoreDiscsAreDrawnAsMoreDiscs(t *testing.T) {
	count := func(n int) int {
		s := sampleLoadPath(LongitudinalRear, n, false).wideSheet()
		for _, it := range s.drawing.Items {
			if g, ok := it.(*Group); ok && g.Data[0].Value == string(Disc) {
				return len(g.Items)
			}
		}
		return 0
	}
	// every further disc brings itself and its intermediate plate
	if one, two, three := count(1), count(2), count(3); one == 0 || two <= 2*one || three-two != two-one {
		t.Errorf("pieces drawn for 1, 2, 3 discs: %d, %d, %d", one, two, three)
	}
}

func TestAPartInTroubleIsDrawnInItsTone(t *testing.T) {
	l := sampleLoadPath(LongitudinalRear, 1, false)
	for i := range l.Parts {
		l.Parts[i].Tone = Plain
		if l.Parts[i].ID == Fork {
			l.Parts[i].Tone = Wrong
		}
	}
	if svg := string(l.Scene(Wide).Inline()); !strings.Contains(svg, "s-bad") || strings.Contains(svg, "s-warn") {
		t.Error("only the fork should be drawn as bad")
	}
}

func TestWhatCannotBeDrawnPanics(t *testing.T) {
	for name, l := range map[string]LoadPath{
		"layout": {Layout: "sideways", Discs: 1},
		"discs":  {Layout: MidTransaxle, Discs: 4},
		"part":   {Layout: MidTransaxle, Discs: 1, Parts: []Part{{ID: "flux"}}},
	} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("an unknown %s is drawn", name)
				}
			}()
			l.Scene(Wide)
		}()
	}
}

func TestAnySetOfLabelsKeepsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := LoadPath{
			Layout: rapid.SampledFrom(Layouts).Draw(t, "layout"),
			Discs:  rapid.IntRange(1, 3).Draw(t, "discs"), Concentric: rapid.Bool().Draw(t, "concentric"),
		}
		for _, id := range chain {
			if rapid.Bool().Draw(t, "labelled") {
				l.Parts = append(l.Parts, Part{id, rapid.String().Draw(t, "name"),
					rapid.SliceOfN(rapid.String(), 0, 4).Draw(t, "numbers"), rapid.String().Draw(t, "word"), Tone(rapid.IntRange(0, 3).Draw(t, "tone"))})
			}
		}
		checkText(t, "wide", l.Scene(Wide))
		checkText(t, "narrow", l.Scene(Narrow))
	})
}
