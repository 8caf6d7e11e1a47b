package web

import (
	"slices"

	"layshaft/carview"
	"layshaft/workshop"
)

// letGoView is the answer to "does the pedal let it go".
type letGoView struct {
	Map         *drawing
	Readings    readings
	Stop        float64 // pedal travel that is read first
	Read        table   // the same, every so many millimetres, for reading without the picture
	Pairs       table
	Notes       []string // on the pair that is shown
	Settings    []carview.Setting
	Travel      *drawing
	Doubt       *drawing
	Sure        string
	NotComputed []assumption
}

func viewLetGo(job *workshop.Job, a *workshop.ReleaseAnswer, shown, beside pair) *letGoView {
	main, other := a.Pair(shown.clutch, shown.release), a.Pair(beside.clutch, beside.release)
	v := &letGoView{Pairs: comparePairs(a.Pairs), NotComputed: assumptions(a.NotComputed)}
	if main == nil {
		return v
	}
	overlaid := slices.DeleteFunc([]*workshop.PairAnswer{main, other}, func(p *workshop.PairAnswer) bool { return p == nil })
	v.Map = draw(carview.PedalMap(overlaid...))
	v.Travel = draw(carview.TravelBars(overlaid...))
	v.Readings = readMap(overlaid)
	if main.StopRecommended.Known() && main.NoWindow == "" {
		v.Stop = float64(main.StopRecommended)
	} else {
		v.Stop = float64(main.PedalTravel)
	}
	v.Read = v.Readings.table()
	v.Settings = carview.Settings(job, main)
	for _, note := range main.Notes {
		v.Notes = append(v.Notes, sentence(note))
	}
	if doubt, some := carview.Doubt(job, main); some {
		v.Doubt = draw(doubt)
		v.Sure = "Once the discs are free, " + carview.Measure(main.Sure.Left, 1, "mm") + " of pedal are left, give or take " +
			carview.Measure(main.Sure.LeftSD, 1, "mm") + " (one standard deviation, by sampling)."
	}
	return v
}

func comparePairs(pairs []workshop.PairAnswer) table {
	t := table{
		Caption: "Every clutch with every release system",
		Head: []string{"Pair", "It", "Fingers at full pedal", "Free at", "Never beyond", "Bites", "Stop between", "Set it to",
			"Effort", "Line", "Master stroke", "Frees", "Good at the stop"},
	}
	for _, p := range pairs {
		set := carview.Measure(p.StopRecommended, 0, "mm")
		if p.NoWindow != "" {
			set = "–"
		}
		t.add(carview.PairName(p.Clutch, p.Release), sentence(p.Why), verdict(p.Verdict),
			carview.Measure(p.FingerTravel, 1, "mm"), carview.Measure(p.FreedFinger, 1, "mm"), carview.Measure(p.FingerLimit, 1, "mm"),
			carview.Between(p.BiteEnd, p.BiteStart, 0, "mm"), carview.Window(&p), set, carview.Measure(p.PeakEffort, 0, "N"), carview.Measure(p.PeakPressure, 1, "MPa"),
			carview.Used(p.MasterStroke, p.MasterHas), carview.Chance(p.PFrees), carview.Chance(p.PBoth))
	}
	return t
}

// readings are the overlaid maps as a script reads them out under a finger or the arrow keys: each point's pedal
// travel, and its figures as they are shown.
type readings []curveReadings

type curveReadings struct {
	Name   string         `json:"name"`
	Points []pointReading `json:"points"`
}

type pointReading struct {
	Pedal float64 `json:"at"`
	// Shown are pedal travel, finger travel, effort, line pressure and torque carried.
	Shown [5]string `json:"shown"`
}

func readMap(pairs []*workshop.PairAnswer) readings {
	var all readings
	for _, p := range pairs {
		curve := curveReadings{Name: carview.PairName(p.Clutch, p.Release)}
		for _, at := range p.Map {
			if !at.Pedal.Known() {
				continue
			}
			curve.Points = append(curve.Points, pointReading{float64(at.Pedal), [5]string{
				carview.Measure(at.Pedal, 0, "mm"), carview.Measure(at.Finger, 1, "mm"), carview.Measure(at.Effort, 0, "N"),
				carview.Measure(at.Pressure, 1, "MPa"), carview.Measure(at.Torque, 0, "N m")}})
		}
		all = append(all, curve)
	}
	return all
}

// readEvery is how many points of a map make one row of its table.
const readEvery = 10

func (r readings) table() table {
	t := table{Caption: "The pedal map, read down the pedal", Head: []string{"Pair", "Pedal", "Fingers", "Effort", "Line", "Carries"}}
	for _, curve := range r {
		for i := 0; i < len(curve.Points); i += readEvery {
			p := curve.Points[i].Shown
			t.add(curve.Name, "", p[0], p[1], p[2], p[3], p[4])
		}
	}
	return t
}
