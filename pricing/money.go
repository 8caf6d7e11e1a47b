// Package pricing reckons what work costs: exact decimal money in one ISO 4217 currency, labour, consumables and
// parts as lines, tax by category, and what an option adds. It follows the totals of EN 16931 (rules BR-CO-10 to
// BR-CO-17), so that an estimate and a later electronic invoice agree to the last penny.
//
// Products are formed exactly and rounded once; binary floating point touches no amount. Hours and quantities arrive as
// float64 and are taken as the shortest decimal that names them: 7.4 is 7.4, not 7.4000000000000003553.
package pricing

import (
	"errors"
	"fmt"

	"github.com/govalues/decimal"
)

// Money is an exact amount in one currency, always held to that currency's minor unit, so that == compares. The zero
// Money has no currency and takes part in no arithmetic; Zero gives nought of a currency.
type Money struct {
	amount   decimal.Decimal
	currency Currency
}

// Zero is nought of a currency.
func Zero(c Currency) Money {
	return Money{decimal.MustNew(0, c.Digits()), c}
}

// NewMoney makes money of a decimal amount that must not be finer than the currency's minor unit.
func NewMoney(amount decimal.Decimal, c Currency) (Money, error) {
	digits := c.Digits()
	if amount.MinScale() > digits {
		return Money{}, fmt.Errorf("%s is finer than the minor unit of %s, which has %d decimals", amount, c, digits)
	}
	exact, err := HalfAwayFromZero.product(digits, amount)
	if err != nil {
		return Money{}, err
	}
	return Money{exact, c}, nil
}

// Currency is the currency of the amount, empty for the zero Money.
func (m Money) Currency() Currency { return m.currency }

// Decimal is the bare amount.
func (m Money) Decimal() decimal.Decimal { return m.amount }

// Amount is the bare amount as text with all its decimals, such as "1120.00".
func (m Money) Amount() string { return m.amount.String() }

// String is the amount and its currency, such as "1120.00 GBP": what ParseMoney reads.
func (m Money) String() string {
	if m.currency == "" {
		return "no money"
	}
	return m.Amount() + " " + string(m.currency)
}

// Sign is -1, 0 or 1.
func (m Money) Sign() int { return m.amount.Sign() }

// Neg is the amount with the other sign.
func (m Money) Neg() Money { return Money{m.amount.Neg(), m.currency} }

// Add is m + o; both must be in one currency.
func (m Money) Add(o Money) (Money, error) {
	if err := sameCurrency(m, o); err != nil {
		return Money{}, err
	}
	sum, err := m.amount.AddExact(o.amount, m.currency.Digits())
	if err != nil {
		return Money{}, errTooLarge
	}
	return Money{sum, m.currency}, nil
}

// Sub is m - o; both must be in one currency.
func (m Money) Sub(o Money) (Money, error) { return m.Add(o.Neg()) }

// Cmp is -1, 0 or 1 as m is less than, equal to or more than o; both must be in one currency.
func (m Money) Cmp(o Money) (int, error) {
	if err := sameCurrency(m, o); err != nil {
		return 0, err
	}
	return m.amount.Cmp(o.amount), nil
}

// Mul is m times a bare factor, rounded to the minor unit.
func (m Money) Mul(factor decimal.Decimal, r Rounding) (Money, error) {
	return m.times(r, factor)
}

// Percent is so many hundredths of m, rounded to the minor unit.
func (m Money) Percent(p Percent, r Rounding) (Money, error) {
	return m.times(r, p.points, hundredth)
}

var hundredth = decimal.MustNew(1, 2)

func (m Money) times(r Rounding, factors ...decimal.Decimal) (Money, error) {
	if m.currency == "" {
		return Money{}, errNoCurrency
	}
	product, err := r.product(m.currency.Digits(), append(factors, m.amount)...)
	if err != nil {
		return Money{}, err
	}
	return Money{product, m.currency}, nil
}

var (
	errNoCurrency = errors.New("an amount has no currency")
	errTooLarge   = errors.New("the amount is too large: it has more than 18 digits")
)

func sameCurrency(a, b Money) error {
	switch {
	case a.currency == "" || b.currency == "":
		return errNoCurrency
	case a.currency != b.currency:
		return fmt.Errorf("%s and %s are in different currencies; state both in one", a, b)
	}
	return nil
}
