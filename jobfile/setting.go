package jobfile

import (
	"layshaft/release"
	"layshaft/uncertain"
	"layshaft/workshop"
	"layshaft/yamlfile"
)

// settingFile is what was read on a car while its pedal is set, as it is written; docs/models-release.md describes it
// to people.
type settingFile struct {
	Version int          `key:"layshaft" need:"yes" like:"1"`
	Pair    string       `key:"pair" need:"yes" like:"uprated/metal-master"`
	Before  settingPart  `key:"setting" need:"yes"`
	Wanted  *wantedPart  `key:"wanted"`
	Done    *donePart    `key:"done"`
	After   *settingPart `key:"after"`
}

type settingPart struct {
	FreePlay      *uncertain.Value `key:"free_play" of:"length" like:"9 +- 0.5 mm" check:">=0"`
	Bite          *uncertain.Value `key:"bite" of:"length" like:"62 +- 2 mm" check:">0"`         // pedal travel
	BiteHeight    *uncertain.Value `key:"bite_height" of:"length" like:"88 +- 2 mm" check:">=0"` // above the fully-down end
	SlaveTravel   *uncertain.Value `key:"slave_travel" of:"length" like:"11.9 +- 0.3 mm" check:">=0"`
	BearingTravel *uncertain.Value `key:"bearing_travel" of:"length" like:"7.2 +- 0.3 mm" check:">=0"`
	Effort        *uncertain.Value `key:"effort" of:"force" like:"205 +- 10 N" check:">=0"`
	Pressure      *uncertain.Value `key:"pressure" of:"pressure" like:"4.1 +- 0.1 MPa" check:">=0"`
	At            *uncertain.Value `key:"at" of:"length" like:"140 mm" check:">0"` // pedal travel at which the last four were read
}

type wantedPart struct {
	FreePlay uncertain.Value `key:"free_play" of:"length" need:"yes" like:"1 .. 5 mm" check:">0"`
}

// donePart is what was really set, where it is not what was advised.
type donePart struct {
	RodLonger   *float64 `key:"rod_longer" of:"length" like:"0.9 mm"` // shorter where negative
	TurnsLonger *float64 `key:"turns_longer" of:"number" like:"0.75"`
	Stop        *float64 `key:"stop" of:"length" like:"131 mm" check:">0"`
}

// ParseSetting reads a setting file. name stands in messages.
func ParseSetting(name string, text []byte) (*workshop.CarSetting, *Source, error) {
	doc, err := yamlfile.Parse(name, text)
	if err != nil {
		return nil, nil, err
	}
	source := &Source{Name: name, Text: text, doc: doc}
	var f settingFile
	if err := doc.Decode(&f); err != nil {
		return nil, source, err
	}
	r := &reader{doc: doc}
	car := r.setting(&f)
	if len(r.problems) > 0 {
		return nil, source, r.problems
	}
	return car, source, nil
}

func (r *reader) setting(f *settingFile) *workshop.CarSetting {
	if f.Version != Version {
		r.fault("layshaft", "this program reads setting files of version %d, not %d", Version, f.Version)
	}
	car := &workshop.CarSetting{Pair: f.Pair, Before: r.settingTaken("setting", &f.Before)}
	if f.Wanted != nil {
		if f.Wanted.FreePlay.Kind() != uncertain.UniformKind {
			r.fault("wanted.free_play", "a range has two ends; write for example 1 .. 5 mm")
		}
		lo, hi := f.Wanted.FreePlay.Bounds()
		car.Wanted = &release.Wanted{FreePlayMin: lo, FreePlayMax: hi}
	}
	if f.After != nil {
		after := r.settingTaken("after", f.After)
		car.After = &after
	}
	if f.Done != nil {
		car.Done = workshop.SettingDone{Rod: f.Done.RodLonger, Turns: f.Done.TurnsLonger, Stop: f.Done.Stop}
		switch {
		case f.After == nil:
			r.fault("done", "what was done is of use once it was read again; add an after part, or leave this out")
		case f.Done.RodLonger != nil && f.Done.TurnsLonger != nil:
			r.fault("done.turns_longer", "the rod's change is already given by rod_longer; leave one of them out")
		}
	}
	return car
}

func (r *reader) settingTaken(key string, p *settingPart) workshop.SettingTaken {
	if p.Bite != nil && p.BiteHeight != nil {
		r.fault(key+".bite_height", "the bite is already given by its travel; leave one of them out")
	}
	taken := map[release.SettingKind]uncertain.Value{}
	for kind, value := range map[release.SettingKind]*uncertain.Value{
		release.FreePlayRead: p.FreePlay, release.BiteRead: p.Bite, release.SlaveTravelRead: p.SlaveTravel,
		release.BearingTravelRead: p.BearingTravel, release.EffortRead: p.Effort, release.PressureRead: p.Pressure,
	} {
		if value != nil {
			taken[kind] = *value
		}
	}
	return workshop.SettingTaken{SettingReadings: release.SettingReadings{At: p.At, Taken: taken}, BiteHeight: p.BiteHeight}
}
