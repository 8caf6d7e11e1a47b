// Package driveline answers whether a clutch holds and what the parts behind it see: capacity against demand with
// how sure the margin is, the engagement and its heat, and the torque in every shaft up to what the tyres can pass.
// It is pure arithmetic in SI units: metres, newtons, newton metres, radians per second, kilograms, joules, kelvin.
package driveline

import "math"

// Facing is one rubbing ring of a clutch disc by its two diameters in metres.
type Facing struct{ Outer, Inner float64 }

// MeanRadiusWear returns the radius at which friction acts once the facing has worn in (uniform wear).
//
//	R = (Ro + Ri)/2
//
//	Ro, Ri  outer and inner radius  m
//	R       mean radius             m
//
// Worn in, pressure times radius is the same all over the ring, so that the inner edge presses hardest. This is the
// cautious one of the two radii. Source: Bhandari, Design of Machine Elements, ch. 11 (seen in a companion).
func (f Facing) MeanRadiusWear() float64 { return (f.Outer + f.Inner) / 4 }

// MeanRadiusPressure returns the radius at which friction acts while the facing is new (uniform pressure).
//
//	R = 2/3 · (Ro³ − Ri³)/(Ro² − Ri²) = 2/3 · (Ro² + Ro·Ri + Ri²)/(Ro + Ri)
//
//	Ro, Ri  outer and inner radius  m
//	R       mean radius             m
//
// The second form is used, which has no 0/0 on a thin ring. Never below MeanRadiusWear, and at most 2.1 % above it
// down to an inner diameter of 0.6 of the outer. Source: Bhandari, ch. 11 (seen in a companion).
func (f Facing) MeanRadiusPressure() float64 {
	Ro, Ri := f.Outer/2, f.Inner/2
	return 2.0 / 3 * (Ro*Ro + Ro*Ri + Ri*Ri) / (Ro + Ri)
}

// Area returns the area of the ring, π/4·(Do² − Di²), in m².
func (f Facing) Area() float64 { return math.Pi / 4 * (f.Outer*f.Outer - f.Inner*f.Inner) }

// PeakPressure returns the pressure at the inner edge of a worn-in facing (uniform wear).
//
//	p = F / (2π·Ri·(Ro − Ri))
//
//	F       axial force             N
//	Ro, Ri  outer and inner radius  m
//	p       pressure at Ri          Pa
//
// Source: Bhandari, ch. 11, uniform wear (seen in a companion).
func (f Facing) PeakPressure(axial float64) float64 { return axial / f.AxialAtPeakPressure(1) }

// AxialAtPeakPressure is the inverse of PeakPressure: the axial force in N that brings the inner edge of a worn-in
// facing to the given pressure in Pa.
func (f Facing) AxialAtPeakPressure(peak float64) float64 {
	return math.Pi / 2 * peak * f.Inner * (f.Outer - f.Inner)
}

// MeanPressure returns axial force over area in Pa: the pressure everywhere on a new facing (uniform pressure).
func (f Facing) MeanPressure(axial float64) float64 { return axial / f.Area() }

// AxialAtMeanPressure is the inverse of MeanPressure, in N.
func (f Facing) AxialAtMeanPressure(pressure float64) float64 { return pressure * f.Area() }

// Capacity returns the torque that a plate clutch carries before it slips.
//
//	T = N·μ·F·R
//
//	N  friction faces: two for each disc      –
//	μ  coefficient of friction                –
//	F  clamp load                             N
//	R  mean radius, by wear or by pressure    m
//	T  capacity                               N m
//
// Valid for flat faces that all carry the same clamp load; spline friction takes a little off the far discs of a
// many-plate pack. Source: Bhandari, ch. 11; Khurmi & Gupta, Theory of Machines, ch. 10 (seen in companions).
func Capacity(faces int, friction, clamp, meanRadius float64) float64 {
	return float64(faces) * friction * clamp * meanRadius
}

// ClampFor is the inverse of Capacity: the clamp load in N for which the clutch just carries the torque.
func ClampFor(torque float64, faces int, friction, meanRadius float64) float64 {
	return torque / Capacity(faces, friction, 1, meanRadius)
}

// Faces returns the number of friction faces of a pack of dry discs: both sides of each.
func Faces(discs int) int { return 2 * discs }
