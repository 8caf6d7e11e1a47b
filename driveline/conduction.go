package driveline

import "math"

// Material is what heat runs through.
type Material struct {
	Conductivity float64 // W/(m K)
	Density      float64 // kg/m³
	SpecificHeat float64 // J/(kg K)
}

// GreyIron is that of flywheels and pressure plates. Common practice, no source.
func GreyIron() Material { return Material{Conductivity: 50, Density: 7200, SpecificHeat: 500} }

// OrganicFacing is a woven or moulded friction facing. Common practice, no source; makers seldom print it.
func OrganicFacing() Material { return Material{Conductivity: 0.8, Density: 1900, SpecificHeat: 1200} }

// SinteredFacing is a metallic one. Common practice, no source; makers seldom print it.
func SinteredFacing() Material { return Material{Conductivity: 25, Density: 6000, SpecificHeat: 450} }

// CarbonComposite is carbon fibre in carbon, across its layers. Common practice, no source; makers seldom print it.
func CarbonComposite() Material { return Material{Conductivity: 10, Density: 1700, SpecificHeat: 1000} }

// Diffusivity returns α = k/(ρ·c), in m²/s.
func (m Material) Diffusivity() float64 { return m.Conductivity / (m.Density * m.SpecificHeat) }

// Effusivity returns e = √(k·ρ·c), in W√s/(m² K): how much heat a body takes at its surface for a rise.
func (m Material) Effusivity() float64 {
	return math.Sqrt(m.Conductivity * m.Density * m.SpecificHeat)
}

// HeatShare returns the part of the heat made between two rubbing bodies that goes into the first.
//
//	s = e1/(e1 + e2)
//
//	e  effusivity of each body  W√s/(m² K)
//	s  share                    –
//
// It gives both surfaces one temperature as long as both are thick (SemiInfiniteUntil); later it is an approximation.
// Source: Carslaw & Jaeger, Conduction of Heat in Solids (from memory).
func HeatShare(into, other Material) float64 {
	return into.Effusivity() / (into.Effusivity() + other.Effusivity())
}

// FluxRise returns the rise of the surface of a thick body under a constant heat flux.
//
//	ΔT = 2·q·√(α·t/π)/k
//
//	q  heat flux      W/m²
//	α  diffusivity    m²/s
//	t  time           s
//	k  conductivity   W/(m K)
//	ΔT rise           K
//
// Valid until SemiInfiniteUntil; afterwards the body is warmer than this says. Source: Holman, Heat Transfer, ch. 4
// (from memory).
func FluxRise(m Material, flux, t float64) float64 {
	return 2 * flux * math.Sqrt(m.Diffusivity()*t/math.Pi) / m.Conductivity
}

// PulseRise returns the rise in a thick body after heat was put onto its surface all at once.
//
//	ΔT = Q/(ρ·c·√(π·α·t)) · exp(−x²/(4·α·t))
//
//	Q  heat for each area       J/m²
//	ρ  density                  kg/m³
//	c  specific heat            J/(kg K)
//	α  diffusivity              m²/s
//	t  time since               s
//	x  depth                    m
//	ΔT rise                     K
//
// Valid until SemiInfiniteUntil. Source: Holman, Heat Transfer, ex. 4.3 (seen in a companion).
func PulseRise(m Material, heat, depth, t float64) float64 {
	αt := m.Diffusivity() * t
	return heat / (m.Density * m.SpecificHeat * math.Sqrt(math.Pi*αt)) * math.Exp(-depth*depth/(4*αt))
}

// SemiInfiniteUntil returns how long a body heated on one face behaves as if it had no other.
//
//	t = (L/ζ)²/α,  ζ = 3.64
//
//	L  thickness to the far face, or to the middle of a plate heated on both  m
//	ζ  depth over √(α·t) at which 1 % of the rise arrives                     –
//	α  diffusivity                                                            m²/s
//	t  time                                                                   s
//
// Source: Lienhard, A Heat Transfer Textbook, ex. 5.4 (seen in a companion).
func SemiInfiniteUntil(m Material, thickness float64) float64 {
	const ζ = 3.64
	return thickness * thickness / (ζ * ζ * m.Diffusivity())
}

// BulkRise returns the rise of a mass in which heat has evened out: ΔT = E/(m·c), in K.
func BulkRise(heat, mass, specificHeat float64) float64 { return heat / (mass * specificHeat) }

// CoolingRate returns how fast a body that is at one temperature throughout gives its excess to the air.
//
//	ΔT(t) = ΔT(0)·exp(−r·t),  r = h/(ρ·c·L)
//
//	h  film coefficient               W/(m² K)
//	L  volume over cooled area        m
//	r  rate                           1/s
//
// Valid for h·L/k below 0.1. Source: Holman, Heat Transfer, ex. 4.1 (seen in a companion).
func CoolingRate(m Material, film, volumeOverArea float64) float64 {
	return film / (m.Density * m.SpecificHeat * volumeOverArea)
}
