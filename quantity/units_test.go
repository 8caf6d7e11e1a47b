package quantity

import (
	"math"
	"testing"
)

// relative reports whether two figures differ by no more than a share of the wanted one.
func relative(got, want, share float64) bool { return math.Abs(got-want) <= share*math.Abs(want) }

// Exact consequences of the definitions of inch, pound, standard gravity and horsepower: NIST SP 811, appendix B
// (from memory); the definitions seen in the pint unit registry (default_en.txt, constants_en.txt).
func TestDefinedUnitsHaveTheirPublishedFactors(t *testing.T) {
	for unit, want := range map[string]float64{
		"in":    0.0254,
		"lbf":   4.4482216152605,
		"lb ft": 1.3558179483314003,
		"hp":    745.69987158227022,
		"PS":    735.49875,
		"psi":   6894.757293168361,
		"kgf m": 9.80665,
	} {
		if got := From(1, unit); !relative(got, want, 1e-13) {
			t.Errorf("1 %s = %.17g, want %.17g", unit, got, want)
		}
	}
}

// Factors printed by GNU Units 2.22 (seen). It reckons in float64 all the way, so its last digits are off by a
// few units in the last place; ours are rounded once. Hence 1e-15 relative, about five such units.
func TestUnitsAgreeWithAnotherProgram(t *testing.T) {
	for _, c := range []struct {
		d    Dimension
		unit string
		want float64
	}{
		{Length, "in", 0.025400000000000002}, {Length, `"`, 0.025400000000000002}, {Length, "ft", 0.30480000000000002},
		{Length, "mi", 1609.3440000000001}, {Length, "thou", 2.5400000000000001e-05}, {Length, "µm", 9.9999999999999995e-07},
		{Length, "um", 1e-6}, {Length, "mm", 1e-3}, {Length, "cm", 1e-2}, {Length, "km", 1e3}, {Length, "m", 1},
		{Area, "in2", 0.00064516000000000009}, {Area, "mm2", 1e-6}, {Area, "cm2", 1e-4},
		{Volume, "in3", 1.6387064000000003e-05}, {Volume, "cc", 1.0000000000000002e-06}, {Volume, "cm3", 1e-6},
		{Volume, "ml", 1e-6}, {Volume, "l", 0.0010000000000000002}, {Volume, "L", 1e-3}, {Volume, "mm3", 1e-9},
		{Force, "N", 1}, {Force, "kN", 1e3}, {Force, "lbf", 4.4482216152604996}, {Force, "kgf", 9.8066499999999994},
		{Torque, "N m", 1}, {Torque, "Nm", 1}, {Torque, "N·m", 1}, {Torque, "kN m", 1e3},
		{Torque, "lbf ft", 1.3558179483314006}, {Torque, "lb ft", 1.3558179483314006}, {Torque, "lb·ft", 1.3558179483314006},
		{Torque, "kgf m", 9.8066499999999994},
		{Power, "W", 1}, {Power, "kW", 1e3}, {Power, "hp", 745.69987158227025}, {Power, "bhp", 745.69987158227025},
		{Power, "PS", 735.49874999999997},
		{Pressure, "Pa", 1}, {Pressure, "kPa", 1e3}, {Pressure, "MPa", 1e6}, {Pressure, "GPa", 1e9}, {Pressure, "bar", 1e5},
		{Pressure, "mbar", 100}, {Pressure, "psi", 6894.7572931683599}, {Pressure, "N/mm2", 1e6},
		{Stiffness, "N/m", 1}, {Stiffness, "N/mm", 1e3}, {Stiffness, "kN/mm", 1e6}, {Stiffness, "lbf/in", 175.12683524647636},
		{Expansion, "cm3/m/MPa", 1.0000000000000002e-12}, {Expansion, "ml/m/bar", 1.0000000000000003e-11},
		{Expansion, "cm3/ft/psi", 4.7584559622772079e-10},
		{Compliance, "cm3/MPa", 1e-12}, {Compliance, "mm3/bar", 1e-14},
		{Mass, "kg", 1}, {Mass, "g", 1e-3}, {Mass, "t", 1e3}, {Mass, "lb", 0.45359237000000002},
		{Inertia, "kg m2", 1}, {Inertia, "lb ft2", 0.042140110093804806},
		{Time, "s", 1}, {Time, "min", 60}, {Time, "h", 3600}, {Time, "d", 86400},
		{Speed, "m/s", 1}, {Speed, "km/h", 0.27777777777777779}, {Speed, "mph", 0.44704000000000005},
		{AngularSpeed, "rad/s", 1}, {AngularSpeed, "rpm", 0.10471975511965977}, {AngularSpeed, "1/min", 0.10471975511965977},
		{Angle, "rad", 1}, {Angle, "deg", 0.017453292519943295}, {Angle, "°", 0.017453292519943295},
		{Energy, "J", 1}, {Energy, "kJ", 1e3},
		{Density, "kg/m3", 1}, {Density, "g/cm3", 999.99999999999989},
		{Acceleration, "m/s2", 1},
		{Percent, "%", 0.01}, {Number, "%", 0.01},
	} {
		got, err := Parse("1 "+c.unit, c.d)
		if err != nil || !relative(got, c.want, 1e-15) {
			t.Errorf("1 %s = %.17g, %v; want %.17g", c.unit, got, err, c.want)
		}
	}
}

// The kelvin figures are those of GNU Units 2.22: tempC(20), tempF(68), tempF(-40).
func TestTemperaturesCountFromTheirOwnZero(t *testing.T) {
	for text, want := range map[string]float64{
		"20 degC": 293.15, "20 °C": 293.15, "68 degF": 293.15, "-40 °F": 233.15, "300 K": 300, "0 K": 0, "−273.15 °C": 0,
	} {
		if got, err := Parse(text, Temperature); err != nil || got != want {
			t.Errorf("Parse(%q) = %v, %v; want %v", text, got, err, want)
		}
	}
}

func TestEveryUnitShownMeasuresItsDimension(t *testing.T) {
	for d := range dimensions {
		for _, unit := range Dimension(d).Units() {
			if _, err := Parse("1 "+unit, Dimension(d)); err != nil {
				t.Errorf("%s: %v", Dimension(d), err)
			}
		}
	}
}

func TestEveryDimensionHasANameAndAnExample(t *testing.T) {
	for d := range dimensions {
		d := Dimension(d)
		if named, ok := DimensionNamed(d.Name()); !ok || named != d {
			t.Errorf("DimensionNamed(%q) = %v, %v", d.Name(), named, ok)
		}
		if _, err := Parse(d.Example(), d); err != nil {
			t.Errorf("the example of %s: %v", d, err)
		}
	}
	if d, ok := DimensionNamed("Angular-Speed"); !ok || d != AngularSpeed {
		t.Errorf("the spelling of a name matters: %v, %v", d, ok)
	}
	if _, ok := DimensionNamed("colour"); ok {
		t.Error("colour passes for a dimension")
	}
}

// No unit may satisfy two dimensions, or a wrong figure would pass for a right one. A percentage is a number, and
// newton metres may also be the work of a friction torque.
func TestDimensionsDoNotTakeEachOthersUnits(t *testing.T) {
	allowed := map[[2]Dimension]bool{{Number, Percent}: true, {Percent, Number}: true, {Energy, Torque}: true}
	for d := range dimensions {
		for other := range dimensions {
			pair := [2]Dimension{Dimension(d), Dimension(other)}
			if d == other || allowed[pair] {
				continue
			}
			for _, unit := range dimensions[other].units {
				if v, err := Parse("1 "+unit, pair[0]); err == nil {
					t.Errorf("%s takes 1 %s, a %s, as %g", pair[0], unit, pair[1], v)
				}
			}
		}
	}
}

func TestAnUnknownUnitOfTheProgramPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("To accepted an unknown unit")
		}
	}()
	To(1, "furlong")
}
