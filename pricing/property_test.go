package pricing

import (
	"math/big"
	"testing"

	"github.com/govalues/decimal"
	"pgregory.net/rapid"
)

var (
	roundings  = rapid.SampledFrom([]Rounding{HalfAwayFromZero, HalfEven, HalfUp, Down})
	currencies = rapid.SampledFrom([]Currency{"GBP", "JPY", "KWD"})
)

// decimals draws numbers with up to four decimals, many of them on a half of the second or third.
func decimals(least, most int64) *rapid.Generator[decimal.Decimal] {
	return rapid.Custom(func(t *rapid.T) decimal.Decimal {
		d := decimal.MustNew(rapid.Int64Range(least, most).Draw(t, "digits"), rapid.IntRange(0, 4).Draw(t, "scale"))
		if rapid.Bool().Draw(t, "half") {
			d, _ = d.Add(decimal.MustNew(5, rapid.IntRange(1, 4).Draw(t, "place")))
		}
		return d
	})
}

func drawMoney(t *rapid.T, c Currency) Money {
	return Money{decimal.MustNew(rapid.Int64Range(-1e9, 1e9).Draw(t, "minor units"), c.Digits()), c}
}

func drawPercent(t *rapid.T) Percent {
	return Percent{decimals(0, 9999).Draw(t, "percent").Trim(0)}
}

// The reference is a fraction: what is kept lies within half a unit (a whole one for Down) of the exact product, is
// the nearer of two neighbours, and on a half goes where the mode says.
func TestAProductIsRoundedOnceAsItsModeSays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := decimals(-1e12, 1e12).Draw(t, "a"), decimals(-1e4, 1e4).Draw(t, "b")
		mode, places := roundings.Draw(t, "mode"), rapid.IntRange(0, 3).Draw(t, "decimals")
		got, err := mode.product(places, a, b)
		if err != nil {
			t.Fatal(err)
		}
		exact := new(big.Rat).Mul(rational(t, a), rational(t, b))
		unit := new(big.Rat).SetFrac(big.NewInt(1), powerOfTen(places))
		off := new(big.Rat).Quo(new(big.Rat).Sub(rational(t, got), exact), unit) // rounding error in units
		half := big.NewRat(1, 2)
		distance := new(big.Rat).Abs(off).Cmp(half)
		grew := off.Sign()*exact.Sign() > 0
		switch {
		case mode == Down:
			if grew || new(big.Rat).Abs(off).Cmp(big.NewRat(1, 1)) >= 0 {
				t.Fatalf("%s · %s down is %s", a, b, got)
			}
		case distance > 0:
			t.Fatalf("%s · %s %s is %s, further than half a unit off", a, b, mode, got)
		case distance == 0:
			even := new(big.Int).SetUint64(got.Coef()).Bit(0) == 0
			if mode == HalfAwayFromZero && !grew || mode == HalfUp && off.Sign() < 0 || mode == HalfEven && !even {
				t.Fatalf("%s · %s %s is %s: the half went the wrong way", a, b, mode, got)
			}
		}
	})
}

func rational(t *rapid.T, d decimal.Decimal) *big.Rat {
	r, ok := new(big.Rat).SetString(d.String())
	if !ok {
		t.Fatalf("%s is no fraction", d)
	}
	return r
}

func TestTurningTheSignTurnsTheResult(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMoney(t, currencies.Draw(t, "currency"))
		p := drawPercent(t)
		mode := rapid.SampledFrom([]Rounding{HalfAwayFromZero, HalfEven, Down}).Draw(t, "mode") // HalfUp is not symmetric
		plus, err := m.Percent(p, mode)
		minus, err2 := m.Neg().Percent(p, mode)
		if err != nil || err2 != nil || minus != plus.Neg() {
			t.Fatalf("%s of %s is %s, of the negative %s (%v, %v)", p, m, plus, minus, err, err2)
		}
		if m.Neg().Neg() != m {
			t.Fatalf("%s turned twice is %s", m, m.Neg().Neg())
		}
	})
}

func TestAddingAndTakingAwayAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := currencies.Draw(t, "currency")
		a, b := drawMoney(t, c), drawMoney(t, c)
		sum, err := a.Add(b)
		if err != nil {
			t.Fatal(err)
		}
		if back, err := sum.Sub(b); err != nil || back != a {
			t.Fatalf("%s + %s - %s = %s, %v", a, b, b, back, err)
		}
		if other, err := b.Add(a); err != nil || other != sum {
			t.Fatalf("%s + %s = %s but turned round %s, %v", a, b, sum, other, err)
		}
		order, err := sum.Cmp(a)
		if err != nil || order != b.Sign() {
			t.Fatalf("%s against %s is %d, though %s was added (%v)", sum, a, order, b, err)
		}
	})
}

func TestWhatIsWrittenIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m := drawMoney(t, currencies.Draw(t, "currency"))
		if back, err := ParseMoney(m.String()); err != nil || back != m {
			t.Fatalf("%s was read back as %s, %v", m, back, err)
		}
	})
}

// drawDocument draws lines, allowances and charges under up to three taxes.
func drawDocument(t *rapid.T) Document {
	c := currencies.Draw(t, "currency")
	d := Document{Currency: c, Rounding: roundings.Draw(t, "rounding")}
	names := []string{"", "standard", "reduced", "exempt"}
	for _, name := range names[1:] {
		d.Taxes = append(d.Taxes, Tax{Name: name, Rate: drawPercent(t)})
	}
	tax := rapid.SampledFrom(names)
	for range rapid.IntRange(0, 12).Draw(t, "lines") {
		d.Lines = append(d.Lines, Line{Net: drawMoney(t, c), Tax: tax.Draw(t, "tax")})
	}
	adjustment := func() Adjustment {
		m := drawMoney(t, c)
		if m.Sign() < 0 {
			m = m.Neg()
		}
		return Adjustment{Amount: m, Tax: tax.Draw(t, "tax")}
	}
	for range rapid.IntRange(0, 2).Draw(t, "allowances") {
		d.Allowances = append(d.Allowances, adjustment())
	}
	for range rapid.IntRange(0, 2).Draw(t, "charges") {
		d.Charges = append(d.Charges, adjustment())
	}
	d.Prepaid = drawMoney(t, c)
	return d
}

// Checked in whole minor units, apart from the code under test.
func TestTotalsAddUpInEveryRounding(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDocument(t)
		totals, err := d.Totals()
		if err != nil {
			t.Fatal(err)
		}
		var net, bases, tax int64
		for _, l := range d.Lines {
			net += minorUnits(l.Net)
		}
		if got := minorUnits(totals.Lines); got != net {
			t.Fatalf("lines total %d, add up to %d", got, net)
		}
		for _, a := range d.Allowances {
			net -= minorUnits(a.Amount)
		}
		for _, c := range d.Charges {
			net += minorUnits(c.Amount)
		}
		for _, ta := range totals.Taxes {
			bases += minorUnits(ta.Base)
			tax += minorUnits(ta.Amount)
		}
		if got := minorUnits(totals.Net); got != net || bases != net {
			t.Fatalf("net %d, bases %d, want %d", got, bases, net)
		}
		if minorUnits(totals.Tax) != tax || minorUnits(totals.Gross) != net+tax {
			t.Fatalf("tax %s, gross %s, want %d and %d", totals.Tax, totals.Gross, tax, net+tax)
		}
		if minorUnits(totals.Due) != net+tax-minorUnits(d.Prepaid) {
			t.Fatalf("due %s after %s of %s", totals.Due, totals.Prepaid, totals.Gross)
		}
	})
}

func minorUnits(m Money) int64 {
	units := int64(m.amount.Coef())
	if m.Sign() < 0 {
		return -units
	}
	return units
}

func TestLinesInAnyOrderTotalTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := drawDocument(t)
		shuffled := d
		shuffled.Lines = rapid.Permutation(d.Lines).Draw(t, "order")
		a, errA := d.Totals()
		b, errB := shuffled.Totals()
		if errA != nil || errB != nil || a.Net != b.Net || a.Tax != b.Tax || a.Gross != b.Gross || a.Due != b.Due {
			t.Fatalf("%+v and %+v (%v, %v)", a, b, errA, errB)
		}
	})
}

// option is a further job: the hours it adds while the car is apart, and one part.
type option struct {
	hours float64
	part  Line
}

func TestOptionsTakenInAnyOrderEndAtTheSameTotal(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := currencies.Draw(t, "currency")
		terms := Terms{
			LabourRate:  NewRate(Money{decimal.MustNew(rapid.Int64Range(1, 20_000).Draw(t, "rate"), c.Digits()), c}),
			Consumables: drawPercent(t),
			Taxes:       []Tax{{Name: "VAT", Rate: drawPercent(t)}},
			Rounding:    roundings.Draw(t, "rounding"),
		}
		options := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) option {
			// Quarters of an hour add up without float dust, as the hours of a strip plan arrive here.
			return option{float64(rapid.IntRange(0, 40).Draw(t, "quarters")) / 4, Line{Net: drawMoney(t, c)}}
		}), 1, 5).Draw(t, "options")
		if a, b := risen(t, terms, options), risen(t, terms, rapid.Permutation(options).Draw(t, "order")); a != b {
			t.Fatalf("one order ends at %s, another at %s", a, b)
		}
	})
}

// risen takes the options one after another and adds what each makes the gross rise by.
func risen(t *rapid.T, terms Terms, options []option) Money {
	hours, parts := 1.5, []Line(nil)
	bill, err := terms.Price(hours)
	if err != nil {
		t.Fatal(err)
	}
	gross := bill.Totals.Gross
	for _, o := range options {
		hours, parts = hours+o.hours, append(parts, o.part)
		next, err := terms.Price(hours, parts...)
		if err != nil {
			t.Fatal(err)
		}
		rise, err := Rise(bill, next)
		if err != nil {
			t.Fatal(err)
		}
		if gross, err = gross.Add(rise); err != nil {
			t.Fatal(err)
		}
		bill = next
	}
	if gross != bill.Totals.Gross {
		t.Fatalf("the rises add up to %s, the bill says %s", gross, bill.Totals.Gross)
	}
	return gross
}

func FuzzParseMoney(f *testing.F) {
	for _, text := range []string{"1120.00 GBP", "-5 EUR", "12,50 EUR", "NaN GBP", "1e3 GBP", "1120.00", "£12", "9 JPY", "1.234 KWD", "GBP 1", ""} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		m, err := ParseMoney(text)
		if err != nil {
			refusal, ok := err.(*Error)
			if !ok || refusal.Reason == "" || refusal.Example == "" {
				t.Fatalf("ParseMoney(%q) refuses with %#v", text, err)
			}
			return
		}
		if m.amount.Scale() != m.currency.Digits() {
			t.Fatalf("ParseMoney(%q) = %s is not held to its minor unit", text, m)
		}
		if back, err := ParseMoney(m.String()); err != nil || back != m {
			t.Fatalf("ParseMoney(%q) = %s, read back as %s, %v", text, m, back, err)
		}
	})
}

func BenchmarkPrice(b *testing.B) {
	terms := Terms{
		LabourRate: rate(b, "78.00 GBP/h"), Consumables: percent(b, "2.5 %"),
		Taxes: []Tax{{Name: "VAT", Rate: percent(b, "20 %")}},
	}
	var parts []Line
	for range 20 {
		part, err := Part("Clutch kit", money(b, "1120.00 GBP"), 2, terms.Rounding)
		if err != nil {
			b.Fatal(err)
		}
		parts = append(parts, part)
	}
	for b.Loop() {
		if _, err := terms.Price(9.4, parts...); err != nil {
			b.Fatal(err)
		}
	}
}
