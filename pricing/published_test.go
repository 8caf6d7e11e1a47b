package pricing

import (
	"encoding/csv"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/govalues/decimal"
)

// table reads a published table as rows keyed by column name.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, record := range records[1:] {
		row := map[string]string{}
		for i, column := range records[0] {
			row[column] = record[i]
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		t.Fatalf("%s is empty", name)
	}
	return rows
}

func TestPublishedRoundings(t *testing.T) {
	modes := map[string]Rounding{}
	for _, r := range []Rounding{HalfAwayFromZero, HalfEven, HalfUp, Down} {
		modes[r.String()] = r
	}
	for _, row := range table(t, "tax-rounding.csv") {
		mode, ok := modes[row["rounding"]]
		if !ok {
			t.Fatalf("%s: no rounding %q", row["id"], row["rounding"])
		}
		decimals, err := strconv.Atoi(row["decimals"])
		if err != nil {
			t.Fatal(err)
		}
		got, err := mode.Round(decimal.MustParse(row["amount"]), decimals)
		if err != nil || got.String() != row["result"] {
			t.Errorf("%s: %s %s is %s, %v; published %s (%s, %s)", row["id"], row["amount"], mode, got, err,
				row["result"], row["source"], row["seen"])
		}
	}
}

func TestPublishedInvoicesTotalAsPrinted(t *testing.T) {
	documents := map[string]*Document{}
	for _, row := range table(t, "invoices.csv") {
		name := row["invoice"]
		if row["row"] == "currency" {
			documents[name] = &Document{Currency: Currency(row["amount"])}
			continue
		}
		addPublishedRow(t, documents[name], row)
	}
	for _, want := range table(t, "totals.csv") {
		t.Run(want["invoice"], func(t *testing.T) {
			got, err := documents[want["invoice"]].Totals()
			if err != nil {
				t.Fatal(err)
			}
			var taxes []string
			for _, tax := range got.Taxes {
				taxes = append(taxes, tax.Amount.Amount())
			}
			for column, figure := range map[string]string{
				"lines": got.Lines.Amount(), "allowances": got.Allowances.Amount(), "charges": got.Charges.Amount(),
				"net": got.Net.Amount(), "taxes": strings.Join(taxes, " "), "tax": got.Tax.Amount(),
				"gross": got.Gross.Amount(), "prepaid": got.Prepaid.Amount(), "due": got.Due.Amount(),
			} {
				if figure != want[column] {
					t.Errorf("%s is %s, printed %s", column, figure, want[column])
				}
			}
		})
	}
}

// addPublishedRow puts one printed row into the document; where the row prints quantity and price, the line is
// reckoned from them and must come to the printed amount.
func addPublishedRow(t *testing.T, d *Document, row map[string]string) {
	t.Helper()
	amount := money(t, row["amount"]+" "+string(d.Currency))
	tax := row["rate"] + " %"
	switch row["row"] {
	case "line":
		line := Line{Net: amount}
		if row["quantity"] != "" {
			line = printedLine(t, d.Currency, row)
		}
		if line.Net != amount {
			t.Fatalf("%s: line %v is %s, printed %s", row["invoice"], row, line.Net, amount)
		}
		line.Tax = tax
		d.Lines = append(d.Lines, line)
	case "allowance":
		d.Allowances = append(d.Allowances, Adjustment{Amount: amount, Tax: tax})
	case "charge":
		d.Charges = append(d.Charges, Adjustment{Amount: amount, Tax: tax})
	case "prepaid":
		d.Prepaid = amount
		return
	default:
		t.Fatalf("unknown row %q", row["row"])
	}
	for _, known := range d.Taxes {
		if known.Name == tax {
			return
		}
	}
	d.Taxes = append(d.Taxes, Tax{Name: tax, Rate: percent(t, tax)})
}

func printedLine(t *testing.T, c Currency, row map[string]string) Line {
	t.Helper()
	quantity, err := strconv.ParseFloat(row["quantity"], 64)
	if err != nil {
		t.Fatal(err)
	}
	line, err := Part("printed line", money(t, row["price"]+" "+string(c)), quantity, HalfAwayFromZero)
	if err != nil {
		t.Fatal(err)
	}
	return line
}

// A rounding rule that the published half-cent cases could not tell from another would prove nothing.
func TestPublishedHalfCentsTellTheRoundingsApart(t *testing.T) {
	half := money(t, "-625743.54 DKK")
	want := map[Rounding]string{
		HalfAwayFromZero: "-156435.89", HalfEven: "-156435.88", HalfUp: "-156435.88", Down: "-156435.88",
	}
	for mode, figure := range want {
		if got, err := half.Percent(percent(t, "25 %"), mode); err != nil || got.Amount() != figure {
			t.Errorf("%s gives %s, %v; want %s", mode, got, err, figure)
		}
	}
}

func money(t testing.TB, text string) Money {
	t.Helper()
	m, err := ParseMoney(text)
	if err != nil {
		t.Fatal(err)
	}
	return m
}

func percent(t testing.TB, text string) Percent {
	t.Helper()
	p, err := ParsePercent(text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func rate(t testing.TB, text string) Rate {
	t.Helper()
	r, err := ParseRate(text)
	if err != nil {
		t.Fatal(err)
	}
	return r
}
