package carview

import (
	"fmt"
	"strings"

	"layshaft/picture"
	"layshaft/workshop"
)

// LoadPath draws one clutch with one release system in the car, from the pedal to the tyre.
func LoadPath(job *workshop.Job, a *workshop.Workup, clutch, release string) picture.LoadPath {
	c, s := job.Clutch(clutch), job.Release(release)
	path := picture.LoadPath{
		Title:  fmt.Sprintf("Load path of %s: %s", job.Car.Name, PairName(clutch, release)),
		Layout: layoutDrawn(job.Car.Layout),
		Discs:  1,
	}
	if c != nil {
		path.Discs = min(c.Discs, 3) // more than three are drawn as three; the label says how many
		path.Parts = append(path.Parts, clutchParts(c, a)...)
	}
	if s != nil {
		path.Concentric = s.SlaveSleeve.Mid() > 0
		path.Parts = append(path.Parts, releaseParts(s, a.Release.Pair(clutch, release), path.Concentric)...)
	}
	path.Parts = append(path.Parts, driveParts(job, a)...)
	path.Desc = describe(path.Parts)
	return path
}

// layoutDrawn is the drawing that suits a layout; a shop's own layout is drawn by how its name begins.
func layoutDrawn(layout string) picture.Layout {
	transverse := strings.Contains(layout, "transverse")
	switch {
	case strings.HasPrefix(layout, "mid"):
		return picture.MidTransaxle
	case strings.HasPrefix(layout, "fwd"):
		return picture.TransverseFront
	case strings.HasPrefix(layout, "4wd") && transverse:
		return picture.TransverseFour
	case strings.HasPrefix(layout, "4wd"):
		return picture.LongitudinalFour
	}
	return picture.LongitudinalRear
}

func releaseParts(s *workshop.Release, pair *workshop.PairAnswer, concentric bool) []picture.Part {
	pedal := picture.Part{ID: picture.Pedal, Name: "Pedal", Numbers: []string{
		written(s.PedalRatio, "", 2) + " : 1", written(s.PedalTravel, "mm", 0) + " travel"}}
	master := picture.Part{ID: picture.Master, Name: "Master", Numbers: []string{written(s.MasterBore, "mm", 2) + " bore"}}
	line := picture.Part{ID: picture.Hose, Name: "Line", Numbers: nil}
	slave := picture.Part{ID: picture.Slave, Name: "Slave", Numbers: []string{written(s.SlaveBore, "mm", 2) + " bore"}}
	fork := picture.Part{ID: picture.Fork, Name: "Fork", Numbers: []string{written(s.ForkRatio, "", 2) + " : 1"}}
	if concentric {
		slave.Name = "Concentric slave"
		slave.Numbers[0] = written(s.SlaveBore, "mm", 1) + " on " + written(s.SlaveSleeve, "mm", 1)
	}
	if pair == nil {
		return []picture.Part{pedal, master, line, slave, fork}
	}
	pedal.Numbers = append(pedal.Numbers, Measure(pair.PeakEffort, 0, "N")+" at most")
	master.Numbers = append(master.Numbers, Measure(pair.MasterStroke, 1, "mm")+" of stroke used")
	if pair.Verdict == "bottoms" {
		master.Word, master.Tone = pair.Verdict, picture.Wrong
	}
	line.Numbers = []string{Measure(pair.PeakPressure, 1, "MPa")}
	slave.Numbers = append(slave.Numbers, Measure(pair.SlaveTravel, 1, "mm")+" of travel")
	bearing := picture.Part{ID: picture.Bearing, Name: "Release bearing", Numbers: []string{Measure(pair.BearingTravel, 1, "mm") + " of travel"}}
	fingers := picture.Part{ID: picture.Fingers, Name: "Fingers", Numbers: []string{
		Measure(pair.FingerTravel, 1, "mm") + " at full pedal",
		fmt.Sprintf("free at %s", Measure(pair.FreedFinger, 1, "mm")),
		fmt.Sprintf("limit %s", Measure(pair.FingerLimit, 1, "mm"))},
		Word: pair.Verdict, Tone: Tone(pair.Verdict)}
	stop := picture.Part{ID: picture.PedalStop, Name: "Stop", Numbers: []string{"set at " + Measure(pair.StopRecommended, 0, "mm")}}
	if !pair.StopRecommended.Known() {
		stop.Numbers = []string{"no place for it"}
		stop.Word, stop.Tone = pair.Verdict, Tone(pair.Verdict)
	}
	return []picture.Part{pedal, stop, master, line, slave, fork, bearing, fingers}
}

func clutchParts(c *workshop.Clutch, a *workshop.Workup) []picture.Part {
	cover := picture.Part{ID: picture.Cover, Name: "Cover", Numbers: []string{written(c.Clamp, "kN", 1) + " clamp load"}}
	disc := picture.Part{ID: picture.Disc, Name: "Disc", Numbers: []string{
		written(c.Outer, "mm", 0) + " / " + written(c.Inner, "mm", 0), "friction " + written(c.Friction, "", 2)}}
	if c.Discs > 1 {
		disc.Name = fmt.Sprintf("%d discs", c.Discs)
	}
	if a.Hold != nil {
		h := a.Hold.Clutches[c.Name]
		disc.Numbers = append(disc.Numbers, Measure(h.Capacity, 0, "N m")+" carried")
		disc.Word, disc.Tone = h.Verdict, Tone(h.Verdict)
	}
	return []picture.Part{cover, disc}
}

func driveParts(job *workshop.Job, a *workshop.Workup) []picture.Part {
	if a.Hold == nil {
		return nil
	}
	parts := []picture.Part{{ID: picture.Flywheel, Name: "Engine", Numbers: []string{
		Measure(a.Hold.Demand, 0, "N m") + " peak", fmt.Sprintf("x %s for %s", Number(a.Hold.ServiceFactor, 2), a.Hold.Use)}}}
	drive := a.Hold.Drive
	if drive == nil || len(drive.Gears) == 0 {
		return parts
	}
	first := drive.Gears[0]
	limited := func(load workshop.Figure) string {
		if first.TyreLimited {
			return Measure(load, 0, "N m") + ", tyres' limit"
		}
		return Measure(load, 0, "N m") + " in 1st"
	}
	differential := picture.Part{ID: picture.Differential, Name: "Differential", Numbers: []string{limited(first.Case)}}
	if drive.Pin != nil {
		differential.Numbers = append(differential.Numbers, "cross pin "+Measure(drive.Pin.PinionPressure, 0, "MPa"))
	}
	shaft := picture.Part{ID: picture.HalfShaft, Name: "Half shaft", Numbers: []string{Measure(first.HalfShaft, 0, "N m")}}
	if drive.HalfShaft != nil {
		shaft.Numbers = append(shaft.Numbers, Measure(drive.HalfShaft.Stress, 0, "MPa")+" in torsion")
	}
	return append(parts,
		picture.Part{ID: picture.Gearbox, Name: "Gearbox", Numbers: []string{Measure(first.GearboxOut, 0, "N m") + " out in 1st"}},
		picture.Part{ID: picture.Propshaft, Name: "Propshaft", Numbers: []string{Measure(first.Propshaft, 0, "N m")}},
		differential, shaft,
		picture.Part{ID: picture.Tyre, Name: "Tyre", Numbers: []string{"grip " + written(job.Drive.TyreGrip, "", 2)}})
}

func describe(parts []picture.Part) string {
	var all []string
	for _, p := range parts {
		text := p.Name + ": " + strings.Join(p.Numbers, ", ")
		if p.Word != "" {
			text += " (" + p.Word + ")"
		}
		all = append(all, text)
	}
	return strings.Join(all, "; ") + "."
}
