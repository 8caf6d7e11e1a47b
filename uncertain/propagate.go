package uncertain

import (
	"runtime"
	"sync"
)

// Propagate draws the inputs at so many quasi-random points and returns the output at each, in the order of the
// points. The output function is called from several goroutines at once and must not keep x; the answer does not
// depend on how many goroutines there are.
func Propagate(inputs []Value, output func(x []float64) float64, samples int, seed uint64) []float64 {
	sequence := NewSequence(len(inputs), seed)
	results := make([]float64, samples)
	inChunks(samples, func(from, to int) {
		u, x := make([]float64, len(inputs)), make([]float64, len(inputs))
		for i := from; i < to; i++ {
			sequence.At(i, u)
			drawInto(x, inputs, u)
			results[i] = output(x)
		}
	})
	return results
}

// drawInto sets x to the quantiles u of the inputs.
func drawInto(x []float64, inputs []Value, u []float64) {
	for j, input := range inputs {
		x[j] = input.Quantile(u[j])
	}
}

// inChunks shares the numbers from 0 to n - 1 among as many goroutines as can run at once.
func inChunks(n int, work func(from, to int)) {
	chunks := min(runtime.GOMAXPROCS(0), n)
	var running sync.WaitGroup
	for c := range chunks {
		running.Go(func() { work(c*n/chunks, (c+1)*n/chunks) })
	}
	running.Wait()
}
