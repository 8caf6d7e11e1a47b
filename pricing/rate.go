package pricing

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/govalues/decimal"
)

// Rate is money per hour of labour.
type Rate struct{ perHour Money }

// NewRate is so much money per hour.
func NewRate(perHour Money) Rate { return Rate{perHour} }

// ParseRate reads money per hour, such as "78.00 GBP/h". A refusal is an *Error.
func ParseRate(text string) (Rate, error) {
	const example = "78.00 GBP/h"
	money, unit, found := strings.Cut(text, "/")
	if !found {
		return Rate{}, &Error{Text: text, Reason: "does not say per what", Example: example}
	}
	if unit = strings.TrimSpace(unit); unit != "h" {
		return Rate{}, &Error{Text: text, Reason: fmt.Sprintf("is per %q where a rate is per hour, h", unit), Example: example}
	}
	perHour, err := ParseMoney(money)
	if err != nil {
		why := err.(*Error)
		return Rate{}, &Error{Text: text, Reason: why.Reason, Example: example}
	}
	return Rate{perHour}, nil
}

// PerHour is the money for one hour.
func (r Rate) PerHour() Money { return r.perHour }

// String is what ParseRate reads.
func (r Rate) String() string { return r.perHour.String() + "/h" }

// MarshalText writes what ParseRate reads.
func (r Rate) MarshalText() ([]byte, error) {
	text, err := r.perHour.MarshalText()
	return append(text, "/h"...), err
}

// UnmarshalText reads as ParseRate does.
func (r *Rate) UnmarshalText(text []byte) (err error) {
	*r, err = ParseRate(string(text))
	return err
}

// exact is the shortest decimal that names the float: 7.4 rather than the binary fraction next to it. Digits beyond the
// nineteenth, which no clock or rule can give, are dropped.
func exact(v float64) (decimal.Decimal, error) {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return decimal.Decimal{}, fmt.Errorf("%v is not a number to reckon with", v)
	}
	d, err := decimal.Parse(strconv.FormatFloat(v, 'f', -1, 64))
	if err != nil {
		return decimal.Decimal{}, fmt.Errorf("%v is too large to reckon with", v)
	}
	return d, nil
}
