package uncertain

import (
	"fmt"
	"math"
)

// Indices tell how much of an output's variance comes from each input.
type Indices struct {
	Mean, SD float64 // of the output

	// First is the part of the variance that would go if this input became known, on average; Total is the part
	// that would stay if all the others became known. Where they differ the input works together with others.
	// Estimates: an index near nought may come out slightly below it.
	First, Total []float64

	Evaluations int // how often the output was worked out
}

// Sensitivity estimates variance-based indices from pairs of quasi-random points a and b, and points ab_i that are a
// but for input i, taken from b. All outputs are taken about their mean.
//
//	First_i = mean( f(b)·(f(ab_i) - f(a)) ) / V        Saltelli et al. 2010
//	Total_i = mean( (f(a) - f(ab_i))² ) / 2V           Jansen 1999
//
//	V  variance of the output over all a and b
//
// The inputs are taken as independent. An exact input has both indices nought and costs nothing; with k others the
// output is worked out samples·(k + 2) times, from several goroutines at once. It must not keep x. Take a power of
// two and no fewer than 8k samples. An output without variance has all indices nought.
//
// Sources: Saltelli, Annoni, Azzini, Campolongo, Ratto, Tarantola, "Variance based sensitivity analysis of model
// output", Comput. Phys. Commun. 181 (2010) 259, table 2; Jansen, Comput. Phys. Commun. 117 (1999) 35 (from memory).
func Sensitivity(inputs []Value, output func(x []float64) float64, samples int, seed uint64) (Indices, error) {
	var varying []int
	for j, input := range inputs {
		if !input.IsExact() {
			varying = append(varying, j)
		}
	}
	if samples < 2 {
		return Indices{}, fmt.Errorf("sensitivity needs two samples at least, not %d", samples)
	}
	runs := evaluatePairs(inputs, varying, output, samples, seed)
	for _, run := range runs {
		for _, y := range run {
			if math.IsNaN(y) || math.IsInf(y, 0) {
				return Indices{}, fmt.Errorf("sensitivity needs an output that is a finite number all over its inputs' ranges, "+
					"not %g", y)
			}
		}
	}
	return estimateIndices(runs, varying, len(inputs)), nil
}

// evaluatePairs returns the outputs at points a, at points b, and for each varying input at points ab_i.
func evaluatePairs(inputs []Value, varying []int, output func([]float64) float64, samples int, seed uint64) [][]float64 {
	runs := make([][]float64, 2+len(varying))
	for r := range runs {
		runs[r] = make([]float64, samples)
	}
	sequence := NewSequence(2*len(varying), seed)
	inChunks(samples, func(from, to int) {
		u := make([]float64, sequence.Dimensions())
		a, b := make([]float64, len(inputs)), make([]float64, len(inputs))
		for j, input := range inputs {
			a[j], b[j] = input.Mid(), input.Mid() // exact inputs stay so
		}
		x := make([]float64, len(inputs)) // what the output may see, and spoil
		at := func(point []float64) float64 {
			copy(x, point)
			return output(x)
		}
		for i := from; i < to; i++ {
			sequence.At(i, u)
			for v, j := range varying {
				a[j], b[j] = inputs[j].Quantile(u[v]), inputs[j].Quantile(u[len(varying)+v])
			}
			runs[0][i], runs[1][i] = at(a), at(b)
			for v, j := range varying {
				kept := a[j]
				a[j] = b[j]
				runs[2+v][i] = at(a)
				a[j] = kept
			}
		}
	})
	return runs
}

func estimateIndices(runs [][]float64, varying []int, inputs int) Indices {
	a, b := runs[0], runs[1]
	n := float64(len(a))
	mean := (Mean(a) + Mean(b)) / 2
	variance := 0.0
	for i := range a {
		variance += ((a[i]-mean)*(a[i]-mean) + (b[i]-mean)*(b[i]-mean)) / (2 * n)
	}
	result := Indices{
		Mean: mean, SD: math.Sqrt(variance),
		First: make([]float64, inputs), Total: make([]float64, inputs),
		Evaluations: len(runs) * len(a),
	}
	if variance == 0 {
		return result
	}
	for v, j := range varying {
		first, total := 0.0, 0.0
		for i, ab := range runs[2+v] {
			first += (b[i] - mean) * (ab - a[i])
			total += (a[i] - ab) * (a[i] - ab) / 2
		}
		result.First[j], result.Total[j] = first/n/variance, total/n/variance
	}
	return result
}
