package quantity

import (
	"errors"
	"fmt"
	"math"
	"math/big"
	"strings"
	"unicode/utf8"

	"layshaft/uncertain"
)

// maxText is longer than any sensible quantity, and short enough that exact arithmetic stays quick.
const maxText = 80

// Parse reads a single figure with its unit, such as "5/8 in", "1 1/8 in", "380 bhp" or "0.33 cm3/m/MPa", and
// returns the float64 nearest to its exact value in SI units. Every refusal is an *Error.
func Parse(text string, d Dimension) (float64, error) {
	clean, err := cleaned(text)
	if err != nil {
		return 0, refuse(text, d, err)
	}
	if _, _, mark := cutRange(clean); mark != "" {
		return 0, refuse(text, d, errors.New("is a range, and a single figure is wanted"))
	}
	r, err := readingOf(clean, d)
	if err != nil {
		return 0, refuse(text, d, err)
	}
	si, err := r.si()
	if err != nil {
		return 0, refuse(text, d, err)
	}
	return si, nil
}

// ParseValue reads what Parse reads, and also what is only roughly known: "a .. b unit" lies evenly between two
// bounds, "m +- u unit" (or "m ± u unit") scatters normally with standard deviation u. Each figure may have a
// unit of its own; one unit at the end serves both. Every refusal is an *Error.
func ParseValue(text string, d Dimension) (uncertain.Value, error) {
	clean, err := cleaned(text)
	if err != nil {
		return uncertain.Value{}, refuse(text, d, err)
	}
	v, err := valueOf(clean, d)
	if err != nil {
		return uncertain.Value{}, refuse(text, d, err)
	}
	return v, nil
}

func valueOf(clean string, d Dimension) (uncertain.Value, error) {
	left, right, mark := cutRange(clean)
	if mark == "" {
		r, err := readingOf(clean, d)
		if err != nil {
			return uncertain.Value{}, err
		}
		si, err := r.si()
		return uncertain.Exact(si), err
	}
	first, second, err := pair(left, right, mark, d)
	if err != nil {
		return uncertain.Value{}, err
	}
	if mark == spread {
		return normal(first, second)
	}
	return uniform(first, second)
}

func uniform(first, second reading) (uncertain.Value, error) {
	lo, err := first.si()
	if err != nil {
		return uncertain.Value{}, err
	}
	hi, err := second.si()
	if err != nil {
		return uncertain.Value{}, err
	}
	if lo > hi {
		return uncertain.Value{}, errors.New("has its bounds the wrong way round: the lower one comes first")
	}
	return uncertain.Uniform(lo, hi), nil
}

func normal(first, second reading) (uncertain.Value, error) {
	mean, err := first.si()
	if err != nil {
		return uncertain.Value{}, err
	}
	if second.figure.Sign() < 0 {
		return uncertain.Value{}, errors.New("has a negative standard deviation after +-")
	}
	second.unit.zero = nil // a spread of 2 degC is 2 K
	sd, err := second.si()
	if err != nil {
		return uncertain.Value{}, err
	}
	return uncertain.Normal(mean, sd), nil
}

// The marks between two figures.
const (
	between = ".."
	spread  = "+-"
)

// cutRange parts a text at its first range mark; mark is "" where there is none.
func cutRange(clean string) (left, right, mark string) {
	at := -1
	for _, m := range []string{between, spread} {
		if i := strings.Index(clean, m); i >= 0 && (at < 0 || i < at) {
			at, mark = i, m
		}
	}
	if at < 0 {
		return "", "", ""
	}
	return clean[:at], clean[at+len(mark):], mark
}

// pair reads the two figures of a range, of which the first may borrow the unit of the second.
func pair(left, right, mark string, d Dimension) (first, second reading, err error) {
	if _, _, again := cutRange(right); again != "" {
		return first, second, errors.New("has more than one range mark")
	}
	if strings.TrimSpace(left) == "" || strings.TrimSpace(right) == "" {
		return first, second, fmt.Errorf("has no figure on one side of %s", mark)
	}
	lone, firstUnit, err := figure(left)
	if err != nil {
		return first, second, err
	}
	if _, secondUnit, err := figure(right); err == nil && secondUnit == "" && firstUnit != "" {
		return first, second, errors.New("has no unit after its second figure")
	}
	if second, err = readingOf(right, d); err != nil {
		return first, second, err
	}
	if firstUnit == "" {
		return reading{lone, second.unit}, second, nil
	}
	first, err = readingOf(left, d)
	return first, second, err
}

// reading is a figure and its unit.
type reading struct {
	figure *big.Rat
	unit   unit
}

// readingOf reads a single figure with a unit of dimension d.
func readingOf(text string, d Dimension) (reading, error) {
	number, unitText, err := figure(text)
	if err != nil {
		return reading{}, err
	}
	if unitText == "" {
		if d != Number {
			return reading{}, errors.New("has no unit")
		}
		return reading{number, mustUnit("")}, nil
	}
	u, err := unitNamed(unitText, d)
	if err != nil {
		return reading{}, explain(unitText, d, err)
	}
	if !d.takes(u) {
		return reading{}, wrongDimension(unitText, u, d)
	}
	return reading{number, u}, nil
}

// si is the float64 nearest to the reading's value in SI units.
func (r reading) si() (float64, error) {
	exact := r.unit.toSI(r.figure)
	si, _ := exact.Float64()
	switch {
	case math.IsInf(si, 0):
		return 0, errors.New("is too large a figure")
	case si == 0 && exact.Sign() != 0:
		return 0, errors.New("is too small a figure")
	case r.unit.powers == powers{kelvin: 1} && exact.Sign() < 0 && r.unit.zero != nil:
		return 0, errors.New("is below absolute zero")
	}
	return si, nil
}

// cleaned brings a text to plain spaces and signs, and refuses what is no text for a quantity at all.
func cleaned(text string) (string, error) {
	switch {
	case !utf8.ValidString(text):
		return "", errors.New("is not valid UTF-8 text")
	case utf8.RuneCountInString(text) > maxText:
		return "", fmt.Errorf("is longer than %d characters", maxText)
	}
	clean := strings.TrimSpace(marks.Replace(text))
	if clean == "" {
		return "", errors.New("is empty")
	}
	if strings.ContainsFunc(clean, func(r rune) bool { return r < ' ' || r == 0x7f }) {
		return "", errors.New("has a control character in it")
	}
	return clean, nil
}

func refuse(text string, d Dimension, reason error) *Error {
	return &Error{Text: text, Reason: reason.Error(), Example: d.Example()}
}

// explain adds to an error about the unit what would be accepted.
func explain(unitText string, d Dimension, err error) error {
	var unknown unknownUnit
	if !errors.As(err, &unknown) {
		return err
	}
	if near := nearestUnit(unitText, unknown, d); near != "" {
		return fmt.Errorf("%w (did you mean %s?)", err, near)
	}
	return fmt.Errorf("%w; %s is given in %s", err, d.noun(), either(dimensions[d].units))
}

// wrongDimension says what the unit measures, and what was wanted.
func wrongDimension(unitText string, u unit, d Dimension) error {
	is := "has a unit that measures nothing known here"
	if other, ok := measured(u); ok {
		is = "is " + other.noun()
	}
	if weight := asForce(unitText, d); weight != "" {
		return fmt.Errorf("%s, and %s is wanted (did you mean %s?)", is, d.noun(), weight)
	}
	return fmt.Errorf("%s, and %s is wanted, given in %s", is, d.noun(), either(dimensions[d].units))
}

// asForce returns the unit with kilograms and pounds taken as weights, where that gives the dimension wanted.
func asForce(unitText string, d Dimension) string {
	weighed := strings.NewReplacer("kg", "kgf", "lb", "lbf").Replace(strings.NewReplacer("kgf", "kg", "lbf", "lb").Replace(tidy(unitText)))
	if weighed == tidy(unitText) {
		return ""
	}
	if u, err := unitNamed(weighed, d); err != nil || !d.takes(u) {
		return ""
	}
	return weighed
}

// either joins words for a sentence: "N, kN or lbf".
func either(words []string) string {
	last := len(words) - 1
	if last == 0 {
		return words[0]
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
