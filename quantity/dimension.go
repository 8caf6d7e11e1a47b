package quantity

import (
	"strings"
	"unicode"
)

// Dimension is what a quantity measures. The zero Dimension is Number.
type Dimension uint8

// The dimensions known here, with the SI unit of the float64 that Parse returns.
const (
	Number       Dimension = iota // a bare number, or a percentage; 1
	Percent                       // a percentage only; 1, so that 95 % is 0.95
	Length                        // m
	Area                          // m2
	Volume                        // m3
	Force                         // N
	Torque                        // N m
	Power                         // W
	Pressure                      // Pa
	Stiffness                     // N/m
	Expansion                     // of a hose: volume per length per pressure, m3/m/Pa
	Compliance                    // volume per pressure, m3/Pa
	Mass                          // kg
	Inertia                       // kg m2
	Time                          // s
	Speed                         // m/s
	AngularSpeed                  // rad/s
	Angle                         // rad
	Temperature                   // K
	Energy                        // J
	Density                       // kg/m3
	Acceleration                  // m/s2
)

// dimensions holds, for each Dimension, its name, the noun used in a sentence where that differs, an example
// that Parse accepts, and the units shown to a reader who needs one. The first unit fixes the powers.
var dimensions = [...]struct {
	name, noun, example string
	units               []string
}{
	Number:       {"number", "", "0.28", []string{"%"}},
	Percent:      {"percent", "percentage", "95 %", []string{"%"}},
	Length:       {"length", "", "19.05 mm", []string{"mm", "cm", "m", "km", "µm", "in", "thou", "ft", "mi"}},
	Area:         {"area", "", "285 mm2", []string{"mm2", "cm2", "m2", "in2"}},
	Volume:       {"volume", "", "30 cm3", []string{"cm3", "ml", "cc", "mm3", "l", "m3", "in3"}},
	Force:        {"force", "", "9.8 kN", []string{"N", "kN", "lbf", "kgf"}},
	Torque:       {"torque", "", "520 N m", []string{"N m", "kN m", "lbf ft", "kgf m"}},
	Power:        {"power", "", "380 bhp", []string{"kW", "W", "hp", "bhp", "PS"}},
	Pressure:     {"pressure", "", "3.5 MPa", []string{"bar", "mbar", "Pa", "kPa", "MPa", "GPa", "N/mm2", "psi"}},
	Stiffness:    {"stiffness", "", "1500 N/mm", []string{"N/mm", "kN/mm", "N/m", "lbf/in"}},
	Expansion:    {"expansion", "hose expansion", "0.33 cm3/m/MPa", []string{"cm3/m/MPa", "ml/m/bar", "cm3/ft/psi"}},
	Compliance:   {"compliance", "", "0.05 cm3/MPa", []string{"cm3/MPa", "mm3/bar", "ml/bar"}},
	Mass:         {"mass", "", "1480 kg", []string{"kg", "g", "t", "lb"}},
	Inertia:      {"inertia", "moment of inertia", "0.15 kg m2", []string{"kg m2", "lb ft2"}},
	Time:         {"time", "", "2.5 h", []string{"h", "min", "s", "d"}},
	Speed:        {"speed", "", "90 km/h", []string{"km/h", "mph", "m/s"}},
	AngularSpeed: {"angular speed", "", "6200 rpm", []string{"rpm", "1/min", "rad/s"}},
	Angle:        {"angle", "", "12 deg", []string{"deg", "rad"}},
	Temperature:  {"temperature", "", "20 degC", []string{"degC", "degF", "K"}},
	Energy:       {"energy", "", "156 kJ", []string{"kJ", "J"}},
	Density:      {"density", "", "7850 kg/m3", []string{"kg/m3", "g/cm3"}},
	Acceleration: {"acceleration", "", "9.8 m/s2", []string{"m/s2"}},
}

// Name is the dimension's name: "length", "angular speed".
func (d Dimension) Name() string { return dimensions[d].name }

// String is the name, so that a Dimension prints as a word.
func (d Dimension) String() string { return d.Name() }

// Example is a text that Parse accepts for the dimension: "19.05 mm".
func (d Dimension) Example() string { return dimensions[d].example }

// Units lists the units to show to a reader, the most usual first. Parse accepts further ones, made of these.
func (d Dimension) Units() []string { return append([]string(nil), dimensions[d].units...) }

// DimensionNamed finds a dimension by its name. Letter case, spaces, hyphens and underscores do not matter, so
// that a struct tag may say "angular speed" or "angular-speed".
func DimensionNamed(name string) (Dimension, bool) {
	d, ok := named[plainName(name)]
	return d, ok
}

var named = func() map[string]Dimension {
	all := make(map[string]Dimension, len(dimensions))
	for d := range dimensions {
		all[plainName(dimensions[d].name)] = Dimension(d)
	}
	return all
}()

func plainName(name string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(" -_", r) {
			return -1
		}
		return unicode.ToLower(r)
	}, name)
}

// noun is the dimension with its article, for a sentence: "a force", "an area".
func (d Dimension) noun() string {
	word := dimensions[d].noun
	if word == "" {
		word = dimensions[d].name
	}
	if strings.ContainsRune("aeiou", rune(word[0])) {
		return "an " + word
	}
	return "a " + word
}

// measured is the dimension that a unit measures, if it measures one known here.
func measured(u unit) (Dimension, bool) {
	if u.percent {
		return Percent, true
	}
	for d := range dimensions {
		if Dimension(d).takes(u) {
			return Dimension(d), true
		}
	}
	return 0, false
}

// takes reports whether a figure in unit u is a quantity of dimension d. A torque and an energy have the same
// powers: a unit made of joules or watts is no torque.
func (d Dimension) takes(u unit) bool {
	switch d {
	case Number:
		return u.powers == powers{}
	case Percent:
		return u.percent
	case Torque:
		return u.powers == d.powers() && !u.work
	}
	return u.powers == d.powers()
}

func (d Dimension) powers() powers { return dimensionPowers[d] }

var dimensionPowers = func() (all [len(dimensions)]powers) {
	for d := range dimensions {
		all[d] = mustUnit(dimensions[d].units[0]).powers
	}
	return all
}()
