package release

const zeroCelsius = 273.15 // K

// FluidGrade is a class of brake and clutch fluid with the least boiling points that its standard lets pass. A
// maker's fluid may do better; one that has taken up water does worse every year.
type FluidGrade struct {
	Name     string
	Dry, Wet float64 // equilibrium reflux boiling point new, and after the standard's humidifying, K
	Silicone bool    // never to be mixed with the glycol grades
}

// FluidGrades are the classes of FMVSS 116 (49 CFR 571.116) S5.1.1 and S5.1.2 (seen as quoted by a fluid supplier).
// ISO 4925 classes 3, 4 and 5-1 have the same least figures (from memory).
var FluidGrades = []FluidGrade{
	{"DOT 3", 205 + zeroCelsius, 140 + zeroCelsius, false},
	{"DOT 4", 230 + zeroCelsius, 155 + zeroCelsius, false},
	{"DOT 5", 260 + zeroCelsius, 180 + zeroCelsius, true},
	{"DOT 5.1", 260 + zeroCelsius, 180 + zeroCelsius, false},
}

// FluidNamed finds a grade by its name.
func FluidNamed(name string) (FluidGrade, bool) {
	for _, g := range FluidGrades {
		if g.Name == name {
			return g, true
		}
	}
	return FluidGrade{}, false
}
