package jobfile

import (
	"layshaft/release/diagnosis"
	"layshaft/uncertain"
	"layshaft/workshop"
	"layshaft/yamlfile"
)

// readingsFile is what was read on a car, as it is written; docs/diagnosis.md describes it to people.
type readingsFile struct {
	Version  int          `key:"layshaft" need:"yes" like:"1"`
	Pair     string       `key:"pair" need:"yes" like:"uprated/metal-master"`
	Readings readingsPart `key:"readings" need:"yes"`
	Odds     *oddsPart    `key:"odds"`
}

type readingsPart struct {
	PedalTravel   *uncertain.Value `key:"pedal_travel" of:"length" like:"148 +- 1 mm" check:">0"`
	SlaveTravel   *uncertain.Value `key:"slave_travel" of:"length" like:"12.1 +- 0.3 mm" check:">=0"`
	AfterPumping  *uncertain.Value `key:"slave_travel_after_pumping" of:"length" like:"13.4 +- 0.3 mm" check:">=0"`
	BoxMovement   *uncertain.Value `key:"box_movement" of:"length" like:"1.9 +- 0.1 mm" check:">=0"`
	Effort        *uncertain.Value `key:"effort" of:"force" like:"205 +- 10 N" check:">=0"`
	Pressure      *uncertain.Value `key:"pressure" of:"pressure" like:"4.1 +- 0.1 MPa" check:">=0"`
	BearingTravel *uncertain.Value `key:"bearing_travel" of:"length" like:"7.2 +- 0.3 mm" check:">=0"`
	FreePlay      *uncertain.Value `key:"free_play" of:"length" like:"6 +- 1 mm" check:">=0"`
	LoadFeltAt    *uncertain.Value `key:"load_felt_at" of:"length" like:"16 +- 3 mm" check:">=0"`
	HoldsPressure *bool            `key:"holds_pressure"`
	Drags         *bool            `key:"drags"`
}

// oddsPart are the shop's own findings: how often each cause was found.
type oddsPart struct {
	None            *float64 `key:"none" of:"number" like:"1" check:">=0"`
	TrappedAir      *float64 `key:"trapped-air" of:"number" like:"2" check:">=0"`
	BoxFlex         *float64 `key:"box-flex" of:"number" like:"1" check:">=0"`
	HoseSwelling    *float64 `key:"hose-swelling" of:"number" like:"1" check:">=0"`
	WrongMasterBore *float64 `key:"wrong-master-bore" of:"number" like:"1" check:">=0"`
	WrongSlaveBore  *float64 `key:"wrong-slave-bore" of:"number" like:"1" check:">=0"`
	WornFork        *float64 `key:"worn-fork" of:"number" like:"1" check:">=0"`
	SealBypass      *float64 `key:"seal-bypass" of:"number" like:"1" check:">=0"`
	StandOff        *float64 `key:"stand-off" of:"number" like:"1" check:">=0"`
	DiscFault       *float64 `key:"disc-fault" of:"number" like:"1" check:">=0"`
}

// ParseReadings reads a readings file. name stands in messages.
func ParseReadings(name string, text []byte) (*workshop.CarReadings, *Source, error) {
	doc, err := yamlfile.Parse(name, text)
	if err != nil {
		return nil, nil, err
	}
	source := &Source{Name: name, Text: text, doc: doc}
	var f readingsFile
	if err := doc.Decode(&f); err != nil {
		return nil, source, err
	}
	if f.Version != Version {
		return nil, source, doc.Fault("layshaft", "this program reads readings files of version %d, not %d", Version, f.Version)
	}
	return &workshop.CarReadings{Pair: f.Pair, Readings: f.Readings.taken(), Odds: f.Odds.all()}, source, nil
}

func (p *readingsPart) taken() diagnosis.Readings {
	r := diagnosis.Readings{
		PedalTravel: p.PedalTravel, Taken: map[diagnosis.Kind]uncertain.Value{},
		HoldsPressure: said(p.HoldsPressure), Drags: said(p.Drags),
	}
	for kind, value := range map[diagnosis.Kind]*uncertain.Value{
		diagnosis.SlaveTravel: p.SlaveTravel, diagnosis.SlaveTravelAfterPumping: p.AfterPumping, diagnosis.BoxMovement: p.BoxMovement,
		diagnosis.Effort: p.Effort, diagnosis.Pressure: p.Pressure, diagnosis.BearingTravel: p.BearingTravel,
		diagnosis.FreePlay: p.FreePlay, diagnosis.LoadFeltAt: p.LoadFeltAt,
	} {
		if value != nil {
			r.Taken[kind] = *value
		}
	}
	return r
}

func said(yes *bool) diagnosis.Known {
	switch {
	case yes == nil:
		return diagnosis.NotLookedAt
	case *yes:
		return diagnosis.Yes
	}
	return diagnosis.No
}

// all are the odds with those that the file leaves out at their usual figure; nil where the file has none.
func (o *oddsPart) all() map[diagnosis.Cause]float64 {
	if o == nil {
		return nil
	}
	odds := diagnosis.DefaultOdds()
	for cause, given := range map[diagnosis.Cause]*float64{
		diagnosis.None: o.None, diagnosis.TrappedAir: o.TrappedAir, diagnosis.BoxFlex: o.BoxFlex, diagnosis.HoseSwelling: o.HoseSwelling,
		diagnosis.WrongMasterBore: o.WrongMasterBore, diagnosis.WrongSlaveBore: o.WrongSlaveBore, diagnosis.WornFork: o.WornFork,
		diagnosis.SealBypass: o.SealBypass, diagnosis.StandOff: o.StandOff, diagnosis.DiscFault: o.DiscFault,
	} {
		if given != nil {
			odds[cause] = *given
		}
	}
	return odds
}
