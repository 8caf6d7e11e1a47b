package picture

import (
	"fmt"
	"math"
	"strconv"
)

// Front sets choices of parts against each other: how heavy the pedal is, how high it bites, and, by the shape of the
// mark, how sure it is to be good. What lies further down and further right is better.
type Front struct {
	Title, Desc string
	Limit       float64 // most effort wanted, N; 0 for none
	Choices     []FrontChoice
}

// FrontChoice is one set of parts.
type FrontChoice struct {
	Number    int     // that the table beside the picture has; 0 for one off the front
	Words     string  // what it is, shown when the pointer rests on it
	Bite      float64 // how far above its fully-down end the pedal bites, mm
	Effort    float64 // peak at the pad, N
	Certainty float64 // chance of being good at the stop, 0 to 1
	Present   bool    // the parts as they are now
}

// certainties are the shapes, the surest first.
var certainties = []struct {
	from  float64
	words string
	shape func(x, y, r float64) Path
}{
	{0.99, "good in 99 of 100 and more", circle},
	{0.95, "in 95 to 99", func(x, y, r float64) Path { return polygon(x, y-r*1.25, x+r*1.25, y, x, y+r*1.25, x-r*1.25, y) }},
	{0, "in fewer", func(x, y, r float64) Path { return polygon(x, y-r*1.1, x+r*1.15, y+r*0.9, x-r*1.15, y+r*0.9) }},
}

func certaintyShape(c float64) func(x, y, r float64) Path {
	for _, s := range certainties {
		if c >= s.from {
			return s.shape
		}
	}
	return certainties[len(certainties)-1].shape // not known
}

// frontFrame holds the measures of an arrangement.
type frontFrame struct {
	width, height, left, right, top float64
	xTicks, yTicks                  int
}

func newFrontFrame(size Size) frontFrame {
	if size == Narrow {
		return frontFrame{width: narrowWidth, height: 400, left: 50, right: 24, top: 60, xTicks: 5, yTicks: 6}
	}
	return frontFrame{width: 1000, height: 520, left: 64, right: 24, top: 44, xTicks: 12, yTicks: 8}
}

// Panel tells where the plot stands in the scene of that size, and what its edges stand for.
func (v Front) Panel(size Size) Panel {
	f := newFrontFrame(size)
	p := Panel{Key: "front", Name: "Peak effort at the pad", Unit: "N", Box: Rect{f.left, f.top, f.width - f.left - f.right, f.height - f.top - axisFoot}}
	bites, efforts := Span{math.Inf(1), math.Inf(-1)}, Span{math.Inf(1), math.Inf(-1)}
	for _, c := range v.Choices {
		if c.shown() {
			bites = Span{math.Min(bites.From, c.Bite), math.Max(bites.To, c.Bite)}
			efforts = Span{math.Min(efforts.From, c.Effort), math.Max(efforts.To, c.Effort)}
		}
	}
	if v.limited() {
		efforts = Span{math.Min(efforts.From, v.Limit), math.Max(efforts.To, v.Limit)}
	}
	p.x = bites.axis(f.xTicks, p.Box.X, p.Box.X+p.Box.W)
	p.y = efforts.axis(f.yTicks, p.Box.Y+p.Box.H, p.Box.Y)
	p.XMin, p.XMax, p.YMin, p.YMax = p.x.lo, p.x.hi, p.y.lo, p.y.hi
	return p
}

// axis covers a span with room for a mark at either end.
func (s Span) axis(most int, from, to float64) axis {
	room := math.Max((s.To-s.From)*0.06, math.Abs(s.To)*0.01)
	return newAxis(math.Max(0, s.From-room), s.To+room, most, from, to)
}

func (c FrontChoice) shown() bool {
	return drawable(c.Bite, c.Effort) && c.Effort >= 0
}

func (v Front) limited() bool { return v.Limit > 0 && drawable(v.Limit) }

// Scene draws the choices: those off the front first, so that none hides what matters.
func (v Front) Scene(size Size) *Scene {
	f, p := newFrontFrame(size), v.Panel(size)
	s := newScene(f.width, f.height, v.Title, v.Desc)
	g := s.Root.Group("panel", "", p.data()...)
	v.limitZone(g, p)
	grid(g, p)
	v.axes(g, p)
	v.key(&s.Root, f)
	v.along(g, p)
	taken := []Rect{}
	for _, pass := range []func(FrontChoice) bool{
		func(c FrontChoice) bool { return c.Number == 0 && !c.Present },
		func(c FrontChoice) bool { return c.Number > 0 },
		func(c FrontChoice) bool { return c.Present },
	} {
		for _, c := range v.Choices {
			if c.shown() && pass(c) {
				taken = append(taken, c.draw(g, p))
			}
		}
	}
	if v.limited() {
		taken = append(taken, v.limitText(p).Bounds())
	}
	for _, c := range v.Choices {
		if c.shown() {
			taken = c.label(g, p, taken)
		}
	}
	return s
}

// limitZone hatches what is heavier than wanted.
func (v Front) limitZone(g *Group, p Panel) {
	if !v.limited() {
		return
	}
	y := p.y.held(v.Limit)
	g.Draw(hatch{angle: -45, spacing: 6}.lines(box(p.Box.X, p.Box.Y, p.Box.X+p.Box.W, y)), Style{Stroke: Bad, Width: 0.6, Opacity: 0.4})
	g.Draw(line(p.Box.X, y, p.Box.X+p.Box.W, y), Style{Stroke: Bad, Width: 1.4})
	g.writeOver(v.limitText(p))
}

// limitText stands above the line, where nothing good can lie, or below it where the panel ends.
func (v Front) limitText(p Panel) Text {
	y := p.y.held(v.Limit) - 6
	if y-plotText < p.Box.Y {
		y += 20
	}
	return Text{X: p.Box.X + 8, Y: y, Size: plotText - 0.5, Role: Bad, Words: "heavier than " + number(v.Limit, 0) + " N"}
}

func (v Front) axes(g *Group, p Panel) {
	y := p.Box.Y + p.Box.H
	for _, t := range p.x.ticks() {
		g.Write(Text{X: p.x.at(t), Y: y + 16, Anchor: Middle, Size: plotText - 1, Role: Quiet, Words: p.x.tickText(t)})
	}
	g.namedUnit(p.Box.X, p.Box.Y-9, p.Name, p.Unit)
	name := "Bites above the fully-down end"
	g.namedUnit(p.Box.X, y+36, name, "mm")
}

func (g *Group) namedUnit(x, y float64, name, unit string) {
	g.Write(Text{X: x, Y: y, Size: plotText, Bold: true, Role: Ink, Words: name})
	g.Write(Text{X: x + TextWidth(name, plotText, true) + 7, Y: y, Size: plotText, Role: Quiet, Words: unit})
}

// key explains the marks, in as many rows as it takes.
func (v Front) key(g *Group, f frontFrame) {
	const size, step = plotText - 1, 17.0
	x, y := f.left, 14.0
	explain := func(words string, mark func(x, y float64)) {
		width := TextWidth(words, size, false) + 35
		if x+width-18 > f.width {
			x, y = f.left, y+step
		}
		mark(x+6, y-4)
		g.Write(Text{X: x + 17, Y: y, Size: size, Role: Quiet, Words: words})
		x += width
	}
	for _, c := range certainties {
		explain(c.words, func(x, y float64) { g.Draw(c.shape(x, y, 5), Style{Fill: Proposed}) })
	}
	explain("dominated", func(x, y float64) { g.Draw(circle(x, y, 3), Style{Fill: Paper, Stroke: Quiet, Width: 1}) })
	explain("now", func(x, y float64) { g.presentMark(x, y) })
}

// along joins the front.
func (v Front) along(g *Group, p Panel) {
	var path Path
	for _, c := range v.Choices {
		if c.Number == 0 || !c.shown() {
			continue
		}
		x, y := p.x.held(c.Bite), p.y.held(c.Effort)
		if len(path) == 0 {
			path.moveTo(x, y)
		} else {
			path.lineTo(x, y)
		}
	}
	g.Draw(path, Style{Stroke: Proposed, Width: 1, Dash: []float64{2, 3}})
}

func (g *Group) presentMark(x, y float64) {
	const r = 6.0
	g.Draw(join(line(x-r, y, x+r, y), line(x, y-r, x, y+r)), Style{Stroke: Original, Width: 2.2})
}

// draw puts a choice's mark into a group that a page can find and pick, and returns the room it takes.
func (c FrontChoice) draw(g *Group, p Panel) Rect {
	x, y := p.x.held(c.Bite), p.y.held(c.Effort)
	class, r := "choice", 5.5
	switch {
	case c.Present:
		class = "choice present"
	case c.Number == 0:
		class, r = "choice dominated", 3
	}
	inner := g.Group(class, c.title(), Datum{"choice", choiceNumber(c.Number)}, Datum{"bite", plain(c.Bite)}, Datum{"effort", plain(c.Effort)},
		Datum{"certainty", plain(c.Certainty)})
	shape := certaintyShape(c.Certainty)
	switch {
	case c.Present:
		inner.presentMark(x, y)
	case c.Number == 0:
		inner.Draw(shape(x, y, r), Style{Fill: Paper, Stroke: Quiet, Width: 1})
	default:
		inner.Draw(shape(x, y, r), Style{Fill: Proposed})
	}
	return Rect{x - r, y - r, 2 * r, 2 * r}
}

func choiceNumber(n int) string {
	if n == 0 {
		return ""
	}
	return strconv.Itoa(n)
}

func (c FrontChoice) title() string {
	sure := ""
	if drawable(c.Certainty) && c.Certainty >= 0 {
		sure = fmt.Sprintf(", good in %.0f of 100", 100*c.Certainty)
	}
	return fmt.Sprintf("%s: %s N, bites %s mm above the fully-down end%s", c.Words, number(c.Effort, 0), number(c.Bite, 0), sure)
}

// label writes a choice's number beside its mark, where there is room on one of the four sides; a table has them all.
func (c FrontChoice) label(g *Group, p Panel, taken []Rect) []Rect {
	words := choiceNumber(c.Number)
	if c.Present {
		words = "now"
	}
	x, y := p.x.held(c.Bite), p.y.held(c.Effort)
	for _, t := range []Text{
		{X: x, Y: y - 9, Anchor: Middle}, {X: x, Y: y + 18, Anchor: Middle}, {X: x + 10, Y: y + 4}, {X: x - 10, Y: y + 4, Anchor: End},
	} {
		t.Size, t.Bold, t.Role, t.Words = plotText-1, true, Ink, words
		room := t.Bounds()
		if words == "" || !room.Inside(p.Box) || overlapsAny(room, taken) {
			continue
		}
		g.Write(t)
		return append(taken, room)
	}
	return taken
}

func overlapsAny(r Rect, others []Rect) bool {
	for _, o := range others {
		if r.Overlaps(o) {
			return true
		}
	}
	return false
}
