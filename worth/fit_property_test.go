package worth

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"pgregory.net/rapid"
)

// simulated draws lives and looks at them, at distances about as long: some failed at a known distance, some between
// looks, most were looked at once.
func simulated(w Weibull, count int, onlyOnce bool, seed uint64) []Finding {
	random := rand.New(rand.NewPCG(seed, 1))
	var all []Finding
	for range count {
		life := w.Life(random.Float64())
		look := w.Scale * (0.3 + 1.4*random.Float64())
		before := look * random.Float64()
		switch kind := random.IntN(4); {
		case life > look:
			all = append(all, SoundAt(look))
		case onlyOnce || kind > 1:
			all = append(all, WornBy(look))
		case kind == 0:
			all = append(all, FailedAt(life))
		case life > before:
			all = append(all, WornBetween(before, look))
		default:
			all = append(all, WornBy(before))
		}
	}
	return all
}

// someFit draws findings until they tell a life.
func someFit(t *rapid.T) ([]Finding, *Fit) {
	w := Weibull{Shape: rapid.Float64Range(0.8, 5).Draw(t, "shape"), Scale: 150e6}
	findings := simulated(w, rapid.IntRange(12, 60).Draw(t, "count"), rapid.Bool().Draw(t, "once"), rapid.Uint64().Draw(t, "seed"))
	fit, err := FitWeibull(findings)
	var few *TooFewToFit
	if errors.As(err, &few) {
		t.Skip(few.Reason)
	}
	if err != nil {
		t.Fatal(err)
	}
	return findings, fit
}

func scaled(findings []Finding, k float64) []Finding {
	all := make([]Finding, len(findings))
	for i, f := range findings {
		all[i] = Finding{f.After * k, f.By * k}
	}
	return all
}

func b10(w Weibull) float64 { return w.Life(0.1) }

func TestMilesAndMetresGiveTheSameLife(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		findings, fit := someFit(t)
		const metresInAMile = 1609.344
		miles, err := FitWeibull(scaled(findings, 1/metresInAMile))
		if err != nil {
			t.Fatal(err)
		}
		if math.Abs(miles.Shape/fit.Shape-1) > 1e-7 || math.Abs(miles.Scale*metresInAMile/fit.Scale-1) > 1e-7 {
			t.Fatalf("%v in metres, %v in miles", fit.Weibull, miles.Weibull)
		}
		if a, b := fit.Likely(Usual).Range(b10), miles.Likely(Usual).Range(b10); math.Abs(b.Low*metresInAMile/a.Low-1) > 1e-6 {
			t.Fatalf("%v in metres, %v in miles", a, b)
		}
	})
}

// No life nearby explains the findings better, and those on the edge of the interval explain them as much worse as
// the level says.
func TestFitIsThePeak(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, fit := someFit(t)
		top := fit.likelihood.log(fit.peak)
		angle := rapid.Float64Range(0, 2*math.Pi).Draw(t, "angle")
		for _, far := range []float64{1e-3, 0.1, 1} {
			other := line{fit.peak.slope + far*math.Cos(angle), fit.peak.level + far*math.Sin(angle)}
			if got := fit.likelihood.log(other); got > top+1e-10*math.Abs(top) {
				t.Fatalf("%v at %v from the peak, %v on it", got, far, top)
			}
		}
		edge := fit.Likely(Usual).edge(angle)
		level := -edge.Shape * math.Log(edge.Scale/fit.likelihood.unit)
		const halfOfChiSquare = 1.642374415149819 / 2 // 80 %, one degree of freedom
		if down := top - fit.likelihood.log(line{edge.Shape, level}); edge.Shape > 1.001*leastShape && math.Abs(down-halfOfChiSquare) > 1e-6 {
			t.Fatalf("%v below the peak on the edge, want %v", down, halfOfChiSquare)
		}
	})
}

// The slopes that the climb uses are those of the function, by differences.
func TestSlopesAreThoseOfTheLikelihood(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := newLikelihood(everyKind)
		at := line{rapid.Float64Range(0.5, 4).Draw(t, "slope"), rapid.Float64Range(-1.5, 1.5).Draw(t, "level")}
		first, information := l.slopes(at)
		const h = 1e-5
		f := func(slope, level float64) float64 { return l.log(line{at.slope + slope, at.level + level}) }
		g := func(slope, level float64) line {
			v, _ := l.slopes(line{at.slope + slope, at.level + level})
			return v
		}
		for name, pair := range map[string][2]float64{
			"slope":       {first.slope, (f(h, 0) - f(-h, 0)) / (2 * h)},
			"level":       {first.level, (f(0, h) - f(0, -h)) / (2 * h)},
			"slope slope": {-information.ss, (g(h, 0).slope - g(-h, 0).slope) / (2 * h)},
			"slope level": {-information.sl, (g(h, 0).level - g(-h, 0).level) / (2 * h)},
			"level level": {-information.ll, (g(0, h).level - g(0, -h).level) / (2 * h)},
		} {
			if math.Abs(pair[0]-pair[1]) > 1e-5*(1+math.Abs(pair[1])) { // differences of step h are good to about h²
				t.Fatalf("%s: %v, by differences %v", name, pair[0], pair[1])
			}
		}
	})
}

func TestLikelyHoldsTheBestAndWidensWithItsLevel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, fit := someFit(t)
		narrow, wide := fit.Likely(0.5).Range(b10), fit.Likely(0.9).Range(b10)
		if best := fit.Life(0.1); !(wide.Low < narrow.Low && narrow.Low < best && best < narrow.High && narrow.High < wide.High) {
			t.Fatalf("90 %% %v, 50 %% %v, best %v", wide, narrow, best)
		}
		log := fit.Likely(0.5).Range(func(w Weibull) float64 { return math.Log(w.Life(0.1)) })
		if math.Abs(math.Exp(log.Low)/narrow.Low-1) > 1e-6 || math.Abs(math.Exp(log.High)/narrow.High-1) > 1e-6 {
			t.Fatalf("of the logarithm %v, of itself %v", log, narrow)
		}
	})
}

// Where the B10 life is at most T, at least 10 % are worn by T: both intervals are cut at the same lives.
func TestIntervalsOfLifeAndChanceAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, fit := someFit(t)
		life := fit.Likely(Usual).Range(b10)
		if life.High > 1e12 {
			t.Skip("no longest life")
		}
		chance := fit.Likely(Usual).Range(func(w Weibull) float64 { return w.Chance(life.High) })
		if math.Abs(chance.Low-0.1) > 1e-6 {
			t.Fatalf("at least %v are worn by the longest B10 life", chance.Low)
		}
	})
}

// What everybody knew beforehand changes nothing: a part sound almost when new, and one worn after no end of driving.
func TestFindingsThatTellNothingChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		findings, fit := someFit(t)
		if fit.Life(1e-13) == 0 || math.IsInf(fit.Life(1-1e-13), 1) {
			t.Skip("so flat a life has no shortest and longest distance that can be written: a look at 0 is refused, rightly")
		}
		// kept within a range where the middle of all distances, which they do move, costs no digits
		more := fitAll(t, append(append([]Finding{}, findings...), SoundAt(fit.Life(1e-13)), WornBy(fit.Life(1-1e-13))))
		if math.Abs(more.Shape/fit.Shape-1) > 1e-6 || math.Abs(more.Scale/fit.Scale-1) > 1e-6 {
			t.Fatalf("%v, before %v", more.Weibull, fit.Weibull)
		}
	})
}

func fitAll(t *rapid.T, findings []Finding) *Fit {
	fit, err := FitWeibull(findings)
	if err != nil {
		t.Fatal(err)
	}
	return fit
}

// Two looks close to each other tell as much as seeing it fail.
func TestCloseLooksComeToAnExactLife(t *testing.T) {
	exact := fitted(t, lifeTest())
	var looks []Finding
	for _, f := range lifeTest() {
		if f.exact() {
			f = WornBetween(f.By-0.005, f.By+0.005)
		}
		looks = append(looks, f)
	}
	close := fitted(t, looks)
	near(t, "shape", close.Shape, exact.Shape, 1e-6)
	near(t, "scale", close.Scale, exact.Scale, 1e-6)
}

// With nothing hidden, η^β is the mean of t^β: the second likelihood equation solved by hand.
func TestCompleteLivesFulfilTheLikelihoodEquation(t *testing.T) {
	var lives []Finding
	for _, hours := range []float64{54, 187, 216, 240, 244, 335, 361, 373, 375, 386} {
		lives = append(lives, FailedAt(hours))
	}
	fit := fitted(t, lives)
	sum := 0.0
	for _, f := range lives {
		sum += math.Pow(f.By, fit.Shape)
	}
	near(t, "scale", fit.Scale, math.Pow(sum/10, 1/fit.Shape), 1e-10)
}

// The order of the findings does not matter, and each twice gives the same life and a narrower interval.
func TestFindingsTwiceAreSurerOfTheSameLife(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		findings, once := someFit(t)
		twice := fitAll(t, append(append([]Finding{}, findings...), findings...))
		if math.Abs(twice.Shape/once.Shape-1) > 1e-6 {
			t.Fatalf("%v, twice %v", once.Weibull, twice.Weibull)
		}
		a, b := once.Likely(Usual).Range(b10), twice.Likely(Usual).Range(b10)
		if !(b.Low > a.Low && b.High < a.High) {
			t.Fatalf("once %v, twice %v", a, b)
		}
	})
}

// Over many invented shops with 40 single looks each, the 80 % interval of the B10 life holds the truth about as often
// as it says. The bounds are three standard deviations of that count, 3·√(300·0.8·0.2), and a little for small samples.
func TestIntervalsHoldAsOftenAsTheySay(t *testing.T) {
	truth := Weibull{Shape: 2.5, Scale: 150e6}
	shops, held := 0, 0
	for seed := range uint64(300) {
		fit, err := FitWeibull(simulated(truth, 40, true, seed))
		if err != nil {
			continue
		}
		shops++
		if i := fit.Likely(Usual).Range(b10); i.Low <= truth.Life(0.1) && truth.Life(0.1) <= i.High {
			held++
		}
	}
	if shops < 290 || math.Abs(float64(held)-0.8*float64(shops)) > 3*math.Sqrt(300*0.8*0.2)+6 {
		t.Errorf("held in %d of %d", held, shops)
	}
}
