package picture

import (
	"math"
	"slices"
	"strings"
)

// TravelBars shows where the travel of the pedal goes, one bar for each set of parts. Lengths are at the pad, in mm.
type TravelBars struct {
	Title, Desc string
	Rows        []TravelRow
	FullPedal   float64
}

// TravelRow is one set of parts: what takes travel, from the top of the pedal down.
type TravelRow struct {
	Name   string
	Series Series
	Parts  []TravelPart
}

// TravelPart is one of the things that take travel. Parts with the same name are hatched alike in every row.
type TravelPart struct {
	Name   string
	MM     float64
	Useful bool // moves the fingers, rather than being lost
}

// travelHatches tell up to ten losses apart; further ones begin again.
var travelHatches = []hatch{
	{angle: 0, spacing: 100}, {angle: 90, spacing: 5}, {angle: -45, spacing: 5}, {angle: 45, spacing: 5}, {angle: 45, spacing: 5, cross: true},
	{angle: 0, spacing: 4}, {angle: -45, spacing: 2.6}, {angle: 90, spacing: 2.6}, {angle: 45, spacing: 2.6}, {angle: 0, spacing: 4, cross: true},
}

// usefulHatch marks the travel that does the work.
var usefulHatch = hatch{angle: -60, spacing: 9}

// Scene draws the bars above a key with all the figures.
func (t TravelBars) Scene(size Size) *Scene {
	f := newBarFrame(size, 150, 110)
	const top = 26
	bottom := top + float64(len(t.Rows))*f.row + 4
	names := t.names()
	columns := 3
	if f.stacked {
		columns = 2
	}
	keyTop := bottom + gridFoot + 14
	keyRows := (len(names) + columns - 1) / columns
	s := newScene(f.width, keyTop+18+float64(keyRows)*travelKeyRow, t.Title, t.Desc)
	g := &s.Root
	x := f.axis(t.most(), 20)
	f.gridBelow(g, x, top, bottom, "Pedal travel at the pad", "mm")
	for i, row := range t.Rows {
		t.row(g, f, x, row, f.bar(top, i), names)
	}
	t.fullPedal(g, x, f, top, bottom)
	t.key(g, f, names, keyTop, columns)
	return s
}

// names are the parts of all rows, each once, in the order met.
func (t TravelBars) names() []TravelPart {
	var names []TravelPart
	for _, row := range t.Rows {
		for _, p := range row.Parts {
			if !slices.ContainsFunc(names, func(q TravelPart) bool { return q.Name == p.Name }) {
				names = append(names, p)
			}
		}
	}
	return names
}

func (t TravelBars) most() float64 {
	most := length(t.FullPedal)
	for _, row := range t.Rows {
		most = math.Max(most, row.total())
	}
	return most
}

func (r TravelRow) total() float64 {
	sum := 0.0
	for _, p := range r.Parts {
		sum += length(p.MM)
	}
	return sum
}

func (t TravelBars) row(g *Group, f barFrame, x axis, row TravelRow, bar float64, names []TravelPart) {
	g = g.Group("travel", row.Name, Datum{"row", row.Name})
	used := number(row.total(), 0) + " mm used"
	more, figures := "", used
	if f.stacked {
		more, figures = used, ""
	}
	f.name(g, bar, row.Name, more, row.Series.line().Stroke)
	f.remark(g, bar, "", Plain, figures)
	from := 0.0
	for _, p := range row.Parts {
		if length(p.MM) == 0 {
			continue
		}
		to := from + p.MM
		part := g.Group("travel-part", p.Name+": "+number(p.MM, 1)+" mm", Datum{"part", p.Name}, Datum{"mm", plain(p.MM)})
		left, right := x.held(from), x.held(to)
		area := box(left, bar-13, right, bar+13)
		part.travelFill(area, p, names, row.Series)
		words := number(p.MM, 1)
		if right-left > TextWidth(words, plotText-1, true)+10 {
			part.writeOver(Text{X: (left + right) / 2, Y: bar + 4, Anchor: Middle, Size: plotText - 1, Bold: p.Useful, Role: Ink, Words: words})
		}
		from = to
	}
}

func (g *Group) travelFill(area Path, p TravelPart, names []TravelPart, s Series) {
	role := s.line().Stroke
	if p.Useful {
		g.filled(area, usefulHatch, Window, role)
		return
	}
	i := slices.IndexFunc(names, func(q TravelPart) bool { return q.Name == p.Name })
	g.filled(area, travelHatches[i%len(travelHatches)], Paper, role)
}

func (t TravelBars) fullPedal(g *Group, x axis, f barFrame, top, bottom float64) {
	if length(t.FullPedal) == 0 {
		return
	}
	at := x.at(t.FullPedal)
	g.Draw(line(at, top-8, at, bottom), Style{Stroke: Ink, Width: firm, Dash: dashCentre})
	label := Text{X: at + 4, Y: top - 12, Anchor: End, Size: plotText - 1, Role: Quiet, Words: "full pedal " + number(t.FullPedal, 0) + " mm"}
	if label.Bounds().X < x.from {
		label.X, label.Anchor = x.from, Start
	}
	g.Write(label)
}

const travelKeyRow = 34.0

// key lists every part with its hatching and its figure in each row.
func (t TravelBars) key(g *Group, f barFrame, names []TravelPart, y float64, columns int) {
	var rows []string
	for _, r := range t.Rows {
		rows = append(rows, r.Name)
	}
	heading := "mm of pedal travel: " + strings.Join(rows, " / ")
	g.Write(Text{X: barMargin, Y: y, Size: plotText - 1, Role: Quiet, Words: fit(heading, plotText-1, false, f.width-2*barMargin)})
	width := (f.width - 2*barMargin) / float64(columns)
	perColumn := (len(names) + columns - 1) / columns
	for i, p := range names {
		x := barMargin + float64(i/perColumn)*width
		top := y + 12 + float64(i%perColumn)*travelKeyRow
		g.travelFill(rect(x, top, 26, 20), p, names, ThirdParts)
		g.Write(Text{X: x + 34, Y: top + 9, Size: plotText, Bold: p.Useful, Role: Ink, Words: fit(p.Name, plotText, p.Useful, width-42)})
		g.Write(Text{X: x + 34, Y: top + 23, Size: plotText - 1, Role: Quiet, Words: fit(t.figures(p.Name), plotText-1, false, width-42)})
	}
}

// figures are one part's lengths in all the rows.
func (t TravelBars) figures(name string) string {
	var all []string
	for _, row := range t.Rows {
		words := "none"
		for _, p := range row.Parts {
			if p.Name == name {
				words = number(p.MM, 1)
			}
		}
		all = append(all, words)
	}
	return strings.Join(all, " / ")
}
