package paper

import "layshaft/picture"

// table is rows of cells under heads. One column takes the room that the others leave.
type table struct {
	columns []column
	rows    []row
}

// column is a column of a table; figures stand at its right edge so that their places line up.
type column struct {
	head   string
	right  bool
	spread bool    // takes the room that is left
	width  float64 // set by hand; 0 for what its words need
}

// row is one row; ruled draws a line above it.
type row struct {
	cells []span
	ruled bool
}

const (
	cellGap = 2.4 // between columns, mm
	rowGap  = 0.9 // of white in every row, mm
)

// blocks sets the table in rows that a page may part between.
func (t table) blocks(r *ruler, width float64, head style) []block {
	widths := t.widths(r, width, head)
	var heads []span
	for _, c := range t.columns {
		heads = append(heads, head.says(c.head))
	}
	top := t.row(r, widths, row{cells: heads})
	all := []block{stack(top, rule(width, picture.Ink, 0.3)).with()}
	for _, line := range t.rows {
		all = append(all, t.row(r, widths, line))
	}
	if n := len(all); n > 2 {
		all[n-2].stays = true // no row stands alone on the next page
	}
	return all
}

// row sets one row, as tall as its tallest cell.
func (t table) row(r *ruler, widths []float64, line row) block {
	var places []float64
	var cells []block
	x := 0.0
	for i, c := range line.cells {
		lines := r.wrap(widths[i], mostLines, c)
		if t.columns[i].right {
			for k := range lines {
				lines[k] = lines[k].right(widths[i])
			}
		}
		places, cells = append(places, x), append(cells, linesBlock(lines))
		x += widths[i] + cellGap
	}
	b := level(places, cells...)
	b.height += rowGap
	draw := b.draw
	b.draw = func(p *pen, left, y float64) {
		if line.ruled {
			p.rule(left, y, left+x-cellGap, y, picture.Faint, 0.2)
		}
		draw(p, left, y+rowGap/2)
	}
	return b
}

// widths gives every column what its words need, but none of them more than its fair share twice over, and the
// spread one the rest.
func (t table) widths(r *ruler, width float64, head style) []float64 {
	n := float64(len(t.columns))
	left := width - (n-1)*cellGap
	share := left / n
	widths := make([]float64, len(t.columns))
	spread := -1
	for i, c := range t.columns {
		switch {
		case c.spread:
			spread = i
			continue
		case c.width > 0:
			widths[i] = c.width
		default:
			widths[i] = min(t.natural(r, i, head), share*1.2)
		}
		left -= widths[i]
	}
	if spread >= 0 {
		widths[spread] = left
	}
	return widths
}

func (t table) natural(r *ruler, i int, head style) float64 {
	most := r.width(r.printable(t.columns[i].head), head)
	for _, line := range t.rows {
		most = max(most, r.width(r.printable(line.cells[i].words), line.cells[i].style))
	}
	return most + 0.01
}
