package uncertain

import (
	"fmt"
	"math"
)

// Model is an output worked out from uncertain inputs.
type Model struct {
	Inputs []Value
	// Correlation holds a coefficient for each pair of inputs, ones on the diagonal; nil where none depends on
	// another. It is exact for normal inputs; where others are drawn, it is that of the normal scores behind them.
	Correlation [][]float64
	// Output is called from several goroutines at once and must not keep x.
	Output func(x []float64) float64
}

// check tells what is wrong with a model.
func (m Model) check() error {
	if m.Correlation == nil {
		return nil
	}
	n := len(m.Inputs)
	if len(m.Correlation) != n {
		return fmt.Errorf("%d inputs need %d rows of correlation coefficients, not %d", n, n, len(m.Correlation))
	}
	for i, row := range m.Correlation {
		if len(row) != n {
			return fmt.Errorf("row %d of the correlation coefficients has %d, not %d", i+1, len(row), n)
		}
		for j, r := range row[:i] {
			if !(r >= -1 && r <= 1) || r != m.Correlation[j][i] {
				return fmt.Errorf("correlation of inputs %d and %d is %g one way and %g the other; it must be the same "+
					"and lie from -1 to 1", i+1, j+1, r, m.Correlation[j][i])
			}
		}
		if row[i] != 1 {
			return fmt.Errorf("correlation of input %d with itself is %g, not 1", i+1, row[i])
		}
	}
	return nil
}

// Linearised is what the law of propagation of uncertainty makes of a model.
type Linearised struct {
	Value, SD float64 // the output at the inputs' middle figures, and its standard uncertainty

	// Contributions are slope times standard deviation, signed, for each input: how far the output moves when this
	// input alone moves by its own standard deviation.
	Contributions []float64
}

// Linearise takes the output as a plane about the inputs' middle figures.
//
//	u² = Σ_i Σ_j c_i·u_i · c_j·u_j · r_ij
//
//	c_i   slope of the output along input i, by central difference over a hundredth of u_i
//	u_i   standard deviation of input i
//	r_ij  correlation coefficient
//
// Valid where the output hardly bends over the spread of its inputs; Compare tells whether it does.
// Source: JCGM 100:2008 (GUM), 5.1.2 and 5.2.2.
func (m Model) Linearise() (Linearised, error) {
	if err := m.check(); err != nil {
		return Linearised{}, err
	}
	middle := make([]float64, len(m.Inputs))
	for i, input := range m.Inputs {
		middle[i] = input.Mid()
	}
	result := Linearised{Value: m.outputAt(middle), Contributions: make([]float64, len(m.Inputs))}
	for i, input := range m.Inputs {
		if !input.IsExact() {
			result.Contributions[i] = m.contribution(middle, i)
		}
	}
	variance := 0.0
	for i, a := range result.Contributions {
		for j, b := range result.Contributions {
			variance += a * b * m.correlation(i, j)
		}
	}
	result.SD = math.Sqrt(math.Max(variance, 0)) // full correlation may leave less than nought by rounding
	if math.IsNaN(result.Value) || math.IsNaN(variance) || math.IsInf(variance, 0) {
		return result, fmt.Errorf("the output is %g at the middle of its inputs and its variance %g; a plane through it "+
			"needs finite numbers", result.Value, variance)
	}
	return result, nil
}

// outputAt keeps the caller's point from an output that writes to it.
func (m Model) outputAt(x []float64) float64 { return m.Output(append([]float64(nil), x...)) }

// contribution is the slope of the output along input i, times the input's standard deviation.
func (m Model) contribution(middle []float64, i int) float64 {
	const part = 0.01 // of a standard deviation: small against any bend, large against rounding
	u := m.Inputs[i].SD()
	moved := append([]float64(nil), middle...)
	moved[i] = middle[i] + part*u
	above := m.outputAt(moved)
	moved[i] = middle[i] - part*u
	return (above - m.outputAt(moved)) / (2 * part)
}

func (m Model) correlation(i, j int) float64 {
	switch {
	case m.Correlation != nil:
		return m.Correlation[i][j]
	case i == j:
		return 1
	}
	return 0
}

// EffectiveDegrees is the number of degrees of freedom behind an uncertainty made of independent contributions
// (Welch and Satterthwaite).
//
//	ν = (Σ c_i²)² / Σ c_i⁴/ν_i
//
//	c_i  contributions, as of Linearised
//	ν_i  degrees of freedom of each, +Inf where its uncertainty is known for certain
//
// Source: JCGM 100:2008, G.4.1.
func EffectiveDegrees(contributions, degrees []float64) float64 {
	checkWeights(contributions, degrees)
	sum, below := 0.0, 0.0
	for i, c := range contributions {
		sum += c * c
		below += c * c * c * c / degrees[i]
	}
	return sum * sum / below
}
