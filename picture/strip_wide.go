package picture

import "math"

const (
	stripWidth   = 1200.0
	stripMargin  = 12.0
	stripTop     = 62.0
	stripCell    = 50.0
	stripJobCell = 58.0
	stripJobs    = 216.0 // width of the jobs' column
	stripGap     = 28.0  // between columns, for the links
)

func (p *stripPlan) wide() *Scene {
	rows := 1
	for _, ops := range p.layers {
		rows = max(rows, len(ops))
	}
	body := math.Max(float64(rows)*stripCell, float64(len(p.Jobs))*stripJobCell)
	s := newScene(stripWidth, stripTop+body+stripMargin, p.Title, p.Desc)
	left, right := stripMargin, stripWidth-stripMargin-stripJobs
	column := (right - left) / float64(max(1, len(p.layers)))
	cell := column - stripGap
	perHour := math.Min(70, (cell-36)/math.Max(p.most, 0.1))

	p.heading(&s.Root, left, right)
	links := s.Root.Group("links", "")
	cells := s.Root.Group("ops", "")
	for l, ops := range p.layers {
		x := left + float64(l)*column
		top := stripTop + (body-float64(len(ops))*stripCell)/2
		for k, op := range ops {
			p.cell(cells, op, Rect{x, top + float64(k)*stripCell, cell, stripCell}, perHour)
		}
	}
	top := stripTop + (body-float64(len(p.order))*stripJobCell)/2
	for k, job := range p.order {
		p.job(cells, job, right, top+float64(k)*stripJobCell)
	}
	p.links(links, perHour)
	return s
}

// heading says which way is in.
func (p *stripPlan) heading(g *Group, left, right float64) {
	const y = 20
	g.Write(Text{X: left, Y: y + 4, Size: plotText, Bold: true, Role: Ink, Words: "Outside"})
	from, to := left+TextWidth("Outside", plotText, true)+12, right-14
	g.Draw(line(from, y, to, y), Style{Stroke: Quiet, Width: thin})
	g.arrowTo(Point{from, y}, Point{to, y}, Quiet)
	g.Write(Text{X: right, Y: y + 4, Size: plotText, Bold: true, Role: Ink, Words: "Wanted work"})
	p.key(g, left, y+22)
}

// cell writes an operation's name above its bar.
func (p *stripPlan) cell(g *Group, op int, r Rect, perHour float64) {
	g = p.opGroup(g, op)
	bar := r.Y + r.H - 14
	lines := wrap(p.Ops[op].Name, stripText, false, r.W, 2)
	y := bar - 11 - 12.5*float64(len(lines)-1)
	for _, words := range lines {
		g.writeOver(Text{X: r.X, Y: y, Size: stripText, Role: Ink, Words: words})
		y += 12.5
	}
	p.bar(g, op, r.X, bar, perHour)
	p.opAt[op] = Point{r.X, bar}
}

func (p *stripPlan) job(g *Group, job int, x, y float64) {
	g = p.jobGroup(g, job)
	j := p.Jobs[job]
	const room = stripJobs - 10
	middle := y + stripJobCell/2
	g.Draw(line(x, middle-22, x, middle+22), Style{Stroke: Proposed, Width: heavy})
	g.Write(Text{X: x + 10, Y: middle - 12, Size: plotText + 0.5, Bold: true, Role: Ink, Words: fit(j.Name, plotText+0.5, true, room)})
	g.Write(Text{X: x + 10, Y: middle + 4, Size: stripText, Role: Ink, Words: fit("work "+number(j.Work, 1)+" h", stripText, false, room)})
	g.Write(Text{X: x + 10, Y: middle + 19, Size: stripText, Role: Quiet, Words: fit(jobHours(j), stripText, false, room)})
	p.jobAt[job] = Point{x, middle}
}

// links leads from everything that has to come off to what it gives access to.
func (p *stripPlan) links(g *Group, perHour float64) {
	for to, op := range p.Ops {
		for _, i := range p.direct(op.Needs) {
			p.link(g, i, op.Key, p.opAt[to], perHour)
		}
	}
	for to, job := range p.Jobs {
		for _, i := range p.direct(job.Needs) {
			p.link(g, i, job.Key, p.jobAt[to], perHour)
		}
	}
}

func (p *stripPlan) link(g *Group, from int, to string, end Point, perHour float64) {
	op := p.Ops[from]
	start := p.opAt[from]
	words := TextWidth(number(op.Hours, 1)+" h", stripText-0.5, false)
	start.X += math.Max(2, length(op.Hours)*perHour) + words + 10
	end.X -= 5
	pull := math.Max(14, (end.X-start.X)*0.45)
	var path Path
	path.moveTo(start.X, start.Y)
	path.curveTo(start.X+pull, start.Y, end.X-pull, end.Y, end.X, end.Y)
	style := Style{Stroke: Faint, Width: 1.1}
	if len(p.serves[from]) > 1 {
		style = Style{Stroke: Proposed, Width: 1.3, Opacity: 0.6}
	}
	l := g.Group("link", "", Datum{"from", op.Key}, Datum{"to", to}, Datum{"jobs", p.jobKeys(from)})
	l.Draw(path, style)
	l.Draw(polygon(end.X+4, end.Y, end.X-3, end.Y-3, end.X-3, end.Y+3), Style{Fill: style.Stroke})
}
