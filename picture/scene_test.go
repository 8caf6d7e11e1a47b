package picture

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strings"
	"testing"
)

// samples are all pictures in both sizes, in every form that changes their arrangement.
func samples() map[string]*Scene {
	all := map[string]*Scene{}
	add := func(name string, draw func(Size) *Scene) {
		all[name+", wide"] = draw(Wide)
		all[name+", narrow"] = draw(Narrow)
	}
	for _, l := range Layouts {
		for discs := 1; discs <= 3; discs++ {
			for _, concentric := range []bool{false, true} {
				add(fmt.Sprintf("load path %s, %d discs, concentric %v", l, discs, concentric), sampleLoadPath(l, discs, concentric).Scene)
			}
		}
	}
	add("pedal map", samplePedalMap(false).Scene)
	add("pedal map that snaps through", samplePedalMap(true).Scene)
	add("hold bars", sampleHoldBars().Scene)
	add("travel bars", sampleTravelBars().Scene)
	add("sensitivity", sampleSensitivity().Scene)
	add("strip", sampleStrip().Scene)
	add("front", sampleFront().Scene)
	add("worth", sampleWorth().Scene)
	return all
}

// empties are pictures of nothing.
func empties() map[string]*Scene {
	all := map[string]*Scene{}
	for _, size := range []Size{Wide, Narrow} {
		all[fmt.Sprint("load path ", size)] = LoadPath{Layout: MidTransaxle, Discs: 1}.Scene(size)
		all[fmt.Sprint("pedal map ", size)] = PedalMap{}.Scene(size)
		all[fmt.Sprint("hold bars ", size)] = HoldBars{}.Scene(size)
		all[fmt.Sprint("travel bars ", size)] = TravelBars{}.Scene(size)
		all[fmt.Sprint("sensitivity ", size)] = Sensitivity{}.Scene(size)
		all[fmt.Sprint("strip ", size)] = Strip{}.Scene(size)
		all[fmt.Sprint("front ", size)] = Front{}.Scene(size)
		all[fmt.Sprint("worth ", size)] = Worth{}.Scene(size)
	}
	return all
}

func wellFormed(t *testing.T, name string, svg []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		_, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
	}
}

// texts are all lines of words in a scene.
func texts(items []Item) []Text {
	var all []Text
	for _, it := range items {
		switch it := it.(type) {
		case *Group:
			all = append(all, texts(it.Items)...)
		case Text:
			all = append(all, it)
		}
	}
	return all
}

// checkText fails where words leave the scene or run into each other.
func checkText(t interface {
	Helper()
	Errorf(string, ...any)
}, name string, s *Scene) {
	t.Helper()
	all := texts(s.Root.Items)
	paper := Rect{0, 0, s.Width, s.Height}
	bounds := make([]Rect, len(all))
	for i, a := range all {
		bounds[i] = a.Bounds()
		if !bounds[i].Inside(paper) {
			t.Errorf("%s: %q leaves the picture: %+v in %+v", name, a.Words, bounds[i], paper)
		}
		for j, b := range bounds[:i] {
			if bounds[i].Overlaps(b) {
				t.Errorf("%s: %q runs into %q: %+v, %+v", name, a.Words, all[j].Words, bounds[i], b)
			}
		}
	}
}

func TestEveryPictureIsWellFormedAndNamed(t *testing.T) {
	for name, s := range samples() {
		for _, svg := range [][]byte{s.SVG(), s.Inline()} {
			wellFormed(t, name, svg)
			if !bytes.Contains(svg, []byte(`role="img"`)) || !bytes.Contains(svg, []byte("<title>"+s.Title+"</title>\n<desc>")) {
				t.Errorf("%s: no role, title or description", name)
			}
			if bytes.Contains(svg, []byte("<script")) {
				t.Errorf("%s: has a script", name)
			}
		}
	}
	for name, s := range empties() {
		wellFormed(t, "empty "+name, s.SVG())
	}
}

func TestOnlyTheFileThatStandsAloneBringsItsStyles(t *testing.T) {
	s := sampleHoldBars().Scene(Wide)
	if !bytes.Contains(s.SVG(), []byte("<style>")) {
		t.Error("the file has no style sheet")
	}
	if in := s.Inline(); bytes.Contains(in, []byte("<style")) || bytes.Contains(in, []byte(" style=")) {
		t.Error("the inline picture carries styles, which a strict page refuses")
	}
}

func TestWordsNeverOverlapNorLeaveThePicture(t *testing.T) {
	for name, s := range samples() {
		checkText(t, name, s)
	}
}

func TestDrawingsStayInsideThePicture(t *testing.T) {
	for name, s := range samples() {
		var walk func([]Item)
		walk = func(items []Item) {
			for _, it := range items {
				switch it := it.(type) {
				case *Group:
					walk(it.Items)
				case Shape:
					for _, outline := range it.Path.flatten() {
						for _, p := range outline {
							if p.X < -0.5 || p.Y < -0.5 || p.X > s.Width+0.5 || p.Y > s.Height+0.5 {
								t.Fatalf("%s: a %+v reaches %+v", name, it.Style, p)
							}
						}
					}
				}
			}
		}
		walk(s.Root.Items)
	}
}

// hostile are names that try to leave their place.
var hostile = []string{
	`</text><script>alert(1)</script>`, `"><rect onload="x`, `]]>&amp;<![CDATA[`, "two\nlines\ttab \x00 \x1b \ufffe",
	"\u202eright to left", "🔧🔩🛞 齿轮箱总成", strings.Repeat("Long", 80), strings.Repeat("many words ", 60), "", " ", "'--'",
}

func TestHostileNamesStayWords(t *testing.T) {
	for _, name := range hostile {
		for _, size := range []Size{Wide, Narrow} {
			for what, s := range renamed(name, size) {
				svg := s.SVG()
				wellFormed(t, what+" "+name, svg)
				if bytes.Contains(svg, []byte("<script")) || bytes.Contains(svg, []byte("<rect")) {
					t.Errorf("%s: %q became an element", what, name)
				}
				checkText(t, what, s)
			}
		}
	}
}

// renamed draws every picture with all its names replaced.
func renamed(name string, size Size) map[string]*Scene {
	l := sampleLoadPath(LongitudinalFour, 3, false)
	l.Title, l.Desc = name, name
	for i := range l.Parts {
		l.Parts[i].Name, l.Parts[i].Word = name, name
		l.Parts[i].Numbers = []string{name, name, name, name}
	}
	m := samplePedalMap(true)
	m.Title = name
	for i := range m.Curves {
		m.Curves[i].Name = name
	}
	h := sampleHoldBars()
	h.Use = name
	for i := range h.Rows {
		h.Rows[i].Name, h.Rows[i].Word = name, name
	}
	b := sampleTravelBars()
	for i := range b.Rows {
		b.Rows[i].Name = name
		for j := range b.Rows[i].Parts {
			b.Rows[i].Parts[j].Name = fmt.Sprint(name, j)
		}
	}
	v := sampleSensitivity()
	for i := range v.Rows {
		v.Rows[i].Name, v.Rows[i].Now = name, name
	}
	f := sampleFront()
	f.Title = name
	for i := range f.Choices {
		f.Choices[i].Words = name
	}
	p := sampleStrip()
	for i := range p.Ops {
		p.Ops[i].Name, p.Ops[i].Key = name, name
	}
	for i := range p.Jobs {
		p.Jobs[i].Name, p.Jobs[i].Key = name, name
	}
	return map[string]*Scene{
		"load path": l.Scene(size), "pedal map": m.Scene(size), "hold bars": h.Scene(size),
		"travel bars": b.Scene(size), "sensitivity": v.Scene(size), "strip": p.Scene(size),
		"front": f.Scene(size),
	}
}

func TestFiguresThatAreNoNumbersAreNeverShown(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 99999, 1e300, -1e300} {
		for _, size := range []Size{Wide, Narrow} {
			for what, s := range withFigure(bad, size) {
				svg := string(s.SVG())
				wellFormed(t, what, []byte(svg))
				for _, word := range []string{"NaN", "Inf"} {
					if strings.Contains(svg, word) {
						t.Errorf("%s with %v shows %s", what, bad, word)
					}
				}
				checkText(t, fmt.Sprint(what, " with ", bad), s)
			}
		}
	}
}

// withFigure draws every picture with one figure in many places.
func withFigure(v float64, size Size) map[string]*Scene {
	m := samplePedalMap(true)
	m.Bite, m.Window = Span{v, v}, Span{v, 140}
	m.Stop, m.FullPedal, m.Freed, m.OverTravel = v, v, v, v
	m.Curves[0].Points[3] = MapPoint{v, v, v, v, true}
	m.Curves[0].Low[7] = MapPoint{v, v, v, v, false}
	for i := range m.Curves[1].Points {
		m.Curves[1].Points[i].Finger = v
	}
	h := sampleHoldBars()
	h.Rows[0].Capacity = Range{v, v, v}
	h.Rows[1].Capacity.High = v
	h2 := sampleHoldBars()
	h2.Peak, h2.Factor = Range{v, v, v}, v
	b := sampleTravelBars()
	b.FullPedal = v
	b.Rows[0].Parts[2].MM = v
	e := sampleSensitivity()
	e.Rows[1].Total, e.Rows[2].First = v, v
	f := sampleFront()
	f.Choices[0].Bite, f.Choices[1].Effort, f.Choices[7].Certainty, f.Limit = v, v, v, v
	p := sampleStrip()
	p.Ops[3].Hours, p.Jobs[0].Work, p.Jobs[1].Adds, p.Jobs[2].Alone = v, v, v, v
	return map[string]*Scene{
		"pedal map": m.Scene(size), "hold bars": h.Scene(size), "hold bars' peak": h2.Scene(size),
		"travel bars": b.Scene(size), "sensitivity": e.Scene(size), "strip": p.Scene(size),
		"front": f.Scene(size),
	}
}
