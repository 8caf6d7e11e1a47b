package jobfile

import (
	"layshaft/release"
	"layshaft/spring"
	"layshaft/uncertain"
	"layshaft/workshop"
	"layshaft/yamlfile"
)

// linkagePart is the pedal's geometry at rest: places in the plane in which it swings, from its pivot. Which way the
// axes point does not matter as long as it is the same for all.
type linkagePart struct {
	Pad    yamlfile.Row `key:"pad" of:"length,length" need:"yes" like:"[20 mm, -280 mm]"`      // middle of the pad
	RodEnd yamlfile.Row `key:"rod_end" of:"length,length" need:"yes" like:"[-5 mm, -60 mm]"`   // the rod's pin on the pedal
	Seat   yamlfile.Row `key:"rod_seat" of:"length,length" need:"yes" like:"[124 mm, -45 mm]"` // where the rod bears on the master's piston
	Axis   yamlfile.Row `key:"master_axis" of:"number,number" need:"yes" like:"[1, 0]"`        // the way the piston moves
}

func xy(row yamlfile.Row) release.XY { return release.XY{X: row[0], Y: row[1]} }

// pedalDrive reads what ties pad to rod: a ratio or the geometry, and what a spring adds.
func (r *reader) pedalDrive(key string, p *pedalPart, out *workshop.Release) {
	switch {
	case p.Ratio != nil && p.Linkage != nil:
		r.fault(key+"ratio", "the linkage already gives the ratio; leave one of them out")
	case p.Ratio != nil:
		out.PedalRatio = *p.Ratio
	case p.Linkage != nil:
		l := p.Linkage
		out.Linkage = release.Linkage{Pad: xy(l.Pad), RodEnd: xy(l.RodEnd), Seat: xy(l.Seat), Axis: xy(l.Axis)}
		travel := p.Travel.Mid()
		out.PedalRatio = uncertain.Exact(out.Linkage.RatioAt(travel / 2))
		r.assume(key+"linkage", "pedal ratio from the geometry: %.2f at rest, %.2f half way, %.2f at full travel",
			out.Linkage.RatioAt(0), out.PedalRatio.Mid(), out.Linkage.RatioAt(travel))
	default:
		r.fault(key+"ratio", "neither ratio nor linkage is given; write for example ratio: 5.8")
	}
	if p.Assist != nil {
		r.assist(key+"assist", p.Assist, out)
	}
}

func (r *reader) assist(key string, rows []yamlfile.Row, out *workshop.Release) {
	travel, force := make([]float64, len(rows)), make([]float64, len(rows))
	for i, row := range rows {
		travel[i], force[i] = row[0], row[1]
	}
	curve, err := spring.NewCurve(travel, force)
	if err != nil {
		r.fault(key, "%v", err)
		return
	}
	out.Assist = curve
}
