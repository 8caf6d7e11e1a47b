package uncertain

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// planes are readings y of A·z with standard uncertainty u each, whose answer has a closed form: the Kalman update.
//
//	mean = Aᵀ(AAᵀ + R)⁻¹·y,  cov = I - Aᵀ(AAᵀ + R)⁻¹A,  y ~ N(0, AAᵀ + R),  R = diag(u²)
type planes struct {
	a    *mat.Dense
	y, u []float64
}

func (p planes) misfits(z, r []float64) []float64 {
	var at mat.VecDense
	at.MulVec(p.a, mat.NewVecDense(len(z), z))
	for k, y := range p.y {
		r = append(r, (y-at.AtVec(k))/p.u[k])
	}
	return r
}

func (p planes) answer(t *testing.T) (mean []float64, cov *mat.Dense, logEvidence float64) {
	m, n := p.a.Dims()
	spread := mat.NewSymDense(m, nil)
	spread.SymOuterK(1, p.a)
	for k, u := range p.u {
		spread.SetSym(k, k, spread.At(k, k)+u*u)
	}
	var inverse, gain, gone mat.Dense
	if err := inverse.Inverse(spread); err != nil {
		t.Fatal(err)
	}
	gain.Mul(p.a.T(), &inverse)
	var top mat.VecDense
	top.MulVec(&gain, mat.NewVecDense(m, p.y))
	gone.Mul(&gain, p.a)
	cov = mat.NewDense(n, n, nil)
	for i := range n {
		cov.Set(i, i, 1)
	}
	cov.Sub(cov, &gone)
	y := mat.NewVecDense(m, p.y)
	logEvidence = -(mat.Inner(y, &inverse, y) + math.Log(mat.Det(spread))) / 2
	for _, u := range p.u {
		logEvidence += math.Log(u) // misfits leave out the height of the readings' own densities
	}
	return top.RawVector().Data, cov, logEvidence
}

func TestExploringPlanesGivesTheKalmanUpdate(t *testing.T) {
	for _, at := range []struct {
		name   string
		p      planes
		stages int
	}{
		{"one rough reading", planes{mat.NewDense(1, 2, []float64{1, 0.5}), []float64{0.8}, []float64{1.5}}, 1},
		{"one good reading", planes{mat.NewDense(1, 2, []float64{1, 0.5}), []float64{1.4}, []float64{0.05}}, 2},
		{"three good readings of six", planes{mat.NewDense(3, 6, []float64{
			1, 0.3, 0, -0.2, 0.5, 0,
			0, 1, 0.7, 0, -0.4, 0.1,
			0.2, 0, 0, 1, 0, 0.9,
		}), []float64{1.2, -0.7, 1.9}, []float64{0.05, 0.1, 0.02}}, 2},
	} {
		t.Run(at.name, func(t *testing.T) {
			const draws = 8192
			e := Explore(at.p.a.RawMatrix().Cols, at.p.misfits, draws, 3)
			mean, cov, logEvidence := at.p.answer(t)
			if e.Stages != at.stages || e.Effective < enough*draws {
				t.Errorf("%d stages, %.0f effective draws", e.Stages, e.Effective)
			}
			if math.Abs(e.LogEvidence-logEvidence) > 0.02 {
				t.Errorf("log evidence %g, want %g", e.LogEvidence, logEvidence)
			}
			for i := range mean {
				column := make([]float64, len(e.Points))
				for k, z := range e.Points {
					column[k] = z[i]
				}
				sd := math.Sqrt(cov.At(i, i))
				// quasi-random draws settle faster than 1/√n, which the tolerance allows for: 1/√4000
				if got := WeightedMean(column, e.Weights); math.Abs(got-mean[i]) > 0.016*sd {
					t.Errorf("mean %d is %g, want %g with a spread of %g", i, got, mean[i], sd)
				}
				if got := WeightedSD(column, e.Weights); math.Abs(got/sd-1) > 0.02 {
					t.Errorf("spread %d is %g, want %g", i, got, sd)
				}
			}
		})
	}
}

// bent is a reading of a bowl: the answer is a ring, which no normal density is near.
func bent(z, r []float64) []float64 { return append(r, (2.25-z[0]*z[0]-z[1]*z[1])/0.1) }

func TestExploringWhatIsFarFromPlaneAgreesWithAGrid(t *testing.T) {
	var weight, radius, right float64
	const step = 0.01
	for x := -6.0; x <= 6; x += step {
		for y := -6.0; y <= 6; y += step {
			w := math.Exp(-halfSquare(bent([]float64{x, y}, nil)) - (x*x+y*y)/2)
			weight += w
			radius += w * math.Hypot(x, y)
			if x > 1 {
				right += w
			}
		}
	}
	e := Explore(2, bent, 1<<15, 1)
	gotRadius, gotRight := 0.0, 0.0
	for i, z := range e.Points {
		gotRadius += e.Weights[i] * math.Hypot(z[0], z[1])
		if z[0] > 1 {
			gotRight += e.Weights[i]
		}
	}
	if math.Abs(gotRadius-radius/weight) > 1e-3 || math.Abs(gotRight-right/weight) > 0.01 {
		t.Errorf("radius %g, beyond 1 %g; by a grid %g and %g", gotRadius, gotRight, radius/weight, right/weight)
	}
	if want := math.Log(weight * step * step / (2 * math.Pi)); math.Abs(e.LogEvidence-want) > 0.02 {
		t.Errorf("log evidence %g, by a grid %g", e.LogEvidence, want)
	}
}

func TestExploringTheImpossible(t *testing.T) {
	e := Explore(2, func(z, r []float64) []float64 { return append(r, math.NaN()) }, 256, 1)
	if e.Effective != 0 || !math.IsInf(e.LogEvidence, -1) || e.Pick(10) != nil {
		t.Errorf("what nothing explains gives %g effective draws, evidence %g", e.Effective, e.LogEvidence)
	}
	half := Explore(1, func(z, r []float64) []float64 {
		if z[0] < 0 {
			return append(r, math.NaN())
		}
		return r
	}, 4096, 1)
	if got := math.Exp(half.LogEvidence); math.Abs(got-0.5) > 1e-3 {
		t.Errorf("half of what can be gives an evidence of %g", got)
	}
	for _, z := range half.Pick(100) {
		if z[0] < 0 {
			t.Fatalf("picked %v, which cannot be", z)
		}
	}
}

func TestNothingUnsureStaysAsItIs(t *testing.T) {
	e := Explore(0, func(z, r []float64) []float64 { return append(r, 3) }, 128, 1)
	if got := e.LogEvidence; math.Abs(got+4.5) > 1e-12 || e.Stages != 1 || len(e.Pick(7)) != 7 {
		t.Errorf("evidence %g after %d stages, want -4.5 after one", got, e.Stages)
	}
}

func TestPickingKeepsTheWeights(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		raw := rapid.SliceOfN(rapid.Float64Range(-30, 0), 1, 50).Draw(t, "logarithms")
		e := Exploration{}
		for i := range raw {
			e.Points = append(e.Points, []float64{float64(i)})
		}
		e.weigh(raw, []hill{standardHill(1)})
		n := rapid.IntRange(1, 200).Draw(t, "n")
		counts := make([]int, len(raw))
		picked := e.Pick(n)
		for _, z := range picked {
			counts[int(z[0])]++
		}
		if len(picked) != n {
			t.Fatalf("%d picked of %d", len(picked), n)
		}
		for i, w := range e.Weights {
			if math.Abs(float64(counts[i])-w*float64(n)) > 1+1e-9 {
				t.Fatalf("weight %g is picked %d of %d times", w, counts[i], n)
			}
		}
	})
}

func TestAtScoreIsTheQuantileOfItsProbability(t *testing.T) {
	for _, v := range []Value{Exact(3), Uniform(2, 4), Normal(5, 0.5)} {
		for _, z := range []float64{-3, -0.5, 0, 1.7} {
			u := math.Erfc(-z/math.Sqrt2) / 2
			if got, want := v.AtScore(z), v.Quantile(u); math.Abs(got-want) > 1e-9 {
				t.Errorf("%v at %g is %g, want %g", v, z, got, want)
			}
		}
	}
}
