package picture

import (
	"math"
	"strconv"
	"strings"
)

// axis places values along one direction of a scene.
type axis struct {
	lo, hi, step float64 // values
	from, to     float64 // where lo and hi stand
}

// newAxis covers lo to hi with round numbers in at most most steps, from one place to another. It covers at least one
// millimetre, newton, per cent: nothing in these pictures is told finer than that.
func newAxis(lo, hi float64, most int, from, to float64) axis {
	if math.IsNaN(lo) || math.IsNaN(hi) {
		lo, hi = 0, 1
	}
	lo = math.Max(-farthest, math.Min(farthest, lo))
	hi = math.Max(lo+1, math.Min(farthest, hi))
	step := tickStep(hi-lo, most)
	return axis{math.Floor(lo/step+1e-9) * step, math.Ceil(hi/step-1e-9) * step, step, from, to}
}

// tickStep is the smallest of 1, 2 and 5 times a power of ten that divides a span into at most most steps.
func tickStep(span float64, most int) float64 {
	rough := span / float64(most)
	power := math.Pow(10, math.Floor(math.Log10(rough)))
	for _, m := range []float64{1, 2, 5} {
		if m*power >= rough*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// at is where a value stands.
func (a axis) at(v float64) float64 { return a.from + (v-a.lo)/(a.hi-a.lo)*(a.to-a.from) }

// held is where a value stands, or the nearer end where it lies outside.
func (a axis) held(v float64) float64 { return a.at(math.Max(a.lo, math.Min(a.hi, v))) }

// covers reports whether a value is a number between the ends.
func (a axis) covers(v float64) bool { return v >= a.lo && v <= a.hi }

func (a axis) ticks() []float64 {
	n := int(math.Round((a.hi - a.lo) / a.step))
	out := make([]float64, n+1)
	for i := range out {
		out[i] = a.lo + float64(i)*a.step
	}
	return out
}

// tickText prints a tick with as many decimals as its step needs.
func (a axis) tickText(v float64) string {
	return number(v, max(0, -int(math.Floor(math.Log10(a.step)+1e-9))))
}

// number prints a value with a thin gap between thousands, as "1 610"; a value that is no number is "not known".
func number(v float64, decimals int) string {
	if !drawable(v) {
		return "not known"
	}
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		s = strings.TrimPrefix(s, "-")
	}
	whole, rest, dotted := strings.Cut(s, ".")
	for i := len(whole) - 3; i > 0 && whole[i-1] != '-'; i -= 3 {
		whole = whole[:i] + " " + whole[i:]
	}
	if dotted {
		return whole + "." + rest
	}
	return whole
}

// plain prints a value for a script to read, to four figures.
func plain(v float64) string {
	if !drawable(v) {
		return ""
	}
	return strconv.FormatFloat(v, 'g', 4, 64)
}

// spread moves labels that want to stand at wanted as little as it takes to keep them gap apart, in the same order,
// between lo and hi.
func spread(wanted []float64, gap, lo, hi float64) []float64 {
	out := make([]float64, len(wanted))
	order := rising(wanted)
	last := lo - gap
	for _, i := range order {
		out[i] = math.Max(wanted[i], last+gap)
		last = out[i]
	}
	next := hi + gap
	for k := len(order) - 1; k >= 0; k-- {
		i := order[k]
		out[i] = math.Min(out[i], next-gap)
		next = out[i]
	}
	return out
}
