package picture

import (
	"cmp"
	"slices"
)

// Sensitivity shows which of the figures that are only roughly known make the answer doubtful, the worst first: that
// is the one to measure first.
type Sensitivity struct {
	Title, Desc string
	Rows        []SensitivityRow
}

// SensitivityRow is one roughly known figure.
type SensitivityRow struct {
	Name  string
	Now   string  // how it is known now, with its unit
	First float64 // share of the answer's variance that it makes by itself, 0 to 1
	Total float64 // and together with others
}

// Scene draws the bars.
func (v Sensitivity) Scene(size Size) *Scene {
	f := newBarFrame(size, 240, 150)
	const top = 34
	bottom := top + float64(len(v.Rows))*f.row + 4
	s := newScene(f.width, bottom+gridFoot, v.Title, v.Desc)
	g := &s.Root
	x := f.axis(100, 20)
	sensitivityKey(g, f)
	f.gridBelow(g, x, top, bottom, "Share of the doubt", "%")
	rows := slices.Clone(v.Rows)
	slices.SortStableFunc(rows, func(a, b SensitivityRow) int { return cmp.Compare(length(b.Total), length(a.Total)) })
	for i, row := range rows {
		v.row(g, f, x, row, f.bar(top, i), i == 0 && length(row.Total) > 0)
	}
	return s
}

func (v Sensitivity) row(g *Group, f barFrame, x axis, row SensitivityRow, bar float64, first bool) {
	g = g.Group("known", row.Name, Datum{"known", row.Name}, Datum{"first", plain(row.First)}, Datum{"total", plain(row.Total)})
	f.name(g, bar, row.Name, row.Now, Ink)
	word := ""
	if first {
		word = "measure this first"
	}
	f.remark(g, bar, word, Plain, "")
	total := x.held(100 * length(row.Total))
	alone := x.held(100 * length(row.First))
	const half = barHeight/2 - 1
	if total > x.from {
		g.filled(box(x.from, bar-half, total, bar+half), hatchOther, Paper, Ink)
	}
	if alone > x.from {
		g.filled(box(x.from, bar-half, alone, bar+half), hatch{angle: -45, spacing: 3}, Band, Proposed)
	}
	words := "not known"
	if drawable(row.Total) {
		words = number(100*row.Total, 0) + " %"
	}
	t := Text{X: max(total, alone) + 7, Y: bar + 4, Size: plotText, Bold: first, Role: Ink, Words: words}
	if t.X+TextWidth(words, plotText, first) > f.width-f.right {
		t.X, t.Anchor = max(total, alone)-6, End
	}
	g.writeOver(t)
}

func sensitivityKey(g *Group, f barFrame) {
	x := f.left
	for _, k := range []struct {
		words        string
		h            hatch
		fill, stroke Role
	}{
		{"by itself", hatch{angle: -45, spacing: 3}, Band, Proposed},
		{"with others", hatchOther, Paper, Ink},
	} {
		g.filled(rect(x, 8, 26, 13), k.h, k.fill, k.stroke)
		g.Write(Text{X: x + 33, Y: 19, Size: plotText - 1, Role: Quiet, Words: k.words})
		x += 33 + TextWidth(k.words, plotText-1, false) + 22
	}
}
