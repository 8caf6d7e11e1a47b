package release

import "math/rand/v2"

// sequence hands out points of the unit cube by number: pseudo-random ones, until package uncertain brings its
// quasi-random sequence.
type sequence struct{ seed uint64 }

func newSequence(_ int, seed uint64) *sequence { return &sequence{seed} }

func (s *sequence) At(i int, dst []float64) {
	source := rand.New(rand.NewPCG(s.seed, uint64(i)))
	for j := range dst {
		dst[j] = 1 - source.Float64()
	}
}
