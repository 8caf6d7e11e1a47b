package picture

import "math"

// Worth sets how often parts were found worn against the chance above which renewing them now pays. All chances are
// between 0 and 1.
type Worth struct {
	Title, Desc string
	Rows        []WorthRow
}

// WorthRow is one further job.
type WorthRow struct {
	Name      string
	Found     string  // what the chance rests on: "worn in 7 of 10"
	BreakEven float64 // 1 or more where it never pays
	Chance    Range   // of need; not a number where there are no records
	Word      string
	Tone      Tone
}

// worthWordsRoom is the room for the words of a mark: above the bar, or below it where the name stands above.
const worthWordsRoom = 14.0

// Scene draws the bars.
func (w Worth) Scene(size Size) *Scene {
	f := newBarFrame(size, 250, 190)
	f.row += worthWordsRoom
	const top = barMargin
	bottom := top + float64(len(w.Rows))*f.row + 4
	s := newScene(f.width, bottom+gridFoot+worthKeyHeight, w.Title, w.Desc)
	g := &s.Root
	x := f.axis(100, 20)
	f.gridBelow(g, x, top, bottom, "Chance that it is needed", "%")
	for i, row := range w.Rows {
		bar := f.bar(top, i) + worthWordsRoom/2
		if f.stacked {
			bar -= 3 * worthWordsRoom / 2
		}
		w.row(g, f, x, row, bar)
	}
	worthKey(g, f.left, bottom+gridFoot+14)
	return s
}

func (w Worth) row(g *Group, f barFrame, x axis, row WorthRow, bar float64) {
	g = g.Group("worth", row.Name, Datum{"job", row.Name}, Datum{"break-even", plain(row.BreakEven)})
	f.name(g, bar, row.Name, row.Found, Ink)
	f.remark(g, bar, row.Word, row.Tone, "")
	if !drawable(row.BreakEven) {
		return
	}
	const half = barHeight/2 - 1
	mark := x.held(100 * row.BreakEven)
	g.Draw(shortOfAsked.lines(box(x.from, bar-half, mark, bar+half)), Style{Stroke: Bad, Width: 0.6, Opacity: 0.5})
	g.Draw(box(x.from, bar-half, x.to, bar+half), Style{Stroke: Faint, Width: thin})
	g.span(x, row.Chance.scaled(100), bar, Ink, hatchFine)
	g.Draw(line(mark, bar-half-3, mark, bar+half+3), Style{Stroke: Proposed, Width: 2.4})
	words := bar - half - 5
	if f.stacked {
		words = bar + half + 14
	}
	g.worthWords(x, mark, words, row.BreakEven)
}

// worthWords say beside a mark what it means.
func (g *Group) worthWords(x axis, mark, y, breakEven float64) {
	words := "pays above " + number(100*breakEven, 0) + " %"
	switch {
	case breakEven <= 0:
		words = "always pays"
	case breakEven >= 1:
		words = "never pays"
	case breakEven < 0.005:
		words = "pays above " + number(100*breakEven, 1) + " %"
	}
	width := TextWidth(words, plotText-1, false)
	left := math.Max(x.from, math.Min(x.to-width, mark-width/2))
	g.writeOver(Text{X: left, Y: y, Size: plotText - 1, Role: Quiet, Words: words})
}

const worthKeyHeight = 24.0

// worthKey explains the ground, the bar and the mark.
func worthKey(g *Group, left, y float64) {
	swatch := rect(left, y-11, 26, 13)
	g.Draw(shortOfAsked.lines(swatch), Style{Stroke: Bad, Width: 0.6, Opacity: 0.6})
	g.Draw(swatch, Style{Stroke: Faint, Width: thin})
	left = worthKeyWords(g, left+33, y, "does not pay")
	g.filled(rect(left, y-10, 26, 11), hatchFine, Paper, Ink)
	worthKeyWords(g, left+33, y, "found here, 80 % range")
}

// worthKeyWords writes one entry and tells where the next one begins.
func worthKeyWords(g *Group, left, y float64, words string) float64 {
	g.Write(Text{X: left, Y: y, Size: plotText - 1, Role: Quiet, Words: words})
	return left + TextWidth(words, plotText-1, false) + 22
}
