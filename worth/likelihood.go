package worth

import "math"

// likelihood is how well a Weibull life explains findings. In the terms slope and level, with
//
//	ln H(t) = slope·ln(t/unit) + level,   slope = β,   level = −β·ln(η/unit),
//
// its logarithm is concave for exact lives and every kind of censoring, so there is one peak and no other (J. Burridge,
// J. Roy. Stat. Soc. B 43 (1981), 41–45, from memory). unit is the geometric middle of all distances, so that nothing
// depends on kilometres or miles.
type likelihood struct {
	unit  float64
	marks []mark
}

// mark is a finding in logarithms of distance: -Inf for After = 0, +Inf for By = +Inf.
type mark struct {
	after, by float64
	exact     bool
}

func newLikelihood(findings []Finding) likelihood {
	sum, count := 0.0, 0.0
	for _, f := range findings {
		for _, t := range []float64{f.After, f.By} {
			if t > 0 && !math.IsInf(t, 1) {
				sum, count = sum+math.Log(t), count+1
			}
		}
	}
	middle := sum / count
	l := likelihood{unit: math.Exp(middle)}
	for _, f := range findings {
		l.marks = append(l.marks, mark{math.Log(f.After) - middle, math.Log(f.By) - middle, f.exact()})
	}
	return l
}

// line is the pair of terms that the likelihood is reckoned in.
type line struct{ slope, level float64 }

func (l likelihood) weibull(at line) Weibull {
	return Weibull{Shape: at.slope, Scale: l.unit * math.Exp(-at.level/at.slope)}
}

// hazardAt is the cumulative hazard at a logarithm of distance.
func (a line) hazardAt(log float64) float64 {
	switch {
	case math.IsInf(log, -1):
		return 0
	case math.IsInf(log, 1):
		return math.Inf(1)
	}
	return math.Exp(a.slope*log + a.level)
}

// log is the logarithm of the likelihood, in the unit distance; -Inf where it is none.
//
//	exact      ln β + ln H − H − ln t
//	censored   ln(exp(−H₁) − exp(−H₂)),  H₁ = 0 where worn at the first look, H₂ = ∞ where still sound
func (l likelihood) log(at line) float64 {
	if at.slope <= 0 {
		return math.Inf(-1)
	}
	sum := 0.0
	for _, m := range l.marks {
		h1, h2 := at.hazardAt(m.after), at.hazardAt(m.by)
		if math.IsInf(h2, 1) {
			sum -= h1
			continue
		}
		if m.exact {
			sum += math.Log(at.slope) + at.slope*m.by + at.level - h2 - m.by
			continue
		}
		sum += -h1 + math.Log(-math.Expm1(h1-h2))
	}
	if math.IsNaN(sum) {
		return math.Inf(-1)
	}
	return sum
}

// matrix is symmetric, two by two.
type matrix struct{ ss, sl, ll float64 }

// add adds k·(s, l)·(s, l)ᵀ.
func (m *matrix) add(k, s, l float64) {
	m.ss, m.sl, m.ll = m.ss+k*s*s, m.sl+k*s*l, m.ll+k*l*l
}

func (m matrix) determinant() float64 { return m.ss*m.ll - m.sl*m.sl }

// slopes are the logarithm's first derivatives and the information, the second ones with the other sign.
func (l likelihood) slopes(at line) (first line, information matrix) {
	for _, m := range l.marks {
		h1, h2 := at.hazardAt(m.after), at.hazardAt(m.by)
		x1, x2 := finite(m.after), finite(m.by)
		if m.exact {
			first.slope += 1/at.slope + (1-h2)*x2
			first.level += 1 - h2
			information.add(h2, x2, 1)
			information.ss += 1 / (at.slope * at.slope)
			continue
		}
		// r is the part of the rise in H₂ that the chance gains: 1/(exp(H₂−H₁) − 1), none where still sound.
		r := 1 / math.Expm1(h2-h1)
		if math.IsInf(m.by, 1) {
			h2 = 0
		}
		first.slope += r*h2*x2 - (1+r)*h1*x1
		first.level += r*h2 - (1+r)*h1
		information.add(r*(1+r), h2*x2-h1*x1, h2-h1)
		information.add(-r*h2, x2, 1)
		information.add((1+r)*h1, x1, 1)
	}
	return first, information
}

// finite is a logarithm, or 0 where it is none and its hazard takes no part.
func finite(log float64) float64 {
	if math.IsInf(log, 0) {
		return 0
	}
	return log
}
