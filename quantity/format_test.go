package quantity

import (
	"math"
	"testing"

	"layshaft/uncertain"
)

func TestFormatPrintsInTheReadersUnit(t *testing.T) {
	for _, c := range []struct {
		si       float64
		unit     string
		decimals int
		want     string
	}{
		{0.01905, "mm", 2, "19.05 mm"},
		{0.01905, "in", 3, "0.750 in"},
		{520.634, "lb ft", 0, "384 lb ft"},
		{0.95, "%", 0, "95 %"},
		{0.28, "", 2, "0.28"},
		{293.15, "degC", 1, "20.0 degC"},
		{-0.000001, "mm", 2, "0.00 mm"},
		{314.1592653589793, "1/min", 0, "3000 1/min"},
		{math.NaN(), "mm", 2, "not known"},
		{math.Inf(1), "N/mm", 2, "no limit"},
	} {
		if got := Format(c.si, c.unit, c.decimals); got != c.want {
			t.Errorf("Format(%g, %q, %d) = %q, want %q", c.si, c.unit, c.decimals, got, c.want)
		}
	}
}

func TestNiceKeepsSignificantFigures(t *testing.T) {
	for _, c := range []struct {
		si      float64
		unit    string
		figures int
		want    string
	}{
		{0.3333e-12, "cm3/m/MPa", 2, "0.33 cm3/m/MPa"},
		{1234.5, "m", 3, "1230 m"},
		{1480, "kg", 3, "1480 kg"},
		{0.0199999, "mm", 3, "20 mm"},
		{-0.00012345, "mm", 2, "-0.12 mm"},
		{0, "mm", 3, "0 mm"},
		{9.96, "N", 2, "10 N"},
		{math.NaN(), "N", 2, "not known"},
	} {
		if got := Nice(c.si, c.unit, c.figures); got != c.want {
			t.Errorf("Nice(%g, %q, %d) = %q, want %q", c.si, c.unit, c.figures, got, c.want)
		}
	}
}

func TestShortestPrintsNoFloatNoise(t *testing.T) {
	for _, c := range []struct {
		si   float64
		unit string
		want string
	}{
		{From(0.1, "mm"), "mm", "0.1 mm"},
		{From(19.05, "mm"), "in", "0.75 in"},
		{293.15, "degC", "20 degC"},
		{273.15, "degC", "0 degC"},
		{0, "mm", "0 mm"},
		{0.27, "", "0.27"},
		{From(6200, "rpm"), "rpm", "6200 rpm"},
		{math.Inf(1), "mm", "no limit"},
	} {
		if got := Shortest(c.si, c.unit); got != c.want {
			t.Errorf("Shortest(%.17g, %q) = %q, want %q", c.si, c.unit, got, c.want)
		}
	}
}

func TestFormatValueShowsHowSureAFigureIs(t *testing.T) {
	for _, c := range []struct {
		v        uncertain.Value
		unit     string
		decimals int
		want     string
	}{
		{uncertain.Uniform(0.26, 0.30), "", 2, "0.26 .. 0.30"},
		{uncertain.Normal(0.148, 0.001), "mm", 0, "148 +- 1 mm"},
		{uncertain.Exact(0.01905), "mm", 2, "19.05 mm"},
		{uncertain.Normal(293.15, 2), "degC", 0, "20 +- 2 degC"},
		{uncertain.Normal(293.15, 5), "degF", 0, "68 +- 9 degF"},
	} {
		if got := FormatValue(c.v, c.unit, c.decimals); got != c.want {
			t.Errorf("FormatValue(%v, %q) = %q, want %q", c.v, c.unit, got, c.want)
		}
	}
}
