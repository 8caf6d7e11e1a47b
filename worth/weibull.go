package worth

import "math"

// Weibull is a life in distance driven. A shape above 1 is wear: the longer it has lasted, the sooner it goes.
//
//	F(t) = 1 − exp(−(t/η)^β)
//
//	t  distance driven since the part was new   any one unit
//	η  scale: the distance by which 63 % are worn, same unit
//	β  shape                                    –
//
// Source: W. Weibull, J. Appl. Mech. 18 (1951), 293–297 (from memory); NIST/SEMATECH e-Handbook of Statistical
// Methods, 8.1.6.2 (from memory).
type Weibull struct{ Shape, Scale float64 }

// hazard is the cumulative hazard (t/η)^β.
func (w Weibull) hazard(t float64) float64 { return math.Pow(t/w.Scale, w.Shape) }

// Chance is the chance F(t) that a part is worn by a distance.
func (w Weibull) Chance(by float64) float64 { return -math.Expm1(-w.hazard(by)) }

// Within is the chance that a part which was sound at a distance lived is worn within a further distance.
//
//	F(x | y) = 1 − exp((y/η)^β − ((y+x)/η)^β)
//
//	x  further distance
//	y  distance lived
func (w Weibull) Within(further, lived float64) float64 {
	return -math.Expm1(w.hazard(lived) - w.hazard(lived+further))
}

// Life is the distance by which a part of all is worn: Life(0.1) is the B10 life.
//
//	t = η·(−ln(1−p))^(1/β)
func (w Weibull) Life(part float64) float64 {
	return w.Scale * math.Pow(-math.Log1p(-part), 1/w.Shape)
}

// Mean is the mean life η·Γ(1 + 1/β).
func (w Weibull) Mean() float64 { return w.Scale * math.Gamma(1+1/w.Shape) }
