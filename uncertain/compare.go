package uncertain

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// CoverageFactor is the half-width, in standard uncertainties, of the interval that covers a probability of Student's
// distribution; degrees may be +Inf. Source: JCGM 100:2008, G.3.
func CoverageFactor(degrees, probability float64) float64 {
	u := (1 + probability) / 2
	if math.IsInf(degrees, 1) {
		return Normal(0, 1).Quantile(u)
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: degrees}.Quantile(u)
}

// Comparison sets the linearised answer beside the sampled one.
type Comparison struct {
	Linear   Linearised
	Mean, SD float64 // sampled

	// 95 % coverage intervals, each with 2.5 % left on either side.
	LinearLow, LinearHigh float64
	Low, High             float64 // sampled

	Tolerance float64 // how far apart the ends may be
	Agrees    bool
	Warning   string // where they part: what to use instead; otherwise empty
}

// Compare works the model out both ways and tells whether the linearised answer may stand. It may where both ends of
// its 95 % interval lie within the numerical tolerance of the sampled ends: half a unit in the last of two significant
// digits of the standard uncertainty.
//
// Source: JCGM 101:2008, 7.9.2 (tolerance) and 8.1 (comparison).
func (m Model) Compare(samples int, seed uint64) (Comparison, error) {
	linear, err := m.Linearise()
	if err != nil {
		return Comparison{}, err
	}
	results, err := m.Sample(samples, seed)
	if err != nil {
		return Comparison{}, err
	}
	half := CoverageFactor(math.Inf(1), 0.95) * linear.SD
	ends := Percentiles(results, 2.5, 97.5)
	c := Comparison{
		Linear: linear, LinearLow: linear.Value - half, LinearHigh: linear.Value + half,
		Mean: Mean(results), SD: SD(results), Low: ends[0], High: ends[1],
	}
	c.Tolerance = NumericalTolerance(c.SD, 2)
	apart := math.Max(math.Abs(c.LinearLow-c.Low), math.Abs(c.LinearHigh-c.High))
	c.Agrees = apart <= c.Tolerance
	if !c.Agrees {
		c.Warning = fmt.Sprintf("the linearised interval %.4g .. %.4g lies up to %.2g from the sampled one, %.4g .. %.4g, "+
			"more than %.2g: use the sampled one", c.LinearLow, c.LinearHigh, apart, c.Low, c.High, c.Tolerance)
	}
	return c, nil
}

// Sample draws the inputs, correlated if the model says so, and returns the outputs.
func (m Model) Sample(samples int, seed uint64) ([]float64, error) {
	if err := m.check(); err != nil {
		return nil, err
	}
	if m.Correlation == nil {
		return Propagate(m.Inputs, m.Output, samples, seed), nil
	}
	root, err := lowerRoot(m.Correlation)
	if err != nil {
		return nil, err
	}
	scores := make([]Value, len(m.Inputs))
	for i := range scores {
		scores[i] = Normal(0, 1)
	}
	return Propagate(scores, func(z []float64) float64 {
		x := make([]float64, len(z))
		for i, input := range m.Inputs {
			score := 0.0
			for j, r := range root[i] {
				score += r * z[j]
			}
			x[i] = input.AtScore(score)
		}
		return m.Output(x)
	}, samples, seed), nil
}

// lowerRoot is Cholesky's root of a correlation matrix, row by row up to the diagonal. It allows for inputs that
// depend on each other wholly, whose diagonal element of the root is nought.
func lowerRoot(correlation [][]float64) ([][]float64, error) {
	const rounding = 1e-12 // of elements up to one
	root := make([][]float64, len(correlation))
	for i := range root {
		root[i] = make([]float64, i+1)
		for j := range root[i] {
			rest := correlation[i][j]
			for k := range j {
				rest -= root[i][k] * root[j][k]
			}
			switch {
			case i == j && rest > rounding:
				root[i][i] = math.Sqrt(rest)
			case i != j && root[j][j] > 0:
				root[i][j] = rest / root[j][j]
			case math.Abs(rest) > rounding:
				return nil, fmt.Errorf("the correlation of input %d with those before it contradicts theirs with each "+
					"other: no inputs could have all these coefficients", i+1)
			}
		}
	}
	return root, nil
}

// AtScore is the figure as far out in the value's distribution as z is in the standard normal one.
func (v Value) AtScore(z float64) float64 {
	if v.kind == NormalKind {
		return v.a + v.b*z // what Quantile would give, without losing digits far out
	}
	return v.Quantile(Normal(0, 1).CDF(z))
}

// NumericalTolerance is half a unit in the last of so many significant digits of a standard uncertainty.
// Source: JCGM 101:2008, 7.9.2.
func NumericalTolerance(u float64, digits int) float64 {
	if u == 0 {
		return 0
	}
	last := math.Floor(math.Log10(u)) - float64(digits) + 1 // place of the last digit
	if math.Round(u/math.Pow(10, last)) >= math.Pow10(digits) {
		last++ // 0.0996 is 0.10 to two digits
	}
	return math.Pow(10, last) / 2
}
