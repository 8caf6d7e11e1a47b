package pricing

import (
	"fmt"
	"math/big"

	"github.com/govalues/decimal"
)

// Rounding says what becomes of what is finer than the last digit kept.
//
//	                       0.125   0.135   -0.125   0.129
//	half away from zero     0.13    0.14    -0.13    0.13
//	half even               0.12    0.14    -0.12    0.13
//	half up                 0.13    0.14    -0.12    0.13
//	down                    0.12    0.13    -0.12    0.12
type Rounding uint8

const (
	// HalfAwayFromZero takes a half to the larger magnitude, so that a credit mirrors its invoice: 365.125 becomes
	// 365.13 and -365.125 becomes -365.13. It is the default and what HMRC's VATREC12030 asks for (half a penny or more
	// is rounded up).
	HalfAwayFromZero Rounding = iota
	// HalfEven takes a half to the even digit, so that halves do not drift upwards over many sums: 365.125 becomes
	// 365.12, 365.135 becomes 365.14.
	HalfEven
	// HalfUp takes a half towards plus infinity, as the round function of XPath does: 365.125 becomes 365.13, but
	// -365.125 becomes -365.12.
	HalfUp
	// Down drops what is finer, towards zero: 140.976 becomes 140.97. HMRC lets traders who invoice round the
	// tax of an invoice down to a whole penny (VATREC12010), but not retailers.
	Down
)

var roundingNames = [...]string{"half away from zero", "half even", "half up", "down"}

// String is the mode's name in words.
func (r Rounding) String() string {
	if int(r) < len(roundingNames) {
		return roundingNames[r]
	}
	return fmt.Sprintf("Rounding(%d)", uint8(r))
}

// Round keeps so many decimals of d. It fails only where the result has more than 18 digits.
func (r Rounding) Round(d decimal.Decimal, decimals int) (decimal.Decimal, error) {
	return r.product(decimals, d)
}

// product multiplies exactly and rounds once. Decimals carry 19 digits at most, so the product is formed in big
// integers: a product rounded to 19 digits first could be pushed onto a half and then rounded the wrong way.
func (r Rounding) product(decimals int, factors ...decimal.Decimal) (decimal.Decimal, error) {
	coefficient, scale := big.NewInt(1), 0
	for _, f := range factors {
		coefficient.Mul(coefficient, new(big.Int).SetUint64(f.Coef()))
		if f.Sign() < 0 {
			coefficient.Neg(coefficient)
		}
		scale += f.Scale()
	}
	kept := r.drop(coefficient, scale-decimals)
	if !kept.IsInt64() {
		return decimal.Decimal{}, errTooLarge
	}
	return decimal.New(kept.Int64(), decimals)
}

// drop takes so many last digits off n; a negative count appends noughts.
func (r Rounding) drop(n *big.Int, digits int) *big.Int {
	if digits <= 0 {
		return n.Mul(n, powerOfTen(-digits))
	}
	unit := powerOfTen(digits)
	kept, rest := new(big.Int).QuoRem(n, unit, new(big.Int)) // towards zero
	if r.awayFromZero(n.Sign(), kept, rest.Abs(rest).Lsh(rest, 1).Cmp(unit)) {
		kept.Add(kept, big.NewInt(int64(n.Sign())))
	}
	return kept
}

// awayFromZero decides for a number of this sign whose digits kept are kept, where half says whether what is dropped
// is less than, exactly or more than a half.
func (r Rounding) awayFromZero(sign int, kept *big.Int, half int) bool {
	if r == Down || half != 0 {
		return r != Down && half > 0
	}
	switch r {
	case HalfAwayFromZero:
		return true
	case HalfEven:
		return kept.Bit(0) == 1
	case HalfUp:
		return sign > 0
	}
	panic(fmt.Sprintf("pricing: unknown %s", r))
}

func powerOfTen(n int) *big.Int {
	return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil)
}
