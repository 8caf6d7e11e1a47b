package quantity

import (
	"math"
	"math/big"
	"strconv"
	"strings"

	"layshaft/uncertain"
)

// From converts a figure in the unit named into SI. It panics on an unknown unit.
func From(v float64, unit string) float64 {
	return exactly(v, mustUnit(unit).toSI)
}

// To converts an SI figure into the unit named. It panics on an unknown unit.
func To(si float64, unit string) float64 {
	return exactly(si, mustUnit(unit).fromSI)
}

// exactly rounds once only, after an exact conversion of the figure as it would be printed: From(0.1, "mm") is
// what Parse makes of "0.1 mm". Figures that are not finite have no unit to convert.
func exactly(v float64, convert func(*big.Rat) *big.Rat) float64 {
	figure, ok := new(big.Rat).SetString(strconv.FormatFloat(v, 'g', -1, 64))
	if !ok {
		return v
	}
	converted, _ := convert(figure).Float64()
	return converted
}

// Format prints an SI figure in the unit named with a fixed number of decimals: "19.05 mm". An empty unit prints
// a bare number. It panics on an unknown unit.
func Format(si float64, unit string, decimals int) string {
	return withUnit(fixed(To(si, unit), decimals), unit)
}

// Nice prints an SI figure in the unit named to a number of significant figures, with no power of ten and no
// idle zeros after the point: "0.33 cm3/m/MPa", "1480 kg". It panics on an unknown unit.
func Nice(si float64, unit string, figures int) string {
	v := To(si, unit)
	if v == 0 || math.IsNaN(v) || math.IsInf(v, 0) {
		return withUnit(fixed(v, 0), unit)
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'e', max(figures, 1)-1, 64), 64)
	if err != nil {
		rounded = v // only beyond the largest float64
	}
	return withUnit(strconv.FormatFloat(rounded, 'f', -1, 64), unit)
}

// Shortest prints an SI figure in the unit named with as few figures as Parse needs to return exactly the same
// float64. It panics on an unknown unit.
func Shortest(si float64, unit string) string {
	exact := new(big.Rat).SetFloat64(si)
	if exact == nil {
		return withUnit(fixed(si, 0), unit)
	}
	u := mustUnit(unit)
	in := u.fromSI(exact)
	for decimals := 0; ; decimals++ {
		text := plainZero(in.FloatString(decimals))
		back, _ := new(big.Rat).SetString(text)
		if same, _ := u.toSI(back).Float64(); same == si {
			return withUnit(text, unit)
		}
	}
}

// FormatValue prints a figure and how sure it is in the unit named: "19.05 mm", "0.26 .. 0.30", "148 +- 1 mm".
// It panics on an unknown unit.
func FormatValue(v uncertain.Value, unit string, decimals int) string {
	switch v.Kind() {
	case uncertain.UniformKind:
		lo, hi := v.Bounds()
		return withUnit(fixed(To(lo, unit), decimals)+" .. "+fixed(To(hi, unit), decimals), unit)
	case uncertain.NormalKind:
		spread := mustUnit(unit)
		spread.zero = nil // a spread of 2 K is 2 degC
		return withUnit(fixed(To(v.Mid(), unit), decimals)+" +- "+fixed(exactly(v.SD(), spread.fromSI), decimals), unit)
	}
	return Format(v.Mid(), unit, decimals)
}

// fixed prints a number with fixed decimals, and what is not a number in words.
func fixed(v float64, decimals int) string {
	switch {
	case math.IsNaN(v):
		return notKnown
	case math.IsInf(v, 0):
		return noLimit
	}
	return plainZero(strconv.FormatFloat(v, 'f', max(decimals, 0), 64))
}

// plainZero takes the minus from a figure that is zero as printed.
func plainZero(text string) string {
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return text
}

// What is printed for figures that are not finite.
const (
	notKnown = "not known"
	noLimit  = "no limit"
)

func withUnit(figure, unit string) string {
	if unit == "" || figure == notKnown || figure == noLimit {
		return figure
	}
	return figure + " " + unit
}
