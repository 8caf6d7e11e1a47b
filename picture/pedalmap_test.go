package picture

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// groups are all groups of a class, with everything they hold.
func groups(items []Item, class string) []*Group {
	var all []*Group
	for _, it := range items {
		if g, ok := it.(*Group); ok {
			if strings.Contains(" "+g.Class+" ", " "+class+" ") {
				all = append(all, g)
			}
			all = append(all, groups(g.Items, class)...)
		}
	}
	return all
}

func (g *Group) datum(key string) string {
	for _, d := range g.Data {
		if d.Key == key {
			return d.Value
		}
	}
	return ""
}

func TestAPageCanReadValuesOffThePanels(t *testing.T) {
	m := samplePedalMap(false)
	for _, size := range []Size{Wide, Narrow} {
		panels := m.Panels(size)
		found := groups(m.Scene(size).Root.Items, "panel")
		if len(found) != len(panels) || len(panels) != 3 {
			t.Fatalf("%d panels told, %d drawn", len(panels), len(found))
		}
		for i, p := range panels {
			g := found[i]
			number := func(key string) float64 {
				v, err := strconv.ParseFloat(g.datum(key), 64)
				if err != nil {
					t.Errorf("panel %s: data-%s: %v", p.Key, key, err)
				}
				return v
			}
			got := Panel{Key: g.datum("panel"), Unit: g.datum("unit"),
				Box:  Rect{number("left"), number("top"), number("width"), number("height")},
				XMin: number("x-min"), XMax: number("x-max"), YMin: number("y-min"), YMax: number("y-max")}
			if got.Key != p.Key || got.Unit != p.Unit || got.Box != p.Box || got.XMin != p.XMin || got.XMax != p.XMax || got.YMin != p.YMin || got.YMax != p.YMax {
				t.Errorf("attributes say %+v, Panels says %+v", got, p)
			}
		}
	}
}

func TestPanelsShareTheirPedalAxis(t *testing.T) {
	panels := samplePedalMap(true).Panels(Wide)
	for _, p := range panels[1:] {
		if p.Box.X != panels[0].Box.X || p.Box.W != panels[0].Box.W || p.XMin != panels[0].XMin || p.XMax != panels[0].XMax {
			t.Errorf("panel %s has a pedal axis of its own", p.Key)
		}
	}
}

func TestPanelsHoldEveryCurve(t *testing.T) {
	m := samplePedalMap(true)
	for _, p := range m.Panels(Wide) {
		for _, c := range m.Curves {
			for _, set := range [][]MapPoint{c.Points, c.Low, c.High} {
				for _, q := range set {
					at, ok := p.place(q)
					if !ok || at.X < p.Box.X-1e-9 || at.X > p.Box.X+p.Box.W+1e-9 || at.Y < p.Box.Y-1e-9 || at.Y > p.Box.Y+p.Box.H+1e-9 {
						t.Fatalf("%s: %+v stands at %+v outside %+v", p.Key, q, at, p.Box)
					}
				}
			}
		}
	}
}

func TestCurvesCarryTheirValues(t *testing.T) {
	m := samplePedalMap(false)
	curves := groups(m.Scene(Wide).Root.Items, "curve")
	if len(curves) != 6 {
		t.Fatalf("%d curves in three panels for two sets of parts", len(curves))
	}
	first := curves[0]
	values := strings.Split(first.datum("values"), ";")
	if first.datum("curve") != "metal master" || first.datum("panel") != "finger" || len(values) != len(m.Curves[0].Points) {
		t.Errorf("%+v", first.Data)
	}
	if values[0] != "0 0" || values[50] != "150 11.97" {
		t.Errorf("first and last value are %q and %q", values[0], values[50])
	}
}

// A jump leaves a gap in the line: it begins again with a move, and a dotted arrow bridges the two.
func TestASnapThroughIsAGapWithAnArrow(t *testing.T) {
	moves := func(m PedalMap) (line, shapes int) {
		g := groups(m.Scene(Wide).Root.Items, "curve")[0]
		for _, s := range g.Items[len(g.Items)-1].(Shape).Path {
			if s.Verb == MoveTo {
				line++
			}
		}
		return line, len(g.Items)
	}
	line, shapes := moves(samplePedalMap(false))
	snapLine, snapShapes := moves(samplePedalMap(true))
	if line != 1 || snapLine != 2 || snapShapes != shapes+2 {
		t.Errorf("pieces %d and %d, shapes %d and %d", line, snapLine, shapes, snapShapes)
	}
}

func TestCurvesDifferByDashAndNotOnlyByColour(t *testing.T) {
	seen := map[string]Series{}
	for _, s := range []Series{ProposedParts, OriginalParts, ThirdParts, FourthParts} {
		d := dashes(s.line().Dash)
		if other, ok := seen[d]; ok {
			t.Errorf("series %d and %d have the same dash %q", s, other, d)
		}
		seen[d] = s
	}
}

func TestMarksLeftAtZeroAreNotDrawn(t *testing.T) {
	m := samplePedalMap(false)
	m.Bite, m.Window, m.Stop, m.FullPedal, m.Freed, m.OverTravel = Span{}, Span{}, 0, 0, 0, 0
	for _, x := range texts(m.Scene(Wide).Root.Items) {
		for _, word := range []string{"bite", "window", "stop", "full", "frees", "over"} {
			if strings.Contains(x.Words, word) {
				t.Errorf("%q is written", x.Words)
			}
		}
	}
}

func TestAnyMapKeepsItsWordsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string) float64 { return rapid.Float64Range(-10, 220).Draw(t, name) }
		m := PedalMap{Bite: Span{mm("bite from"), mm("bite to")}, Window: Span{mm("from"), mm("to")}, Stop: mm("stop"),
			FullPedal: mm("full"), Freed: rapid.Float64Range(0, 15).Draw(t, "freed"), OverTravel: rapid.Float64Range(0, 15).Draw(t, "over")}
		for i := range rapid.IntRange(0, 4).Draw(t, "curves") {
			c := MapCurve{Name: rapid.StringN(0, 20, 40).Draw(t, "name"), Series: Series(i)}
			for range rapid.IntRange(0, 6).Draw(t, "points") {
				c.Points = append(c.Points, MapPoint{mm("pedal"), rapid.Float64Range(-1, 15).Draw(t, "finger"),
					rapid.Float64Range(0, 400).Draw(t, "effort"), rapid.Float64Range(0, math.Pow(10, 4)).Draw(t, "torque"), rapid.Bool().Draw(t, "jump")})
			}
			m.Curves = append(m.Curves, c)
		}
		for _, size := range []Size{Wide, Narrow} {
			checkText(t, "map", m.Scene(size))
		}
	})
}
