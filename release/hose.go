package release

const (
	inch = 25.4e-3        // m
	foot = 12 * inch      // m
	psi  = 6894.757293168 // Pa
	cm3  = 1e-6           // m³
)

// HoseLimit is the most that a hydraulic hose of a size may swell. Real hoses stay below; lined braided ones, far.
type HoseLimit struct {
	Size             string
	Regular, Low     float64 // expansion of a regular and of a low expansion hose at 1000 psi (6.9 MPa), m³ per m
	Regular15, Low15 float64 // the same at 1500 psi (10.3 MPa)
}

// HoseLimits are those of FMVSS 106 (49 CFR 571.106) Table I, published in cm³ per foot; SAE J1401 has the same. The
// first and last size were seen in MIL-DTL-13719G Table III, which has the same figures; the middle one is from
// memory. That the middle size covers all between the other two: NHTSA interpretation 04-009678drn-2 (seen).
var HoseLimits = []HoseLimit{
	{"1/8 in (3 mm) or less", perFoot(0.66), perFoot(0.33), perFoot(0.79), perFoot(0.42)},
	{"3/16 in (4 to 5 mm)", perFoot(0.86), perFoot(0.55), perFoot(1.02), perFoot(0.72)},
	{"1/4 in (6 mm) or more", perFoot(1.04), perFoot(0.82), perFoot(1.30), perFoot(1.17)},
}

func perFoot(volume float64) float64 { return volume * cm3 / foot }

// HoseLimitFor finds the limit for an inner diameter.
func HoseLimitFor(inner float64) HoseLimit {
	switch {
	case inner <= inch/8:
		return HoseLimits[0]
	case inner < 6e-3:
		return HoseLimits[1]
	}
	return HoseLimits[2]
}

// Expansion is the straight line through nought and the limit at 1000 psi, for Line.Expansion where nothing is known
// of the hose: the most that it may swell per length and pressure, m³/m/Pa.
func (h HoseLimit) Expansion(low bool) float64 {
	if low {
		return h.Low / (1000 * psi)
	}
	return h.Regular / (1000 * psi)
}
