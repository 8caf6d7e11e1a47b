package pricing

import (
	"fmt"
	"strings"

	iso "github.com/bojanz/currency"
)

// Currency is the three-letter code of ISO 4217, such as "GBP". The empty Currency is none at all.
//
// Codes and minor units are those of ISO 4217 list one as carried by github.com/bojanz/currency (2 for GBP,
// 0 for JPY, 3 for KWD). They are the accounting digits of the standard, not what a country's tills use in cash.
type Currency string

// ParseCurrency reads a code; it must be in capitals and in use.
func ParseCurrency(code string) (Currency, error) {
	if _, ok := iso.GetDigits(code); ok {
		return Currency(code), nil
	}
	reason := "is not a currency of ISO 4217"
	upper := strings.ToUpper(code)
	if _, ok := iso.GetDigits(upper); ok && code != upper {
		return "", &Error{Text: code, Reason: reason + " as written: codes are in capitals", Example: upper}
	}
	return "", &Error{Text: code, Reason: reason, Example: "GBP"}
}

// Digits is the number of decimals of the minor unit. It panics for a code that ParseCurrency would refuse.
func (c Currency) Digits() int {
	digits, ok := iso.GetDigits(string(c))
	if !ok {
		panic(fmt.Sprintf("pricing: currency %q is not in ISO 4217", string(c)))
	}
	return int(digits)
}

// UnmarshalText reads a code as ParseCurrency does.
func (c *Currency) UnmarshalText(text []byte) (err error) {
	*c, err = ParseCurrency(string(text))
	return err
}
