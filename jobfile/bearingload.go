package jobfile

import (
	"fmt"
	"math"
	"strings"

	"layshaft/spring"
	"layshaft/uncertain"
	"layshaft/workshop"
	"layshaft/yamlfile"
)

// loadFiguresPart are the few numbers that a maker gives of a clutch's bearing load.
type loadFiguresPart struct {
	Peak          *float64 `key:"peak" of:"force" like:"2350 N" check:">0"`
	At            *float64 `key:"at" of:"length" like:"7 mm" check:">0"`
	ReleaseTravel float64  `key:"release_travel" of:"length" need:"yes" like:"10 mm" check:">0"`
	LoadAtRelease *float64 `key:"load_at_release" of:"force" like:"2050 N" check:">0"`
}

// springPart are the dimensions of the clutch's diaphragm spring.
type springPart struct {
	Outer        float64  `key:"outer" of:"length" need:"yes" like:"226 mm" check:">0"`
	Inner        float64  `key:"inner" of:"length" need:"yes" like:"180 mm" check:">0"` // at the roots of the slots
	Thickness    float64  `key:"thickness" of:"length" need:"yes" like:"2.5 mm" check:">0"`
	ConeHeight   float64  `key:"cone_height" of:"length" need:"yes" like:"4.2 mm" check:">0"`
	PlateContact float64  `key:"plate_contact" of:"length" need:"yes" like:"220 mm" check:">0"`
	Fulcrum      float64  `key:"fulcrum" of:"length" need:"yes" like:"186 mm" check:">0"`
	Fingertip    float64  `key:"fingertip" of:"length" need:"yes" like:"56 mm" check:">0"`
	Set          float64  `key:"set" of:"length" need:"yes" like:"2.8 mm" check:">0"` // deflection at the plate with new discs
	Wear         float64  `key:"wear" of:"length" need:"yes" like:"1.4 mm" check:">0"`
	FingerTravel *float64 `key:"finger_travel" of:"length" like:"11 mm" check:">0"` // up to which the load is worked out
	Modulus      *float64 `key:"modulus" of:"pressure" like:"206 GPa" check:">0"`
	Poisson      *float64 `key:"poisson" of:"number" like:"0.3" check:">=0,<0.5"`
}

// loadWays are the keys that may give the bearing load; exactly one of them does.
var loadWays = []string{"bearing_load", "bearing_load_from", "bearing_load_csv", "spring"}

// load finds out the bearing load in the one way that the file gives it.
func (r *reader) load(key string, c *clutchPart, clutch *workshop.Clutch) {
	given := []bool{c.Load != nil, c.LoadFrom != nil, c.LoadCSV != "", c.Spring != nil}
	first := ""
	for i, way := range loadWays {
		switch {
		case given[i] && first != "":
			r.fault(key+way, "the bearing load is already given by %s; leave one out: it is given by one of %s", first, strings.Join(loadWays, ", "))
			return
		case given[i]:
			first = way
		}
	}
	switch first {
	case "bearing_load":
		r.bearingLoad(key+first, c.Load, clutch)
	case "bearing_load_from":
		r.loadFromFigures(key+first, c.LoadFrom, clutch)
	case "bearing_load_csv":
		r.loadFromBench(key+first, c.LoadCSV, clutch)
	case "spring":
		r.loadFromSpring(key+first, c, clutch)
	default:
		clutch.MissingForRelease = append(clutch.MissingForRelease, key+"bearing_load")
	}
}

func (r *reader) bearingLoad(key string, rows []yamlfile.Row, clutch *workshop.Clutch) {
	travel, load := make([]float64, len(rows)), make([]float64, len(rows))
	for i, row := range rows {
		travel[i], load[i] = row[0], row[1]
		switch {
		case i == 0 && row[0] != 0:
			r.fault(fmt.Sprintf("%s[0]", key), "the first point must be at 0 mm of finger travel")
			return
		case i > 0 && row[0] <= travel[i-1]:
			r.fault(fmt.Sprintf("%s[%d]", key, i), "finger travel must rise from point to point: %.4g mm does not lie beyond %.4g mm", row[0]*1e3, travel[i-1]*1e3)
			return
		case row[1] < 0:
			r.fault(fmt.Sprintf("%s[%d]", key, i), "a bearing load cannot be negative")
			return
		}
	}
	curve, err := spring.NewCurve(travel, load)
	if err != nil {
		r.fault(key, "%v", err)
		return
	}
	clutch.BearingLoad = curve
}

func (r *reader) loadFromFigures(key string, f *loadFiguresPart, clutch *workshop.Clutch) {
	figures := spring.BearingFigures{
		Travel: f.ReleaseTravel, Peak: or(f.Peak, 0), PeakTravel: or(f.At, 0), End: or(f.LoadAtRelease, 0),
		Clamp: clutch.Clamp.Mid(), LeverRatio: clutch.LeverRatio.Mid(), Cushion: clutch.Cushion.Mid(),
	}
	curve, err := spring.BearingFromFigures(figures)
	r.built(key, curve, err, clutch)
}

func (r *reader) loadFromBench(key, name string, clutch *workshop.Clutch) {
	if r.open == nil {
		r.fault(key, "the file %q cannot be read from here", name)
		return
	}
	data, err := r.open(name)
	if err != nil {
		r.fault(key, "the file %q cannot be read: %v", name, err)
		return
	}
	travel, load, err := benchReadings(name, data)
	if err != nil {
		r.fault(key, "%v", err)
		return
	}
	curve, err := spring.FromBench(travel, load)
	if err == nil {
		if first, _ := curve.Curve.Domain(); first != 0 {
			r.fault(key, "%s: the first reading lies at %.4g mm of travel; measure from 0 mm, where the bearing touches the fingers", name, first*1e3)
			return
		}
	}
	r.built(key, curve, err, clutch)
}

func (r *reader) loadFromSpring(key string, c *clutchPart, clutch *workshop.Clutch) {
	s := c.Spring
	cover := spring.Cover{
		Diaphragm: spring.Diaphragm{
			Rim: spring.DiscSpring{Outer: s.Outer, Inner: s.Inner, Thickness: s.Thickness, ConeHeight: s.ConeHeight,
				Modulus: or(s.Modulus, spring.SteelModulus), Poisson: or(s.Poisson, spring.SteelPoisson)},
			PlateContact: s.PlateContact, Fulcrum: s.Fulcrum, Fingertip: s.Fingertip,
		},
		Set: s.Set, Wear: s.Wear, Cushion: clutch.Cushion.Mid(),
	}
	travel := or(s.FingerTravel, clutch.FingerMax.Mid())
	if math.IsInf(travel, 1) {
		r.fault(key+".finger_travel", "say up to which finger travel the load is wanted, here or by finger_travel_max")
		return
	}
	curve, err := cover.BearingLoad(0, travel)
	if !r.built(key, curve, err, clutch) {
		return
	}
	clutch.Spring, clutch.SpringTravel = &cover, travel
	byLever := cover.Diaphragm.LeverRatio()
	if c.LeverRatio == nil {
		clutch.LeverRatio = uncertain.Exact(byLever)
		r.assume(key, "lever ratio %.2f from the spring's diameters, with stiff fingers: real ones bend, measure it where you can", byLever)
	} else {
		r.compare(key, "lever ratio", clutch.LeverRatio.Mid(), byLever, "%.2f")
	}
	r.compare(key, "clamp load with new discs", clutch.Clamp.Mid(), cover.Diaphragm.ClampLoad(cover.Set), "%.0f N")
}

// compare says where a figure of the file and the spring's own do not agree.
func (r *reader) compare(key, what string, given, worked float64, format string) {
	const apart = 0.05 // what friction and tolerances of a diaphragm come to: common practice, no source
	if math.Abs(worked/given-1) > apart {
		r.assume(key, "%s "+format+" from the spring's dimensions, but "+format+" is given: the given one is used; one of them may be wrong", what, worked, given)
	}
}

// built takes over a curve and what it rests on.
func (r *reader) built(key string, b spring.Built, err error, clutch *workshop.Clutch) bool {
	if err != nil {
		r.fault(key, "%v", err)
		return false
	}
	clutch.BearingLoad = b.Curve
	for _, text := range b.Assumptions {
		r.assume(key, "%s", text)
	}
	if b.RMS > 0 {
		r.assume(key, "the curve leaves what it was made from by %.0f N on the whole (root mean square) and %.0f N at most, at %.1f mm", b.RMS, b.Largest, b.LargestAt*1e3)
	}
	return true
}

// or is the figure given, or another.
func or(given *float64, otherwise float64) float64 {
	if given == nil {
		return otherwise
	}
	return *given
}
