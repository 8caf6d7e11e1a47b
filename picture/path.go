package picture

import "math"

// Point is a place in a scene.
type Point struct{ X, Y float64 }

// Rect is an upright box.
type Rect struct{ X, Y, W, H float64 }

// Overlaps reports whether two boxes share more than an edge.
func (r Rect) Overlaps(o Rect) bool {
	return r.X < o.X+o.W && o.X < r.X+r.W && r.Y < o.Y+o.H && o.Y < r.Y+r.H
}

// Inside reports whether r lies wholly in o.
func (r Rect) Inside(o Rect) bool {
	return r.X >= o.X && r.Y >= o.Y && r.X+r.W <= o.X+o.W && r.Y+r.H <= o.Y+o.H
}

// Verb is what a step of a path does.
type Verb uint8

const (
	MoveTo  Verb = iota // start at P[0]
	LineTo              // straight to P[0]
	CurveTo             // cubic Bézier by P[0] and P[1] to P[2]
	Close               // straight back to the start
)

// Step is one step of a path.
type Step struct {
	Verb Verb
	P    [3]Point
}

// Path is an outline of one or more strokes. Areas are filled by the even-odd rule, so a hole is a second outline.
type Path []Step

func (p *Path) moveTo(x, y float64) { *p = append(*p, Step{MoveTo, [3]Point{{x, y}}}) }
func (p *Path) lineTo(x, y float64) { *p = append(*p, Step{LineTo, [3]Point{{x, y}}}) }
func (p *Path) close()              { *p = append(*p, Step{Verb: Close}) }
func (p *Path) curveTo(x1, y1, x2, y2, x, y float64) {
	*p = append(*p, Step{CurveTo, [3]Point{{x1, y1}, {x2, y2}, {x, y}}})
}

// join makes one path of several.
func join(paths ...Path) Path {
	var all Path
	for _, p := range paths {
		all = append(all, p...)
	}
	return all
}

// line is a straight stroke.
func line(x1, y1, x2, y2 float64) Path { return polyline(x1, y1, x2, y2) }

// polyline joins x, y pairs.
func polyline(xy ...float64) Path {
	var p Path
	for i := 0; i+1 < len(xy); i += 2 {
		if i == 0 {
			p.moveTo(xy[0], xy[1])
		} else {
			p.lineTo(xy[i], xy[i+1])
		}
	}
	return p
}

// polygon is a closed polyline.
func polygon(xy ...float64) Path {
	p := polyline(xy...)
	p.close()
	return p
}

func rect(x, y, w, h float64) Path { return polygon(x, y, x+w, y, x+w, y+h, x, y+h) }

// box is the rectangle between two opposite corners.
func box(x1, y1, x2, y2 float64) Path { return rect(x1, y1, x2-x1, y2-y1) }

// arcHandle is the length of the Bézier handles of a quarter of the unit circle.
const arcHandle = 0.5522847498

// roundRect is a rectangle with corners of radius r, or as round as its sides allow.
func roundRect(x, y, w, h, r float64) Path {
	r = math.Min(r, math.Min(w, h)/2)
	k := r * (1 - arcHandle)
	var p Path
	p.moveTo(x+r, y)
	p.lineTo(x+w-r, y)
	p.curveTo(x+w-k, y, x+w, y+k, x+w, y+r)
	p.lineTo(x+w, y+h-r)
	p.curveTo(x+w, y+h-k, x+w-k, y+h, x+w-r, y+h)
	p.lineTo(x+r, y+h)
	p.curveTo(x+k, y+h, x, y+h-k, x, y+h-r)
	p.lineTo(x, y+r)
	p.curveTo(x, y+k, x+k, y, x+r, y)
	p.close()
	return p
}

func circle(cx, cy, r float64) Path { return roundRect(cx-r, cy-r, 2*r, 2*r, r) }

// arc is part of a circle from one angle to another, in degrees, 0 to the right and growing clockwise on the page.
func arc(cx, cy, r, from, to float64) Path {
	n := int(math.Ceil(math.Abs(to-from) / 90))
	step := (to - from) / float64(n) * math.Pi / 180
	k := r * 4 / 3 * math.Tan(step/4)
	a := from * math.Pi / 180
	var p Path
	p.moveTo(cx+r*math.Cos(a), cy+r*math.Sin(a))
	for range n {
		b := a + step
		p.curveTo(
			cx+r*math.Cos(a)-k*math.Sin(a), cy+r*math.Sin(a)+k*math.Cos(a),
			cx+r*math.Cos(b)+k*math.Sin(b), cy+r*math.Sin(b)-k*math.Cos(b),
			cx+r*math.Cos(b), cy+r*math.Sin(b))
		a = b
	}
	return p
}

// smooth is a soft curve through x, y pairs (Catmull-Rom, as cubic Béziers).
func smooth(xy ...float64) Path {
	n := len(xy) / 2
	at := func(i int) Point {
		i = max(0, min(n-1, i))
		return Point{xy[2*i], xy[2*i+1]}
	}
	var p Path
	p.moveTo(xy[0], xy[1])
	for i := range n - 1 {
		a, b, c, d := at(i-1), at(i), at(i+1), at(i+2)
		p.curveTo(b.X+(c.X-a.X)/6, b.Y+(c.Y-a.Y)/6, c.X-(d.X-b.X)/6, c.Y-(d.Y-b.Y)/6, c.X, c.Y)
	}
	return p
}

func (p Path) drawable() bool {
	for _, s := range p {
		for _, q := range s.P {
			if !drawable(q.X, q.Y) {
				return false
			}
		}
	}
	return true
}

// transform is an affine map: x' = a x + c y + e, y' = b x + d y + f.
type transform struct{ a, b, c, d, e, f float64 }

func shift(x, y float64) transform { return transform{1, 0, 0, 1, x, y} }

// then applies t first and u afterwards.
func (t transform) then(u transform) transform {
	return transform{
		u.a*t.a + u.c*t.b, u.b*t.a + u.d*t.b,
		u.a*t.c + u.c*t.d, u.b*t.c + u.d*t.d,
		u.a*t.e + u.c*t.f + u.e, u.b*t.e + u.d*t.f + u.f,
	}
}

func (t transform) apply(p Point) Point {
	return Point{t.a*p.X + t.c*p.Y + t.e, t.b*p.X + t.d*p.Y + t.f}
}

func (p Path) transformed(t transform) Path {
	out := make(Path, len(p))
	for i, s := range p {
		out[i].Verb = s.Verb
		if s.Verb == Close {
			continue
		}
		for j, q := range s.P {
			out[i].P[j] = t.apply(q)
		}
	}
	return out
}

// curveParts is into how many straight pieces a curve is cut for hatching: on a quarter of a circle of radius 80 the
// chords stay within a tenth of a unit of the curve.
const curveParts = 16

// flatten turns the path into closed polygons.
func (p Path) flatten() [][]Point {
	var all [][]Point
	var now []Point
	for _, s := range p {
		switch s.Verb {
		case MoveTo:
			if len(now) > 0 {
				all = append(all, now)
			}
			now = []Point{s.P[0]}
		case LineTo:
			now = append(now, s.P[0])
		case CurveTo:
			now = append(now, bezier(now[len(now)-1], s.P)...)
		}
	}
	if len(now) > 0 {
		all = append(all, now)
	}
	return all
}

func bezier(from Point, p [3]Point) []Point {
	out := make([]Point, 0, curveParts)
	for i := 1; i <= curveParts; i++ {
		t := float64(i) / curveParts
		u := 1 - t
		a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		out = append(out, Point{
			a*from.X + b*p[0].X + c*p[1].X + d*p[2].X,
			a*from.Y + b*p[0].Y + c*p[1].Y + d*p[2].Y,
		})
	}
	return out
}
