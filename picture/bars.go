package picture

import "math"

// barFrame is the common arrangement of the pictures made of level bars: wide, the names stand to the left of the
// bars and a remark to the right; narrow, both stand above.
type barFrame struct {
	width, left, right float64
	row                float64 // height of one bar with its name
	stacked            bool
}

const (
	barWidth  = 1000.0
	barMargin = 12.0
	barHeight = 18.0
)

func newBarFrame(size Size, left, right float64) barFrame {
	if size == Narrow {
		return barFrame{narrowWidth, barMargin, barMargin, 64, true}
	}
	return barFrame{barWidth, left, right, 40, false}
}

// axis covers 0 to the greatest value. On the right it leaves room for half of its last number.
func (f barFrame) axis(most float64, room float64) axis {
	steps := 10
	if f.stacked {
		steps = 5
	}
	return newAxis(0, most, steps, f.left, f.width-f.right-room)
}

// bar is the middle of the bar of row i, below top.
func (f barFrame) bar(top float64, i int) float64 {
	y := top + float64(i)*f.row
	if f.stacked {
		return y + f.row - 19
	}
	return y + f.row/2
}

// name writes what a bar is, with a quieter second line.
func (f barFrame) name(g *Group, bar float64, name, more string, role Role) {
	if f.stacked {
		words := fit(name, plotText, true, (f.width-2*barMargin)*0.62)
		g.writeOver(Text{X: f.left, Y: bar - 33, Size: plotText, Bold: true, Role: role, Words: words})
		g.writeOver(Text{X: f.left, Y: bar - 19, Size: plotText - 1, Role: Quiet, Words: fit(more, plotText-1, false, f.width-2*barMargin)})
		return
	}
	room := f.left - barMargin - 10
	y := bar + 4
	if more != "" {
		y = bar - 3
	}
	g.Write(Text{X: barMargin, Y: y, Size: plotText, Bold: true, Role: role, Words: fit(name, plotText, true, room)})
	g.Write(Text{X: barMargin, Y: y + 14, Size: plotText - 1, Role: Quiet, Words: fit(more, plotText-1, false, room)})
}

// remark writes a verdict and figures beside a bar: to its right, or above it on the right.
func (f barFrame) remark(g *Group, bar float64, word string, t Tone, figures string) {
	if f.stacked {
		word = fit(word, plotText, true, (f.width-2*barMargin)*0.32)
		g.writeWord(word, t, f.width-barMargin-wordWidth(word, t, plotText), bar-33, plotText, f.width)
		return
	}
	x, room := f.width-f.right+14, f.right-14-barMargin
	y := bar + 4
	if word != "" && figures != "" {
		y = bar - 3
	}
	if word != "" {
		g.writeWord(word, t, x, y, plotText, room)
		y += 14
	}
	g.Write(Text{X: x, Y: y, Size: plotText - 1, Role: Quiet, Words: fit(figures, plotText-1, false, room)})
}

// gridBelow draws an axis' lines from top to bottom with its numbers and name below.
func (f barFrame) gridBelow(g *Group, x axis, top, bottom float64, name, unit string) {
	var lines Path
	for _, v := range x.ticks() {
		lines = append(lines, line(x.at(v), top, x.at(v), bottom)...)
		g.Write(Text{X: x.at(v), Y: bottom + 15, Anchor: Middle, Size: plotText - 1, Role: Quiet, Words: x.tickText(v)})
	}
	g.Draw(lines, Style{Stroke: Faint, Width: 0.5})
	g.Draw(line(x.from, bottom, x.to, bottom), Style{Stroke: Ink, Width: 1})
	g.Write(Text{X: x.from, Y: bottom + 33, Size: plotText, Bold: true, Role: Ink, Words: name})
	g.Write(Text{X: x.from + TextWidth(name, plotText, true) + 7, Y: bottom + 33, Size: plotText, Role: Quiet, Words: unit})
}

const gridFoot = 44.0 // room that gridBelow needs

// filled draws a bar with its hatching, or nothing where its length is not known.
func (g *Group) filled(area Path, h hatch, fill, stroke Role) {
	if !area.drawable() {
		return
	}
	g.Draw(area, Style{Fill: fill})
	g.Draw(h.lines(area), Style{Stroke: stroke, Width: 0.8, Opacity: 0.7})
	g.Draw(area, Style{Stroke: stroke, Width: firm})
}

// length is a value as a bar can show it: nothing below zero, and nothing where it is not known.
func length(v float64) float64 {
	if !drawable(v) {
		return 0
	}
	return math.Max(0, v)
}
