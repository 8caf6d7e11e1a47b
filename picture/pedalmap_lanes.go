package picture

import "math"

// Above the panels, one lane each, stand the names of what is marked across them: a span as a dimension line, a
// single travel as a mark on its line.

type lane struct {
	words string
	span  Span // From equals To for a single travel
	line  Style
	role  Role
	stop  bool // drawn as a stop that the pedal meets
}

func (m PedalMap) lanes() []lane {
	var all []lane
	if !m.Bite.empty() {
		all = append(all, lane{words: "bite band " + mmSpan(m.Bite), span: m.Bite, role: Ink, line: Style{Stroke: Quiet, Width: thin}})
	}
	if !m.Window.empty() {
		all = append(all, lane{words: "window for the stop " + mmSpan(m.Window), span: m.Window, role: Good, line: Style{Stroke: Good, Width: thin}})
	}
	one := func(v float64, words string, role Role, style Style, stop bool) {
		if v > 0 && drawable(v) {
			all = append(all, lane{words + " " + number(v, 0) + " mm", Span{v, v}, style, role, stop})
		}
	}
	one(m.Stop, "set the stop at", Ink, Style{Stroke: Ink, Width: 1.8}, true)
	one(m.FullPedal, "full pedal", Quiet, Style{Stroke: Quiet, Width: 1, Dash: dashCentre}, false)
	for _, c := range m.Curves {
		for _, p := range c.Points {
			if p.Jump {
				one(p.Pedal, c.Name+": snaps through at", c.Series.line().Stroke, Style{Stroke: c.Series.line().Stroke, Width: 1, Dash: []float64{2, 3}}, false)
			}
		}
	}
	return all
}

func mmSpan(s Span) string { return number(s.From, 0) + " to " + number(s.To, 0) + " mm" }

// drawLanes draws the lanes from top down, each with its lines through all the panels.
func (m PedalMap) drawLanes(root *Group, top float64, panels []Panel, f mapFrame) {
	g := root.Group("marks", "")
	first, last := panels[0], panels[len(panels)-1]
	bottom := last.Box.Y + last.Box.H
	for i, l := range m.lanes() {
		y := top + (float64(i)+0.5)*laneHeight
		x1, x2 := first.x.held(l.span.From), first.x.held(l.span.To)
		g.Draw(line(x1, y, x1, bottom), l.line)
		if x2 > x1 {
			g.Draw(line(x2, y, x2, bottom), l.line)
			g.dimension(x1, x2, y, l.role)
		} else if l.stop {
			g.Draw(polygon(x1-5, y-6, x1+5, y-6, x1, y+3), Style{Fill: l.role})
		} else {
			g.Draw(circle(x1, y, 2.5), Style{Fill: l.role})
		}
		g.nameLane(l, x1, x2, y, f)
	}
}

// nameLane writes a lane's words on whichever side of its mark has more room.
func (g *Group) nameLane(l lane, x1, x2, y float64, f mapFrame) {
	const gap = 9
	t := Text{Y: y + 4, Size: plotText, Role: l.role, Bold: l.stop}
	left, right := x1-gap-4, f.width-4-x2-gap
	room := math.Max(left, right)
	t.Words = fit(l.words, t.Size, t.Bold, room)
	t.X = x2 + gap
	if right < left && right < TextWidth(l.words, t.Size, t.Bold) {
		t.X, t.Anchor = x1-gap, End
	}
	g.writeOver(t)
}

// dimension is a line with an arrowhead at each end, as on a technical drawing.
func (g *Group) dimension(x1, x2, y float64, role Role) {
	g.Draw(line(x1, y, x2, y), Style{Stroke: role, Width: thin})
	a := math.Min(6, (x2-x1)/2)
	g.Draw(join(polygon(x1, y, x1+a, y-2.4, x1+a, y+2.4), polygon(x2, y, x2-a, y-2.4, x2-a, y+2.4)), Style{Fill: role})
}

// nameEnds names every curve at the right of its panel, at the height where it ends.
func (m PedalMap) nameEnds(root *Group, p Panel, f mapFrame) {
	var ends []Point
	var named []MapCurve
	var wanted []float64
	for _, c := range m.Curves {
		for i := len(c.Points) - 1; i >= 0; i-- {
			if at, ok := p.place(c.Points[i]); ok {
				ends, named, wanted = append(ends, at), append(named, c), append(wanted, at.Y)
				break
			}
		}
	}
	edge := p.Box.X + p.Box.W
	for i, y := range spread(wanted, 15, p.Box.Y+4, p.Box.Y+p.Box.H-2) {
		style := named[i].Series.line()
		root.Draw(polyline(ends[i].X, ends[i].Y, edge+4, y, edge+10, y), Style{Stroke: style.Stroke, Width: thin})
		words := fit(named[i].Name, plotText, true, f.right-20)
		root.Write(Text{X: edge + 14, Y: y + 4, Size: plotText, Bold: true, Role: style.Stroke, Words: words})
	}
}

// listCurves names the curves above the lanes, each beside a piece of its line.
func (m PedalMap) listCurves(root *Group, f mapFrame) {
	for i, c := range m.Curves {
		y := 8 + (float64(i)+0.5)*laneHeight
		style := c.Series.line()
		root.Draw(line(f.left, y, f.left+34, y), style)
		words := fit(c.Name, plotText, true, f.width-f.left-f.right-42)
		root.Write(Text{X: f.left + 42, Y: y + 4, Size: plotText, Bold: true, Role: style.Stroke, Words: words})
	}
}
