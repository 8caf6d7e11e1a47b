package release

import "math"

// XY is a place in the plane in which the pedal swings, in metres from the pedal's pivot. Which way the axes point
// does not matter as long as it is the same for all.
type XY struct{ X, Y float64 }

func (a XY) minus(b XY) XY      { return XY{a.X - b.X, a.Y - b.Y} }
func (a XY) plus(b XY) XY       { return XY{a.X + b.X, a.Y + b.Y} }
func (a XY) times(k float64) XY { return XY{a.X * k, a.Y * k} }
func (a XY) dot(b XY) float64   { return a.X*b.X + a.Y*b.Y }
func (a XY) cross(b XY) float64 { return a.X*b.Y - a.Y*b.X }
func (a XY) length() float64    { return math.Hypot(a.X, a.Y) }
func (a XY) angle() float64     { return math.Atan2(a.Y, a.X) }
func (a XY) turned(by float64) XY {
	sin, cos := math.Sincos(by)
	return XY{a.X*cos - a.Y*sin, a.X*sin + a.Y*cos}
}

// Linkage is the pedal's geometry at rest, from which its ratio follows at every travel: the pedal swings about its
// pivot and drives the master's piston along the cylinder through a rod of fixed length. The zero Linkage is none.
type Linkage struct {
	Pad    XY // middle of the pad
	RodEnd XY // the rod's pin on the pedal
	Seat   XY // where the rod bears on the master's piston
	Axis   XY // the way the piston moves; its length does not matter
}

// Zero reports whether no geometry is given.
func (l *Linkage) Zero() bool { return *l == Linkage{} }

// PadAt is where the pad stands when it has been pressed by pad, which is measured along its arc.
func (l *Linkage) PadAt(pad float64) XY { return l.Pad.turned(l.turn(pad)) }

// RodTravel is how far the rod has pushed the piston with the pad pressed by pad.
//
//	u = w·d ± √(L² - (w×d)²)
//
//	w  from the seat at rest to the rod's pin, which swings about the pivot
//	d  the way the piston moves, of length one
//	L  length of the rod
//
// with plus for a rod that pushes the piston and minus for one that pulls it.
func (l *Linkage) RodTravel(pad float64) float64 {
	d := l.axis()
	w := l.RodEnd.turned(l.turn(pad)).minus(l.Seat)
	aside, rod := w.cross(d), l.rod()
	return w.dot(d) + math.Copysign(math.Sqrt(rod*rod-aside*aside), l.Seat.minus(l.RodEnd).dot(d))
}

// PadTravel is the inverse of RodTravel; +Inf for a rod travel that the pedal does not get to before pin, pivot and
// seat stand in line.
//
// The pin stands where its circle about the pivot meets the rod's circle about the moved seat.
func (l *Linkage) PadTravel(rod float64) float64 {
	seat := l.Seat.plus(l.axis().times(rod))
	r, L, D := l.RodEnd.length(), l.rod(), seat.length()
	cos := (r*r + D*D - L*L) / (2 * r * D)
	if !(math.Abs(cos) <= 1) {
		return math.Inf(1)
	}
	pin := seat.angle() + math.Copysign(math.Acos(cos), l.Seat.cross(l.RodEnd))
	turned := math.Remainder(pin-l.RodEnd.angle(), 2*math.Pi)
	return turned * l.pressing() * l.Pad.length()
}

// RatioAt is the pedal ratio with the pad pressed by pad: pad travel per rod travel.
//
//	ip = R·(d·e)/(v·e)
//
//	R  from pivot to pad        v  speed of the pin per turning speed of the pedal
//	e  the way the rod points   d  the way the piston moves
func (l *Linkage) RatioAt(pad float64) float64 {
	turn, d := l.turn(pad), l.axis()
	pin := l.RodEnd.turned(turn)
	e := l.Seat.plus(d.times(l.RodTravel(pad))).minus(pin)
	v := XY{-pin.Y, pin.X}.times(l.pressing())
	return l.Pad.length() * d.dot(e) / v.dot(e)
}

// turn is the pedal's angle with the pad pressed by pad.
func (l *Linkage) turn(pad float64) float64 { return l.pressing() * pad / l.Pad.length() }

// pressing is the way the pedal turns when the rod is pushed forward: 1 from X towards Y, else -1.
func (l *Linkage) pressing() float64 {
	e := l.Seat.minus(l.RodEnd)
	return math.Copysign(1, l.RodEnd.cross(e)*l.axis().dot(e))
}

func (l *Linkage) axis() XY     { return l.Axis.times(1 / l.Axis.length()) }
func (l *Linkage) rod() float64 { return l.Seat.minus(l.RodEnd).length() }
