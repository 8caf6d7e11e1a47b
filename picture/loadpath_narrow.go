package picture

import (
	"math"
	"slices"
	"strconv"
)

// The narrow arrangement stacks the load path in three steps, as the load goes: foot and master, clutch, driveline.
// Each part carries a number, and its label stands below the drawing under the same number. The line from master to
// slave runs down the left edge past the labels.

const (
	narrowWidth  = 380.0
	narrowLeft   = 22.0
	narrowGap    = 12.0
	narrowColumn = (narrowWidth - narrowLeft - 2*narrowGap) / 2
	hoseEdge     = 7.0
	balloonSize  = 9.0  // radius
	balloonRoom  = 26.0 // to the right of the driveline
)

// balloonAt is where a part's number stands, seen from the end of its leader line.
func (l LoadPath) balloonAt(id PartID) Point {
	switch l.Layout {
	case TransverseFront, TransverseFour:
		if at, ok := transverseBalloons[id]; ok {
			return at
		}
	case MidTransaxle:
		if id == Differential {
			return Point{-36, 10}
		}
	}
	return balloons[id]
}

var transverseBalloons = map[PartID]Point{
	Gearbox: {16, -26}, Propshaft: {-12, -28}, Differential: {50, 34}, HalfShaft: {-8, 28},
}

var balloons = map[PartID]Point{
	Pedal: {36, -4}, PedalStop: {-36, 8}, Master: {-14, -28}, Hose: {30, 26},
	Slave: {14, -26}, Fork: {30, 0}, Bearing: {25, 10}, Fingers: {25, 24}, Cover: {48, 6}, Disc: {0, 72}, Flywheel: {-24, 57},
	Gearbox: {12, 32}, Propshaft: {0, 30}, Differential: {44, -42}, HalfShaft: {34, -6}, Tyre: {34, 0},
}

func (l LoadPath) narrowSheet() *sheet {
	s := l.newSheet(narrowWidth, 0)
	p := newPen(s.drawing, shift(0, 0))
	labels := s.scene.Root.Group("labels", "")

	from := s.foot(p.moved(186, 96))
	s.anchor(Hose, p, from.X-18, from.Y)
	y := s.key(labels, 276, Pedal, PedalStop, Master, Hose)
	to := s.clutch(p.moved(208, y+208))
	s.edgeHose(s.pen(Hose, p), from, to)
	y = s.key(labels, y+398, Slave, Fork, Bearing, Fingers, Cover, Disc, Flywheel)
	width, left, up, down := l.narrowDrive()
	scale := math.Min(1, (narrowWidth-2*narrowGap-balloonRoom)/(left+width))
	drive := p.moved(narrowGap+left*scale, y+up*scale+10).scaled(scale)
	s.inputStub(drive)
	s.drive(drive, width)
	if l.Layout == TransverseFront || l.Layout == TransverseFour {
		s.anchor(Gearbox, drive, 120, -56) // from above: the axle leaves no room below
	}
	s.scene.Height = s.key(labels, y+(up+down)*scale+36, Gearbox, Propshaft, Differential, HalfShaft, Tyre)
	return s
}

// narrowDrive is how long the driveline is drawn and how far it reaches to the left of the gearbox's face, above its
// axis and below.
func (l LoadPath) narrowDrive() (width, left, up, down float64) {
	switch l.Layout {
	case TransverseFront:
		return 330, 80, 104, 172
	case TransverseFour:
		return 520, 80, 130, 172
	case MidTransaxle:
		return 340, 30, bellBack, 206
	}
	return 500, 30, 160, 160
}

// inputStub shows that the gearbox's shaft comes from the drawing above.
func (s *sheet) inputStub(p pen) {
	p.body(box(-24, -7, 0, 7))
	p.draw(breakLine(-24, -8, 8), Style{Stroke: Paper, Width: 3})
	p.thin(breakLine(-24, -8, 8))
}

// key puts the numbers on a step's parts and writes their labels from y down in two columns. It returns where the
// next step may begin.
func (s *sheet) key(g *Group, y float64, ids ...PartID) float64 {
	var row [2]float64
	column := 0
	for i, part := range s.labelled() {
		if !slices.Contains(ids, part.ID) {
			continue
		}
		s.balloon(g, part.ID, i+1)
		x := narrowLeft + float64(column)*(narrowColumn+narrowGap)
		row[column] = s.entry(g, part, i+1, x, y)
		if column = 1 - column; column == 0 {
			y += math.Max(row[0], row[1]) + narrowGap
		}
	}
	if column == 1 {
		y += row[0] + narrowGap
	}
	return y
}

// balloon puts a part's number beside it.
func (s *sheet) balloon(g *Group, id PartID, number int) {
	end := s.anchors[id]
	off := s.balloonAt(id)
	at := Point{end.X + off.X, end.Y + off.Y}
	g = g.Group("number", "", Datum{"part", string(id)})
	g.Draw(line(end.X, end.Y, at.X, at.Y), Style{Stroke: Quiet, Width: thin})
	g.dot(end, Quiet)
	s.numbered(g, at, number)
}

func (s *sheet) numbered(g *Group, at Point, number int) {
	g.Draw(circle(at.X, at.Y, balloonSize), Style{Fill: Paper, Stroke: Quiet, Width: thin})
	g.Write(Text{X: at.X, Y: at.Y + 4, Anchor: Middle, Size: 11, Bold: true, Role: Ink, Words: strconv.Itoa(number)})
	s.labels = append(s.labels, Rect{at.X - balloonSize, at.Y - balloonSize, 2 * balloonSize, 2 * balloonSize})
}

// entry writes one label with its number and returns its height.
func (s *sheet) entry(g *Group, part Part, number int, x, y float64) float64 {
	const indent = 2*balloonSize + 6
	g = g.Group("label", "", Datum{"part", string(part.ID)})
	s.numbered(g, Point{x + balloonSize, y + balloonSize}, number)
	b := newBlock(part, narrowColumn-indent)
	b.draw(g, x+indent, y+2, narrowColumn-indent)
	h := math.Max(b.height()+2, 2*balloonSize)
	s.labels = append(s.labels, Rect{x + indent, y, narrowColumn - indent, h})
	return h
}
