package uncertain

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// laplace is the normal density about the likeliest point: the precision is that of planes through the misfits there.
func laplace(misfits Misfits, start []float64) (near hill, ok bool) {
	const widened = 1.1 // in standard deviations, against tails thinner than those of the answer
	top, precision := climb(misfits, start)
	precision.ScaleSym(1/(widened*widened), precision)
	return newHill(top, precision)
}

// fitted is the normal density with the mean and the covariance of the weighted draws. Where they are worth few, the
// covariance leans towards that of the density that they were drawn from.
func fitted(e *Exploration, drawnFrom *hill) (hill, bool) {
	dimensions := len(drawnFrom.top)
	mean := make([]float64, dimensions)
	for i, z := range e.Points {
		for j, v := range z {
			mean[j] += e.Weights[i] * v
		}
	}
	own := e.Effective / (e.Effective + float64(dimensions))
	covariance := drawnFrom.covariance()
	covariance.ScaleSym(1-own, covariance)
	apart := mat.NewVecDense(dimensions, nil)
	for i, z := range e.Points {
		if e.Weights[i] == 0 {
			continue
		}
		for j, v := range z {
			apart.SetVec(j, v-mean[j])
		}
		covariance.SymRankOne(covariance, own*e.Weights[i], apart)
	}
	var factor mat.Cholesky
	precision := mat.NewSymDense(dimensions, nil)
	if !factor.Factorize(covariance) || factor.InverseTo(precision) != nil {
		return hill{}, false
	}
	return newHill(mean, precision)
}

// climb goes from start to the likeliest point nearby by Gauss and Newton's steps, halved where they overshoot. Beside
// it stands the precision there, I + JᵀJ, J being the slopes of the misfits.
func climb(misfits Misfits, start []float64) (top []float64, precision *mat.SymDense) {
	const most, settled = 30, 1e-6
	top = append([]float64(nil), start...)
	for range most {
		r := misfits(top, nil)
		slopes := slopesAt(misfits, top, r)
		precision = onePlusSquare(slopes)
		next, gain := halved(misfits, top, stepTo(precision, slopes, top, r), r)
		if gain <= settled {
			break
		}
		top = next
	}
	return top, precision
}

// slopesAt is J: how each misfit (rows) changes with each coordinate (columns). A misfit that is lost on the way counts
// as level.
func slopesAt(misfits Misfits, z, r []float64) *mat.Dense {
	const step = 1e-3 // of a standard deviation
	slopes := mat.NewDense(max(len(r), 1), max(len(z), 1), nil)
	near := append([]float64(nil), z...)
	var above, below []float64
	for j := range z {
		near[j] = z[j] + step
		above = misfits(near, above[:0])
		near[j] = z[j] - step
		below = misfits(near, below[:0])
		near[j] = z[j]
		for i := range r {
			if slope := (above[i] - below[i]) / (2 * step); !math.IsNaN(slope) {
				slopes.Set(i, j, slope)
			}
		}
	}
	return slopes
}

func onePlusSquare(slopes *mat.Dense) *mat.SymDense {
	_, dimensions := slopes.Dims()
	precision := mat.NewSymDense(dimensions, nil)
	precision.SymOuterK(1, slopes.T())
	for j := range dimensions {
		precision.SetSym(j, j, precision.At(j, j)+1)
	}
	return precision
}

// stepTo solves (I + JᵀJ)·step = -(z + Jᵀr): the step to the likeliest point if the misfits were planes.
func stepTo(precision *mat.SymDense, slopes *mat.Dense, z, r []float64) []float64 {
	down, step := mat.NewVecDense(len(z), nil), mat.NewVecDense(len(z), nil)
	if len(r) > 0 {
		down.MulVec(slopes.T(), mat.NewVecDense(len(r), r))
	}
	down.AddVec(down, mat.NewVecDense(len(z), z))
	var root mat.Cholesky
	if root.Factorize(precision) && root.SolveVecTo(step, down) == nil {
		step.ScaleVec(-1, step)
	}
	return step.RawVector().Data
}

// halved goes as much of a step as leads uphill.
func halved(misfits Misfits, from, step, r []float64) (to []float64, gain float64) {
	height := halfSquare(from) + halfSquare(r)
	to = make([]float64, len(from))
	for part := 1.0; part > 1e-3; part /= 2 {
		for j := range to {
			to[j] = from[j] + part*step[j]
		}
		if gain = height - halfSquare(to) - halfSquare(misfits(to, nil)); gain > 0 {
			return to, gain
		}
	}
	return from, 0
}

// hill is a normal density in several coordinates.
type hill struct {
	top    []float64
	factor mat.Cholesky  // of the precision
	root   *mat.TriDense // its upper root, U with UᵀU the precision; nil for the standard normal density
	log    float64       // logarithm of the density at the top
}

func newHill(top []float64, precision *mat.SymDense) (hill, bool) {
	h := hill{top: top, root: new(mat.TriDense)}
	if !h.factor.Factorize(precision) {
		return hill{}, false
	}
	h.factor.UTo(h.root)
	h.log = (h.factor.LogDet() - float64(len(top))*math.Log(2*math.Pi)) / 2
	return h, true
}

// standardHill is the standard normal density.
func standardHill(dimensions int) hill {
	return hill{top: make([]float64, dimensions), log: -float64(dimensions) / 2 * math.Log(2*math.Pi)}
}

func (h *hill) covariance() *mat.SymDense {
	covariance := mat.NewSymDense(len(h.top), nil)
	if err := h.factor.InverseTo(covariance); err != nil {
		panic("uncertain: " + err.Error()) // of a precision that was factored
	}
	return covariance
}

// draws are quasi-random points of the hill.
func (h *hill) draws(n int, seed uint64) [][]float64 {
	sequence, standard := NewSequence(len(h.top), seed), Normal(0, 1)
	points := make([][]float64, n)
	for i := range points {
		z := make([]float64, len(h.top))
		sequence.At(i, z)
		for j, u := range z {
			z[j] = standard.Quantile(u)
		}
		points[i] = h.place(z)
	}
	return points
}

// place turns a standard normal point x into one of the hill's, in x's place: it solves U·(z - top) = x.
func (h *hill) place(x []float64) []float64 {
	if h.root == nil {
		return x
	}
	for i := len(x) - 1; i >= 0; i-- {
		rest := x[i]
		for j := i + 1; j < len(x); j++ {
			rest -= h.root.At(i, j) * (x[j] - h.top[j])
		}
		x[i] = h.top[i] + rest/h.root.At(i, i)
	}
	return x
}

func (h *hill) logDensity(z []float64) float64 {
	if h.root == nil {
		return h.log - halfSquare(z)
	}
	square := 0.0
	for i := range z {
		part := 0.0
		for j := i; j < len(z); j++ {
			part += h.root.At(i, j) * (z[j] - h.top[j])
		}
		square += part * part
	}
	return h.log - square/2
}
