package pricing_test

import (
	"fmt"
	"log"

	"github.com/govalues/decimal"

	"layshaft/pricing"
)

func must[T any](v T, err error) T {
	if err != nil {
		log.Fatal(err)
	}
	return v
}

// The half-cent case of ubl-tc434-example2.xml among the examples of EN 16931 (seen): 25 % of 1460.50 is printed
// as 365.13.
func ExampleMoney_Percent() {
	base := must(pricing.ParseMoney("1460.50 NOK"))
	vat := must(pricing.ParsePercent("25 %"))
	fmt.Println(must(base.Percent(vat, pricing.HalfAwayFromZero)))
	// Output: 365.13 NOK
}

// HMRC VATREC12010 (seen): an invoice trader may round the tax of an invoice down; 20 % of 704.88 is 140.976.
func ExampleRounding_Round() {
	tax := decimal.MustParse("140.976")
	for _, r := range []pricing.Rounding{pricing.HalfAwayFromZero, pricing.HalfEven, pricing.HalfUp, pricing.Down} {
		fmt.Printf("%-19s  %s  %s\n", r, must(r.Round(tax, 2)), must(r.Round(decimal.MustParse("-0.125"), 2)))
	}
	// Output:
	// half away from zero  140.98  -0.13
	// half even            140.98  -0.12
	// half up              140.98  -0.12
	// down                 140.97  -0.12
}

// ubl-tc434-example2.xml among the examples of EN 16931 (seen): three rates, a document allowance and charge, a
// credit line and a prepayment.
func ExampleDocument_Totals() {
	nok := func(amount string) pricing.Money { return must(pricing.ParseMoney(amount + " NOK")) }
	line := func(amount, tax string) pricing.Line { return pricing.Line{Net: nok(amount), Tax: tax} }
	invoice := pricing.Document{
		Currency: "NOK",
		Lines: []pricing.Line{
			line("1273.00", "standard"), line("-3.96", "food"), line("4.96", "food"),
			line("-25.00", "exempt"), line("187.50", "standard"),
		},
		Allowances: []pricing.Adjustment{{Reason: "discount", Amount: nok("100.00")}},
		Charges:    []pricing.Adjustment{{Reason: "freight", Amount: nok("100.00")}},
		Prepaid:    nok("1000.00"),
		Taxes: []pricing.Tax{
			{Name: "standard", Rate: must(pricing.ParsePercent("25 %"))},
			{Name: "food", Rate: must(pricing.ParsePercent("15 %"))},
			{Name: "exempt"},
		},
	}
	totals := must(invoice.Totals())
	for _, tax := range totals.Taxes {
		fmt.Println(tax.Name, tax.Rate, "of", tax.Base, "is", tax.Amount)
	}
	fmt.Println("net", totals.Net, "tax", totals.Tax, "gross", totals.Gross, "due", totals.Due)
	// Output:
	// standard 25 % of 1460.50 NOK is 365.13 NOK
	// food 15 % of 1.00 NOK is 0.15 NOK
	// exempt 0 % of -25.00 NOK is 0.00 NOK
	// net 1436.50 NOK tax 365.28 NOK gross 1801.78 NOK due 801.78 NOK
}

// A clutch job of 9.4 h, and what a master cylinder adds while the car is apart. The figures are invented; by hand: with it
// 865.80 + 21.65 + 1120.00 + 164.95 = 2172.40, tax 434.48, gross 2606.88, which is 361.04 more.
func ExampleTerms_Price() {
	terms := pricing.Terms{
		LabourRate:  must(pricing.ParseRate("78.00 GBP/h")),
		Consumables: must(pricing.ParsePercent("2.5 %")),
		Taxes:       []pricing.Tax{{Name: "VAT", Rate: must(pricing.ParsePercent("20 %"))}},
	}
	part := func(name, price string) pricing.Line {
		return must(pricing.Part(name, must(pricing.ParseMoney(price)), 1, terms.Rounding))
	}
	clutch, master := part("Clutch kit", "1120.00 GBP"), part("Master cylinder", "164.95 GBP")

	without := must(terms.Price(9.4, clutch))
	with := must(terms.Price(11.1, clutch, master))
	for _, l := range without.Lines {
		fmt.Println(l.Name, l.Quantity, l.Unit, l.Net)
	}
	fmt.Println("net", without.Totals.Net, "tax", without.Totals.Tax, "gross", without.Totals.Gross)
	fmt.Println("master cylinder adds", must(pricing.Rise(without, with)))
	// Output:
	// Labour 9.4 h 733.20 GBP
	// Consumables 2.5 % 18.33 GBP
	// Clutch kit 1  1120.00 GBP
	// net 1871.53 GBP tax 374.31 GBP gross 2245.84 GBP
	// master cylinder adds 361.04 GBP
}

func ExampleParseMoney() {
	fmt.Println(must(pricing.ParseMoney("1120 GBP")))
	_, err := pricing.ParseMoney("1.120,00 EUR")
	fmt.Println(err)
	// Output:
	// 1120.00 GBP
	// "1.120,00 EUR" has a comma: decimals are written after a point, thousands without a mark; write for example "12.50 EUR"
}
