package spring

import (
	"fmt"
	"math"
)

// Diaphragm is a disc spring whose inner part is slotted into fingers. The rim, from the roots of the slots outwards,
// is the spring; the fingers are levers.
type Diaphragm struct {
	Rim          DiscSpring // its inner diameter is that at the roots of the slots
	PlateContact float64    // diameter of the ridge on which it presses the pressure plate, m
	Fulcrum      float64    // diameter of the rings on which it tilts in the cover, m
	Fingertip    float64    // diameter at which the release bearing touches the fingers, m
}

// Check tells what makes the dimensions impossible. The bearing may push (fulcrum inside the plate's ridge) or pull
// (fulcrum outside it).
func (d Diaphragm) Check() error {
	if err := d.Rim.Check(); err != nil {
		return err
	}
	for _, circle := range []figure{{"plate contact", d.PlateContact}, {"fulcrum", d.Fulcrum}} {
		if !(circle.value >= d.Rim.Inner && circle.value <= d.Rim.Outer) {
			return fmt.Errorf("diaphragm: %s diameter %g m must lie on the rim, from %g to %g m",
				circle.name, circle.value, d.Rim.Inner, d.Rim.Outer)
		}
	}
	if d.PlateContact == d.Fulcrum {
		return fmt.Errorf("diaphragm: plate contact and fulcrum diameter are both %g m, which leaves no lever", d.Fulcrum)
	}
	if !(d.Fingertip > 0 && d.Fingertip < d.Rim.Inner) {
		return fmt.Errorf("diaphragm: fingertip diameter %g m must lie between nought and the rim's inner diameter, %g m",
			d.Fingertip, d.Rim.Inner)
	}
	return nil
}

// arm is the diameters' difference between fulcrum and plate contact, which stands for the lever's short arm.
func (d Diaphragm) arm() float64 { return math.Abs(d.PlateContact - d.Fulcrum) }

// LeverRatio returns finger travel over plate lift, with stiff fingers.
//
//	i = (D_fulcrum - D_fingertip) / |D_plate - D_fulcrum|
//
// Real fingers bend, so that finger travel is more by the bearing load over their stiffness: use a measured ratio where
// there is one. Usual figures are 3 to 5 (common practice, no source). Source: the lever law.
func (d Diaphragm) LeverRatio() float64 { return (d.Fulcrum - d.Fingertip) / d.arm() }

// ClampLoad returns the load on the pressure plate while the bearing is off and the spring is deflected by so much
// between fulcrum and plate contact, from free.
//
//	F(λ) = e · F_rim(e·λ),  e = (De - Di) / |D_plate - D_fulcrum|
//
//	λ       deflection at the plate contact                m
//	F_rim   load of the rim between its edges, see DiscSpring.Load
//	De, Di  outer and inner diameter of the rim            m
//
// The rim turns as a whole, so it deflects e times as much between its edges as between the contacts; equal work makes
// the load e times as large. Valid where DiscSpring.Load is, up to twice the cone height; the fingers' own stiffness and
// the friction on rings and ridge are left out, so expect some per cent more at the rim and a gap between going in and
// coming out. No published worked example of a whole diaphragm was found: the rim is checked against the standards'
// discs, the levers against the formula of the automotive handbooks (logarithmic form).
//
// Source: Almen, Laszlo 1936 for the rim; lever law for the contacts.
func (d Diaphragm) ClampLoad(deflection float64) float64 {
	e := (d.Rim.Outer - d.Rim.Inner) / d.arm()
	return e * d.Rim.Load(e*deflection)
}

// BearingLoad returns the load on the release bearing that carries the whole spring, nothing being left on the plate.
//
//	F_b(λ) = F(λ) / i
//
// Symbols and validity as for ClampLoad and LeverRatio.
func (d Diaphragm) BearingLoad(deflection float64) float64 {
	return d.ClampLoad(deflection) / d.LeverRatio()
}
