package pricing

import (
	"fmt"
	"regexp"
	"strings"

	"github.com/govalues/decimal"
)

// Error says what is wrong with a text that should be money, a rate or a percentage, and what would be right.
type Error struct {
	Text    string // what was written
	Reason  string // what is wrong with it, continuing a sentence that starts with the text
	Example string // what would be accepted
}

func (e *Error) Error() string {
	return fmt.Sprintf("%s; write for example %q", e.Sentence(), e.Example)
}

// Sentence is what is wrong, without the example.
func (e *Error) Sentence() string { return quoted(e.Text) + " " + e.Reason }

// quoted keeps a message readable when somebody pastes a page into a field.
func quoted(text string) string {
	const most = 40
	if runes := []rune(text); len(runes) > most {
		text = string(runes[:most]) + "…"
	}
	return fmt.Sprintf("%q", text)
}

const moneyExample = "1120.00 GBP"

// ParseMoney reads an amount and a currency with a space between them, such as "1120.00 GBP" or "-5 EUR". The amount is
// plain digits with a decimal point and has at most the decimals of the currency. A refusal is an *Error.
func ParseMoney(text string) (Money, error) {
	fault := func(reason, example string) (Money, error) {
		return Money{}, &Error{Text: text, Reason: reason, Example: example}
	}
	fields := strings.Fields(text)
	switch {
	case len(fields) == 0:
		return fault("is empty where money is wanted", moneyExample)
	case len(fields) == 1 && looksLikeNumber(fields[0]):
		return fault("has no currency", moneyExample)
	case len(fields) != 2:
		return fault("is not an amount, a space and a currency", moneyExample)
	case looksLikeNumber(fields[1]):
		return fault("has the currency before the amount", moneyExample)
	}
	currency, err := ParseCurrency(fields[1])
	if err != nil {
		why := err.(*Error)
		return fault(fmt.Sprintf("names %s, which %s", quoted(fields[1]), why.Reason), "1120.00 "+why.Example)
	}
	amount, reason := parseNumber(fields[0])
	if reason != "" {
		return fault(reason, "12.50 "+fields[1])
	}
	if digits := currency.Digits(); amount.Scale() > digits {
		return fault(fmt.Sprintf("has more decimals than %s, which has %d", currency, digits),
			amount.Trunc(digits).String()+" "+fields[1])
	}
	money, err := NewMoney(amount, currency)
	if err != nil {
		return fault("is too large", moneyExample)
	}
	return money, nil
}

// MarshalText writes what ParseMoney reads. The zero Money cannot be written: it has no currency.
func (m Money) MarshalText() ([]byte, error) {
	if m.currency == "" {
		return nil, errNoCurrency
	}
	return []byte(m.String()), nil
}

// UnmarshalText reads as ParseMoney does.
func (m *Money) UnmarshalText(text []byte) (err error) {
	*m, err = ParseMoney(string(text))
	return err
}

var plainNumber = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)

// parseNumber reads plain digits with a decimal point; where they are not, it says why.
func parseNumber(text string) (d decimal.Decimal, reason string) {
	switch {
	case strings.Contains(text, ",") && looksLikeNumber(text):
		return d, "has a comma: decimals are written after a point, thousands without a mark"
	case !plainNumber.MatchString(text):
		return d, fmt.Sprintf("has %s where a plain number is wanted", quoted(text))
	case digitCount(text) > decimal.MaxPrec:
		return d, fmt.Sprintf("has more than %d digits", decimal.MaxPrec)
	}
	d, err := decimal.Parse(text)
	if err != nil {
		return d, "is too large"
	}
	return d, ""
}

func digitCount(text string) int {
	return len(strings.NewReplacer("-", "", ".", "").Replace(text))
}

func looksLikeNumber(text string) bool {
	return text != "" && strings.Trim(text, "0123456789.,-+") == ""
}
