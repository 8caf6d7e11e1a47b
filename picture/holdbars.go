package picture

import "math"

// HoldBars sets what each clutch can carry against what is asked of it. All torques are in N m.
type HoldBars struct {
	Title, Desc string
	Peak        Range   // the engine's peak torque
	Factor      float64 // service factor
	Use         string  // what the factor is for: road, track, drag
	Rows        []HoldRow
}

// Range is a middle figure with the bounds that it lies between nine times in ten.
type Range struct{ Low, Mid, High float64 }

// scaled multiplies all three.
func (r Range) scaled(k float64) Range { return Range{r.Low * k, r.Mid * k, r.High * k} }

func (r Range) text(decimals int, unit string) string {
	mid := number(r.Mid, decimals) + " " + unit
	if !drawable(r.Low, r.High) || r.Low >= r.High {
		return mid
	}
	return mid + " (" + number(r.Low, decimals) + " to " + number(r.High, decimals) + ")"
}

// HoldRow is one clutch.
type HoldRow struct {
	Name     string
	Series   Series
	Capacity Range
	Word     string
	Tone     Tone
}

// Scene draws the bars.
func (h HoldBars) Scene(size Size) *Scene {
	f := newBarFrame(size, 210, 210)
	asked := h.Peak.scaled(h.Factor)
	const top = barMargin
	bottom := top + float64(len(h.Rows)+2)*f.row + 6
	s := newScene(f.width, bottom+gridFoot, h.Title, h.Desc)
	g := &s.Root
	x := f.axis(h.most(asked), 20)

	h.askedColumn(g, x, asked, top, bottom)
	f.gridBelow(g, x, top, bottom, "Torque", "N m")
	lessThanAsked(g, x.from+96, bottom+33)
	f.name(g, f.bar(top, 0), "Engine's peak", h.figures(f, h.Peak), Ink)
	f.remark(g, f.bar(top, 0), "", Plain, f.beside(h.Peak))
	g.span(x, h.Peak, f.bar(top, 0), Ink, hatchFine)
	f.name(g, f.bar(top, 1), "Asked of the clutch", h.figures(f, asked), Ink)
	f.remark(g, f.bar(top, 1), "", Plain, f.beside(asked))
	g.span(x, asked, f.bar(top, 1), Ink, hatchFine)
	h.factor(g, x, asked, f.bar(top, 0), f.bar(top, 1))
	for i, row := range h.Rows {
		bar := f.bar(top, i+2)
		r := g.Group("candidate", row.Name, Datum{"clutch", row.Name})
		f.name(r, bar, row.Name, h.figures(f, row.Capacity), row.Series.line().Stroke)
		f.remark(r, bar, row.Word, row.Tone, f.beside(row.Capacity))
		r.span(x, row.Capacity, bar, row.Series.line().Stroke, row.Series.hatch())
	}
	return s
}

// figures are written under a name where there is no room beside the bars.
func (h HoldBars) figures(f barFrame, r Range) string {
	if f.stacked {
		return r.text(0, "N m")
	}
	return ""
}

func (f barFrame) beside(r Range) string {
	if f.stacked {
		return ""
	}
	return r.text(0, "N m")
}

func (h HoldBars) most(asked Range) float64 {
	most := 0.0
	for _, r := range append([]Range{h.Peak, asked}, h.capacities()...) {
		most = math.Max(most, math.Max(length(r.High), length(r.Mid)))
	}
	return most
}

func (h HoldBars) capacities() []Range {
	var all []Range
	for _, r := range h.Rows {
		all = append(all, r.Capacity)
	}
	return all
}

var shortOfAsked = hatch{angle: -45, spacing: 9}

// askedColumn runs what is asked down through all the rows: what ends left of it slips.
func (h HoldBars) askedColumn(g *Group, x axis, asked Range, top, bottom float64) {
	if !drawable(asked.Low, asked.Mid, asked.High) {
		return
	}
	g.Draw(box(x.held(asked.Low), top, x.held(asked.High), bottom), Style{Fill: Band})
	g.Draw(shortOfAsked.lines(box(x.from, top, x.held(asked.Low), bottom)), Style{Stroke: Bad, Width: 0.5, Opacity: 0.35})
	g.Draw(line(x.held(asked.Mid), top, x.held(asked.Mid), bottom), Style{Stroke: Ink, Width: 1, Dash: dashCentre})
}

// lessThanAsked explains the hatched ground.
func lessThanAsked(g *Group, left, y float64) {
	swatch := rect(left, y-10, 26, 12)
	g.Draw(shortOfAsked.lines(swatch), Style{Stroke: Bad, Width: 0.6, Opacity: 0.6})
	g.Draw(swatch, Style{Stroke: Faint, Width: thin})
	g.Write(Text{X: left + 33, Y: y, Size: plotText - 1, Role: Quiet, Words: "less than is asked"})
}

// factor leads from the engine's peak to what is asked.
func (h HoldBars) factor(g *Group, x axis, asked Range, y1, y2 float64) {
	if !drawable(h.Peak.Mid, asked.Mid, h.Factor) {
		return
	}
	from, to := x.held(h.Peak.Mid), x.held(asked.Mid)
	g.Draw(polyline(from, y1+9, from, y2), Style{Stroke: Quiet, Width: thin})
	if to-from > 12 {
		g.Draw(line(from, y2, to-7, y2), Style{Stroke: Quiet, Width: thin})
		g.arrowTo(Point{from, y2}, Point{to - 7, y2}, Quiet)
	}
	words := fit("× "+number(h.Factor, 2)+" "+h.Use, plotText-1, false, 150)
	w := TextWidth(words, plotText-1, false)
	g.writeOver(Text{X: math.Max(x.from+4, from-w-8), Y: y2 + 4, Size: plotText - 1, Role: Ink, Words: words})
}

// span draws a range as a hatched bar with its middle marked.
func (g *Group) span(x axis, r Range, y float64, role Role, h hatch) {
	if drawable(r.Low, r.High) && r.High > r.Low {
		const half = barHeight/2 - 3
		a, b := x.held(r.Low), x.held(r.High)
		g.filled(box(a, y-half, b, y+half), h, Paper, role)
	}
	if drawable(r.Mid) {
		m := x.held(r.Mid)
		g.Draw(polygon(m-6, y, m, y-9, m+6, y, m, y+9), Style{Fill: role})
	}
}
