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
	case r.unit.powers == powers{kelvin: 1} && exact.Sign() < 0:
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
