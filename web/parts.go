package web

import "layshaft/picture"

// partLine is one part of the load path in words, with the figure that a reader would change to change it.
type partLine struct {
	ID      picture.PartID
	Name    string
	Numbers []string
	Word    word
	Target  string // id of the field; empty where the job file has none for it
}

func partLines(parts []picture.Part, shown pair) []partLine {
	var lines []partLine
	for _, p := range parts {
		lines = append(lines, partLine{p.ID, p.Name, p.Numbers, word{p.Word, toneClass(p.Tone)}, targetOf(p.ID, shown)})
	}
	return lines
}

// targetOf is the first figure of a part in the form.
func targetOf(id picture.PartID, shown pair) string {
	clutch, release := "clutch."+shown.clutch+".", "release."+shown.release+"."
	return fieldID(map[picture.PartID]string{
		picture.Pedal: release + "pedal.ratio", picture.PedalStop: release + "pedal.travel",
		picture.Master: release + "master.bore", picture.Hose: release + "line.expansion",
		picture.Slave: release + "slave.bore", picture.Fork: release + "slave.fork_ratio", picture.Bearing: release + "slave.stand_off",
		picture.Fingers: clutch + "lever_ratio", picture.Cover: clutch + "clamp_load", picture.Disc: clutch + "facing.outer",
		picture.Flywheel: "engine.power", picture.Gearbox: "driveline.gears", picture.Propshaft: "driveline.final_drive",
		picture.Differential: "driveline.cross_pin.diameter", picture.HalfShaft: "driveline.half_shaft.diameter", picture.Tyre: "driveline.tyre_radius",
	}[id])
}
