// Package pdf draws the scenes of package picture on the pages of a PDF document.
package pdf

import (
	"strings"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"layshaft/picture"
)

// Family is the typeface that pictures are set in; after AddFonts a document may use it too, plain and "B".
const Family = "go"

// AddFonts makes the typeface known to a document. Doing so twice does no harm.
func AddFonts(doc *fpdf.Fpdf) {
	doc.AddUTF8FontFromBytes(Family, "", goregular.TTF)
	doc.AddUTF8FontFromBytes(Family, "B", gobold.TTF)
}

// Height is how tall a scene comes out when it is drawn at a width.
func Height(s *picture.Scene, width float64) float64 { return s.Height * width / s.Width }

// Draw puts a scene on the current page with its upper left corner at x, y, as wide as asked, all in the document's
// unit, and returns its height. Colours, line width, dash and font are left as drawing needed them: set your own
// before going on.
func Draw(doc *fpdf.Fpdf, s *picture.Scene, x, y, width float64) float64 {
	AddFonts(doc)
	doc.SetLineJoinStyle("round")
	doc.SetLineCapStyle("butt")
	p := pen{doc, x, y, width / s.Width}
	p.items(s.Root.Items)
	doc.SetDashPattern(nil, 0)
	return Height(s, width)
}

// pen draws in scene units.
type pen struct {
	doc         *fpdf.Fpdf
	x, y, scale float64
}

func (p pen) at(q picture.Point) (float64, float64) {
	return p.x + q.X*p.scale, p.y + q.Y*p.scale
}

func (p pen) items(items []picture.Item) {
	for _, it := range items {
		switch it := it.(type) {
		case *picture.Group:
			p.items(it.Items)
		case picture.Shape:
			p.shape(it)
		case picture.Text:
			p.text(it)
		}
	}
}

func (p pen) shape(s picture.Shape) {
	how := p.style(s.Style)
	if how == "" {
		return
	}
	for _, step := range s.Path {
		switch step.Verb {
		case picture.MoveTo:
			p.doc.MoveTo(p.at(step.P[0]))
		case picture.LineTo:
			p.doc.LineTo(p.at(step.P[0]))
		case picture.CurveTo:
			x1, y1 := p.at(step.P[0])
			x2, y2 := p.at(step.P[1])
			x3, y3 := p.at(step.P[2])
			p.doc.CurveBezierCubicTo(x1, y1, x2, y2, x3, y3)
		case picture.Close:
			p.doc.ClosePath()
		}
	}
	p.doc.DrawPath(how)
	if s.Style.Opacity > 0 {
		p.doc.SetAlpha(1, "Normal")
	}
}

// style sets the document's pens and tells how to draw: filled, stroked or both ("" for neither).
func (p pen) style(s picture.Style) string {
	how := ""
	if s.Fill != "" {
		c := s.Fill.Print()
		p.doc.SetFillColor(int(c.R), int(c.G), int(c.B))
		how = "F"
	}
	if s.Stroke != "" {
		c := s.Stroke.Print()
		p.doc.SetDrawColor(int(c.R), int(c.G), int(c.B))
		p.doc.SetLineWidth(s.Width * p.scale)
		dash := make([]float64, len(s.Dash))
		for i, d := range s.Dash {
			dash[i] = d * p.scale
		}
		p.doc.SetDashPattern(dash, 0)
		how += "D"
	}
	if s.Opacity > 0 {
		p.doc.SetAlpha(s.Opacity, "Normal")
	}
	if s.Fill != "" {
		how += "*" // the even-odd rule
	}
	return how
}

func (p pen) text(t picture.Text) {
	weight := ""
	if t.Bold {
		weight = "B"
	}
	words := printable(t.Words)
	p.doc.SetFont(Family, weight, t.Size*p.scale*p.doc.GetConversionRatio())
	c := t.Role.Print()
	p.doc.SetTextColor(int(c.R), int(c.G), int(c.B))
	left := picture.Point{X: t.X, Y: t.Y}
	switch w := picture.TextWidth(words, t.Size, t.Bold); t.Anchor {
	case picture.Middle:
		left.X -= w / 2
	case picture.End:
		left.X -= w
	}
	x, y := p.at(left)
	p.doc.Text(x, y, words)
}

// printable replaces what the typeface cannot show, so that it is seen to be missing.
func printable(words string) string {
	return strings.Map(func(r rune) rune {
		if picture.HasGlyph(r) {
			return r
		}
		return '?'
	}, words)
}
