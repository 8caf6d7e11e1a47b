package picture

import "math"

// shaft draws a tube with a joint at each end, from one flange to another.
func shaft(p pen, x1, y1, x2, y2 float64) {
	length := math.Hypot(x2-x1, y2-y1)
	q := p.moved(x1, y1).turned(math.Atan2(y2-y1, x2-x1) * 180 / math.Pi)
	q.body(polygon(26, -5, 36, -10, length-36, -10, length-26, -5, length-26, 5, length-36, 10, 26, 10, 26, 5))
	for _, x := range []float64{14, length - 14} {
		q.body(box(x-14, -9, x-8, 9))
		q.body(box(x+8, -7, x+13, 7))
		q.body(circle(x, 0, 9))
		q.thin(join(line(x-9, 0, x+9, 0), line(x, -9, x, 9)))
	}
	q.centre(0, 0, length, 0)
}

// cage draws the differential gears about their cross pin. The half shafts leave along the x axis, left and right of
// the origin.
func cage(p pen) {
	p.cut(polygon(-34, -32, 34, -32, 34, -8, 42, -8, 42, -6, 28, -6, 28, -26, -28, -26, -28, -6, -42, -6, -42, -8, -34, -8), hatchFine)
	p.cut(polygon(-34, 32, 34, 32, 34, 8, 42, 8, 42, 6, 28, 6, 28, 26, -28, 26, -28, 6, -42, 6, -42, 8, -34, 8), hatchFine)
	p.body(box(-4, -32, 4, 32)) // cross pin
	p.both(func(p pen) { p.body(polygon(-13, -25, 13, -25, 8, -14, -8, -14)) })
	for _, side := range []float64{-1, 1} {
		p.body(polygon(side*25, -18, side*25, 18, side*12, 11, side*12, -11))
	}
}

// finalDrive draws pinion, crown wheel and differential: the pinion comes from the left, the half shafts leave up
// and down.
func (s *sheet) finalDrive(p pen, pinionLength float64) {
	p.body(box(-60-pinionLength, -6, -58, 6))
	p.body(polygon(-60, -22, -60, 22, -42, 16, -42, -16))
	p.cut(polygon(-62, -38, 62, -38, 62, -28, 42, -22, 34, -22, 34, -32, -34, -32, -34, -22, -42, -22, -62, -28), hatchSteel)
	cage(p.turned(90))
	s.anchor(Differential, p, 30, 4)
}

// rearHousing is the case about a final drive, from the nose on its left.
func (p pen) rearHousing() {
	var h Path
	h.moveTo(-104, -16)
	h.curveTo(-84, -18, -84, -50, -60, -54)
	h.curveTo(-30, -58, -20, -58, -16, -70)
	h.lineTo(16, -70)
	h.curveTo(20, -58, 60, -58, 72, -36)
	h.curveTo(80, -20, 80, 20, 72, 36)
	h.curveTo(60, 58, 20, 58, 16, 70)
	h.lineTo(-16, 70)
	h.curveTo(-20, 58, -30, 58, -60, 54)
	h.curveTo(-84, 50, -84, 18, -104, 16)
	h.close()
	p.draw(h, Style{Fill: Metal, Stroke: p.ink, Width: p.weight})
}

// Half of a tyre's width, and its radius, as drawn.
const tyreHalf, tyreRadius = 23, 60

// halfShaft draws a shaft with its two joints along the x axis, from x1 to the hub at x2.
func (s *sheet) halfShaft(p pen, x1, x2 float64) {
	p.body(box(x1, -4.5, x2, 4.5))
	joint := func(x, side float64) { // a ball joint and its boot
		p.body(polygon(x, -11, x+side*14, -11, x+side*14, 11, x, 11))
		p.body(polygon(x+side*14, -10, x+side*19, -7, x+side*23, -8, x+side*27, -5, x+side*27, 5, x+side*23, 8, x+side*19, 7, x+side*14, 10))
	}
	joint(x1+6, 1)
	joint(x2-6, -1)
	p.centre(x1-4, 0, x2+2*tyreHalf+10, 0)
}

// tyre draws a wheel seen along its edge; its inner side is at the origin and its axis is the x axis.
func (s *sheet) tyre(p pen) {
	const r, w = tyreRadius, 2 * tyreHalf
	p.body(box(-8, -15, 2, 15)) // hub
	p.draw(roundRect(0, -r, w, 2*r, 11), Style{Fill: Metal, Stroke: p.ink, Width: math.Max(p.weight, 1.6)})
	for _, x := range []float64{w * 0.3, w * 0.5, w * 0.7} {
		p.draw(line(x, -r+1, x, r-1), Style{Stroke: p.ink, Width: 1.6})
	}
	for y := -r + 12.0; y < r; y += 10 {
		p.thin(join(line(2, y+4, w*0.3, y), line(w*0.7, y, w-2, y+4)))
	}
}

// lineOut draws a half shaft that the drawing does not follow to its wheel.
func lineOut(p pen, x1, x2 float64) {
	p.body(polygon(x1, -4.5, x2, -4.5, x2, 4.5, x1, 4.5))
	p.body(polygon(x1+6, -11, x1+20, -11, x1+20, 11, x1+6, 11))
	p.draw(breakLine(x2, -9, 9), Style{Stroke: p.ink, Width: thin})
}
