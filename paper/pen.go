package paper

import (
	"codeberg.org/go-pdf/fpdf"

	"layshaft/picture"
	"layshaft/picture/pdf"
)

// pen draws on the current page. Lengths are in mm, y points down.
type pen struct{ doc *fpdf.Fpdf }

// baseline is how far below the top of a line its letters stand, as a part of its height.
const baseline = 0.76

// line draws a line of words that begins at x with its top at y.
func (p *pen) line(l line, x, y float64) {
	base := y + l.leading()*baseline
	for _, r := range l.runs {
		p.words(r.span, x+r.x, base)
	}
}

// words draws words on their baseline.
func (p *pen) words(s span, x, y float64) {
	weight := ""
	if s.bold {
		weight = "B"
	}
	if size, _ := p.doc.GetFontSize(); size != s.size || p.doc.GetFontStyle() != weight {
		p.doc.SetFont(pdf.Family, weight, s.size)
	}
	c := s.role.Print()
	p.doc.SetTextColor(int(c.R), int(c.G), int(c.B))
	p.doc.Text(x, y, s.words)
}

// rule draws a straight line; weight is its width.
func (p *pen) rule(x1, y1, x2, y2 float64, role picture.Role, weight float64) {
	p.ink(role, weight)
	p.doc.Line(x1, y1, x2, y2)
}

func (p *pen) ink(role picture.Role, weight float64) {
	c := role.Print()
	p.doc.SetDrawColor(int(c.R), int(c.G), int(c.B))
	p.doc.SetLineWidth(weight)
}

func (p *pen) picture(scene *picture.Scene, x, y, width float64) {
	pdf.Draw(p.doc, scene, x, y, width)
}
