package driveline

import "math"

// CrossPin is the pin, or the cross of two pins, on which a differential's pinions turn. The case drives the pin's
// ends, the pin drives the pinions.
type CrossPin struct {
	Pinions      int     // that share the load
	Diameter     float64 // m
	PinionRadius float64 // from the axle's centre line to the middle of a pinion's bore, m
	PinionLength float64 // of a pinion's bore, m
	CaseRadius   float64 // from the axle's centre line to the middle of a pin's seat in the case, m; 0 unknown
	CaseLength   float64 // of that seat, m; 0 unknown
}

// PinLoad is what a cross pin sees at one torque.
type PinLoad struct {
	PinionForce    float64 // on each pinion, N
	PinionPressure float64 // in its bore, Pa
	CaseForce      float64 // at each end of the pin, N
	CasePressure   float64 // in the seat in the case, Pa; NaN where the seat is not known
	Shear          float64 // in the pin between case and pinion, mean over the section, Pa
}

// Load returns what the pin sees when the case carries a torque in N m. All pinions are taken to share it evenly,
// which four on a cross do only where the cross can settle. Without a case radius the pinion's is taken, which errs on
// the high side.
func (p CrossPin) Load(torque float64) PinLoad {
	caseRadius := p.CaseRadius
	if caseRadius == 0 {
		caseRadius = p.PinionRadius
	}
	load := PinLoad{
		PinionForce:  ForceAtRadius(torque, p.Pinions, p.PinionRadius),
		CaseForce:    ForceAtRadius(torque, p.Pinions, caseRadius),
		CasePressure: math.NaN(),
	}
	load.PinionPressure = BearingPressure(load.PinionForce, p.Diameter, p.PinionLength)
	load.Shear = PinShear(load.CaseForce, p.Diameter, 1)
	if p.CaseLength > 0 {
		load.CasePressure = BearingPressure(load.CaseForce, p.Diameter, p.CaseLength)
	}
	return load
}

// ForceAtRadius returns the force on each of several places that share a torque at a radius: F = T/(n·r), in N.
func ForceAtRadius(torque float64, places int, radius float64) float64 {
	return torque / (float64(places) * radius)
}

// BearingPressure returns the pressure of a pin on its bore, over the projected area.
//
//	p = F/(d·l)
//
//	F  force               N
//	d  diameter            m
//	l  length of the bore  m
//	p  pressure            Pa
//
// Valid as a mean; at the edges of a loaded bore it is higher. Source: Khurmi & Gupta, Machine Design, ex. 12.7 (seen
// in part).
func BearingPressure(force, diameter, length float64) float64 { return force / (diameter * length) }

// PinShear returns the mean shear stress in a pin.
//
//	τ = F/(n·π/4·d²)
//
//	F  force                                      N
//	n  sections that share it: 1 single, 2 double  –
//	d  diameter                                   m
//	τ  mean shear stress                          Pa
//
// The greatest stress in a round section is 4/3 of it. Source: Khurmi & Gupta, Machine Design, ex. 12.7 (seen in part).
func PinShear(force, diameter float64, sections int) float64 {
	return force / (float64(sections) * math.Pi / 4 * diameter * diameter)
}
