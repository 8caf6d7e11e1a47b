package release

import "math"

// Atmosphere is the pressure that air is trapped at: the standard atmosphere, Pa (ISO 2533).
const Atmosphere = 101325.0

// PistonArea returns the area of a round piston.
//
//	A = π·d²/4
//
//	d  bore  m
//	A  area  m²
func PistonArea(bore float64) float64 { return math.Pi / 4 * bore * bore }

// AnnulusArea returns the area of a ring-shaped piston, such as that of a concentric slave.
//
//	A = π·(D² - d²)/4
//
//	D  outer diameter of the ring  m
//	d  inner diameter, the sleeve  m
func AnnulusArea(outer, inner float64) float64 { return PistonArea(outer) - PistonArea(inner) }

// FluidCompression returns the volume by which a fluid shrinks under pressure.
//
//	ΔV = V·p/K
//
//	V  volume of fluid         m³
//	p  rise of pressure        Pa
//	K  bulk modulus            Pa; 0 or +Inf for a fluid that does not give
//
// Valid while p is small against K, as in any clutch line. Air in the fluid is not in it: see AirShrinkage.
// Source: A. Esposito, Fluid Power with Applications, ch. 2, Ex. 2.11, p. 57 (seen in a companion of the book's
// solved examples).
func FluidCompression(volume, pressure, bulkModulus float64) float64 {
	return volume * pressure * compressibility(bulkModulus)
}

func compressibility(bulkModulus float64) float64 {
	if bulkModulus == 0 {
		return 0
	}
	return 1 / bulkModulus
}

// HoseSwelling returns the volume by which a hose swells.
//
//	ΔV = ch·L·p
//
//	ch  expansion per length and pressure  m³/m/Pa
//	L   length of hose                     m
//	p   gauge pressure                     Pa
//
// A straight line through nought; real hoses swell a little more at first. Common practice, no source.
func HoseSwelling(expansion, length, pressure float64) float64 { return expansion * length * pressure }

// AirShrinkage returns the volume by which trapped air shrinks, slowly enough to stay at the line's temperature.
//
//	ΔV = Va·(1 - pa/(pa + p)) = Va·p/(pa + p)
//
//	Va  volume at the pressure of the atmosphere  m³
//	pa  pressure of the atmosphere                Pa
//	p   gauge pressure                            Pa
//
// Boyle's law. A fast pedal leaves the air warmer and stiffer, so this is the most that air can cost.
func AirShrinkage(volume, pressure float64) float64 {
	return volume * pressure / (Atmosphere + pressure)
}
