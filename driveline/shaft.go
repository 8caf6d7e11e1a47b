package driveline

import "math"

// Shaft is a round shaft in torsion.
type Shaft struct {
	Diameter     float64 // outside; at the root of the splines where the shaft is thinnest there, m
	Bore         float64 // 0 for a solid shaft, m
	Length       float64 // that twists, m
	ShearModulus float64 // Pa
}

// SteelShearModulus is that of usual shaft steels, Pa: common practice, no source.
const SteelShearModulus = 79e9

// PolarMoment returns the polar second moment of area, J = π/32·(d⁴ − b⁴), in m⁴.
func (s Shaft) PolarMoment() float64 {
	return math.Pi / 32 * (math.Pow(s.Diameter, 4) - math.Pow(s.Bore, 4))
}

// Stress returns the shear stress at the surface of a shaft.
//
//	τ = T·d/(2·J)
//
//	T  torque                          N m
//	d  outer diameter                  m
//	J  polar second moment of area     m⁴
//	τ  shear stress at the surface     Pa
//
// Valid while the stress stays elastic, away from splines and shoulders, which raise it. Source: Gere, Mechanics of
// Materials, ex. 3-1 (seen in a companion).
func (s Shaft) Stress(torque float64) float64 { return torque * s.Diameter / 2 / s.PolarMoment() }

// TorqueAtStress is the inverse of Stress, in N m.
func (s Shaft) TorqueAtStress(stress float64) float64 { return stress / s.Stress(1) }

// Twist returns the angle by which a shaft winds up.
//
//	φ = T·L/(G·J)
//
//	T  torque                        N m
//	L  length                        m
//	G  shear modulus                 Pa
//	J  polar second moment of area   m⁴
//	φ  angle of twist                rad
//
// Valid while the stress stays elastic. Source: Gere, Mechanics of Materials, ex. 3-1 (seen in a companion).
func (s Shaft) Twist(torque float64) float64 {
	return torque * s.Length / (s.ShearModulus * s.PolarMoment())
}
