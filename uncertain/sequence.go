package uncertain

import (
	"fmt"
	"math/bits"
	"math/rand/v2"
)

// Sequence is a seeded quasi-random sequence in the unit cube: it fills the cube evenly, so that a mean over its
// points settles much sooner than one over pseudo-random points. Any point can be asked for at once and in any
// order, which lets goroutines share a sequence in chunks.
//
// It is an extensible Korobov lattice in base 2, shifted at random and folded:
//
//	u_j = fold( φ(i)·η^j + shift_j  mod 1 )
//
//	φ(i)     i with its binary digits mirrored at the point (van der Corput)
//	η        17797
//	shift_j  drawn from the seed; makes every point uniform and the mean unbiased (Cranley and Patterson)
//	fold     1 - |2u - 1|; lets smooth functions that are not periodic gain too (Hickernell)
//
// It was chosen because it needs no table, costs one multiplication a coordinate and is exact in 64-bit integers.
// Against shifted square roots of primes and a digitally shifted Sobol' sequence, on means of smooth functions in 4
// to 48 dimensions, it came out level with the better or ahead; on chances (means of a step) all three were alike.
// It does best where the number of points is a power of two. With N points, coordinates repeat each other from N/4
// dimensions on, so take many more points than dimensions.
//
// Sources: Hickernell, Hong, L'Ecuyer, Lemieux, "Extensible lattice sequences for quasi-Monte Carlo quadrature",
// SIAM J. Sci. Comput. 22 (2000) 1117 (η from memory; its quality is tested here); Cranley, Patterson, SIAM J. Numer.
// Anal. 13 (1976) 904 (from memory); Hickernell, "Obtaining O(N^(-2+ε)) convergence for lattice quadrature rules",
// 2002 (from memory).
type Sequence struct {
	multipliers []uint64 // η^j
	shifts      []uint64 // 64-bit fractions
}

const korobovMultiplier = 17797

// NewSequence makes the sequence of a seed; the same seed gives the same points on every machine.
func NewSequence(dimensions int, seed uint64) Sequence {
	if dimensions < 0 {
		panic(fmt.Sprintf("uncertain: a sequence in %d dimensions", dimensions))
	}
	random := rand.New(rand.NewPCG(seed, 0))
	s := Sequence{make([]uint64, dimensions), make([]uint64, dimensions)}
	power := uint64(1)
	for j := range dimensions {
		s.multipliers[j], s.shifts[j] = power, random.Uint64()
		power *= korobovMultiplier // wraps round, as fractions of one turn should
	}
	return s
}

// Dimensions is the number of coordinates of a point.
func (s Sequence) Dimensions() int { return len(s.shifts) }

// At writes point i, counted from nought, into dst, whose length must be the number of dimensions. Every coordinate
// lies strictly between 0 and 1, so that a quantile of it is finite.
func (s Sequence) At(i int, dst []float64) {
	if len(dst) != len(s.shifts) || i < 0 {
		panic(fmt.Sprintf("uncertain: point %d in %d dimensions asked into %d places", i, len(s.shifts), len(dst)))
	}
	mirrored := bits.Reverse64(uint64(i))
	for j := range dst {
		dst[j] = fold(mirrored*s.multipliers[j] + s.shifts[j])
	}
}

// fold maps a 64-bit fraction u to 1 - |2u - 1|, to 52 bits and never 0 or 1.
func fold(u uint64) float64 {
	if u >= 1<<63 {
		u = ^u
	}
	return (float64(u>>11) + 0.5) / (1 << 52)
}
