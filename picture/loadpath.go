package picture

import (
	"fmt"
	"slices"
	"strconv"
)

// Layout is how a car's driveline stands.
type Layout string

const (
	TransverseFront  Layout = "transverse-front"
	TransverseFour   Layout = "transverse-four"
	LongitudinalRear Layout = "longitudinal-rear"
	LongitudinalFour Layout = "longitudinal-four"
	MidTransaxle     Layout = "mid-transaxle"
)

// Layouts are all that can be drawn.
var Layouts = []Layout{TransverseFront, TransverseFour, LongitudinalRear, LongitudinalFour, MidTransaxle}

// PartID names a place in the load path.
type PartID string

const (
	Pedal        PartID = "pedal"
	PedalStop    PartID = "pedal-stop"
	Master       PartID = "master"
	Hose         PartID = "line"
	Slave        PartID = "slave" // external or concentric
	Fork         PartID = "fork"  // not drawn with a concentric slave
	Bearing      PartID = "bearing"
	Fingers      PartID = "fingers"
	Cover        PartID = "cover" // with the pressure plate
	Disc         PartID = "disc"
	Flywheel     PartID = "flywheel"
	Gearbox      PartID = "gearbox"
	Propshaft    PartID = "propshaft" // not drawn where the layout has none
	Differential PartID = "differential"
	HalfShaft    PartID = "half-shaft"
	Tyre         PartID = "tyre"
)

// chain is the way the load goes, from foot to road.
var chain = []PartID{Pedal, PedalStop, Master, Hose, Slave, Fork, Bearing, Fingers, Cover, Disc, Flywheel,
	Gearbox, Propshaft, Differential, HalfShaft, Tyre}

// LoadPath is the main picture of a car: the parts between foot and road as they stand in it, each with its numbers
// and its verdict.
type LoadPath struct {
	Title, Desc string
	Layout      Layout
	Discs       int // 1, 2 or 3
	Concentric  bool
	Parts       []Part // those that get a label, in any order; the rest are drawn without
}

// Part is what is written beside one part.
type Part struct {
	ID      PartID
	Name    string
	Numbers []string // up to three, with their units
	Word    string   // holds, thin, slips; frees, drags, over-travels, bottoms; or nothing
	Tone    Tone
}

// Scene draws the load path. It panics on a layout or a number of discs that cannot be drawn, and on an unknown part.
func (l LoadPath) Scene(size Size) *Scene {
	l.check()
	if size == Narrow {
		return l.narrowSheet().scene
	}
	return l.wideSheet().scene
}

func (l LoadPath) check() {
	if !slices.Contains(Layouts, l.Layout) {
		panic("picture: no drawing of layout " + strconv.Quote(string(l.Layout)))
	}
	if l.Discs < 1 || l.Discs > 3 {
		panic(fmt.Sprintf("picture: a clutch of %d discs; 1 to 3 can be drawn", l.Discs))
	}
	for _, p := range l.Parts {
		if !slices.Contains(chain, p.ID) {
			panic("picture: no place for part " + strconv.Quote(string(p.ID)))
		}
	}
}

// has reports whether a part is drawn at all.
func (l LoadPath) has(id PartID) bool {
	switch id {
	case Fork:
		return !l.Concentric
	case Propshaft:
		return l.Layout != TransverseFront && l.Layout != MidTransaxle
	}
	return true
}

// labelled are the parts that are drawn and have a label, in the order of the chain.
func (l LoadPath) labelled() []Part {
	var out []Part
	for _, id := range chain {
		if p, ok := l.part(id); ok && l.has(id) {
			out = append(out, p)
		}
	}
	return out
}

func (l LoadPath) part(id PartID) (Part, bool) {
	i := slices.IndexFunc(l.Parts, func(p Part) bool { return p.ID == id })
	if i < 0 {
		return Part{}, false
	}
	return l.Parts[i], true
}

// sheet is a load path while it is being drawn.
type sheet struct {
	LoadPath
	scene   *Scene
	drawing *Group
	anchors map[PartID]Point // where leader lines end, in scene coordinates
	labels  []Rect           // the boxes that labels fill
	leaders [][2]Point
}

func (l LoadPath) newSheet(width, height float64) *sheet {
	s := &sheet{LoadPath: l, scene: newScene(width, height, l.Title, l.Desc), anchors: map[PartID]Point{}}
	s.drawing = s.scene.Root.Group("drawing", "")
	return s
}

// pen opens the group of one part. A part in trouble is drawn in its tone and with a heavier line.
func (s *sheet) pen(id PartID, at pen) pen {
	p, _ := s.part(id)
	at.g = at.g.Group("part", p.Name, Datum{"part", string(id)})
	if p.Tone == Near || p.Tone == Wrong {
		at.ink, at.weight = p.Tone.role(), heavy
	}
	return at
}

// anchor notes where a part's leader line ends, in the pen's coordinates.
func (s *sheet) anchor(id PartID, p pen, x, y float64) {
	s.anchors[id] = p.at.apply(Point{x, y})
}
