package spring

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// FromBench lays a curve through readings taken on a bench press, in any order, several at one travel if need be. The
// readings scatter, so the curve does not pass through them: it is a cubic smoothing spline, as smooth as leave-one-out
// prediction calls for (generalised cross-validation), kept from falling below nought. RMS and Largest are the readings'
// distances from it.
//
//	min Σ w·(y - g(x))² + λ·∫ g''²      λ least for n·Σ w·(y - g)² / (n - p)²,  p its number of parameters
//
// At least six different travels are needed, and 300 are the most. Readings going in and coming out differ by friction;
// together they give the middle between the two, and a bearing pressed in needs more than that.
//
// A cover in a press stores enough energy to injure: work behind a guard and by the press maker's instructions.
//
// Sources: Reinsch, Numer. Math. 10 (1967) 177 (checked against a reference library); Craven, Wahba, Numer. Math. 31
// (1979) 377; Kim, Gu, J. R. Stat. Soc. B 66 (2004) 337, for the 1.4 (all from memory).
func FromBench(travel, load []float64) (Built, error) {
	if len(travel) != len(load) {
		return Built{}, fmt.Errorf("bench readings: %d travels, %d loads; each reading needs both", len(travel), len(load))
	}
	for i := range travel {
		if !finite(travel[i]) || !finite(load[i]) {
			return Built{}, &PointError{i, fmt.Sprintf("(%g, %g) is not a pair of finite numbers", travel[i], load[i])}
		}
	}
	x, y, w := gather(travel, load)
	const least, most = 6, 300
	if len(x) < least || len(x) > most {
		return Built{}, fmt.Errorf("bench readings: %d different travels; %d to %d can be smoothed", len(x), least, most)
	}
	smooth, parameters := newSmoother(x, w).best(y)
	raised := 0
	for i, v := range smooth {
		if v < 0 {
			smooth[i] = 0
			raised++
		}
	}
	curve, err := NewCurve(x, smooth)
	if err != nil {
		return Built{}, err
	}
	assumptions := []string{
		fmt.Sprintf("%d readings at %d travels smoothed to %.1f parameters", len(travel), len(x), parameters),
	}
	if raised > 0 {
		assumptions = append(assumptions, fmt.Sprintf("smoothed loads below nought at %d travels set to nought", raised))
	}
	if !slices.IsSorted(travel) {
		assumptions = append(assumptions, "readings going in and coming out are averaged: going in needs more, by friction")
	}
	return built(curve, travel, load, assumptions...), nil
}

// gather puts readings in order of x and averages those at the same one, w telling how many there were.
func gather(travel, load []float64) (x, y, w []float64) {
	order := make([]int, len(travel))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int {
		switch {
		case travel[a] < travel[b]:
			return -1
		case travel[a] > travel[b]:
			return 1
		}
		return a - b
	})
	for _, i := range order {
		last := len(x) - 1
		if last >= 0 && x[last] == travel[i] {
			w[last]++
			y[last] += (load[i] - y[last]) / w[last]
			continue
		}
		x, y, w = append(x, travel[i]), append(y, load[i]), append(w, 1)
	}
	return x, y, w
}

// smoother holds the shapes that a smoothing spline is made of, orthogonal to each other, and how rough each one is.
// A spline of any smoothness is then the readings' share of each shape, divided by 1 + λ·roughness.
type smoother struct {
	shapes    mat.Dense // in columns, of readings times root of weight
	roughness []float64 // ascending; the first two, level and slope, are nought
	root      []float64 // of the weights
}

func newSmoother(x, w []float64) *smoother {
	n := len(x)
	bend, gram := mat.NewDense(n, n-2, nil), mat.NewSymDense(n-2, nil) // Q and R of the literature
	for j := range n - 2 {
		before, after := x[j+1]-x[j], x[j+2]-x[j+1]
		bend.Set(j, j, 1/before)
		bend.Set(j+1, j, -1/before-1/after)
		bend.Set(j+2, j, 1/after)
		gram.SetSym(j, j, (before+after)/3)
		if j > 0 {
			gram.SetSym(j-1, j, before/6)
		}
	}
	s := &smoother{root: make([]float64, n)}
	for i, v := range w {
		s.root[i] = math.Sqrt(v)
		for j := range n - 2 {
			bend.Set(i, j, bend.At(i, j)/s.root[i])
		}
	}
	var cholesky mat.Cholesky
	if !cholesky.Factorize(gram) { // diagonally dominant with rising x
		panic("spring: smoothing points whose travel does not rise")
	}
	var solved mat.Dense
	if err := cholesky.SolveTo(&solved, bend.T()); err != nil {
		panic("spring: " + err.Error())
	}
	var penalty mat.Dense
	penalty.Mul(bend, &solved)
	symmetric := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			symmetric.SetSym(i, j, (penalty.At(i, j)+penalty.At(j, i))/2)
		}
	}
	var eigen mat.EigenSym
	if !eigen.Factorize(symmetric, true) {
		panic("spring: the shapes of a smoothing spline were not found")
	}
	eigen.VectorsTo(&s.shapes)
	s.roughness = eigen.Values(nil)
	s.roughness[0], s.roughness[1] = 0, 0
	return s
}

// best chooses the smoothness by generalised cross-validation. Each parameter counts for 1.4.
func (s *smoother) best(y []float64) (smooth []float64, parameters float64) {
	n := len(y)
	shares := s.shares(y)
	least, chosen := math.Inf(1), 0.0
	// From hardly any smoothing of the roughest shape to hardly anything left of the smoothest.
	from, to := math.Log(1e-3/s.roughness[n-1]), math.Log(1e3/s.roughness[2])
	const steps = 400
	for i := range steps + 1 {
		lambda := math.Exp(from + (to-from)*float64(i)/steps)
		residual, p := 0.0, 0.0
		for k, share := range shares {
			keep := 1 / (1 + lambda*s.roughness[k])
			residual += math.Pow((1-keep)*share, 2)
			p += keep
		}
		free := float64(n) - 1.4*p
		if score := residual / (free * free); free > 0 && score < least {
			least, chosen, parameters = score, lambda, p
		}
	}
	return s.smoothed(shares, chosen), parameters
}

// shares is how much of each shape the readings have.
func (s *smoother) shares(y []float64) []float64 {
	weighted := mat.NewVecDense(len(y), nil)
	for i, v := range y {
		weighted.SetVec(i, v*s.root[i])
	}
	var shares mat.VecDense
	shares.MulVec(s.shapes.T(), weighted)
	return shares.RawVector().Data
}

func (s *smoother) smoothed(shares []float64, lambda float64) []float64 {
	kept := mat.NewVecDense(len(shares), nil)
	for k, share := range shares {
		kept.SetVec(k, share/(1+lambda*s.roughness[k]))
	}
	var smooth mat.VecDense
	smooth.MulVec(&s.shapes, kept)
	for i := range s.root {
		smooth.SetVec(i, smooth.AtVec(i)/s.root[i])
	}
	return smooth.RawVector().Data
}
