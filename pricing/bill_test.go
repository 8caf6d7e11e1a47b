package pricing

import (
	"math"
	"strings"
	"testing"
)

func TestHoursAreTakenAsTheDecimalThatNamesThem(t *testing.T) {
	// 0.1 + 0.2 h at 50.00 is on a half of nothing, but 1.15 h at 0.10 is exactly 0.115: the binary fraction next to
	// 1.15 lies below it and would be rounded down.
	line, err := Labour(1.15, rate(t, "0.10 GBP/h"), HalfAwayFromZero)
	if err != nil || line.Net != money(t, "0.12 GBP") {
		t.Errorf("1.15 h at 0.10 is %s, %v", line.Net, err)
	}
	// A third of an hour has sixteen digits in binary; the product has more than any decimal of nineteen holds.
	line, err = Labour(1.0/3, rate(t, "7800.00 GBP/h"), HalfAwayFromZero)
	if err != nil || line.Net != money(t, "2600.00 GBP") {
		t.Errorf("a third of an hour at 7800.00 is %s, %v", line.Net, err)
	}
}

func TestImpossibleQuantitiesAreRefused(t *testing.T) {
	pound := money(t, "1.00 GBP")
	for _, hours := range []float64{math.NaN(), math.Inf(1), -0.1, 1e30} {
		if line, err := Labour(hours, NewRate(pound), HalfAwayFromZero); err == nil {
			t.Errorf("%v h were charged as %s", hours, line.Net)
		}
	}
	for _, quantity := range []float64{math.NaN(), math.Inf(-1), 0, 1e30} {
		line, err := Part("Clutch kit", pound, quantity, HalfAwayFromZero)
		if err == nil || !strings.Contains(err.Error(), `part "Clutch kit"`) {
			t.Errorf("%v pieces were charged as %s, %v", quantity, line.Net, err)
		}
	}
}

func TestConsumablesAreAPercentageOfTheRoundedLabourLine(t *testing.T) {
	labour, err := Labour(0.333, rate(t, "75.00 GBP/h"), HalfAwayFromZero) // 24.975 -> 24.98
	if err != nil {
		t.Fatal(err)
	}
	line, err := Consumables(percent(t, "50 %"), labour, HalfEven) // 12.49; of 24.975 it would be 12.4875
	if err != nil || line.Net != money(t, "12.49 GBP") || line.Price != money(t, "24.98 GBP") {
		t.Errorf("consumables are %s of %s, %v", line.Net, line.Price, err)
	}
}

func TestPriceInCurrenciesWithNoneAndThreeDecimals(t *testing.T) {
	for _, c := range []struct{ rate, part, net, tax, gross string }{
		// 7.35 h · 9801 = 72037.35 -> 72037; 2.5 % = 1800.925 -> 1801; + 150000 = 223838; 10 % = 22383.8
		{"9801 JPY/h", "150000 JPY", "223838", "22384", "246222"},
		// 7.35 h · 24.125 = 177.31875 -> 177.319; 2.5 % = 4.432975 -> 4.433; + 400.000 = 581.752; 10 % = 58.1752
		{"24.125 KWD/h", "400.000 KWD", "581.752", "58.175", "639.927"},
	} {
		terms := Terms{
			LabourRate: rate(t, c.rate), Consumables: percent(t, "2.5 %"),
			Taxes: []Tax{{Name: "tax", Rate: percent(t, "10 %")}},
		}
		part, err := Part("Clutch kit", money(t, c.part), 1, terms.Rounding)
		if err != nil {
			t.Fatal(err)
		}
		bill, err := terms.Price(7.35, part)
		if err != nil {
			t.Fatal(err)
		}
		got := [3]string{bill.Totals.Net.Amount(), bill.Totals.Tax.Amount(), bill.Totals.Gross.Amount()}
		if want := [3]string{c.net, c.tax, c.gross}; got != want {
			t.Errorf("%s: got %v, want %v", c.rate, got, want)
		}
	}
}

func TestWithoutConsumablesOrTaxThereIsNothingOfThem(t *testing.T) {
	bill, err := Terms{LabourRate: rate(t, "78.00 GBP/h")}.Price(0)
	if err != nil {
		t.Fatal(err)
	}
	if len(bill.Lines) != 1 || bill.Totals.Gross != Zero("GBP") || bill.Totals.Tax != Zero("GBP") {
		t.Errorf("no hours cost %+v", bill)
	}
}

func TestDocumentsThatCannotBeTotalledSayWhy(t *testing.T) {
	vat := Tax{Name: "VAT", Rate: percent(t, "20 %")}
	pounds, euros := money(t, "10.00 GBP"), money(t, "10.00 EUR")
	for want, d := range map[string]Document{
		`currency: "" is not a currency of ISO 4217; write for example "GBP"`: {},
		`two taxes are named "VAT"; give each its own name`:                   {Currency: "GBP", Taxes: []Tax{vat, vat}},
		`"Clutch kit" falls under tax "food", which the document does not have`: {
			Currency: "GBP", Taxes: []Tax{vat}, Lines: []Line{{Name: "Clutch kit", Net: pounds, Tax: "food"}},
		},
		`"Clutch kit": 0.00 GBP and 10.00 EUR are in different currencies; state both in one`: {
			Currency: "GBP", Lines: []Line{{Name: "Clutch kit", Net: euros}},
		},
		`"discount" is -10.00 GBP; an allowance is written as a positive amount, and so is a charge`: {
			Currency: "GBP", Allowances: []Adjustment{{Reason: "discount", Amount: pounds.Neg()}},
		},
		`"prepaid": 0.00 GBP and -10.00 EUR are in different currencies; state both in one`: {
			Currency: "GBP", Prepaid: euros,
		},
	} {
		if totals, err := d.Totals(); err == nil || err.Error() != want {
			t.Errorf("got %v, %v\nwant %s", totals, err, want)
		}
	}
}

func TestTaxesThatNothingFallsUnderAreNotListed(t *testing.T) {
	d := Document{
		Currency: "GBP",
		Lines:    []Line{{Net: money(t, "10.00 GBP"), Tax: "reduced"}},
		Taxes:    []Tax{{Name: "VAT", Rate: percent(t, "20 %")}, {Name: "reduced", Rate: percent(t, "5 %")}},
	}
	totals, err := d.Totals()
	if err != nil || len(totals.Taxes) != 1 || totals.Taxes[0].Name != "reduced" || totals.Tax != money(t, "0.50 GBP") {
		t.Errorf("got %+v, %v", totals, err)
	}
}
