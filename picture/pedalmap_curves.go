package picture

import (
	"math"
	"strings"
)

// curve draws one set of parts in one panel: its range first, then the line, with a gap and an arrow where the pedal
// snaps through.
func (m PedalMap) curve(g *Group, c MapCurve, p Panel) {
	g = g.Group("curve", c.Name, Datum{"curve", c.Name}, Datum{"panel", p.Key}, Datum{"values", p.values(c.Points)})
	style := c.Series.line()
	if area := p.between(c.Low, c.High); area != nil {
		g.Draw(area, Style{Fill: style.Stroke, Opacity: 0.14})
	}
	var path, jumps Path
	drawing := false
	for i, q := range c.Points {
		at, ok := p.place(q)
		switch {
		case !ok:
			drawing = false
			continue
		case !drawing || q.Jump:
			path.moveTo(at.X, at.Y)
		default:
			path.lineTo(at.X, at.Y)
		}
		if from, known := p.before(c.Points, i); q.Jump && known {
			jumps = append(jumps, line(from.X, from.Y, at.X, at.Y)...)
			g.arrowTo(from, at, style.Stroke)
		}
		drawing = true
	}
	g.Draw(jumps, Style{Stroke: style.Stroke, Width: 1, Dash: []float64{2, 3}})
	g.Draw(path, style)
}

// place is where a point stands, and whether it stands within the panel at all.
func (p Panel) place(q MapPoint) (Point, bool) {
	v := p.value(q)
	return Point{p.x.at(q.Pedal), p.y.at(v)}, p.x.covers(q.Pedal) && p.y.covers(v)
}

func (p Panel) before(points []MapPoint, i int) (Point, bool) {
	if i == 0 {
		return Point{}, false
	}
	return p.place(points[i-1])
}

// arrowTo puts a small arrowhead at the end of a jump.
func (g *Group) arrowTo(from, to Point, role Role) {
	if math.Hypot(to.X-from.X, to.Y-from.Y) < 8 {
		return
	}
	angle := math.Atan2(to.Y-from.Y, to.X-from.X) * 180 / math.Pi
	p := newPen(g, shift(0, 0)).moved(to.X, to.Y).turned(angle)
	p.draw(polygon(0, 0, -8, 4, -8, -4), Style{Fill: role})
}

// between is the area from the low points to the high ones, or nothing where they are not known.
func (p Panel) between(low, high []MapPoint) Path {
	if len(low) < 2 || len(high) < 2 {
		return nil
	}
	var xy []float64
	add := func(q MapPoint) {
		if at, ok := p.place(q); ok {
			xy = append(xy, at.X, at.Y)
		}
	}
	for _, q := range low {
		add(q)
	}
	for i := range high {
		add(high[len(high)-1-i])
	}
	return polygon(xy...)
}

// values lists a curve's points for a script, as "pedal value;pedal value".
func (p Panel) values(points []MapPoint) string {
	var parts []string
	for _, q := range points {
		if v := p.value(q); drawable(q.Pedal, v) {
			parts = append(parts, plain(q.Pedal)+" "+plain(v))
		}
	}
	return strings.Join(parts, ";")
}
