package picture

// Both gearboxes begin at the rear of the bellhousing: the origin is where the axis of the clutch meets the
// gearbox's front face.

// gearPair is a gear on the upper shaft and its mate on the lower one; the rest of the distance between the shafts is
// the mate's radius.
type gearPair struct{ x1, x2, r float64 }

// pairs draws gears in mesh on two parallel shafts at y1 and y2.
func (p pen) pairs(y1, y2 float64, pairs []gearPair) {
	for _, g := range pairs {
		p.gear(y1, g.x1, g.x2, g.r)
		p.gear(y2, g.x1, g.x2, y2-y1-g.r)
	}
}

// gear is a toothed wheel seen along its edge; the thin lines are the roots of its teeth.
func (p pen) gear(y, x1, x2, r float64) {
	p.body(box(x1, y-r, x2, y+r))
	p.thin(join(line(x1, y-r+3, x2, y-r+3), line(x1, y+r-3, x2, y+r-3)))
}

// longitudinalGearbox has its input and output in line and a layshaft below. It returns the x of its rear flange.
func (s *sheet) longitudinalGearbox(p pen) float64 {
	const lay = 44
	if s.Layout == LongitudinalFour {
		p.cut(polygon(-4, -bellBack, 4, -bellBack, 4, -60, 178, -60, 178, -13, 170, -13, 170, -53, 4, -53, 4, -12, -4, -12), hatchSteel)
		p.cut(polygon(-4, bellBack, 4, bellBack, 4, 74, 178, 74, 178, 13, 170, 13, 170, 67, 4, 67, 4, 12, -4, 12), hatchSteel)
		transferBox(p)
	} else {
		p.cut(polygon(-4, -bellBack, 4, -bellBack, 4, -60, 176, -60, 188, -28, 240, -20, 240, -13, 170, -13, 170, -53, 4, -53, 4, -12, -4, -12), hatchSteel)
		p.cut(polygon(-4, bellBack, 4, bellBack, 4, 74, 176, 74, 188, 28, 240, 20, 240, 13, 170, 13, 170, 67, 4, 67, 4, 12, -4, 12), hatchSteel)
	}
	p.body(box(0, -7, 34, 7))         // input shaft
	p.body(box(34, -6, 248, 6))       // output shaft
	p.body(box(4, lay-6, 170, lay+6)) // layshaft
	p.pairs(0, lay, []gearPair{{12, 30, 23}, {58, 74, 29}, {84, 98, 22}, {130, 146, 32}})
	for _, x := range []float64{40, 108} { // synchroniser sleeves
		p.body(roundRect(x, -17, 14, 34, 3))
		p.thin(line(x+7, -17, x+7, 17))
	}
	p.ball(-4, -12, 4, -7)
	p.ball(-4, 7, 4, 12)
	p.ball(170, -13, 178, -6)
	p.ball(170, 6, 178, 13)
	p.body(box(246, -13, 253, 13))
	p.centre(-8, 0, 262, 0)
	p.centre(0, lay, 176, lay)
	p.flow(200, 0, 0)
	s.anchor(Gearbox, p, 90, 69)
	return 253
}

// transverseGearbox has an output shaft beside its input shaft, with the final drive at its end, and returns where
// the axis of the differential is: its left side.
func (s *sheet) transverseGearbox(p pen) Point {
	const out, final = 48, 108
	p.cut(polygon(-4, -bellBack, 4, -bellBack, 4, -60, 186, -60, 186, 68, 92, 68, 92, final-10, 85, final-10, 85, 61,
		179, 61, 179, -53, 4, -53, 4, -12, -4, -12), hatchSteel)
	p.cut(polygon(-4, 12, 4, 12, 4, final-10, -4, final-10), hatchSteel)
	p.cut(polygon(-4, final+10, 4, final+10, 4, 156, 85, 156, 85, final+10, 92, final+10, 92, 163, -4, 163), hatchSteel)
	p.body(box(0, -7, 172, 7))
	p.body(box(4, out-7, 172, out+7))
	p.gear(out, 8, 22, 16)
	p.pairs(0, out, []gearPair{{28, 42, 14}, {66, 80, 21}, {92, 106, 26}, {134, 148, 31}})
	for _, x := range []float64{49, 114} {
		p.body(roundRect(x, out-17, 13, 34, 3))
		p.thin(line(x+6.5, out-17, x+6.5, out+17))
	}
	for _, y := range []float64{0, out} {
		p.ball(172, y-9, 179, y+9)
	}
	p.ball(-4, -12, 4, -7)
	p.ball(-4, 7, 4, 12)
	p.centre(-8, 0, 190, 0)
	p.centre(0, out, 190, out)
	s.anchor(Gearbox, p, 140, 64)
	return Point{8, final}
}

// midGearbox has the differential between clutch and gears: the input shaft passes it, the pinion shaft comes back
// to it. It returns the middle of the differential.
func (s *sheet) midGearbox(p pen) Point {
	const pinion, diff, end = 48, 130, 338
	p.cut(polygon(-4, -bellBack, 4, -bellBack, 4, -44, diff-12, -44, diff-12, -37, 4, -37, 4, -12, -4, -12), hatchSteel)
	p.cut(polygon(diff+12, -44, end, -44, end, 92, diff+12, 92, diff+12, 85, end-7, 85, end-7, -37, diff+12, -37), hatchSteel)
	p.cut(polygon(-4, 12, 4, 12, 4, 85, diff-12, 85, diff-12, 92, -4, 92), hatchSteel)
	p.body(box(0, -7, end-14, 7))
	p.body(box(diff+48, pinion-6, end-14, pinion+6))
	p.pairs(0, pinion, []gearPair{{214, 228, 16}, {238, 252, 21}, {278, 292, 26}, {302, 316, 30}})
	p.body(roundRect(258, pinion-17, 14, 34, 3)) // synchroniser sleeve
	p.thin(line(265, pinion-17, 265, pinion+17))
	for _, y := range []float64{0, pinion} {
		p.ball(end-14, y-9, end-7, y+9)
	}
	p.ball(-4, -12, 4, -7)
	p.ball(-4, 7, 4, 12)
	p.centre(-8, 0, end+6, 0)
	p.centre(diff-50, pinion, end+6, pinion)
	p.flow(170, 0, 0)
	s.anchor(Gearbox, p, 290, 88)
	return Point{diff, pinion}
}

// transferBox sits behind a longitudinal gearbox and sends a second shaft forward to the front axle.
func transferBox(p pen) {
	const front = 100
	p.cut(polygon(178, -38, 242, -38, 242, -12, 235, -12, 235, -31, 178, -31), hatchOther)
	p.cut(polygon(242, 12, 242, 130, 164, 130, 164, front+9, 171, front+9, 171, 123, 235, 123, 235, 12), hatchOther)
	p.cut(box(164, 74, 171, front-9), hatchOther)
	p.gear(0, 212, 228, 26)
	p.gear(front, 212, 228, 20)
	p.hidden(join(line(212, 0, 212, front), line(228, 0, 228, front))) // chain
	p.body(box(160, front-5, 232, front+5))
	shaft(p, 164, front, 30, front)
	p.draw(breakLine(30, front-13, front+13), Style{Stroke: p.ink, Width: thin})
	p.flow(98, front, 180)
}
