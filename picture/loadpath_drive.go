package picture

// drive draws gearbox, shafts, differential and wheels from the gearbox's front face on, in about as much width as is
// given.
func (s *sheet) drive(p pen, width float64) {
	switch s.Layout {
	case LongitudinalRear, LongitudinalFour:
		s.longitudinal(p, width)
	case TransverseFront, TransverseFour:
		s.transverse(p, width)
	case MidTransaxle:
		s.mid(p)
	}
}

func (s *sheet) longitudinal(p pen, width float64) {
	flange := s.longitudinalGearbox(s.pen(Gearbox, p))
	diff := p.moved(width-tyreRadius, 0)
	nose := width - tyreRadius - 110
	s.propshaft(p, flange, 0, nose, 0)
	const hub = 108
	for _, turn := range []float64{90, -90} {
		half := diff.turned(turn)
		s.halfShaft(s.pen(HalfShaft, half), 40, hub)
		s.tyre(s.pen(Tyre, half.moved(hub, 0)))
	}
	final := s.pen(Differential, diff)
	final.rearHousing()
	final.body(boxAt(-110, 0, 7, 12))
	s.finalDrive(final, 46)
	s.anchor(HalfShaft, diff, 5, 84)
	s.anchor(Tyre, diff, 40, hub+20)
}

// boxAt is a rectangle from x to the right, as far above y as below it.
func boxAt(x, y, width, half float64) Path { return box(x, y-half, x+width, y+half) }

func (s *sheet) propshaft(p pen, x1, y1, x2, y2 float64) {
	q := s.pen(Propshaft, p)
	shaft(q, x1, y1, x2, y2)
	s.anchor(Propshaft, q, (x1+x2)/2, (y1+y2)/2+8)
}

func (s *sheet) transverse(p pen, width float64) {
	end := s.transverseGearbox(s.pen(Gearbox, p))
	hub := width - 2*tyreHalf
	if s.Layout == TransverseFour {
		hub = width * 0.52
	}
	axis := p.moved(0, end.Y)
	s.halfShaft(s.pen(HalfShaft, axis), 92, hub)
	s.tyre(s.pen(Tyre, axis.moved(hub, 0)))
	diff := s.pen(Differential, axis)
	diff.body(box(8, -44, 22, 44)) // final gear
	diff.thin(join(line(8, -41, 22, -41), line(8, 41, 22, 41)))
	cage(diff.moved(50, 0))
	lineOut(diff.mapped(transform{-1, 0, 0, 1, 0, 0}), 6, 66)
	diff.centre(-74, 0, 92, 0)
	s.anchor(Differential, axis, 50, 20)
	s.anchor(HalfShaft, axis, hub-50, 4)
	s.anchor(Tyre, axis, hub+tyreHalf, 18)
	if s.Layout == TransverseFour {
		s.rearAxle(p, axis, width)
	}
}

// rearAxle draws, as seen beyond the front one, the second axle of a transverse car and the shaft that leads to it.
func (s *sheet) rearAxle(p, front pen, width float64) {
	takeOff := s.pen(Gearbox, front.moved(118, -26))
	takeOff.body(roundRect(-16, -14, 34, 52, 6))
	takeOff.body(polygon(-10, 14, 12, 14, 7, 2, -5, 2))
	rear := p.moved(width-92, -72).scaled(0.8)
	x, y := width-92-30, -72+18.0
	for _, side := range []float64{1, -1} {
		half := rear.mapped(transform{side, 0, 0, 1, 0, 0})
		s.halfShaft(half, 30, 66)
		s.tyre(half.moved(66, 0))
	}
	rear.body(roundRect(-38, -34, 76, 68, 16))
	cage(rear.scaled(0.8))
	s.propshaft(p, 132, front.at.apply(Point{}).Y-p.at.apply(Point{}).Y-34, x, y)
}

func (s *sheet) mid(p pen) {
	middle := s.midGearbox(s.pen(Gearbox, p))
	diff := p.moved(middle.X, middle.Y)
	const hub = 104
	up := diff.turned(-90)
	half := diff.turned(90)
	lineOut(s.pen(HalfShaft, up), 72, 130)
	s.halfShaft(s.pen(HalfShaft, half), 36, hub)
	s.tyre(s.pen(Tyre, half.moved(hub, 0)))
	final := s.pen(Differential, diff)
	s.finalDrive(final.mapped(transform{-0.82, 0, 0, 0.82, 0, 0}), 0) // its pinion comes from the gears on the right
	s.anchor(HalfShaft, diff, 5, 70)
	s.anchor(Tyre, diff, 40, hub+20)
}
