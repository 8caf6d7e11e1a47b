package quantity

import (
	"errors"
	"fmt"
	"strings"

	"layshaft/spelling"
)

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
	written := tidy(unitText)
	weighed := weights.Replace(written)
	if weighed == written {
		return ""
	}
	if u, err := unitNamed(weighed, d); err != nil || !d.takes(u) {
		return ""
	}
	return weighed
}

var weights = strings.NewReplacer("kgf", "kgf", "lbf", "lbf", "kg", "kgf", "lb", "lbf")

// either joins words for a sentence: "N, kN or lbf".
func either(words []string) string {
	last := len(words) - 1
	if last == 0 {
		return words[0]
	}
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// nearestUnit suggests what an unknown symbol may have been meant for: first among the units shown for the
// dimension, then among all of them.
func nearestUnit(text string, symbol unknownUnit, d Dimension) string {
	if near := spelling.Nearest(tidy(text), dimensions[d].units); near != "" {
		return near
	}
	for _, definition := range definitions {
		for _, known := range strings.Fields(definition.symbols) {
			if strings.EqualFold(known, string(symbol)) {
				return strings.Replace(tidy(text), string(symbol), known, 1)
			}
		}
	}
	return ""
}
