package quantity

import (
	"errors"
	"fmt"
	"math/big"
	"strings"
	"unicode"
)

// powers are the exponents of the base units in a unit.
type powers [5]int8

const (
	metre = iota
	kilogram
	second
	kelvin
	radian
)

// unit is one unit or a product of several.
type unit struct {
	powers  powers
	factor  *big.Rat // how many SI units make one of these
	zero    *big.Rat // the SI figure at zero, for a scale that does not begin at zero; else nil
	percent bool
	work    bool // a unit of work or power, or made of one
}

// alone reports whether the unit cannot be part of a product.
func (u unit) alone() bool { return u.zero != nil || u.percent }

// toSI converts a figure in the unit exactly.
func (u unit) toSI(figure *big.Rat) *big.Rat {
	si := new(big.Rat).Mul(figure, u.factor)
	if u.zero != nil {
		si.Add(si, u.zero)
	}
	return si
}

// fromSI is the inverse of toSI.
func (u unit) fromSI(si *big.Rat) *big.Rat {
	figure := new(big.Rat).Set(si)
	if u.zero != nil {
		figure.Sub(figure, u.zero)
	}
	return figure.Quo(figure, u.factor)
}

// unknownUnit is the error for a symbol that is in no table.
type unknownUnit string

func (word unknownUnit) Error() string { return fmt.Sprintf("has the unknown unit %s", string(word)) }

// unitNamed finds the unit that text means where dimension d is wanted.
func unitNamed(text string, d Dimension) (unit, error) {
	text = tidy(text)
	if trade, ok := spellings[text]; ok && trade.only == d {
		text = trade.meaning
	}
	return product(text, atoms)
}

// mustUnit finds a unit that the program itself names, so an unknown one is the programmer's error.
func mustUnit(text string) unit {
	if text == "" {
		return unit{factor: big.NewRat(1, 1)}
	}
	tidied := tidy(text)
	if trade, ok := spellings[tidied]; ok {
		tidied = trade.meaning
	}
	u, err := product(tidied, atoms)
	if err != nil {
		panic(fmt.Sprintf("quantity: unit %q: %v", text, err))
	}
	return u
}

var unitMarks = strings.NewReplacer(
	"·", " ", "⋅", " ", "•", " ", "∙", " ", "×", " ", "*", " ",
	"^", "", "⁻", "-", "¹", "1", "²", "2", "³", "3", "⁴", "4",
)

// tidy brings a unit into one spelling: factors parted by one space, "/" without spaces, plain exponents.
func tidy(text string) string {
	letters := []rune(unitMarks.Replace(text))
	for i, r := range letters {
		if r == '-' && i+1 < len(letters) && unicode.IsLetter(letters[i+1]) {
			letters[i] = ' ' // lbf-ft
		}
	}
	parts := strings.Split(string(letters), "/")
	for i := range parts {
		parts[i] = strings.Join(strings.Fields(parts[i]), " ")
	}
	if len(parts) > 1 && parts[0] == "" {
		parts[0] = "1" // 3000/min
	}
	return strings.Join(parts, "/")
}

// maxFactors is far more than any unit of the trade has (cm3/m/MPa has three).
const maxFactors = 6

// product multiplies out a tidied unit such as "kg m2" or "cm3/m/MPa".
func product(text string, known map[string]unit) (unit, error) {
	if u, ok := known[text]; ok {
		return unit{u.powers, new(big.Rat).Set(u.factor), u.zero, u.percent, u.work}, nil
	}
	above, below, _ := strings.Cut(text, "/")
	upper := strings.Fields(above)
	var lower []string
	if below != "" {
		lower = strings.Split(below, "/")
	} else if strings.HasSuffix(text, "/") {
		return unit{}, errors.New("has a unit that ends in /")
	}
	if len(upper)+len(lower) > maxFactors {
		return unit{}, errors.New("has too long a unit")
	}
	total := unit{factor: big.NewRat(1, 1)}
	for i, factor := range upper {
		if factor == "1" && i == 0 && len(upper) == 1 {
			continue
		}
		if err := total.multiply(factor, 1, known); err != nil {
			return unit{}, err
		}
	}
	for _, factor := range lower {
		if strings.Contains(factor, " ") {
			return unit{}, fmt.Errorf("has an ambiguous unit: after / comes one unit only, so write /%s",
				strings.ReplaceAll(factor, " ", "/"))
		}
		if err := total.multiply(factor, -1, known); err != nil {
			return unit{}, err
		}
	}
	return total, nil
}

// multiply takes one more factor, such as "mm2", into the unit; direction is 1, or -1 to divide.
func (u *unit) multiply(factor string, direction int, known map[string]unit) error {
	symbol, exponent, err := splitFactor(factor)
	if err != nil {
		return err
	}
	single, ok := known[symbol]
	switch {
	case !ok:
		return unknownUnit(symbol)
	case single.alone():
		return fmt.Errorf("has %s inside a larger unit, where it has no clear meaning", symbol)
	}
	exponent *= direction
	for i := range u.powers {
		u.powers[i] += int8(exponent) * single.powers[i]
	}
	for range max(exponent, -exponent) {
		if exponent > 0 {
			u.factor.Mul(u.factor, single.factor)
		} else {
			u.factor.Quo(u.factor, single.factor)
		}
	}
	u.work = u.work || single.work
	return nil
}

// splitFactor parts "mm2" into the symbol and its exponent, 1 to 4 either way.
func splitFactor(factor string) (symbol string, exponent int, err error) {
	symbol = strings.TrimRight(factor, "-0123456789")
	switch digits := factor[len(symbol):]; digits {
	case "":
		return symbol, 1, nil
	case "1", "2", "3", "4":
		return symbol, int(digits[0] - '0'), nil
	case "-1", "-2", "-3", "-4":
		return symbol, -int(digits[1] - '0'), nil
	}
	if symbol == "" {
		return "", 0, fmt.Errorf("has the figure %s where a unit should stand", factor)
	}
	return "", 0, fmt.Errorf("has the unit %s with a power that makes no sense", factor)
}
