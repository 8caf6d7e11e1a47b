package pricing

import (
	"strings"

	"github.com/govalues/decimal"
)

// Percent is an exact percentage that is not negative, such as 17.5 %. The zero Percent is 0 %.
type Percent struct{ points decimal.Decimal }

// ParsePercent reads a number and a percent sign, such as "20 %" or "2.5%". A refusal is an *Error.
func ParsePercent(text string) (Percent, error) {
	number, found := strings.CutSuffix(strings.TrimSpace(text), "%")
	if !found {
		return Percent{}, &Error{Text: text, Reason: "has no percent sign", Example: "20 %"}
	}
	points, reason := parseNumber(strings.TrimSpace(number))
	if reason == "" && points.Sign() < 0 {
		reason = "is negative"
	}
	if reason != "" {
		return Percent{}, &Error{Text: text, Reason: reason, Example: "17.5 %"}
	}
	return Percent{points.Trim(0)}, nil // without trailing noughts, so that == compares
}

// Points is the bare number: 17.5 for 17.5 %.
func (p Percent) Points() decimal.Decimal { return p.points }

// IsZero reports whether it is 0 %.
func (p Percent) IsZero() bool { return p.points.IsZero() }

// String is what ParsePercent reads.
func (p Percent) String() string { return p.points.String() + " %" }

// MarshalText writes what ParsePercent reads.
func (p Percent) MarshalText() ([]byte, error) { return []byte(p.String()), nil }

// UnmarshalText reads as ParsePercent does.
func (p *Percent) UnmarshalText(text []byte) (err error) {
	*p, err = ParsePercent(string(text))
	return err
}
