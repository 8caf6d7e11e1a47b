package quantity

import (
	"math/big"
	"strings"
)

// base units: the SI ones, and the radian, which keeps angular speeds apart from frequencies.
var base = map[string]powers{
	"m":   {metre: 1},
	"kg":  {kilogram: 1},
	"s":   {second: 1},
	"K":   {kelvin: 1},
	"rad": {radian: 1},
}

// pi to 50 decimals, so that degrees and revolutions convert to the nearest float64.
const pi = "3.14159265358979323846264338327950288419716939937510"

// definitions of all other units, each by units defined above it. All are exact but those with pi. The inch,
// foot and pound are those of the international agreement of 1959; horsepower is the mechanical one.
var definitions = []struct{ symbols, figure, unit string }{
	{"km", "1000", "m"},
	{"cm", "0.01", "m"},
	{"mm", "0.001", "m"},
	{"µm um", "0.000001", "m"},
	{"in \"", "0.0254", "m"},
	{"thou", "0.001", "in"},
	{"ft", "12", "in"},
	{"mi", "5280", "ft"},

	{"ml mL cc", "1", "cm3"},
	{"l L", "1000", "cm3"},

	{"min", "60", "s"},
	{"h", "60", "min"},
	{"d", "24", "h"},
	{"mph", "1", "mi/h"},
	{"kph", "1", "km/h"},

	{"g", "0.001", "kg"},
	{"mg", "0.001", "g"},
	{"t", "1000", "kg"},
	{"lb", "0.45359237", "kg"},

	{"N", "1", "kg m/s2"},
	{"kN", "1000", "N"},
	{"kgf", "9.80665", "kg m/s2"}, // by the standard acceleration of free fall
	{"lbf", "9.80665", "lb m/s2"},

	{"Pa", "1", "N/m2"},
	{"hPa mbar", "100", "Pa"},
	{"kPa", "1000", "Pa"},
	{"bar", "100000", "Pa"},
	{"MPa", "1000000", "Pa"},
	{"GPa", "1000000000", "Pa"},
	{"psi", "1", "lbf/in2"},

	{"J", "1", "N m"},
	{"kJ", "1000", "J"},
	{"MJ", "1000000", "J"},
	{"W", "1", "J/s"},
	{"kW", "1000", "W"},
	{"hp bhp", "550", "ft lbf/s"},
	{"PS", "75", "kgf m/s"},

	{"deg °", pi + "/180", "rad"},
	{"rev r", "2*" + pi, "rad"},
	{"rpm", "1", "rev/min"},

	{"%", "0.01", ""},
	{"degC °C", "1", "K"},
	{"degF °F", "5/9", "K"},
}

// zeros are the kelvins at the zero of the scales that do not begin at absolute zero: 273.15 and 459.67 x 5/9.
var zeros = map[string]string{"degC": "273.15", "degF": "45967/180"}

// workUnits measure work or power, so a product of them is never a torque though its powers are the same.
var workUnits = map[string]bool{"J": true, "kJ": true, "MJ": true, "W": true, "kW": true, "hp": true, "PS": true}

// spellings of the trade that the rules for unit products would refuse or take for something else. Each is
// understood so only where its dimension is wanted: a lb is a mass everywhere else.
var spellings = map[string]struct {
	meaning string
	only    Dimension
}{
	"Nm":    {"N m", Torque},
	"kNm":   {"kN m", Torque},
	"lb ft": {"lbf ft", Torque},
	"ft lb": {"lbf ft", Torque},
	"lbft":  {"lbf ft", Torque},
	"lb in": {"lbf in", Torque},
	"in lb": {"lbf in", Torque},
	"lb/in": {"lbf/in", Stiffness},
	"1/min": {"rpm", AngularSpeed},
	"min-1": {"rpm", AngularSpeed},
}

// atoms are all single units by symbol.
var atoms = defineAtoms()

func defineAtoms() map[string]unit {
	known := map[string]unit{"": {factor: big.NewRat(1, 1)}}
	for symbol, p := range base {
		known[symbol] = unit{powers: p, factor: big.NewRat(1, 1)}
	}
	for _, definition := range definitions {
		defined, err := product(definition.unit, known)
		if err != nil {
			panic("quantity: bad definition of " + definition.symbols + ": " + err.Error())
		}
		defined.factor.Mul(defined.factor, mustFigure(definition.figure))
		symbols := strings.Fields(definition.symbols)
		defined.work = workUnits[symbols[0]]
		defined.percent = symbols[0] == "%"
		if zero, ok := zeros[symbols[0]]; ok {
			defined.zero = mustFigure(zero)
		}
		for _, symbol := range symbols {
			known[symbol] = defined
		}
	}
	delete(known, "")
	return known
}

// mustFigure reads a figure of the tables above: a decimal, a fraction, or "2*" a decimal.
func mustFigure(text string) *big.Rat {
	scale, rest, doubled := strings.Cut(text, "*")
	if !doubled {
		scale, rest = "1", text
	}
	upper, lower, divided := strings.Cut(rest, "/")
	if !divided {
		lower = "1"
	}
	figure := big.NewRat(1, 1)
	for i, part := range []string{scale, upper, lower} {
		r, ok := new(big.Rat).SetString(part)
		if !ok {
			panic("quantity: bad figure " + text)
		}
		if i == 2 {
			r.Inv(r)
		}
		figure.Mul(figure, r)
	}
	return figure
}
