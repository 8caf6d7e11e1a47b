// Package picture draws the shop's pictures once, as scenes of a few primitives in a neutral unit, so that a page
// (SVG) and a sheet of paper (PDF, package picture/pdf) show the same thing: the load path from pedal to tyre, the
// pedal map, the hold bars, where the pedal travel goes, the car coming apart, and what is worth measuring first.
//
// It knows nothing of cars, jobs or money beyond what its plain input structs carry: numbers arrive in the unit they
// are shown in, words arrive as they are to be read. Meaning never rests on colour alone: every verdict is a word
// with a mark of its own shape, every curve has its own dash, every area its own hatching.
package picture

import "math"

// Size chooses between the arrangement for a desk and the one for a phone.
type Size int

const (
	// Wide is the arrangement for a desk screen or a sheet of paper.
	Wide Size = iota
	// Narrow is stacked for a phone.
	Narrow
)

// Scene is a finished picture. One unit is one CSS pixel on a page at its natural size; y points down.
type Scene struct {
	Width, Height float64
	Title         string // read out as the picture's name
	Desc          string // read out as what the picture shows
	Root          Group
}

// newScene begins an empty picture.
func newScene(width, height float64, title, desc string) *Scene {
	return &Scene{Width: width, Height: height, Title: title, Desc: desc}
}

// Item is what a group holds: a *Group, a Shape or a Text.
type Item interface{ item() }

func (*Group) item() {}
func (Shape) item()  {}
func (Text) item()   {}

// Group gathers items under one name, so that a page can find, explain and highlight them.
type Group struct {
	Class, ID string
	Title     string // shown by a page when the pointer rests on the group
	Data      []Datum
	Items     []Item
}

// Datum is one data-* attribute: Key without the prefix.
type Datum struct{ Key, Value string }

// Group opens a group inside g.
func (g *Group) Group(class, title string, data ...Datum) *Group {
	inner := &Group{Class: class, Title: title, Data: data}
	g.Items = append(g.Items, inner)
	return inner
}

// Draw adds an outline with its style. A path with a coordinate that is not a finite number draws nothing.
func (g *Group) Draw(p Path, s Style) {
	if len(p) == 0 || !p.drawable() {
		return
	}
	g.Items = append(g.Items, Shape{p, s})
}

// Write adds a line of text, unless it is empty or stands nowhere.
func (g *Group) Write(t Text) {
	if t.Words == "" || !drawable(t.X, t.Y, t.Size) {
		return
	}
	g.Items = append(g.Items, t)
}

// Shape is an outline and how it is drawn.
type Shape struct {
	Path  Path
	Style Style
}

// Style tells how an outline is filled and stroked. A zero role is not drawn.
type Style struct {
	Fill, Stroke Role
	Width        float64   // of the stroke
	Dash         []float64 // lengths drawn and left out in turn; nil is a solid line
	Opacity      float64   // of fill and stroke, 0 meaning 1
}

// Anchor says which point of a text X is.
type Anchor int

const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of words; Y is its baseline.
type Text struct {
	X, Y   float64
	Anchor Anchor
	Size   float64
	Bold   bool
	Role   Role
	Words  string
}

// Bounds is the box that the words fill.
func (t Text) Bounds() Rect {
	w := TextWidth(t.Words, t.Size, t.Bold)
	x := t.X
	switch t.Anchor {
	case Middle:
		x -= w / 2
	case End:
		x -= w
	}
	return Rect{x, t.Y - ascent*t.Size, w, (ascent + descent) * t.Size}
}

// farthest is beyond every coordinate and every figure that a picture can show: what is greater is not known.
const farthest = 1e5

// drawable reports whether all values are numbers that can be shown.
func drawable(vs ...float64) bool {
	for _, v := range vs {
		if math.IsNaN(v) || math.Abs(v) > farthest {
			return false
		}
	}
	return true
}
