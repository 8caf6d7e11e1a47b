package quantity

import (
	"errors"
	"fmt"
	"strings"

	"layshaft/uncertain"
)

// valueOf reads a single figure, or two with a range mark between them.
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
