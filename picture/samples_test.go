package picture

import (
	"fmt"
	"math"
)

// The invented car that the tests draw.

func sampleLoadPath(layout Layout, discs int, concentric bool) LoadPath {
	slave := Part{Slave, "Slave cylinder", []string{"20.64 mm bore", "12.4 mm travel"}, "", Plain}
	if concentric {
		slave = Part{Slave, "Concentric slave", []string{"800 mm² ring", "7.6 mm travel"}, "", Plain}
	}
	return LoadPath{
		Title: "Load path", Desc: "From pedal to tyre, with the proposed clutch and master cylinder.",
		Layout: layout, Discs: discs, Concentric: concentric,
		Parts: []Part{
			{Pedal, "Pedal", []string{"5.8 to 1", "206 N at the stop", "150 mm travel"}, "heavy", Near},
			{PedalStop, "Pedal stop", []string{"131 mm", "window 127 to 138 mm"}, "", Plain},
			{Master, "Master cylinder", []string{"19.05 mm bore", "25.9 of 33 mm", "4.1 MPa"}, "frees", Fine},
			{Hose, "Line", []string{"1.8 m hose", "0.74 cm³ swell"}, "", Plain},
			slave,
			{Fork, "Fork", []string{"1.6 to 1", "0.9 mm flex"}, "", Plain},
			{Bearing, "Release bearing", []string{"2.35 kN", "7.8 mm travel"}, "", Plain},
			{Fingers, "Fingers", []string{"7.8 mm travel", "11.5 mm most"}, "frees", Fine},
			{Cover, "Cover", []string{"9.8 kN clamp", "2.0 mm lift", "1.35 mm needed"}, "frees", Fine},
			{Disc, fmt.Sprintf("Discs, %d", discs), []string{"200 / 140 mm", "933 N m", "585 N m asked"}, "holds", Fine},
			{Flywheel, "Flywheel", []string{"468 N m peak"}, "", Plain},
			{Gearbox, "Gearbox", []string{"1st: 1 610 N m", "rated 520 N m in"}, "thin", Near},
			{Propshaft, "Propshaft", []string{"1 610 N m", "38 MPa torsion"}, "holds", Fine},
			{Differential, "Differential", []string{"cross pin 212 MPa"}, "thin", Near},
			{HalfShaft, "Half shafts", []string{"2 380 N m each"}, "holds", Fine},
			{Tyre, "Tyres", []string{"pass 4.1 kN m", "before they spin"}, "", Plain},
		},
	}
}

// samplePedalMap is a softly rising map with a proposed curve that snaps through if asked.
func samplePedalMap(snap bool) PedalMap {
	curve := func(name string, s Series, start, rate, effort, torque, end float64) MapCurve {
		c := MapCurve{Name: name, Series: s}
		for i := 0; i <= 50; i++ {
			x := end * float64(i) / 50
			finger := math.Max(0, (x-start)*rate)
			point := MapPoint{Pedal: x, Finger: finger}
			point.Effort = effort * finger / 6.5 * math.Exp(1-finger/6.5)
			point.Torque = torque * (1 - math.Max(0, math.Min(1, (x-start-10)/26)))
			c.Points = append(c.Points, point)
			low, high := point, point
			low.Finger, high.Finger = finger*0.93, finger*1.07
			low.Effort, high.Effort = point.Effort*0.94, point.Effort*1.06
			low.Torque, high.Torque = point.Torque*0.9, point.Torque*1.1
			c.Low, c.High = append(c.Low, low), append(c.High, high)
		}
		return c
	}
	m := PedalMap{
		Title: "Pedal map", Desc: "Finger travel, effort and torque carried over pedal travel.",
		Curves: []MapCurve{
			curve("metal master", ProposedParts, 24, 0.095, 214, 933, 150),
			curve("original", OriginalParts, 41, 0.055, 150, 933, 150),
		},
		Bite: Span{34, 60}, Window: Span{118, 141}, Stop: 131, FullPedal: 150,
		Freed: 8.6, OverTravel: 11.5,
	}
	if snap {
		m.Curves[0].Points[40].Jump = true
		for i := 40; i < 51; i++ {
			m.Curves[0].Points[i].Finger += 1.2
			m.Curves[0].Points[i].Effort -= 30
		}
	}
	return m
}

func sampleHoldBars() HoldBars {
	return HoldBars{
		Title: "Hold", Desc: "What each clutch can carry against what is asked of it.",
		Peak: Range{432, 468, 505}, Factor: 1.25, Use: "road",
		Rows: []HoldRow{
			{"original", OriginalParts, Range{410, 452, 495}, "slips", Wrong},
			{"organic single", ThirdParts, Range{545, 612, 690}, "thin", Near},
			{"uprated twin", ProposedParts, Range{840, 933, 1030}, "holds", Fine},
		},
	}
}

func sampleTravelBars() TravelBars {
	parts := func(mm ...float64) []TravelPart {
		names := []string{"free play", "dead stroke", "box flex", "hose swell", "fluid", "trapped air", "fork flex", "stand-off", "moves the fingers"}
		var out []TravelPart
		for i, v := range mm {
			out = append(out, TravelPart{names[i], v, i == len(mm)-1})
		}
		return out
	}
	return TravelBars{
		Title: "Where the pedal travel goes", Desc: "Travel lost and travel that moves the fingers, original and proposed.",
		Rows: []TravelRow{
			{"original", OriginalParts, parts(6, 8.1, 9.6, 17.4, 2.6, 7.2, 5.4, 6.2, 87.5)},
			{"metal master", ProposedParts, parts(6, 7, 4.4, 3.1, 1.9, 0, 3.9, 0, 112.7)},
		},
		FullPedal: 150,
	}
}

func sampleSensitivity() Sensitivity {
	return Sensitivity{
		Title: "Measure this first", Desc: "Which roughly known figures make the stop doubtful.",
		Rows: []SensitivityRow{
			{"Fork ratio", "1.5 to 1.7", 0.19, 0.22},
			{"Finger clearance wanted", "0.20 to 0.30 mm a face", 0.11, 0.12},
			{"Cushion of the discs", "0.25 to 0.45 mm", 0.41, 0.46},
			{"Hose swell", "0.08 to 0.14 cm³/m/MPa", 0.07, 0.13},
			{"Pedal box stiffness", "1 200 to 1 800 N/mm", 0.04, 0.09},
		},
	}
}

func sampleWorth() Worth {
	none := Range{math.NaN(), math.NaN(), math.NaN()}
	return Worth{
		Title: "Worth doing now", Desc: "How often parts were found worn, against the chance above which renewing them now pays.",
		Rows: []WorthRow{
			{"Replace the differential cross pins", "worn in 7 of 10", 1 / 9.0, Range{0.498, 0.682, 0.849}, "pays", Fine},
			{"Renew the rear oil seal", "worn in 6 of 13", 0.52, Range{0.297, 0.464, 0.634}, "too few to tell", Near},
			{"Renew the gearbox mount", "worn in 1 of 40", 0.54, Range{0.007, 0.037, 0.076}, "does not pay", Plain},
			{"Renew the spigot bearing", "no records yet", 0.04, none, "no records yet", Plain},
			{"Fit a limited-slip differential", "no records yet", 1.1, none, "does not pay", Plain},
		},
	}
}

func sampleStrip() Strip {
	return Strip{
		Title: "Strip", Desc: "What comes off to reach the wanted work.",
		Ops: []StripOp{
			{"battery", "Battery off", 0.2, nil},
			{"raise", "Raise on the ramp", 0.2, nil},
			{"intake", "Intake trunking", 0.4, []string{"battery"}},
			{"undertray", "Undertray", 0.4, []string{"raise"}},
			{"exhaust", "Exhaust front pipe", 0.7, []string{"undertray"}},
			{"propshaft", "Propshaft", 0.8, []string{"exhaust"}},
			{"halfshafts", "Half shafts", 1.4, []string{"undertray"}},
			{"support", "Support engine", 0.4, []string{"intake"}},
			{"crossmember", "Gearbox cross-member", 0.6, []string{"support", "propshaft"}},
			{"gearbox", "Gearbox", 2.7, []string{"crossmember"}},
			{"diff", "Differential out", 1.6, []string{"propshaft", "halfshafts"}},
			{"master", "Master cylinder and pipe", 0.9, []string{"intake"}},
			{"clutch", "Clutch cover and discs", 0.6, []string{"gearbox"}},
		},
		Jobs: []StripJob{
			{"replace-clutch", "Replace clutch", 0.9, 1.5, 8.7, []string{"clutch"}},
			{"replace-release-hydraulics", "Replace release hydraulics", 1.1, 2.0, 2.6, []string{"master"}},
			{"rear-main-seal", "Crankshaft rear seal", 0.5, 0.5, 8.1, []string{"clutch"}},
			{"inspect-cross-pins", "Inspect cross pins", 1.2, 4.2, 6.3, []string{"diff"}},
		},
	}
}
