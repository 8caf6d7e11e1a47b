package diagnosis

// Guide is how a reading is taken.
type Guide struct {
	How      string
	Minutes  float64 // that it takes; common practice, no source
	Cautions []string
}

// GuideTo is the guide to the reading with a key.
func GuideTo(key string) Guide { return guides[key] }

// Cautions hold for every reading.
var Cautions = []string{
	"Engine off, gearbox in neutral, wheels chocked; a raised car stands on a locked ramp or on stands.",
	"Nobody is under the car or has fingers at the fork while the pedal moves, but by the word of the one who reads.",
	"Brake and clutch fluid harms paint, skin and eyes; where brake and clutch share it, test the brakes afterwards.",
	"The makers' data for car, clutch and cylinders come before any figure here.",
}

const (
	fingersOut = "Keep fingers out of the fork opening: the fork moves with more than a thousand newtons."
	held       = "With the pedal held where it was for the other readings"
)

var guides = map[string]Guide{
	SlaveTravel.Key(): {
		How: "Rule or dial gauge along the slave's push rod, from rest. A helper presses the pedal slowly to where it is read, measures " +
			"that at the pad and holds it.",
		Minutes: 10, Cautions: []string{fingersOut},
	},
	SlaveTravelAfterPumping.Key(): {
		How: "Leave the gauge of the slave travel at its zero. Five quick strokes of the whole pedal, then hold it where it was held before, " +
			"and read.",
		Minutes: 5, Cautions: []string{fingersOut},
	},
	BoxMovement.Key(): {
		How: "Dial gauge on the body, its tip on the master's flange along the push rod. " + held + ", read how far the flange has " +
			"moved. Watch the bulkhead and the pedal's pivot as well.",
		Minutes: 15,
	},
	Effort.Key(): {
		How:     "Force gauge or spring balance square on the pad. Press slowly, and read on the way down, not while it is held.",
		Minutes: 5,
	},
	Pressure.Key(): {
		How: "Gauge for 10 MPa or more on the slave's bleed screw, its hose bled. " + held + ", read it. Take it last: fitting the " +
			"gauge lets air in, and the line is bled again afterwards.",
		Minutes: 40, Cautions: []string{"The line is under pressure while the pedal is down: open no screw then, and wear eye protection."},
	},
	BearingTravel.Key(): {
		How: "Boot off the fork opening, or through an inspection hole: depth gauge on the bearing or on the fork beside it. " + held +
			", read how far it has moved. Where it cannot be seen, leave it out.",
		Minutes: 20, Cautions: []string{fingersOut},
	},
	FreePlay.Key(): {
		How:     "Rule beside the pad. Press with one finger until the rod meets the piston, and read.",
		Minutes: 3,
	},
	LoadFeltAt.Key(): {
		How: "Rule beside the pad. Press slowly with the hand and read where the pedal turns heavy: there the bearing meets the fingers. " +
			"Three times, and the mean.",
		Minutes: 5,
	},
	HoldsPressureKey: {
		How: "Hold the pedal most of the way down with a steady load, by a bar to the seat rather than a foot, for 30 s. Say no where it sinks. " +
			"Look for fluid at master, line and slave.",
		Minutes: 3,
	},
}
