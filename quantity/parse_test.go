package quantity

import (
	"errors"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/uncertain"
)

func TestParseReadsWhatTheGarageWrites(t *testing.T) {
	for _, c := range []struct {
		text string
		d    Dimension
		want float64
	}{
		{"5/8 in", Length, 0.015875},
		{"1 1/8 in", Length, 0.028575},
		{`1 1/8"`, Length, 0.028575},
		{"1⅛ in", Length, 0.028575},
		{"¾ in", Length, 0.01905},
		{"11⁄16 in", Length, 0.0174625},
		{"-1 1/2 mm", Length, -0.0015},
		{"0.700 in", Length, 0.01778},
		{".5 mm", Length, 0.0005},
		{"+3mm", Length, 0.003},
		{"0.1 mm", Length, 0.0001},
		{"1e3 N", Force, 1000},
		{"1.5E-3 m", Length, 0.0015},
		{"81000 mi", Length, 130356864},
		{"95 %", Percent, 0.95},
		{"95%", Number, 0.95},
		{"0.95", Number, 0.95},
		{"0.33 cm3/m/MPa", Expansion, 0.33e-12},
		{"3000/min", AngularSpeed, 314.1592653589793},
		{"384 lbf-ft", Torque, 520.6340921592577},
		{"20 lb/in", Stiffness, 3502.536704929527},
	} {
		if got, err := Parse(c.text, c.d); err != nil || !relative(got, c.want, 1e-15) {
			t.Errorf("Parse(%q) = %.17g, %v; want %.17g", c.text, got, err, c.want)
		}
	}
}

func TestMarksOfTypesettingMeanWhatTheyShow(t *testing.T) {
	for _, c := range []struct {
		d              Dimension
		typeset, plain string
	}{
		{Length, "19.05\u00a0mm", "19.05 mm"},
		{Length, "19.05\u202fmm", "19.05 mm"},
		{Length, "\u22123 mm", "-3 mm"},
		{Length, "5 \u00b5m", "5 um"},
		{Length, "5 \u03bcm", "5 um"},
		{Length, "3/4″", "3/4 in"},
		{Area, "285 mm²", "285 mm2"},
		{Area, "285 mm^2", "285 mm2"},
		{Expansion, "0.33 cm³/m/MPa", "0.33 cm3/m/MPa"},
		{Torque, "520 N·m", "520 N m"},
		{Torque, "520 N⋅m", "520 N m"},
		{Torque, "520 N×m", "520 N m"},
		{Inertia, "0.15 kg·m²", "0.15 kg m2"},
		{AngularSpeed, "3000 min⁻¹", "3000 rpm"},
		{Temperature, "20 ℃", "20 degC"},
		{Angle, "12°", "12 deg"},
		{Length, "148 ± 1 mm", "148 +- 1 mm"},
		{Length, "148 +/- 1 mm", "148 +- 1 mm"},
		{Length, "1…2 mm", "1 .. 2 mm"},
	} {
		got, err := ParseValue(c.typeset, c.d)
		want, plainErr := ParseValue(c.plain, c.d)
		if err != nil || plainErr != nil || got != want {
			t.Errorf("%q is %v, %v; %q is %v, %v", c.typeset, got, err, c.plain, want, plainErr)
		}
	}
}

func TestParseValueReadsRangesAndSpreads(t *testing.T) {
	for _, c := range []struct {
		text string
		d    Dimension
		want uncertain.Value
	}{
		{"19.05 mm", Length, uncertain.Exact(0.01905)},
		{"0.26 .. 0.30", Number, uncertain.Uniform(0.26, 0.30)},
		{"1 .. 2 mm", Length, uncertain.Uniform(0.001, 0.002)},
		{"1..2mm", Length, uncertain.Uniform(0.001, 0.002)},
		{"1 mm .. 0.5 in", Length, uncertain.Uniform(0.001, 0.0127)},
		{"5/8 .. 3/4 in", Length, uncertain.Uniform(0.015875, 0.01905)},
		{"-3 .. -1 mm", Length, uncertain.Uniform(-0.003, -0.001)},
		{"2 .. 2 mm", Length, uncertain.Exact(0.002)},
		{"148 +- 1 mm", Length, uncertain.Normal(0.148, 0.001)},
		{"148 mm +- 1 mm", Length, uncertain.Normal(0.148, 0.001)},
		{"5 ± 1 %", Percent, uncertain.Normal(0.05, 0.01)},
		{"5 ± 1 %", Number, uncertain.Normal(0.05, 0.01)},
		{"5 ± 0 mm", Length, uncertain.Exact(0.005)},
		{"20 .. 80 degC", Temperature, uncertain.Uniform(293.15, 353.15)},
		{"20 +- 2 degC", Temperature, uncertain.Normal(293.15, 2)}, // the spread has no zero of its own
		{"68 +- 9 degF", Temperature, uncertain.Normal(293.15, 5)},
	} {
		if got, err := ParseValue(c.text, c.d); err != nil || got != c.want {
			t.Errorf("ParseValue(%q) = %v, %v; want %v", c.text, got, err, c.want)
		}
	}
}

func TestRefusalsSayWhatIsWrongAndWhatWouldBeRight(t *testing.T) {
	const lengths = "mm, cm, m, km, µm, in, thou, ft or mi"
	for _, c := range []struct {
		text string
		d    Dimension
		want string
	}{
		{"9.8", Force, `"9.8" has no unit; write for example 9.8 kN`},
		{"95", Percent, `"95" has no unit; write for example 95 %`},
		{"9.8 kg", Force, `"9.8 kg" is a mass, and a force is wanted (did you mean kgf?); write for example 9.8 kN`},
		{"9.8 s", Force, `"9.8 s" is a time, and a force is wanted, given in N, kN, lbf or kgf; write for example 9.8 kN`},
		{"5 mm2", Length, `"5 mm2" is an area, and a length is wanted, given in ` + lengths + `; write for example 19.05 mm`},
		{"5 %", Length, `"5 %" is a percentage, and a length is wanted, given in ` + lengths + `; write for example 19.05 mm`},
		{"5 mm", Percent, `"5 mm" is a length, and a percentage is wanted, given in %; write for example 95 %`},
		{"3 J", Torque, `"3 J" is an energy, and a torque is wanted, given in N m, kN m, lbf ft or kgf m; write for example 520 N m`},
		{"3 kg m", Torque, `"3 kg m" has a unit that measures nothing known here, and a torque is wanted (did you mean kgf m?); write for example 520 N m`},
		{"5 kg/mm", Stiffness, `"5 kg/mm" has a unit that measures nothing known here, and a stiffness is wanted (did you mean kgf/mm?); write for example 1500 N/mm`},
		{"9.8 KN", Force, `"9.8 KN" has the unknown unit KN (did you mean kN?); write for example 9.8 kN`},
		{"0.33 cm3/m/Mpa", Expansion, `"0.33 cm3/m/Mpa" has the unknown unit Mpa (did you mean cm3/m/MPa?); write for example 0.33 cm3/m/MPa`},
		{"9.8 foo", Force, `"9.8 foo" has the unknown unit foo; a force is given in N, kN, lbf or kgf; write for example 9.8 kN`},
		{"5 % mm", Length, `"5 % mm" has % inside a larger unit, where it has no clear meaning; write for example 19.05 mm`},
		{"5 N/", Force, `"5 N/" has a unit that ends in /; write for example 9.8 kN`},
		{"5 J/kg K", Energy, `"5 J/kg K" has an ambiguous unit: after / comes one unit only, so write /kg/K; write for example 156 kJ`},
		{"1,5 mm", Length, `"1,5 mm" has a comma in its figure: write a point before decimals, and thousands without a mark; write for example 19.05 mm`},
		{"1,500 mm", Length, `"1,500 mm" has a comma in its figure: write a point before decimals, and thousands without a mark; write for example 19.05 mm`},
		{"1 500 mm", Length, `"1 500 mm" has two figures: write thousands without a space, and a range as a .. b; write for example 19.05 mm`},
		{"1'500 mm", Length, `"1'500 mm" has a mark between its digits: write thousands without a mark; write for example 19.05 mm`},
		{"1_500 mm", Length, `"1_500 mm" has a mark between its digits: write thousands without a mark; write for example 19.05 mm`},
		{"5-7 mm", Length, `"5-7 mm" has two figures: write a range as a .. b; write for example 19.05 mm`},
		{"5–7 mm", Length, `"5–7 mm" has two figures: write a range as a .. b; write for example 19.05 mm`},
		{"5. mm", Length, `"5. mm" has a point that no decimals follow; write for example 19.05 mm`},
		{"1/0 in", Length, `"1/0 in" has a fraction over zero; write for example 19.05 mm`},
		{"1 9/8 in", Length, `"1 9/8 in" has a fraction that is not less than one after the whole number; write for example 19.05 mm`},
		{"0x10 mm", Length, `"0x10 mm" is not a decimal figure; write for example 19.05 mm`},
		{"NaN mm", Length, `"NaN mm" is not a figure that can be measured; write for example 19.05 mm`},
		{"-Inf mm", Length, `"-Inf mm" is not a figure that can be measured; write for example 19.05 mm`},
		{".inf", Length, `".inf" is not a figure that can be measured; write for example 19.05 mm`},
		{"1e999 mm", Length, `"1e999 mm" is too large a figure; write for example 19.05 mm`},
		{"1e-999 mm", Length, `"1e-999 mm" is too small a figure; write for example 19.05 mm`},
		{"٣ mm", Length, `"٣ mm" has no figure; write for example 19.05 mm`},
		{"", Length, `"" is empty; write for example 19.05 mm`},
		{"mm", Length, `"mm" has no figure; write for example 19.05 mm`},
		{"3 \x00mm", Length, `"3 ?mm" has a control character in it; write for example 19.05 mm`},
		{"\xff", Length, `"?" is not valid UTF-8 text; write for example 19.05 mm`},
		{strings.Repeat("9", 200), Length, `"` + strings.Repeat("9", 40) + `…" is longer than 80 characters; write for example 19.05 mm`},
		{"-300 degC", Temperature, `"-300 degC" is below absolute zero; write for example 20 degC`},
		{"-5 K", Temperature, `"-5 K" is below absolute zero; write for example 20 degC`},
		{"5 .. 3 mm", Length, `"5 .. 3 mm" has its bounds the wrong way round: the lower one comes first; write for example 19.05 mm`},
		{"5 +- -1 mm", Length, `"5 +- -1 mm" has a negative standard deviation after +-; write for example 19.05 mm`},
		{"5 mm .. 7", Length, `"5 mm .. 7" has no unit after its second figure; write for example 19.05 mm`},
		{"5 % .. 7", Number, `"5 % .. 7" has no unit after its second figure; write for example 0.28`},
		{"5 mm ..", Length, `"5 mm .." has no figure on one side of ..; write for example 19.05 mm`},
		{"1 .. 2 .. 3 mm", Length, `"1 .. 2 .. 3 mm" has more than one range mark; write for example 19.05 mm`},
		{"5 mm +- 10 %", Length, `"5 mm +- 10 %" is a percentage, and a length is wanted, given in ` + lengths + `; write for example 19.05 mm`},
	} {
		_, err := ParseValue(c.text, c.d)
		if err == nil || err.Error() != c.want {
			t.Errorf("ParseValue(%q)\n got %v\nwant %s", c.text, err, c.want)
		}
	}
}

func TestParseTakesNoRange(t *testing.T) {
	for _, text := range []string{"1 .. 2 mm", "1 +- 2 mm"} {
		_, err := Parse(text, Length)
		if err == nil || !strings.Contains(err.Error(), "is a range, and a single figure is wanted") {
			t.Errorf("Parse(%q): %v", text, err)
		}
	}
}

func TestParseGivesTheNearestFloat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		digits := rapid.StringMatching(`[1-9][0-9]{0,16}`).Draw(t, "digits")
		decimals := rapid.StringMatching(`[0-9]{1,12}`).Draw(t, "decimals")
		want, _ := strconv.ParseFloat(digits+"."+decimals+"e-3", 64)
		if got, err := Parse(digits+"."+decimals+" mm", Length); err != nil || got != want {
			t.Fatalf("got %.17g, %v; want %.17g", got, err, want)
		}
	})
}

func TestParseOfShortestIsTheSameFloat(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Dimension(rapid.IntRange(0, len(dimensions)-1).Draw(t, "dimension"))
		unit := rapid.SampledFrom(dimensions[d].units).Draw(t, "unit")
		si := rapid.Float64Range(1e-12, 1e12).Draw(t, "si")
		text := Shortest(si, unit)
		if got, err := Parse(text, d); err != nil || got != si {
			t.Fatalf("%.17g prints as %q and reads as %.17g, %v", si, text, got, err)
		}
	})
}

// Printing to a number of decimals loses up to half the last place and nothing else.
func TestParseOfFormatIsWithinTheLastPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Dimension(rapid.IntRange(0, len(dimensions)-1).Draw(t, "dimension"))
		unit := rapid.SampledFrom(dimensions[d].units).Draw(t, "unit")
		decimals := rapid.IntRange(0, 6).Draw(t, "decimals")
		shown := rapid.Float64Range(0.001, 1e6).Draw(t, "shown")
		text := Format(From(shown, unit), unit, decimals)
		back, err := Parse(text, d)
		if err != nil {
			t.Fatal(err)
		}
		half := 0.5 * math.Pow10(-decimals)
		if off := math.Abs(To(back, unit) - shown); off > half+1e-9 { // the rest is float64 at 1e6
			t.Fatalf("%g %s prints as %q, off by %g", shown, unit, text, off)
		}
	})
}

func TestParseOfFormatValueKeepsTheKind(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		lo := rapid.IntRange(-500, 500).Draw(t, "lo")
		more := rapid.IntRange(1, 500).Draw(t, "more")
		a, b := float64(lo)/100, float64(more)/100
		for _, v := range []uncertain.Value{
			uncertain.Exact(From(a, "mm")),
			uncertain.Uniform(From(a, "mm"), From(float64(lo+more)/100, "mm")),
			uncertain.Normal(From(a, "mm"), From(b, "mm")),
		} {
			if got, err := ParseValue(FormatValue(v, "mm", 2), Length); err != nil || got != v {
				t.Fatalf("%v prints as %q and reads as %v, %v", v, FormatValue(v, "mm", 2), got, err)
			}
		}
	})
}

func TestToUndoesFrom(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := Dimension(rapid.IntRange(0, len(dimensions)-1).Draw(t, "dimension"))
		unit := rapid.SampledFrom(dimensions[d].units).Draw(t, "unit")
		v := rapid.Float64Range(-1e9, 1e9).Draw(t, "v")
		// Each way rounds once; near the zero of a shifted scale that is one part of 1e16 of the shift.
		if got := To(From(v, unit), unit); math.Abs(got-v) > 4e-16*math.Abs(v)+1e-12 {
			t.Fatalf("%.17g %s comes back as %.17g", v, unit, got)
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, seed := range []string{"5/8 in", "1 1/8 in", "0.33 cm3/m/MPa", "0.26 .. 0.30", "148 ± 1 mm", "1e999 N", "20 °C", `3/4"`, "5 J/kg K", "1/min", "½", "5..", "+-", "9 N9"} {
		for d := range dimensions {
			f.Add(seed, uint8(d))
		}
	}
	f.Fuzz(func(t *testing.T, text string, dimension uint8) {
		d := Dimension(int(dimension) % len(dimensions))
		v, err := ParseValue(text, d)
		single, singleErr := Parse(text, d)
		for _, err := range []error{err, singleErr} {
			var wrong *Error
			if err == nil {
				continue
			}
			if !errors.As(err, &wrong) || wrong.Reason == "" || wrong.Example != d.Example() || wrong.Text != text {
				t.Fatalf("%q: a poor error: %#v", text, err)
			}
			if strings.ContainsAny(err.Error(), "\n\r\x00") {
				t.Fatalf("%q: the message breaks its line: %q", text, err.Error())
			}
		}
		if err == nil && (math.IsNaN(v.Mid()) || math.IsInf(v.Mid(), 0) || v.SD() < 0 || math.IsInf(v.SD(), 0)) {
			t.Fatalf("%q gives %v", text, v)
		}
		if singleErr == nil && (err != nil || v != uncertain.Exact(single)) {
			t.Fatalf("%q is the figure %v, and as a value %v, %v", text, single, v, err)
		}
	})
}

func BenchmarkParse(b *testing.B) {
	for b.Loop() {
		if _, err := Parse("0.33 cm3/m/MPa", Expansion); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkFormat(b *testing.B) {
	for b.Loop() {
		Format(0.01905, "mm", 2)
	}
}
