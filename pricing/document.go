package pricing

import "fmt"

// Tax is one rate that lines can fall under, such as VAT at 20 %, or "exempt" at 0 %.
type Tax struct {
	Name string  `json:"name"`
	Rate Percent `json:"rate"`
}

// Adjustment is an allowance or a charge on the whole document, such as a loyalty discount or carriage.
type Adjustment struct {
	Reason string
	Amount Money  // before tax, not negative
	Tax    string // name of one of the document's taxes; empty for its first
}

// Document is what one estimate or invoice is reckoned from.
type Document struct {
	Currency   Currency
	Lines      []Line
	Allowances []Adjustment
	Charges    []Adjustment
	Prepaid    Money // the zero Money where nothing is paid yet
	// Taxes are the rates in use; lines that name none fall under the first. With no taxes at all none is charged.
	Taxes    []Tax
	Rounding Rounding
}

// Totals are the sums at the foot of a document. The terms are those of EN 16931.
type Totals struct {
	Lines      Money       `json:"lines"`      // sum of line net amounts, BT-106
	Allowances Money       `json:"allowances"` // sum of document allowances, BT-107
	Charges    Money       `json:"charges"`    // sum of document charges, BT-108
	Net        Money       `json:"net"`        // total without tax, BT-109
	Taxes      []TaxAmount `json:"taxes"`      // one for each tax in use, BG-23
	Tax        Money       `json:"tax"`        // total tax, BT-110
	Gross      Money       `json:"gross"`      // total with tax, BT-112
	Prepaid    Money       `json:"prepaid"`    // paid amount, BT-113
	Due        Money       `json:"due"`        // amount due for payment, BT-115
}

// TaxAmount is the tax of one category.
type TaxAmount struct {
	Tax
	Base   Money `json:"base"`   // taxable amount, BT-116
	Amount Money `json:"amount"` // tax amount, BT-117
}

// Totals sums the document by the rules of EN 16931-1:2017.
//
//	lines = Σ line net                                    BR-CO-10
//	net   = lines − Σ allowances + Σ charges              BR-CO-13
//	base  = the same sum over one tax's lines, allowances and charges (BR-S-08)
//	tax   = Σ over taxes of base · rate / 100, rounded    BR-CO-17, BR-CO-14
//	gross = net + tax                                     BR-CO-15
//	due   = gross − prepaid                               BR-CO-16, without its rounding amount BT-114
//
// Tax is rounded once for each tax, not for each line; the standard rounds to two decimals, this to the minor unit.
// Source of the rules: schematron of github.com/ConnectingEurope/eInvoicing-EN16931 (seen); the standard itself was not.
func (d Document) Totals() (Totals, error) {
	book, err := d.openBook()
	if err != nil {
		return Totals{}, err
	}
	for _, l := range d.Lines {
		book.post(&book.totals.Lines, l.Net, l.Net, l.Tax, l.Name)
	}
	for _, a := range d.Allowances {
		book.refuseNegative(a)
		book.post(&book.totals.Allowances, a.Amount, a.Amount.Neg(), a.Tax, a.Reason)
	}
	for _, c := range d.Charges {
		book.refuseNegative(c)
		book.post(&book.totals.Charges, c.Amount, c.Amount, c.Tax, c.Reason)
	}
	return book.close(d.Prepaid, d.Rounding)
}

// book adds up a document; the first thing that does not add up stops it.
type book struct {
	totals Totals
	taxes  []TaxAmount
	used   []bool // which of taxes anything fell under
	err    error
}

func (d Document) openBook() (*book, error) {
	if _, err := ParseCurrency(string(d.Currency)); err != nil {
		return nil, fmt.Errorf("currency: %w", err)
	}
	zero := Zero(d.Currency)
	b := &book{totals: Totals{Lines: zero, Allowances: zero, Charges: zero, Net: zero, Tax: zero}}
	names := map[string]bool{}
	for _, t := range d.Taxes {
		if names[t.Name] {
			return nil, fmt.Errorf("two taxes are named %q; give each its own name", t.Name)
		}
		names[t.Name] = true
		b.taxes = append(b.taxes, TaxAmount{Tax: t, Base: zero})
	}
	if len(d.Taxes) == 0 {
		b.taxes = []TaxAmount{{Base: zero}} // everything falls under one tax without a name at 0 %
	}
	b.used = make([]bool, len(b.taxes))
	return b, nil
}

// post adds amount to a sum of the document and signed to the net and to the base of its tax.
func (b *book) post(sum *Money, amount, signed Money, tax, what string) {
	i := b.find(tax)
	if b.err == nil && i < 0 {
		b.err = fmt.Errorf("%q falls under tax %q, which the document does not have", what, tax)
	}
	if b.err != nil {
		return
	}
	b.used[i] = true
	b.add(sum, amount, what)
	b.add(&b.totals.Net, signed, what)
	b.add(&b.taxes[i].Base, signed, what)
}

func (b *book) add(sum *Money, amount Money, what string) {
	if b.err != nil {
		return
	}
	if *sum, b.err = sum.Add(amount); b.err != nil {
		b.err = fmt.Errorf("%q: %w", what, b.err)
	}
}

func (b *book) find(tax string) int {
	if tax == "" {
		return 0
	}
	for i, t := range b.taxes {
		if t.Name == tax {
			return i
		}
	}
	return -1
}

func (b *book) refuseNegative(a Adjustment) {
	if b.err == nil && a.Amount.Sign() < 0 {
		b.err = fmt.Errorf("%q is %s; an allowance is written as a positive amount, and so is a charge", a.Reason, a.Amount)
	}
}

func (b *book) close(prepaid Money, r Rounding) (Totals, error) {
	t := &b.totals
	for i, tax := range b.taxes {
		if b.err != nil || !b.used[i] {
			continue
		}
		if tax.Amount, b.err = tax.Base.Percent(tax.Rate, r); b.err == nil {
			t.Taxes = append(t.Taxes, tax)
			b.add(&t.Tax, tax.Amount, tax.Name)
		}
	}
	t.Gross = t.Net
	b.add(&t.Gross, t.Tax, "tax")
	t.Prepaid = prepaid
	if prepaid == (Money{}) {
		t.Prepaid = Zero(t.Net.currency)
	}
	t.Due = t.Gross
	b.add(&t.Due, t.Prepaid.Neg(), "prepaid")
	if b.err != nil {
		return Totals{}, b.err
	}
	return *t, nil
}
