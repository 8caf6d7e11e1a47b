package uncertain_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"

	"layshaft/uncertain"
)

func linearise(t *testing.T, m uncertain.Model) uncertain.Linearised {
	t.Helper()
	got, err := m.Linearise()
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func within(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %.8g, want %.8g within %.2g", what, got, want, tolerance)
	}
}

// resistanceAndReactance is JCGM 100:2008, H.2: five readings of voltage, current and phase, taken together.
func resistanceAndReactance() (means []uncertain.Value, correlation [][]float64) {
	readings := [][]float64{
		{5.007, 4.994, 5.005, 4.990, 4.999},                     // V
		{19.663e-3, 19.639e-3, 19.640e-3, 19.685e-3, 19.678e-3}, // A
		{1.0456, 1.0438, 1.0468, 1.0428, 1.0433},                // rad
	}
	for _, a := range readings {
		means = append(means, uncertain.Normal(uncertain.Mean(a), uncertain.SD(a)/math.Sqrt(5)))
		row := make([]float64, len(readings))
		for j, b := range readings {
			row[j] = stat.Correlation(a, b, nil)
		}
		correlation = append(correlation, row)
	}
	for i := range correlation {
		correlation[i][i] = 1
		for j := range i {
			correlation[i][j] = correlation[j][i]
		}
	}
	return means, correlation
}

// Tables H.2 to H.4 (seen). Tolerances are one in the last printed digit.
func TestCorrelatedReadingsGiveTheGuidesResistanceReactanceAndImpedance(t *testing.T) {
	inputs, r := resistanceAndReactance()
	within(t, "r(V, I)", r[0][1], -0.36, 0.006)
	within(t, "r(V, φ)", r[0][2], 0.86, 0.006)
	within(t, "r(I, φ)", r[1][2], -0.65, 0.006)
	for _, c := range []struct {
		name     string
		value, u float64
		output   func(x []float64) float64
	}{
		{"R", 127.732, 0.071, func(x []float64) float64 { return x[0] / x[1] * math.Cos(x[2]) }},
		{"X", 219.847, 0.295, func(x []float64) float64 { return x[0] / x[1] * math.Sin(x[2]) }},
		{"Z", 254.260, 0.236, func(x []float64) float64 { return x[0] / x[1] }},
	} {
		got, err := uncertain.Model{Inputs: inputs, Correlation: r, Output: c.output}.Compare(1<<15, 1)
		if err != nil {
			t.Fatal(err)
		}
		within(t, c.name, got.Linear.Value, c.value, 0.001)
		within(t, "u("+c.name+")", got.Linear.SD, c.u, 0.001)
		within(t, "sampled "+c.name, got.Mean, c.value, 0.001)
		within(t, "sampled u("+c.name+")", got.SD, c.u, 0.001)
		if !got.Agrees || got.Warning != "" {
			t.Errorf("%s hardly bends, yet: %s", c.name, got.Warning)
		}
	}
}

// JCGM 100:2008, H.3 (seen): a thermometer's correction, a straight line through 11 points, read at 30 °C.
func TestCalibrationLinePredictsTheGuidesCorrection(t *testing.T) {
	temperature := []float64{21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.010, 26.511}
	correction := []float64{-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.160}
	for i := range temperature {
		temperature[i] -= 20
	}
	y1, y2 := stat.LinearRegression(temperature, correction, nil, false)
	ssr, sum, squares := 0.0, 0.0, 0.0
	for i, x := range temperature {
		ssr += math.Pow(correction[i]-y1-y2*x, 2)
		sum, squares = sum+x, squares+x*x
	}
	n := float64(len(temperature))
	d, s2 := n*squares-sum*sum, ssr/(n-2) // H.13
	u1, u2, r := math.Sqrt(s2*squares/d), math.Sqrt(s2*n/d), -sum/math.Sqrt(n*squares)
	within(t, "y1", y1, -0.1712, 5e-5)
	within(t, "u1", u1, 0.0029, 5e-5)
	within(t, "y2", y2, 0.00218, 5e-6)
	within(t, "u2", u2, 0.00067, 5e-6)
	within(t, "r", r, -0.930, 0.005)
	got := linearise(t, uncertain.Model{
		Inputs:      []uncertain.Value{uncertain.Normal(y1, u1), uncertain.Normal(y2, u2)},
		Correlation: [][]float64{{1, r}, {r, 1}},
		Output:      func(x []float64) float64 { return x[0] + x[1]*(30-20) },
	})
	within(t, "b(30)", got.Value, -0.1494, 5e-5)
	within(t, "u(b(30))", got.SD, 0.0041, 5e-5)
}

// NIST TN 1900, example E13 (seen in a library's tests): the thermal expansion coefficient from two lengths.
func TestExpansionCoefficientFromTwoLengths(t *testing.T) {
	got := linearise(t, uncertain.Model{
		Inputs: []uncertain.Value{uncertain.Normal(1.4999, 0.0001), uncertain.Normal(1.5021, 0.0002),
			uncertain.Normal(288.15, 0.02), uncertain.Normal(373.10, 0.05)},
		Output: func(x []float64) float64 { return (x[1] - x[0]) / (x[0] * (x[3] - x[2])) },
	})
	within(t, "coefficient", got.Value, 1.7266e-5, 1e-9)
	within(t, "its uncertainty", got.SD, 1.76e-6, 1e-8)
}

// EA-4/02, S2 (seen in a reproduction, which prints these figures): calibration of a 10 kg weight, in grams.
func ExampleModel_Linearise() {
	weight, err := uncertain.Model{
		Inputs: []uncertain.Value{
			uncertain.Normal(10000.005, 0.045/2), // the standard, stated for k = 2
			uncertain.Uniform(-0.015, 0.015),     // its drift
			uncertain.Normal(0.020, 0.0142),      // the difference seen
			uncertain.Uniform(-0.010, 0.010),     // eccentric loading
			uncertain.Uniform(-0.010, 0.010),     // air buoyancy
		},
		Output: func(x []float64) float64 { return x[0] + x[1] + x[2] + x[3] + x[4] },
	}.Linearise()
	fmt.Printf("%.3f g, u = %.4f g, U = %.3f g, %v\n", weight.Value, weight.SD, 2*weight.SD, err)
	// Output: 10000.025 g, u = 0.0291 g, U = 0.058 g, <nil>
}

// Course notes of a national laboratory, seen in a library's tests: y = X1/X2·Yu with few degrees of freedom.
func TestRatioWithFewDegreesOfFreedom(t *testing.T) {
	got := linearise(t, uncertain.Model{
		Inputs: []uncertain.Value{uncertain.Normal(0.1820, 0.00093), uncertain.Normal(0.1823, 0.00058), uncertain.Normal(0.6978, 0.0026)},
		Output: func(x []float64) float64 { return x[0] / x[1] * x[2] },
	})
	degrees := uncertain.EffectiveDegrees(got.Contributions, []float64{9, 19, 19})
	within(t, "y", got.Value, 0.6967, 1e-4)
	within(t, "u", got.SD, 0.00494, 1e-5)
	within(t, "degrees of freedom", degrees, 27.7, 0.5)
	within(t, "U", uncertain.CoverageFactor(degrees, 0.95)*got.SD, 0.0101, 1e-4)
}

func TestDegreesOfFreedomOfOneContributionAreItsOwn(t *testing.T) {
	within(t, "one of two known for certain", uncertain.EffectiveDegrees([]float64{0.57, 0.25}, []float64{9, math.Inf(1)}), 12.8, 0.1)
	within(t, "alone", uncertain.EffectiveDegrees([]float64{-3}, []float64{7}), 7, 1e-12)
	if got := uncertain.EffectiveDegrees([]float64{1}, []float64{math.Inf(1)}); !math.IsInf(got, 1) {
		t.Errorf("known for certain: %g", got)
	}
	// JCGM 100:2008, table G.2 (from memory): t at 95 % for 10 and for infinitely many degrees.
	within(t, "t(10)", uncertain.CoverageFactor(10, 0.95), 2.23, 0.005)
	within(t, "t(∞)", uncertain.CoverageFactor(math.Inf(1), 0.95), 1.960, 0.0005)
}

func TestContributionsAreSignedAndExactInputsContributeNothing(t *testing.T) {
	got := linearise(t, uncertain.Model{
		Inputs: []uncertain.Value{uncertain.Normal(5, 2), uncertain.Exact(3), uncertain.Uniform(0, 6)},
		Output: func(x []float64) float64 { y := 3*x[0] + x[1] - x[2]; x[0] = 1e9; return y }, // spoils what it was given
	})
	for i, want := range []float64{6, 0, -math.Sqrt(3)} {
		within(t, "contribution", got.Contributions[i], want, 1e-9)
	}
	within(t, "value", got.Value, 15, 1e-9)
	within(t, "SD", got.SD, math.Sqrt(39), 1e-9)
}

func TestModelRefusesCorrelationsThatCannotBe(t *testing.T) {
	inputs := []uncertain.Value{uncertain.Normal(0, 1), uncertain.Normal(0, 1), uncertain.Normal(0, 1)}
	sum := func(x []float64) float64 { return x[0] + x[1] + x[2] }
	for want, r := range map[string][][]float64{
		"3 inputs need 3 rows":                  {{1}},
		"row 2 of the correlation coefficients": {{1, 0, 0}, {0, 1}, {0, 0, 1}},
		"inputs 2 and 1 is 0.5 one way":         {{1, 0.4, 0}, {0.5, 1, 0}, {0, 0, 1}},
		"inputs 2 and 1 is 1.5 one way":         {{1, 1.5, 0}, {1.5, 1, 0}, {0, 0, 1}},
		"input 1 with itself is 0":              {{0, 0, 0}, {0, 1, 0}, {0, 0, 1}},
		"contradicts":                           {{1, 0.9, 0.9}, {0.9, 1, -0.9}, {0.9, -0.9, 1}},
	} {
		_, err := uncertain.Model{Inputs: inputs, Correlation: r, Output: sum}.Compare(64, 1)
		if err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("%v: error %v, want one with %q", r, err, want)
		}
	}
}

func TestModelRefusesAnOutputThatIsNoNumber(t *testing.T) {
	_, err := uncertain.Model{
		Inputs: []uncertain.Value{uncertain.Normal(-1, 0.1)},
		Output: func(x []float64) float64 { return math.Log(x[0]) },
	}.Linearise()
	if err == nil || !strings.Contains(err.Error(), "NaN") {
		t.Errorf("error %v does not say that the output is no number", err)
	}
}
