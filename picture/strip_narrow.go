package picture

import (
	"math"
	"strconv"
)

// The narrow arrangement goes down the page as the car comes apart: each operation one row, set in further the deeper
// it lies; at the right one lane for each job, with a knot at every operation that serves it.

const (
	stripRow    = 40.0
	stripIndent = 9.0
	stripFoot   = 46.0 // height of a job's entry below
)

func (p *stripPlan) narrow() *Scene {
	lane := math.Min(22, 150/math.Max(1, float64(len(p.Jobs))))
	lanes := narrowWidth - stripMargin - lane*float64(len(p.Jobs))
	jobsTop := stripTop + float64(len(p.Ops))*stripRow + 18
	s := newScene(narrowWidth, jobsTop+float64(len(p.Jobs))*stripFoot+4, p.Title, p.Desc)
	p.key(&s.Root, stripMargin, 18)
	s.Root.Write(Text{X: stripMargin, Y: 44, Size: plotText, Bold: true, Role: Ink, Words: "Outside"})

	p.lanes(&s.Root, lanes, lane, jobsTop-12)
	deepest := float64(len(p.layers) - 1)
	indent := math.Min(stripIndent, 90/math.Max(1, deepest))
	room := lanes - stripMargin - 8 - indent*deepest
	perHour := math.Min(70, (room-36)/math.Max(p.most, 0.1))
	row := 0
	for l, ops := range p.layers {
		for _, op := range ops {
			y := stripTop + float64(row)*stripRow
			g := p.opGroup(&s.Root, op)
			x := stripMargin + indent*float64(l)
			if l > 0 {
				g.Draw(polyline(x-indent+2, y+2, x-indent+2, y+26, x-2, y+26), Style{Stroke: Faint, Width: 1})
			}
			g.writeOver(Text{X: x, Y: y + 14, Size: stripText, Role: Ink, Words: fit(p.Ops[op].Name, stripText, false, lanes-8-x)})
			p.bar(g, op, x, y+26, perHour)
			p.knots(g, op, lanes, lane, y+20)
			row++
		}
	}
	for k, job := range p.order {
		p.entry(&s.Root, job, k, jobsTop+float64(k)*stripFoot)
	}
	return s
}

// lanes draws the jobs' lanes under their numbers.
func (p *stripPlan) lanes(g *Group, left, pitch, bottom float64) {
	for k, job := range p.order {
		x := left + (float64(k)+0.5)*pitch
		l := g.Group("lane", p.Jobs[job].Name, Datum{"job", p.Jobs[job].Key})
		l.Draw(line(x, 48, x, bottom), Style{Stroke: Faint, Width: 1})
		l.Write(Text{X: x, Y: 44, Anchor: Middle, Size: stripText, Bold: true, Role: Ink, Words: strconv.Itoa(k + 1)})
	}
}

// knots marks the jobs that an operation serves; where there are several, a line ties them together.
func (p *stripPlan) knots(g *Group, op int, left, pitch, y float64) {
	role := Ink
	if len(p.serves[op]) > 1 {
		role = Proposed
	}
	first, last := math.Inf(1), math.Inf(-1)
	for k, job := range p.order {
		for _, served := range p.serves[op] {
			if served == job {
				x := left + (float64(k)+0.5)*pitch
				first, last = math.Min(first, x), math.Max(last, x)
				g.Draw(circle(x, y, math.Min(4, pitch/3)), Style{Fill: role})
			}
		}
	}
	if last > first {
		g.Draw(line(first, y, last, y), Style{Stroke: role, Width: 1.6})
	}
}

// entry writes a job under the number of its lane.
func (p *stripPlan) entry(g *Group, job, number1 int, y float64) {
	g = p.jobGroup(g, job)
	j := p.Jobs[job]
	const indent = 24
	const room = narrowWidth - 2*stripMargin - indent
	g.Draw(circle(stripMargin+balloonSize, y+10, balloonSize), Style{Fill: Paper, Stroke: Proposed, Width: firm})
	g.Write(Text{X: stripMargin + balloonSize, Y: y + 14, Anchor: Middle, Size: 11, Bold: true, Role: Ink, Words: strconv.Itoa(number1 + 1)})
	g.Write(Text{X: stripMargin + indent, Y: y + 14, Size: plotText + 0.5, Bold: true, Role: Ink, Words: fit(j.Name, plotText+0.5, true, room)})
	words := "work " + number(j.Work, 1) + " h, " + jobHours(j)
	g.Write(Text{X: stripMargin + indent, Y: y + 29, Size: stripText, Role: Quiet, Words: fit(words, stripText, false, room)})
}
