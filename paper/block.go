package paper

import (
	"layshaft/picture"
	"layshaft/picture/pdf"
)

// block is a piece of a page that is not parted: a paragraph, a row of a table, a picture.
type block struct {
	height float64
	first  float64 // height of the first line
	before float64 // white above, unless the block begins a page
	stays  bool    // on the page of the block that follows
	draw   func(p *pen, x, y float64)
}

// under sets the white above a block.
func (b block) under(white float64) block { b.before = white; return b }

// with keeps a block on the page of the one that follows.
func (b block) with() block { b.stays = true; return b }

// inset moves a block to the right.
func (b block) inset(by float64) block {
	draw := b.draw
	b.draw = func(p *pen, x, y float64) { draw(p, x+by, y) }
	return b
}

// stack sets blocks below one another as one.
func stack(blocks ...block) block {
	if len(blocks) == 0 {
		return gap(0)
	}
	all := block{before: blocks[0].before}
	tops := make([]float64, len(blocks))
	for i, b := range blocks {
		if i > 0 {
			all.height += b.before
		}
		tops[i] = all.height
		all.height += b.height
	}
	all.draw = func(p *pen, x, y float64) {
		for i, b := range blocks {
			b.draw(p, x, y+tops[i])
		}
	}
	return all
}

// beside sets blocks side by side as one, each at its place from the left.
func beside(places []float64, blocks ...block) block {
	all := block{}
	for _, b := range blocks {
		all.height = max(all.height, b.height)
	}
	all.draw = func(p *pen, x, y float64) {
		for i, b := range blocks {
			b.draw(p, x+places[i], y)
		}
	}
	return all
}

// level sets paragraphs side by side, their first lines on one baseline.
func level(places []float64, paragraphs ...block) block {
	all := block{}
	for _, b := range paragraphs {
		all.first = max(all.first, b.first)
	}
	lowered := func(b block) float64 { return (all.first - b.first) * baseline }
	for _, b := range paragraphs {
		all.height = max(all.height, lowered(b)+b.height)
	}
	all.draw = func(p *pen, x, y float64) {
		for i, b := range paragraphs {
			b.draw(p, x+places[i], y+lowered(b))
		}
	}
	return all
}

// gap is white.
func gap(height float64) block { return block{height: height, draw: func(*pen, float64, float64) {}} }

// rule is a line across.
func rule(width float64, role picture.Role, weight float64) block {
	return block{height: weight, draw: func(p *pen, x, y float64) { p.rule(x, y, x+width, y, role, weight) }}
}

// drawing is a picture as wide as asked, or less where it would be too tall.
func drawing(scene *picture.Scene, width, tallest float64) block {
	if h := pdf.Height(scene, width); h > tallest {
		width *= tallest / h
	}
	return block{height: pdf.Height(scene, width), draw: func(p *pen, x, y float64) { p.picture(scene, x, y, width) }}
}

// paragraph sets spans in lines.
func (r *ruler) paragraph(width float64, spans ...span) block {
	return r.paragraphOf(width, mostLines, spans...)
}

// paragraphOf is a paragraph of no more than most lines.
func (r *ruler) paragraphOf(width float64, most int, spans ...span) block {
	return linesBlock(r.wrap(width, most, spans...))
}

// oneLine sets spans in a single line, shortened where they must be.
func (r *ruler) oneLine(width float64, spans ...span) block {
	return r.paragraphOf(width, 1, spans...)
}

// toRight is a single line that ends at width.
func (r *ruler) toRight(width float64, spans ...span) block {
	lines := r.wrap(width, 1, spans...)
	for i := range lines {
		lines[i] = lines[i].right(width)
	}
	return linesBlock(lines)
}

func linesBlock(lines []line) block {
	b := block{}
	tops := make([]float64, len(lines))
	for i, l := range lines {
		tops[i] = b.height
		b.height += l.leading()
	}
	if len(lines) > 0 {
		b.first = lines[0].leading()
	}
	b.draw = func(p *pen, x, y float64) {
		for i, l := range lines {
			p.line(l, x, y+tops[i])
		}
	}
	return b
}

// right moves a line's runs so that it ends at width.
func (l line) right(width float64) line {
	for i := range l.runs {
		l.runs[i].x += width - l.width
	}
	return l
}

// leading is the height of a line: that of its largest words.
func (l line) leading() float64 {
	most := 0.0
	for _, r := range l.runs {
		most = max(most, r.leading())
	}
	return most
}

// marked is a paragraph with a mark that hangs at its left.
func (r *ruler) marked(width float64, mark span, spans ...span) block {
	hang := r.width(mark.words, mark.style) + 1.2
	mark.tied = false
	sign := linesBlock(r.wrap(width, 1, mark))
	return beside([]float64{0, hang}, sign, r.paragraph(width-hang, spans...))
}
