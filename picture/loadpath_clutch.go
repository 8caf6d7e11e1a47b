package picture

import "math"

// Along the axis of the clutch, in the coordinates of its assembly: the origin is the middle of the friction face of
// the pressure plate, the engine is to the left, the front face of the gearbox stands at gearboxFace.
const (
	discWidth    = 16.0
	plateWidth   = 12.0
	gearboxFace  = 130.0
	facingInner  = 62.0
	facingOuter  = 105.0
	bellMouth    = 146.0 // outer radius of the bellhousing at the engine
	bellBack     = 92.0  // and at the gearbox
	forkPivot    = 78.0
	slaveAxis    = 166.0
	engineLength = 124.0 // from the flywheel's friction face to where the drawing leaves off
)

// flywheelFace is where the friction face of the flywheel stands: left of all the discs.
func (s *sheet) flywheelFace() float64 {
	n := float64(s.Discs)
	return -(n*discWidth + (n-1)*plateWidth)
}

// clutch draws crank, flywheel, clutch and bellhousing in section, with the release parts inside it, and returns
// where the line arrives.
func (s *sheet) clutch(p pen) Point {
	face := s.flywheelFace()
	s.engine(p, face)
	s.bell(p, face)
	s.flywheel(s.pen(Flywheel, p), face)
	discs := s.pen(Disc, p)
	for i := range s.Discs {
		x := -discWidth - float64(i)*(discWidth+plateWidth)
		disc(discs, x)
		if i > 0 {
			discs.both(func(p pen) { p.cut(box(x+discWidth, facingInner-4, x+discWidth+plateWidth, 108), hatchSteel) })
		}
	}
	s.cover(s.pen(Cover, p), face)
	s.fingers(s.pen(Fingers, p))
	s.bearing(s.pen(Bearing, p))
	p.body(box(face-24, -7, gearboxFace+20, 7)) // input shaft
	for _, y := range []float64{-3, 0, 3} {
		p.thin(line(face+1, y, 6, y)) // splines
	}
	p.centre(face-engineLength-10, 0, gearboxFace+20, 0)
	p.flow(58, 0, 0)
	s.anchor(Disc, p, -discWidth/2, facingOuter-8)
	if s.Concentric {
		return s.concentric(s.pen(Slave, p))
	}
	s.fork(s.pen(Fork, p))
	return s.slave(s.pen(Slave, p))
}

func (s *sheet) engine(p pen, face float64) {
	end := face - engineLength
	p.both(func(p pen) {
		var wall Path // rear wall of the block with the main bearing, and the crankcase
		wall.moveTo(face-72, 26)
		for _, q := range [][2]float64{{-48, 26}, {-48, 152}, {-60, 152}, {-60, 120}} {
			wall.lineTo(face+q[0], q[1])
		}
		wall.lineTo(end, 120)
		wall.curveTo(end+4, 117, end-4, 113, end, 110)
		wall.lineTo(face-60, 110)
		wall.lineTo(face-60, 58)
		wall.lineTo(face-72, 58)
		wall.close()
		p.cut(wall, hatchOther)
	})
	p.body(box(face-42, -44, face-26, 44)) // crank flange
	p.body(box(face-76, -22, face-42, 22)) // main journal
	p.body(roundRect(face-92, -40, 16, 106, 5))
	p.body(box(end, 32, face-92, 58)) // crank pin
	p.draw(breakLine(end, 30, 60), Style{Stroke: Paper, Width: 3})
	p.thin(breakLine(end, 32, 58))
	p.both(func(p pen) { p.thin(join(line(face-42, 32, face-14, 32), line(face-42, 36, face-14, 36))) }) // flywheel bolts
}

func (s *sheet) flywheel(p pen, face float64) {
	p.both(func(p pen) {
		p.cut(polygon(face, 54, face, 127, face-26, 127, face-26, 14, face-12, 14, face-12, 48), hatchSteel)
		p.body(box(face-24, 127, face-11, 135)) // ring gear
		p.thin(line(face-24, 131, face-11, 131))
		p.ball(face-26, 7, face-14, 14) // spigot bearing
	})
	s.anchor(Flywheel, p, face-19, 112)
}

// disc draws one driven disc whose facing towards the engine begins at x.
func disc(p pen, x float64) {
	p.both(func(p pen) {
		p.cut(box(x, facingInner, x+6, facingOuter), hatchLined)
		p.cut(box(x+10, facingInner, x+discWidth, facingOuter), hatchLined)
		p.body(box(x+6, 22, x+10, facingOuter+1))
		p.body(roundRect(x+2, 34, 12, 16, 4)) // damper spring
		p.thin(join(line(x+2, 39, x+14, 36), line(x+2, 44, x+14, 41), line(x+2, 49, x+14, 46)))
		p.cut(box(x+1, 7, x+discWidth-1, 22), hatchOther) // hub
	})
}

func (s *sheet) cover(p pen, face float64) {
	p.both(func(p pen) {
		p.cut(polygon(0, facingInner-4, 14, facingInner-4, 14, 90, 23, 94, 23, 100, 14, 103, 14, 108, 0, 108), hatchSteel)
		p.cut(polygon(face, 112, face, 125, face+5, 125, face+5, 117, 34, 117, 39, 112, 39, 80, 44, 76, 41, 73,
			34.5, 78, 34.5, 110, 32, 112.5), hatchFine)
		p.thin(line(face-14, 121, face+9, 121)) // cover bolt
		p.body(box(face+5, 118, face+10, 124))
	})
	s.anchor(Cover, p, 9, 104)
}

func (s *sheet) fingers(p pen) {
	p.both(func(p pen) {
		var f Path
		f.moveTo(23, 105)
		f.curveTo(26, 95, 28, 90, 31, 83)
		f.lineTo(56, 34)
		f.curveTo(58, 30, 60, 28, 64, 28)
		f.lineTo(64, 31)
		f.curveTo(61, 31, 60, 33, 59, 36)
		f.lineTo(34, 85)
		f.curveTo(31, 91, 29, 96, 26, 106)
		f.close()
		p.body(f)
		p.body(circle(28, 81, 2.3)) // fulcrum rings
		p.body(circle(37, 87, 2.3))
	})
	s.anchor(Fingers, p, 48, 53)
}

func (s *sheet) bearing(p pen) {
	p.both(func(p pen) {
		p.cut(box(72, 13, gearboxFace, 17), hatchFine) // guide sleeve
		p.cut(polygon(66, 24, 86, 24, 86, 30, 69, 30, 69, 34, 66, 34), hatchSteel)
		p.cut(box(70, 40, 86, 47), hatchSteel)
		p.body(circle(78, 35, 5.5))
		if !s.Concentric {
			p.cut(polygon(74, 17.5, 100, 17.5, 100, 24, 93, 24, 93, 45, 87, 45, 87, 24, 74, 24), hatchOther) // carrier
		}
	})
	s.anchor(Bearing, p, 78, 44)
}

func (s *sheet) fork(p pen) {
	p.body(box(112, -forkPivot-5, gearboxFace-4, -forkPivot+5))                   // ball stud
	p.thin(polyline(80, -bellRadius(80), 82, -120, 86, -110, 87, -126, 91, -114)) // dust boot
	p.thin(polyline(104, -114, 107, -124, 110, -106, 113, -114, 115, -bellRadius(115)))
	var f Path
	f.moveTo(93, -36)
	f.curveTo(91, -56, 95, -66, 94, -86)
	f.curveTo(93, -120, 88, -146, 88, -170)
	f.curveTo(88, -176, 99, -176, 99, -170)
	f.curveTo(99, -146, 106, -120, 107, -94)
	f.curveTo(107, -88, 104, -86, 104, -forkPivot)
	f.curveTo(104, -70, 107, -66, 106, -60)
	f.curveTo(105, -50, 102, -44, 101, -36)
	f.curveTo(100, -29, 94, -29, 93, -36)
	f.close()
	p.body(f)
	p.thin(smooth(93, -160, 97, -130, 100, -100))
	p.body(circle(109, -forkPivot, 7))
	s.anchor(Fork, p, 100, -140)
}

// slave draws an external slave cylinder that pushes the end of the fork.
func (s *sheet) slave(p pen) Point {
	q := p.moved(0, -slaveAxis)
	q.cut(polygon(18, 16, 52, 16, 56, 21, 14, 21), hatchOther) // bracket on the bellhousing
	q.tint(box(8, -9, 40, 9), Fluid)
	q.both(func(p pen) { p.cut(polygon(0, 3, 8, 3, 8, 9, 72, 9, 72, 16, 0, 16), hatchSteel) })
	q.body(box(-8, -4, 0, 4))
	q.body(box(40, -8.5, 58, 8.5)) // piston
	q.solid(box(43, -9, 47, 9))
	q.thin(polyline(9, -7, 14, 7, 19, -7, 24, 7, 29, -7, 34, 7, 39, -7))
	q.body(polygon(56, -3, 86, -3, 90, 0, 86, 3, 56, 3)) // push rod
	q.thin(smooth(72, 9, 76, 5, 79, 8, 82, 3))
	q.thin(smooth(72, -9, 76, -5, 79, -8, 82, -3))
	q.body(box(14, -24, 20, -16)) // bleed nipple
	q.body(box(12, -19, 22, -16))
	q.centre(-14, 0, 100, 0)
	q.flow(66, 0, 0)
	s.anchor(Slave, q, 30, -13)
	return q.at.apply(Point{-8, 0})
}

// concentric draws a slave cylinder that stands about the input shaft and carries the bearing.
func (s *sheet) concentric(p pen) Point {
	p.both(func(p pen) {
		p.tint(box(110, 21, 121, 42), Fluid)
		p.cut(polygon(98, 42, 98, 48, gearboxFace-4, 48, gearboxFace-4, 17, 98, 17, 98, 21, 121, 21, 121, 42), hatchSteel)
		p.body(polygon(87, 24, 92, 24, 92, 21.5, 110, 21.5, 110, 41.5, 92, 41.5, 92, 46, 87, 46))
		p.solid(join(box(105, 21, 109, 26), box(105, 37, 109, 42))) // seals
	})
	p.pipe(line(122, -42, 122, -150))
	p.body(box(114, -112, gearboxFace, -104)) // where the pipe leaves the bellhousing
	s.anchor(Slave, p, 112, -46)
	return p.at.apply(Point{122, -150})
}

// bell draws the bellhousing, left open at the top where fork or pipe come out.
func (s *sheet) bell(p pen, face float64) {
	engine, back := face-48, gearboxFace-4
	opening, end := 80.0, 115.0
	if s.Concentric {
		opening, end = 117, back
	}
	flange := box(engine, bellMouth-7, engine+9, bellMouth+6)
	p.both(func(p pen) { p.cut(flange, hatchOther) })
	p.cut(bellWall(engine+9, back), hatchOther)
	up := p.mapped(transform{1, 0, 0, -1, 0, 0})
	up.cut(bellWall(engine+9, opening), hatchOther)
	if end < back {
		up.cut(bellWall(end, back), hatchOther)
	}
}

// bellWall is the wall of the bellhousing from x1 to x2.
func bellWall(x1, x2 float64) Path {
	const thickness, pieces = 7, 24
	var outer, inner []float64
	for i := range pieces + 1 {
		x := x1 + (x2-x1)*float64(i)/pieces
		outer = append(outer, x, bellRadius(x))
		j := x2 - (x - x1)
		inner = append(inner, j, bellRadius(j)-thickness)
	}
	return polygon(append(outer, inner...)...)
}

// bellRadius narrows smoothly from mouth to back.
func bellRadius(x float64) float64 {
	t := math.Max(0, math.Min(1, (x-16)/(gearboxFace-16)))
	return bellMouth - (bellMouth-bellBack)*t*t*(3-2*t)
}
