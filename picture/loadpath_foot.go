package picture

// foot draws pedal, stop, push rod and master cylinder on their bulkhead. The origin is where the axis of the master
// meets the driver's side of the bulkhead; the driver sits to the right. It returns where the line leaves.
func (s *sheet) foot(p pen) Point {
	s.bulkhead(p)
	s.master(s.pen(Master, p))
	s.stop(s.pen(PedalStop, p))
	s.pedal(s.pen(Pedal, p))
	return p.at.apply(Point{-144, 0})
}

func (s *sheet) bulkhead(p pen) {
	p.cut(polygon(-8, -86, 0, -86, 0, -7, -8, -7), hatchOther)
	p.cut(polygon(-8, 7, 0, 7, 0, 110, 92, 163, 88, 170, -8, 115), hatchOther)
	p.body(polygon(0, -84, 82, -80, 90, -70, 90, -58, 74, -54, 0, -66)) // pedal bracket
}

func (s *sheet) master(p pen) {
	p.tint(box(-128, -10, -58, 10), Fluid)
	p.tint(polygon(-92, -56, -40, -56, -40, -36, -58, -32, -58, -18, -66, -18, -66, -32, -92, -36), Fluid)
	p.both(func(p pen) {
		p.cut(polygon(-136, 4, -128, 4, -128, 10, -20, 10, -20, 6, -8, 6, -8, 26, -16, 26, -16, 18, -136, 18), hatchSteel)
	})
	p.body(box(-144, -4, -136, 4))
	p.outline(polyline(-66, -18, -66, -32, -92, -36, -92, -64))
	p.outline(polyline(-58, -18, -58, -32, -40, -36, -40, -64))
	p.body(box(-94, -70, -38, -64)) // cap
	p.thin(line(-92, -56, -40, -56))
	p.thin(polyline(-127, -8, -120, 8, -113, -8, -106, 8, -99, -8, -92, 8, -85, -8, -78, 8, -71, -8, -64, 8, -60, 0))
	p.body(box(-58, -9, -22, 9)) // piston
	for _, x := range []float64{-54, -32} {
		p.solid(box(x, -10, x+5, -5))
		p.solid(box(x, 5, x+5, 10))
	}
	p.body(polygon(-30, -3, 58, -3, 58, 3, -30, 3)) // push rod
	p.body(box(24, -6, 34, 6))                      // lock nut
	p.thin(join(line(24, -2, 34, -2), line(24, 2, 34, 2)))
	p.centre(-152, 0, 78, 0)
	p.flow(12, 0, 180)
	s.anchor(Master, p, -112, -15)
}

func (s *sheet) stop(p pen) {
	q := p.moved(38, 133).turned(30) // square to the toe board
	q.body(box(-3, -24, 3, 10))
	q.thin(join(line(-3, -10, 3, -8), line(-3, -6, 3, -4), line(-3, -14, 3, -12)))
	q.body(box(-7, -6, 7, 0))
	q.body(roundRect(-7, -30, 14, 7, 2))
	s.anchor(PedalStop, q, 5, -12)
}

// Pedal pivot.
const pivotX, pivotY = 78, -66

func (s *sheet) pedal(p pen) {
	pressed := p.moved(pivotX, pivotY).turned(13.5).moved(-pivotX, -pivotY)
	pressed.ghost(pedalArm())
	padAt(pressed).ghost(roundRect(-5, -22, 10, 44, 3))

	p.body(pedalArm())
	pad := padAt(p)
	pad.body(roundRect(-5, -22, 10, 44, 3))
	for y := -16.0; y <= 16; y += 8 {
		pad.thin(line(1, y, 5, y))
	}
	p.body(roundRect(54, -8, 20, 16, 4)) // clevis
	p.body(circle(66, 0, 3.5))
	p.body(circle(pivotX, pivotY, 8))
	p.body(circle(pivotX, pivotY, 3))
	p.centre(pivotX-14, pivotY, pivotX+14, pivotY)
	p.centre(pivotX, pivotY-14, pivotX, pivotY+14)

	p.draw(line(152, 96, 122, 112), Style{Stroke: Proposed, Width: heavy}) // the foot
	p.flow(118, 114, 152)
	s.anchor(Pedal, p, 71, -22)
}

func padAt(p pen) pen { return p.moved(101, 124).turned(-24) }

func pedalArm() Path {
	var a Path
	a.moveTo(70, -66)
	a.curveTo(66, -40, 60, -20, 59, 0)
	a.curveTo(58, 50, 64, 88, 93, 120)
	a.lineTo(100, 114)
	a.curveTo(74, 86, 71, 50, 73, 0)
	a.curveTo(75, -20, 84, -40, 86, -66)
	a.close()
	return a
}
