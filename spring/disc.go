package spring

import (
	"fmt"
	"math"
)

// Spring steel as DIN 2092 and EN 16984 take it.
const (
	SteelModulus = 206e9 // Pa
	SteelPoisson = 0.3
)

// DiscSpring is a conical disc without contact flats, loaded round its edges.
type DiscSpring struct {
	Outer, Inner float64 // De and Di, diameters, m
	Thickness    float64 // t, m
	ConeHeight   float64 // h0, free height less thickness, m
	Modulus      float64 // E, Pa
	Poisson      float64 // ν
}

// Check tells what makes the dimensions impossible.
func (d DiscSpring) Check() error {
	switch {
	case !(d.Inner > 0 && d.Inner < d.Outer) || math.IsInf(d.Outer, 1):
		return fmt.Errorf("disc spring: inner diameter %g m must lie between nought and the outer diameter, %g m",
			d.Inner, d.Outer)
	case !(d.Thickness > 0) || !finite(d.Thickness):
		return fmt.Errorf("disc spring: thickness %g m must be greater than nought", d.Thickness)
	case !(d.ConeHeight > 0) || !finite(d.ConeHeight):
		return fmt.Errorf("disc spring: cone height %g m must be greater than nought", d.ConeHeight)
	case !(d.Modulus > 0) || !finite(d.Modulus):
		return fmt.Errorf("disc spring: modulus of elasticity %g Pa must be greater than nought (steel: 206 GPa)", d.Modulus)
	case !(d.Poisson >= 0 && d.Poisson < 0.5):
		return fmt.Errorf("disc spring: Poisson's ratio %g must lie from 0 to 0.5 (steel: 0.3)", d.Poisson)
	}
	return nil
}

// Load returns the load that holds a disc spring at deflection s (Almen and Laszlo).
//
//	F = 4E/(1-ν²) · t⁴/(K1·De²) · s/t · [ (h0/t - s/t)·(h0/t - s/2t) + 1 ]
//	K1 = 1/π · ((δ-1)/δ)² / ( (δ+1)/(δ-1) - 2/ln δ ),  δ = De/Di
//
//	E, ν    modulus of elasticity, Poisson's ratio   Pa, –
//	De, Di  outer and inner diameter                 m
//	t, h0   thickness, free height of the cone       m
//	s       deflection between the edges             m
//	F       load                                     N
//
// Valid for a thin cone that turns without bending in its own section, s from 0 to 0.75 h0; nearer to flat between
// plane faces the disc begins to roll on them and real loads rise above this one. Past flat (s > h0) the formula goes
// on as for a disc that may turn inside out, as a diaphragm does. Friction is left out: a load going down is a few
// per cent less than one going up.
//
// Source: DIN 2092 / EN 16984 (formula from memory, checked against published tables); Almen, Laszlo, "The
// uniform-section disk spring", Trans. ASME 58 (1936) 305.
func (d DiscSpring) Load(s float64) float64 {
	t, x, h := d.Thickness, s/d.Thickness, d.ConeHeight/d.Thickness
	return d.stiffness() * t * t * x * ((h-x)*(h-x/2) + 1)
}

// Rate returns the slope of the load at deflection s, N/m.
//
//	R = 4E/(1-ν²) · t³/(K1·De²) · [ (h0/t)² - 3·h0/t·s/t + 3/2·(s/t)² + 1 ]
//
// Symbols, validity and source as for Load. It falls to nought at flat for h0/t = √2 and below it for taller cones.
func (d DiscSpring) Rate(s float64) float64 {
	x, h := s/d.Thickness, d.ConeHeight/d.Thickness
	return d.stiffness() * d.Thickness * (h*h - 3*h*x + 1.5*x*x + 1)
}

// stiffness is 4E/(1-ν²)·t²/(K1·De²), Pa, the factor that loads and stresses share.
func (d DiscSpring) stiffness() float64 {
	ratio := d.Outer / d.Inner
	k1 := math.Pow((ratio-1)/ratio, 2) / ((ratio+1)/(ratio-1) - 2/math.Log(ratio)) / math.Pi
	return 4 * d.Modulus / (1 - d.Poisson*d.Poisson) * d.Thickness * d.Thickness / (k1 * d.Outer * d.Outer)
}

// Stresses are the calculated stresses at the section's points, tension above nought, Pa.
type Stresses struct {
	OM  float64 // upper face, in the middle of the section: stays below yield in static use
	I   float64 // upper inner edge: pressed together most
	II  float64 // lower inner edge: cracks begin here or at III
	III float64 // lower outer edge
	IV  float64 // upper outer edge
}

// Stresses returns the stresses at deflection s.
//
//	σ_OM  = -C · 3/π
//	σ_I   = -C · [ K2·(h0/t - s/2t) + K3 ]
//	σ_II  = -C · [ K2·(h0/t - s/2t) - K3 ]
//	σ_III = -C/δ · [ (K2 - 2·K3)·(h0/t - s/2t) - K3 ]
//	σ_IV  = -C/δ · [ (K2 - 2·K3)·(h0/t - s/2t) + K3 ]
//	C  = 4E/(1-ν²) · t²/(K1·De²) · s/t
//	K2 = 6/π · ((δ-1)/ln δ - 1)/ln δ,  K3 = 3/π · (δ-1)/ln δ
//
// Symbols, validity and source as for Load. They are those of the whole ring; at the roots of a diaphragm's slots they
// are higher.
func (d DiscSpring) Stresses(s float64) Stresses {
	ratio, x := d.Outer/d.Inner, s/d.Thickness
	k2, k3 := stressFactors(ratio)
	tilt := d.ConeHeight/d.Thickness - x/2
	c := -d.stiffness() * x
	return Stresses{
		OM:  c * 3 / math.Pi,
		I:   c * (k2*tilt + k3),
		II:  c * (k2*tilt - k3),
		III: c / ratio * ((k2-2*k3)*tilt - k3),
		IV:  c / ratio * ((k2-2*k3)*tilt + k3),
	}
}

// stressFactors are K2 and K3 of DIN 2092.
func stressFactors(ratio float64) (k2, k3 float64) {
	log := math.Log(ratio)
	return 6 / math.Pi * ((ratio-1)/log - 1) / log, 3 / math.Pi * (ratio - 1) / log
}

// FlatDisc returns the steel disc that a load presses flat while the stress at its upper inner edge reaches a given
// figure, for chosen proportions.
//
//	t² = F/σ · ( K2·h0/2t + K3 ),  De² = 4E/(1-ν²) · t⁴·(h0/t) / (K1·F)
//
//	F      load at flat                            N
//	σ      stress at the upper inner edge, size    Pa
//	ratio  De/Di                                   –
//	cone   h0/t                                    –
//	E      modulus of elasticity                   Pa
//
// Both follow from Load and Stresses at s = h0; validity and source as there.
func FlatDisc(load, stress, ratio, cone, modulus, poisson float64) DiscSpring {
	k2, k3 := stressFactors(ratio)
	t := math.Sqrt(load / stress * (k2*cone/2 + k3))
	d := DiscSpring{Outer: 1, Inner: 1 / ratio, Thickness: t, ConeHeight: cone * t, Modulus: modulus, Poisson: poisson}
	d.Outer = math.Sqrt(d.Load(d.ConeHeight) / load) // loads go with 1/De² while De/Di stays
	d.Inner = d.Outer / ratio
	return d
}
