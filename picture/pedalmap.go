package picture

import "math"

// PedalMap shows, over the travel of the pedal, how far the fingers move, how heavy the pedal is and how much torque
// the clutch still carries. Lengths are in mm, forces in N, torques in N m. A mark left at zero is not drawn.
type PedalMap struct {
	Title, Desc string
	Curves      []MapCurve
	Bite        Span    // of pedal travel, where the torque carried falls
	Window      Span    // of pedal travel, where the stop may stand
	Stop        float64 // pedal travel, recommended
	FullPedal   float64 // pedal travel
	Freed       float64 // finger travel at which the discs are free
	OverTravel  float64 // finger travel that must not be passed
}

// Span runs from one value to another; it is empty unless To is the greater.
type Span struct{ From, To float64 }

func (s Span) empty() bool { return !drawable(s.From, s.To) || s.To <= s.From }

// MapCurve is one set of parts on the map.
type MapCurve struct {
	Name      string
	Series    Series
	Points    []MapPoint
	Low, High []MapPoint // the 5 % and 95 % points, with the same pedal travels in both; or none
}

// MapPoint is one point of the map.
type MapPoint struct {
	Pedal, Finger, Effort, Torque float64
	Jump                          bool // the pedal snaps through to here from the point before
}

// Panel is where one of the plots stands in the scene and what its edges stand for, so that a page can turn a place
// under the pointer into values and back. The same figures are on the panel's group as data attributes.
type Panel struct {
	Key        string // finger, effort, torque
	Name, Unit string
	Box        Rect
	XMin, XMax float64
	YMin, YMax float64
	x, y       axis
	value      func(MapPoint) float64
}

// mapFrame holds the measures of an arrangement.
type mapFrame struct {
	width, left, right float64
	plot, gap          float64 // height of a panel and of the gap above it
	xTicks             int
	labels             bool // curves named beside their ends rather than in a list
}

func (m PedalMap) frame(size Size) mapFrame {
	if size == Narrow {
		return mapFrame{width: 380, left: 50, right: 24, plot: 128, gap: 34, xTicks: 5}
	}
	return mapFrame{width: 1000, left: 64, right: 128, plot: 142, gap: 32, xTicks: 12, labels: true}
}

const (
	laneHeight = 19.0
	plotText   = 12.0
	axisFoot   = 44.0
)

// Panels tells where the plots stand in the scene of that size.
func (m PedalMap) Panels(size Size) []Panel {
	f := m.frame(size)
	top := m.lanesTop(f) + float64(len(m.lanes()))*laneHeight
	panels := []Panel{
		{Key: "finger", Name: "Finger travel", Unit: "mm", value: func(p MapPoint) float64 { return p.Finger }},
		{Key: "effort", Name: "Pedal effort", Unit: "N", value: func(p MapPoint) float64 { return p.Effort }},
		{Key: "torque", Name: "Torque carried", Unit: "N m", value: func(p MapPoint) float64 { return p.Torque }},
	}
	xMost := m.most(func(p MapPoint) float64 { return p.Pedal }, m.FullPedal, m.Stop, m.Bite.To)
	for i := range panels {
		p := &panels[i]
		y := top + float64(i)*(f.plot+f.gap) + f.gap
		p.Box = Rect{f.left, y, f.width - f.left - f.right, f.plot}
		most := m.most(p.value)
		if p.Key == "finger" {
			most = m.most(p.value, m.Freed, m.OverTravel*1.08)
		}
		p.x = newAxis(0, xMost, f.xTicks, p.Box.X, p.Box.X+p.Box.W)
		p.y = newAxis(0, most*1.02, 5, p.Box.Y+p.Box.H, p.Box.Y)
		p.XMin, p.XMax, p.YMin, p.YMax = p.x.lo, p.x.hi, p.y.lo, p.y.hi
	}
	return panels
}

// most is the greatest finite value among the points and the extra ones.
func (m PedalMap) most(value func(MapPoint) float64, extra ...float64) float64 {
	most := 0.0
	consider := func(v float64) {
		if drawable(v) {
			most = math.Max(most, v)
		}
	}
	for _, v := range extra {
		consider(v)
	}
	for _, c := range m.Curves {
		for _, set := range [][]MapPoint{c.Points, c.Low, c.High} {
			for _, p := range set {
				if drawable(p.Pedal) {
					consider(value(p))
				}
			}
		}
	}
	return most
}

// lanesTop is where the lanes above the panels begin: below the list of curves where there is one.
func (m PedalMap) lanesTop(f mapFrame) float64 {
	if f.labels {
		return 8
	}
	return 8 + float64(len(m.Curves))*laneHeight
}

// Scene draws the map.
func (m PedalMap) Scene(size Size) *Scene {
	f := m.frame(size)
	panels := m.Panels(size)
	last := panels[len(panels)-1].Box
	s := newScene(f.width, last.Y+last.H+axisFoot, m.Title, m.Desc)
	for _, p := range panels {
		m.panel(&s.Root, p)
	}
	m.footAxis(&s.Root, panels[len(panels)-1], f)
	m.drawLanes(&s.Root, m.lanesTop(f), panels, f)
	if f.labels {
		for _, p := range panels {
			m.nameEnds(&s.Root, p, f)
		}
	} else {
		m.listCurves(&s.Root, f)
	}
	return s
}

// data are the panel's place and edges, for a page to read.
func (p Panel) data() []Datum {
	return []Datum{
		{"panel", p.Key}, {"unit", p.Unit},
		{"left", decimal(p.Box.X)}, {"top", decimal(p.Box.Y)},
		{"width", decimal(p.Box.W)}, {"height", decimal(p.Box.H)},
		{"x-min", plain(p.XMin)}, {"x-max", plain(p.XMax)},
		{"y-min", plain(p.YMin)}, {"y-max", plain(p.YMax)},
	}
}

func (m PedalMap) panel(root *Group, p Panel) {
	g := root.Group("panel", "", p.data()...)
	m.areas(g, p)
	grid(g, p)
	if p.Key == "finger" {
		m.fingerLimits(g, p)
	}
	for _, c := range m.Curves {
		m.curve(g, c, p)
	}
	g.Write(Text{X: p.Box.X, Y: p.Box.Y - 8, Size: plotText + 0.5, Bold: true, Role: Ink, Words: p.Name})
	w := TextWidth(p.Name, plotText+0.5, true)
	g.Write(Text{X: p.Box.X + w + 7, Y: p.Box.Y - 8, Size: plotText, Role: Quiet, Words: p.Unit})
}

// areas shades the bite band and hatches the window for the stop.
func (m PedalMap) areas(g *Group, p Panel) {
	if !m.Bite.empty() {
		g.Draw(p.column(m.Bite), Style{Fill: Band})
	}
	if !m.Window.empty() {
		area := p.column(m.Window)
		g.Draw(area, Style{Fill: Window})
		g.Draw(hatch{angle: 45, spacing: 6}.lines(area), Style{Stroke: Good, Width: 0.6, Opacity: 0.45})
	}
}

func (p Panel) column(s Span) Path {
	x1, x2 := p.x.held(s.From), p.x.held(s.To)
	return rect(x1, p.Box.Y, x2-x1, p.Box.H)
}

func grid(g *Group, p Panel) {
	right, bottom := p.Box.X+p.Box.W, p.Box.Y+p.Box.H
	var lines Path
	for _, v := range p.x.ticks() {
		lines = append(lines, line(p.x.at(v), p.Box.Y, p.x.at(v), bottom)...)
	}
	for _, v := range p.y.ticks() {
		y := p.y.at(v)
		lines = append(lines, line(p.Box.X, y, right, y)...)
		g.Write(Text{X: p.Box.X - 7, Y: y + 4, Anchor: End, Size: plotText - 1, Role: Quiet, Words: p.y.tickText(v)})
	}
	g.Draw(lines, Style{Stroke: Faint, Width: 0.5})
	g.Draw(polyline(p.Box.X, p.Box.Y, p.Box.X, bottom, right, bottom), Style{Stroke: Ink, Width: 1})
}

// fingerLimits draws the travel that frees and the travel that is too far.
func (m PedalMap) fingerLimits(g *Group, p Panel) {
	left, right := p.Box.X, p.Box.X+p.Box.W
	over, freed := p.y.held(m.OverTravel), p.y.held(m.Freed)
	below := []float64{over + 14, freed + 14} // where their names stand
	if math.Abs(freed-over) < 15 {
		below[0] = over - 5
	}
	below = spread(below, 15, p.Box.Y+10, p.Box.Y+p.Box.H-3)
	if m.OverTravel > 0 && drawable(m.OverTravel) {
		g.Draw(hatch{angle: -45, spacing: 6}.lines(box(left, p.Box.Y, right, over)), Style{Stroke: Bad, Width: 0.6, Opacity: 0.5})
		g.Draw(line(left, over, right, over), Style{Stroke: Bad, Width: 1.4})
		g.writeOver(Text{X: left + 8, Y: below[0], Size: plotText - 0.5, Role: Bad, Words: "over-travel above " + number(m.OverTravel, 1) + " mm"})
	}
	if m.Freed > 0 && drawable(m.Freed) {
		g.Draw(line(left, freed, right, freed), Style{Stroke: Good, Width: 1.4, Dash: []float64{7, 3}})
		g.writeOver(Text{X: left + 8, Y: below[1], Size: plotText - 0.5, Role: Good, Words: "frees at " + number(m.Freed, 1) + " mm"})
	}
}

// writeOver writes on a patch of paper, so that lines behind do not disturb the words.
func (g *Group) writeOver(t Text) {
	b := t.Bounds()
	g.Draw(rect(b.X-3, b.Y, b.W+6, b.H), Style{Fill: Paper})
	g.Write(t)
}

func (m PedalMap) footAxis(g *Group, p Panel, f mapFrame) {
	y := p.Box.Y + p.Box.H
	for _, v := range p.x.ticks() {
		g.Draw(line(p.x.at(v), y, p.x.at(v), y+4), Style{Stroke: Ink, Width: 1})
		g.Write(Text{X: p.x.at(v), Y: y + 16, Anchor: Middle, Size: plotText - 1, Role: Quiet, Words: p.x.tickText(v)})
	}
	name := "Pedal travel at the pad"
	g.Write(Text{X: f.left, Y: y + 35, Size: plotText + 0.5, Bold: true, Role: Ink, Words: name})
	g.Write(Text{X: f.left + TextWidth(name, plotText+0.5, true) + 7, Y: y + 35, Size: plotText, Role: Quiet, Words: "mm"})
}
