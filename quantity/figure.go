package quantity

import (
	"errors"
	"math/big"
	"strings"
	"unicode"
	"unicode/utf8"
)

var marks = strings.NewReplacer(
	"\u00a0", " ", "\u202f", " ", "\u2009", " ", "\u2007", " ", "\u2008", " ", "\t", " ", // spaces that do not break, thin spaces
	"\u2212", "-", // minus sign
	"\u03bc", "µ", // Greek mu for the micro sign
	"\u2044", "/", // fraction slash
	"\u2033", `"`, "\u201d", `"`, // double prime and closing quotation mark for inches
	"\u2103", "°C", "\u2109", "°F", "\u212a", "K", "º", "°",
	"\u2026", "..", "...", "..",
	"±", "+-", "+/-", "+-",
)

// vulgar are the fractions that have a character of their own.
var vulgar = map[rune]*big.Rat{
	'½': big.NewRat(1, 2), '¼': big.NewRat(1, 4), '¾': big.NewRat(3, 4), '⅛': big.NewRat(1, 8),
	'⅜': big.NewRat(3, 8), '⅝': big.NewRat(5, 8), '⅞': big.NewRat(7, 8), '⅓': big.NewRat(1, 3), '⅔': big.NewRat(2, 3),
}

// figure reads the number that text begins with, exactly, and returns what follows it: the unit.
func figure(text string) (*big.Rat, string, error) {
	text = strings.TrimSpace(text)
	rest, negative := cutSign(text)
	if err := notAFigure(rest); err != nil {
		return nil, "", err
	}
	number, rest, err := unsigned(rest)
	if err != nil {
		return nil, "", err
	}
	if err := afterFigure(rest); err != nil {
		return nil, "", err
	}
	if negative {
		number.Neg(number)
	}
	return number, strings.TrimSpace(rest), nil
}

func cutSign(text string) (rest string, negative bool) {
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		return strings.TrimLeft(rest, " "), true
	}
	return strings.TrimPrefix(text, "+"), false
}

// notAFigure names the things that some programs take for numbers and this one does not.
func notAFigure(text string) error {
	lower := strings.ToLower(text)
	switch {
	case text == "":
		return errors.New("has no figure")
	case strings.HasPrefix(lower, "0x") || strings.HasPrefix(lower, "0o") || strings.HasPrefix(lower, "0b"):
		return errors.New("is not a decimal figure")
	case strings.HasPrefix(strings.TrimPrefix(lower, "."), "nan"), strings.HasPrefix(strings.TrimPrefix(lower, "."), "inf"),
		strings.HasPrefix(text, "∞"):
		return errors.New("is not a figure that can be measured")
	case text[0] == ',':
		return errComma
	}
	return nil
}

var errComma = errors.New("has a comma in its figure: write a point before decimals, and thousands without a mark")

// unsigned reads a decimal, a fraction or a whole number with a fraction: "19.05", "1e-3", "5/8", "1 1/8", "1⅛".
func unsigned(text string) (*big.Rat, string, error) {
	if first, size := utf8.DecodeRuneInString(text); vulgar[first] != nil {
		return new(big.Rat).Set(vulgar[first]), text[size:], nil
	}
	digits, rest := decimal(text)
	if digits == "" {
		return nil, "", errors.New("has no figure")
	}
	number, ok := new(big.Rat).SetString(digits)
	if !ok {
		return nil, "", errors.New("has no readable figure")
	}
	if !number.IsInt() || strings.ContainsAny(digits, ".eE") {
		return number, rest, nil
	}
	if over, ok := strings.CutPrefix(rest, "/"); ok && startsWithDigit(over) {
		return fraction(number, over)
	}
	return mixed(number, rest)
}

// mixed adds the fraction that may follow a whole number.
func mixed(whole *big.Rat, rest string) (*big.Rat, string, error) {
	after := strings.TrimLeft(rest, " ")
	if first, size := utf8.DecodeRuneInString(after); vulgar[first] != nil {
		return whole.Add(whole, vulgar[first]), after[size:], nil
	}
	upper, below := leadingDigits(after)
	over, isFraction := strings.CutPrefix(below, "/")
	if len(after) == len(rest) || upper == "" || !isFraction || !startsWithDigit(over) {
		return whole, rest, nil
	}
	part, _ := new(big.Rat).SetString(upper)
	part, rest, err := fraction(part, over)
	if err != nil {
		return nil, "", err
	}
	if part.Cmp(big.NewRat(1, 1)) >= 0 {
		return nil, "", errors.New("has a fraction that is not less than one after the whole number")
	}
	return whole.Add(whole, part), rest, nil
}

// fraction divides upper by the whole number that text begins with.
func fraction(upper *big.Rat, text string) (*big.Rat, string, error) {
	digits, rest := leadingDigits(text)
	lower, _ := new(big.Rat).SetString(digits)
	if lower.Sign() == 0 {
		return nil, "", errors.New("has a fraction over zero")
	}
	if strings.HasPrefix(rest, ".") {
		return nil, "", errors.New("has a fraction with decimals")
	}
	return upper.Quo(upper, lower), rest, nil
}

// decimal parts the digits, the decimals and the power of ten from the front of text.
func decimal(text string) (digits, rest string) {
	whole, rest := leadingDigits(text)
	digits = whole
	if after, ok := strings.CutPrefix(rest, "."); ok && startsWithDigit(after) {
		decimals, left := leadingDigits(after)
		digits, rest = whole+"."+decimals, left
	}
	if digits == "" || rest == "" || (rest[0] != 'e' && rest[0] != 'E') {
		return digits, rest
	}
	power, sign := rest[1:], ""
	if power != "" && (power[0] == '-' || power[0] == '+') {
		power, sign = power[1:], power[:1]
	}
	// Three digits are beyond every float64 already; more would only cost time.
	if exponent, left := leadingDigits(power); exponent != "" && len(exponent) <= 3 {
		return digits + "e" + sign + exponent, left
	}
	return digits, rest
}

// afterFigure refuses the marks that show a number was meant to go on.
func afterFigure(rest string) error {
	trimmed := strings.TrimLeft(rest, " ")
	switch {
	case rest == "":
		return nil
	case trimmed != "" && trimmed[0] == ',':
		return errComma
	case (rest[0] == '\'' || rest[0] == '_' || strings.HasPrefix(rest, "’")) && startsWithDigit(strings.TrimLeft(rest, "'_’")):
		return errors.New("has a mark between its digits: write thousands without a mark")
	case rest[0] == '.':
		return errors.New("has a point that no decimals follow")
	case len(trimmed) < len(rest) && startsWithDigit(trimmed) && !strings.HasPrefix(trimmed, "1/"):
		return errors.New("has two figures: write thousands without a space, and a range as a .. b")
	case (rest[0] == '-' || strings.HasPrefix(rest, "–")) && startsWithDigit(strings.TrimLeft(rest, "-–")):
		return errors.New("has two figures: write a range as a .. b")
	case unicode.IsDigit([]rune(rest)[0]):
		return errors.New("has digits that are not plain 0 to 9")
	}
	return nil
}

func leadingDigits(text string) (digits, rest string) {
	end := 0
	for end < len(text) && text[end] >= '0' && text[end] <= '9' {
		end++
	}
	return text[:end], text[end:]
}

func startsWithDigit(text string) bool { return text != "" && text[0] >= '0' && text[0] <= '9' }
