package picture

import "math"

// Line widths, in the two weights of a technical drawing and a third for what needs to be seen.
const (
	thin  = 0.7
	firm  = 1.2
	heavy = 2.0
)

var (
	dashCentre = []float64{9, 2.5, 2, 2.5} // axes
	dashHidden = []float64{4, 2.5}         // edges behind something
	dashGhost  = []float64{6, 2, 1.5, 2, 1.5, 2}
)

// pen draws in the coordinates of an assembly and puts the result where the assembly stands in the scene.
type pen struct {
	g      *Group
	at     transform
	ink    Role
	weight float64
}

func newPen(g *Group, at transform) pen { return pen{g, at, Ink, firm} }

func (p pen) draw(path Path, s Style) { p.g.Draw(path.transformed(p.at), s) }

// cut draws a part that the drawing plane cuts: filled, hatched and outlined.
func (p pen) cut(path Path, h hatch) {
	p.draw(path, Style{Fill: Metal})
	p.g.Draw(h.lines(path.transformed(p.at)), Style{Stroke: Faint, Width: thin})
	p.outline(path)
}

// body draws a part that is seen whole, as shafts and rods are even in a section.
func (p pen) body(path Path) {
	p.draw(path, Style{Fill: Paper, Stroke: p.ink, Width: p.weight})
}

func (p pen) outline(path Path) { p.draw(path, Style{Stroke: p.ink, Width: p.weight}) }
func (p pen) thin(path Path)    { p.draw(path, Style{Stroke: p.ink, Width: thin}) }
func (p pen) tint(path Path, r Role) {
	p.draw(path, Style{Fill: r})
}

func (p pen) solid(path Path) { p.draw(path, Style{Fill: p.ink}) }

func (p pen) hidden(path Path) {
	p.draw(path, Style{Stroke: p.ink, Width: thin, Dash: dashHidden})
}

func (p pen) ghost(path Path) {
	p.draw(path, Style{Stroke: Quiet, Width: thin, Dash: dashGhost})
}

func (p pen) centre(x1, y1, x2, y2 float64) {
	p.draw(line(x1, y1, x2, y2), Style{Stroke: Quiet, Width: thin, Dash: dashCentre})
}

// moved shifts the assembly's origin.
func (p pen) moved(x, y float64) pen { return p.mapped(shift(x, y)) }

// turned rotates the assembly about its origin, in degrees, clockwise on the page.
func (p pen) turned(degrees float64) pen {
	sin, cos := math.Sincos(degrees * math.Pi / 180)
	return p.mapped(transform{cos, sin, -sin, cos, 0, 0})
}

func (p pen) scaled(k float64) pen { return p.mapped(transform{k, 0, 0, k, 0, 0}) }

func (p pen) mapped(t transform) pen {
	p.at = t.then(p.at)
	return p
}

// both draws one half of a part that turns about the x axis, and its mirror image.
func (p pen) both(draw func(pen)) {
	draw(p)
	draw(p.mapped(transform{1, 0, 0, -1, 0, 0}))
}

// ball is a rolling bearing in section: its box with the crossed lines that stand for one.
func (p pen) ball(x1, y1, x2, y2 float64) {
	p.body(box(x1, y1, x2, y2))
	p.thin(join(line(x1, y1, x2, y2), line(x1, y2, x2, y1)))
}

// flow is a small arrowhead that shows which way load goes, pointing at an angle in degrees.
func (p pen) flow(x, y, degrees float64) {
	p.moved(x, y).turned(degrees).draw(polygon(6, 0, -5, 5, -2, 0, -5, -5), Style{Fill: Proposed})
}

// breakLine is the wavy edge where a drawing leaves off, from (x, y1) to (x, y2).
func breakLine(x, y1, y2 float64) Path {
	var p Path
	p.moveTo(x, y1)
	n := max(1, math.Round(math.Abs(y2-y1)/28))
	step := (y2 - y1) / n
	for i := range int(n) {
		y := y1 + float64(i)*step
		p.curveTo(x+5, y+step*0.3, x-5, y+step*0.7, x, y+step)
	}
	return p
}

// dot ends a leader line on the part that it points at.
func (g *Group) dot(p Point, role Role) { g.Draw(circle(p.X, p.Y, 2.2), Style{Fill: role}) }
