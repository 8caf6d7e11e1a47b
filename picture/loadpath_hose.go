package picture

// hose draws the line from the master on the right to the slave: a pipe, with a flexible length near the master.
func (s *sheet) hose(p pen, from, to Point) {
	var pipe Path
	pipe.moveTo(from.X, from.Y)
	const bend = 24
	if s.Concentric {
		pipe.lineTo(to.X+bend, from.Y)
		pipe.curveTo(to.X+bend/2, from.Y, to.X, from.Y+bend/2, to.X, from.Y+bend)
		pipe.lineTo(to.X, to.Y)
		p.pipe(pipe)
		p.moved(to.X, to.Y-12).turned(-90).braid(44)
		p.flow(from.X-20, from.Y, 180)
		s.anchor(Hose, p, to.X+8, from.Y+8)
		return
	}
	pipe.lineTo(to.X-10, from.Y)
	pipe.curveTo(to.X-10-bend*4/3, from.Y, to.X-10-bend*4/3, to.Y, to.X-10, to.Y)
	pipe.lineTo(to.X, to.Y)
	p.pipe(pipe)
	p.moved(from.X-80, from.Y).braid(66)
	p.flow(from.X-102, from.Y, 180)
	s.anchor(Hose, p, from.X-112, from.Y-2)
}

// edgeHose draws the line from the master in the drawing above, down the left edge, to the slave.
func (s *sheet) edgeHose(p pen, from, to Point) {
	const bend = 14
	level := to.Y
	if s.Concentric {
		level = to.Y - 30
	}
	var pipe Path
	pipe.moveTo(from.X, from.Y)
	pipe.lineTo(hoseEdge+bend, from.Y)
	pipe.curveTo(hoseEdge+bend/2, from.Y, hoseEdge, from.Y+bend/2, hoseEdge, from.Y+bend)
	pipe.lineTo(hoseEdge, level-bend)
	pipe.curveTo(hoseEdge, level-bend/2, hoseEdge+bend/2, level, hoseEdge+bend, level)
	if s.Concentric {
		pipe.lineTo(to.X-bend, level)
		pipe.curveTo(to.X-bend/2, level, to.X, level+bend/2, to.X, level+bend)
	}
	pipe.lineTo(to.X, to.Y)
	p.pipe(pipe)
	p.moved(70, level).braid(66)
	p.flow(44, level, 0)
}

// pipe draws a line full of fluid.
func (p pen) pipe(along Path) {
	p.draw(along, Style{Stroke: p.ink, Width: 7})
	p.draw(along, Style{Stroke: Fluid, Width: 4.5})
}

// braid shows a flexible length of a line, from the origin to the right.
func (p pen) braid(length float64) {
	hose := roundRect(0, -6, length, 12, 3)
	p.body(hose)
	p.g.Draw(hatchLined.lines(hose.transformed(p.at)), Style{Stroke: Quiet, Width: thin})
	p.body(box(-7, -5, 0, 5))
	p.body(box(length, -5, length+7, 5))
}
