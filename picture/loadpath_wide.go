package picture

import "math"

// slot is where one part's label may stand in the wide arrangement: labels are as wide and as high as slotWidth and
// the most lines allow, whatever their words.
type slot struct{ x, y float64 }

const slotWidth = 112.0

// wideSlots gives every part of a layout its slot; parts are drawn in the same places whichever have labels.
func (l LoadPath) wideSlots(bottom float64) map[PartID]slot {
	slots := map[PartID]slot{
		Slave: {138, 8}, Hose: {255, 8}, Master: {372, 8},
		Fork: {424, 158}, Pedal: {770, 8}, PedalStop: {770, 106},
		Flywheel: {12, bottom}, Disc: {134, bottom}, Cover: {256, bottom}, Fingers: {378, bottom}, Bearing: {500, bottom},
	}
	add := func(id PartID, x, y float64) { slots[id] = slot{x, y} }
	switch l.Layout {
	case LongitudinalRear, LongitudinalFour:
		add(Gearbox, 622, bottom)
		add(Propshaft, 744, bottom)
		add(HalfShaft, 866, bottom)
		add(Tyre, 1076, 400)
		add(Differential, 1076, 262)
	case TransverseFront:
		add(Differential, 622, bottom)
		add(Gearbox, 744, bottom)
		add(HalfShaft, 866, bottom)
		add(Tyre, 1076, 374)
	case TransverseFour:
		add(Differential, 622, bottom)
		add(Gearbox, 744, bottom)
		add(HalfShaft, 866, bottom)
		add(Tyre, 988, bottom)
		add(Propshaft, 900, 330)
	case MidTransaxle:
		add(Tyre, 622, bottom)
		add(HalfShaft, 744, bottom)
		add(Differential, 866, bottom)
		add(Gearbox, 988, bottom)
	}
	return slots
}

// Where the assemblies stand in the wide arrangement.
const (
	wideWidth    = 1200.0
	wideBulkhead = 590.0
	wideMaster   = 106.0
	wideGearbox  = 395.0
)

func (l LoadPath) wideSheet() *sheet {
	axis, bottom := 310.0, 478.0
	switch l.Layout {
	case MidTransaxle:
		axis, bottom = 322, 532
	case TransverseFront, TransverseFour:
		bottom = 490
	}
	s := l.newSheet(wideWidth, bottom+math.Ceil(mostLines*lineStep)+9)
	p := newPen(s.drawing, shift(0, 0))
	s.drive(p.moved(wideGearbox, axis), 660)
	to := s.clutch(p.moved(wideGearbox-gearboxFace, axis))
	from := s.foot(p.moved(wideBulkhead, wideMaster))
	s.hose(s.pen(Hose, p), from, to)
	g := s.scene.Root.Group("labels", "")
	slots := l.wideSlots(bottom)
	for _, part := range l.labelled() {
		s.label(g, part, slots[part.ID])
	}
	return s
}

// label writes a part's block into its slot, with a rule at its left that runs on as the leader line to the part.
func (s *sheet) label(g *Group, part Part, at slot) {
	const indent = 7
	b := newBlock(part, slotWidth-indent)
	h := b.height()
	g = g.Group("label", "", Datum{"part", string(part.ID)})
	end := s.anchors[part.ID]
	start := Point{at.x, at.y + h/2}
	switch {
	case end.Y > at.y+h:
		start.Y = at.y + h
	case end.Y < at.y:
		start.Y = at.y
	}
	rule := Style{Stroke: Quiet, Width: thin}
	g.Draw(line(at.x, at.y, at.x, at.y+h), rule)
	g.Draw(line(start.X, start.Y, end.X, end.Y), rule)
	g.dot(end, Quiet)
	b.draw(g, at.x+indent, at.y, slotWidth-indent)
	s.labels = append(s.labels, Rect{at.x, at.y, slotWidth, h})
	s.leaders = append(s.leaders, [2]Point{start, end})
}
