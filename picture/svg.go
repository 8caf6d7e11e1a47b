package picture

import (
	"bytes"
	"encoding/xml"
	"strconv"
	"strings"
)

// SVG is the scene as a file that stands alone: with its own style sheet and its own paper.
func (s *Scene) SVG() []byte { return s.svg(true) }

// Inline is the scene as an element for a page that carries StyleSheet once. It has no style or script of its own,
// so it can stand in a page under a strict content security policy, and shows the page's own background.
func (s *Scene) Inline() []byte { return s.svg(false) }

func (s *Scene) svg(alone bool) []byte {
	w := &svgWriter{}
	w.raw(`<svg xmlns="http://www.w3.org/2000/svg" class="picture" role="img"`)
	w.number("width", s.Width)
	w.number("height", s.Height)
	w.raw(` viewBox="0 0 ` + decimal(s.Width) + " " + decimal(s.Height) + `">`)
	w.element("title", s.Title)
	w.element("desc", s.Desc)
	if alone {
		w.element("style", StyleSheet())
		w.shape(Shape{rect(0, 0, s.Width, s.Height), Style{Fill: Paper}})
	}
	w.items(s.Root.Items)
	w.raw("</svg>\n")
	return w.buf.Bytes()
}

type svgWriter struct{ buf bytes.Buffer }

func (w *svgWriter) raw(s string) { w.buf.WriteString(s) }

// escaped writes text so that it can be neither mark-up nor leave its quotes.
func (w *svgWriter) escaped(s string) { _ = xml.EscapeText(&w.buf, []byte(s)) } // a bytes.Buffer does not fail

func (w *svgWriter) attribute(key, value string) {
	if value == "" {
		return
	}
	w.raw(" " + key + `="`)
	w.escaped(value)
	w.raw(`"`)
}

func (w *svgWriter) number(key string, v float64) { w.attribute(key, decimal(v)) }

func (w *svgWriter) element(name, text string) {
	if text == "" {
		return
	}
	w.raw("<" + name + ">")
	w.escaped(text)
	w.raw("</" + name + ">\n")
}

func (w *svgWriter) items(items []Item) {
	for _, it := range items {
		switch it := it.(type) {
		case *Group:
			w.group(it)
		case Shape:
			w.shape(it)
		case Text:
			w.text(it)
		}
	}
}

func (w *svgWriter) group(g *Group) {
	w.raw("<g")
	w.attribute("id", g.ID)
	w.attribute("class", g.Class)
	for _, d := range g.Data {
		w.attribute("data-"+d.Key, d.Value)
	}
	w.raw(">\n")
	w.element("title", g.Title)
	w.items(g.Items)
	w.raw("</g>\n")
}

func (w *svgWriter) shape(s Shape) {
	w.raw("<path")
	w.attribute("class", classes(s.Style))
	if s.Style.Stroke != "" {
		w.number("stroke-width", s.Style.Width)
		w.attribute("stroke-dasharray", dashes(s.Style.Dash))
	}
	if s.Style.Opacity > 0 {
		w.number("opacity", s.Style.Opacity)
	}
	w.raw(` d="`)
	w.path(s.Path)
	w.raw("\"/>\n")
}

func classes(s Style) string {
	c := ""
	if s.Fill != "" {
		c = "f-" + string(s.Fill)
	}
	if s.Stroke != "" {
		if c != "" {
			c += " "
		}
		c += "s-" + string(s.Stroke)
	}
	return c
}

func dashes(dash []float64) string {
	out := ""
	for i, d := range dash {
		if i > 0 {
			out += " "
		}
		out += decimal(d)
	}
	return out
}

func (w *svgWriter) path(p Path) {
	for _, s := range p {
		switch s.Verb {
		case MoveTo:
			w.points("M", s.P[:1])
		case LineTo:
			w.points("L", s.P[:1])
		case CurveTo:
			w.points("C", s.P[:])
		case Close:
			w.raw("Z")
		}
	}
}

func (w *svgWriter) points(verb string, ps []Point) {
	w.raw(verb)
	for i, p := range ps {
		if i > 0 {
			w.raw(" ")
		}
		w.raw(trimmed(p.X, 1) + " " + trimmed(p.Y, 1)) // a tenth of a unit, which no eye can tell from the exact place
	}
}

func (w *svgWriter) text(t Text) {
	w.raw("<text")
	w.attribute("class", "f-"+string(t.Role))
	w.number("x", t.X)
	w.number("y", t.Y)
	w.number("font-size", t.Size)
	if t.Bold {
		w.attribute("font-weight", "700")
	}
	switch t.Anchor {
	case Middle:
		w.attribute("text-anchor", "middle")
	case End:
		w.attribute("text-anchor", "end")
	}
	w.raw(">")
	w.escaped(t.Words)
	w.raw("</text>\n")
}

// decimal prints a measure to a hundredth.
func decimal(v float64) string { return trimmed(v, 2) }

// trimmed prints a number to at most so many places, without noughts at its end.
func trimmed(v float64, places int) string {
	s := strconv.FormatFloat(v, 'f', places, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}
