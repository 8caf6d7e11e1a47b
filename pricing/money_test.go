package pricing

import (
	"encoding/json"
	"errors"
	"strings"
	"testing"

	"github.com/govalues/decimal"
)

func TestMoneyIsReadToTheMinorUnitOfItsCurrency(t *testing.T) {
	for text, want := range map[string]string{
		"1120.00 GBP":      "1120.00 GBP",
		"1120 GBP":         "1120.00 GBP",
		"1120.5 GBP":       "1120.50 GBP",
		" -5  EUR ":        "-5.00 EUR",
		"-0.00 GBP":        "0.00 GBP",
		"98000 JPY":        "98000 JPY",   // no minor unit
		"412.5 KWD":        "412.500 KWD", // thousandths
		"412.125 KWD":      "412.125 KWD",
		"007.10 GBP":       "7.10 GBP",
		"1120.00\u00a0GBP": "1120.00 GBP", // a no-break space, as documents have between a figure and its unit
	} {
		got, err := ParseMoney(text)
		if err != nil || got.String() != want {
			t.Errorf("ParseMoney(%q) = %s, %v; want %s", text, got, err, want)
		}
	}
}

func TestMoneyIsRefusedInASentence(t *testing.T) {
	for text, want := range map[string]string{
		"":                          `"" is empty where money is wanted; write for example "1120.00 GBP"`,
		"1120.00":                   `"1120.00" has no currency; write for example "1120.00 GBP"`,
		"1120.00 XYZ":               `"1120.00 XYZ" names "XYZ", which is not a currency of ISO 4217; write for example "1120.00 GBP"`,
		"1120.00 gbp":               `"1120.00 gbp" names "gbp", which is not a currency of ISO 4217 as written: codes are in capitals; write for example "1120.00 GBP"`,
		"1120.005 GBP":              `"1120.005 GBP" has more decimals than GBP, which has 2; write for example "1120.00 GBP"`,
		"98000.5 JPY":               `"98000.5 JPY" has more decimals than JPY, which has 0; write for example "98000 JPY"`,
		"1.2345 KWD":                `"1.2345 KWD" has more decimals than KWD, which has 3; write for example "1.234 KWD"`,
		"12,50 EUR":                 `"12,50 EUR" has a comma: decimals are written after a point, thousands without a mark; write for example "12.50 EUR"`,
		"1,120.00 GBP":              `"1,120.00 GBP" has a comma: decimals are written after a point, thousands without a mark; write for example "12.50 GBP"`,
		"NaN GBP":                   `"NaN GBP" has "NaN" where a plain number is wanted; write for example "12.50 GBP"`,
		"Inf GBP":                   `"Inf GBP" has "Inf" where a plain number is wanted; write for example "12.50 GBP"`,
		"1e3 GBP":                   `"1e3 GBP" has "1e3" where a plain number is wanted; write for example "12.50 GBP"`,
		"1..2 GBP":                  `"1..2 GBP" has "1..2" where a plain number is wanted; write for example "12.50 GBP"`,
		".5 GBP":                    `".5 GBP" has ".5" where a plain number is wanted; write for example "12.50 GBP"`,
		"GBP 12.00":                 `"GBP 12.00" has the currency before the amount; write for example "1120.00 GBP"`,
		"£12.00":                    `"£12.00" is not an amount, a space and a currency; write for example "1120.00 GBP"`,
		"12.00 GBP extra":           `"12.00 GBP extra" is not an amount, a space and a currency; write for example "1120.00 GBP"`,
		"123456789012345678901 GBP": `"123456789012345678901 GBP" has more than 19 digits; write for example "12.50 GBP"`,
		"99999999999999999.99 GBP":  `"99999999999999999.99 GBP" is too large; write for example "1120.00 GBP"`,
		strings.Repeat("9", 60):     `"` + strings.Repeat("9", 40) + `…" has no currency; write for example "1120.00 GBP"`,
	} {
		_, err := ParseMoney(text)
		var refusal *Error
		if !errors.As(err, &refusal) || err.Error() != want {
			t.Errorf("ParseMoney(%q):\n got %v\nwant %s", text, err, want)
		}
	}
}

func TestCurrenciesHaveTheMinorUnitOfTheStandard(t *testing.T) {
	// ISO 4217 list one; from memory.
	for code, want := range map[Currency]int{"GBP": 2, "EUR": 2, "USD": 2, "JPY": 0, "ISK": 0, "KWD": 3, "IQD": 3, "CLF": 4} {
		if got := code.Digits(); got != want {
			t.Errorf("%s has %d decimals, want %d", code, got, want)
		}
	}
}

func TestAnUnknownCurrencyInCodePanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("Digits of an unknown currency returned")
		}
	}()
	Currency("XYZ").Digits()
}

func TestCurrenciesDoNotMix(t *testing.T) {
	pounds, euros := money(t, "1120.00 GBP"), money(t, "100.00 EUR")
	const want = "1120.00 GBP and 100.00 EUR are in different currencies; state both in one"
	_, errAdd := pounds.Add(euros)
	_, errCmp := pounds.Cmp(euros)
	_, errSub := pounds.Sub(euros.Neg())
	for _, err := range []error{errAdd, errCmp, errSub} {
		if err == nil || err.Error() != want {
			t.Errorf("got %v, want %s", err, want)
		}
	}
	if pounds == euros {
		t.Error("amounts in different currencies compare equal")
	}
}

func TestMoneyWithoutCurrencyTakesPartInNothing(t *testing.T) {
	none, pound := Money{}, money(t, "1 GBP")
	_, errAdd := pound.Add(none)
	_, errMul := none.Mul(decimal.MustParse("2"), HalfEven)
	_, errText := none.MarshalText()
	for _, err := range []error{errAdd, errMul, errText} {
		if !errors.Is(err, errNoCurrency) {
			t.Errorf("got %v, want %v", err, errNoCurrency)
		}
	}
}

func TestAnAmountTooLargeIsRefusedRatherThanRounded(t *testing.T) {
	most := money(t, "92233720368547758.07 GBP") // the largest 64-bit number of pence
	double, err := most.Add(most)
	if !errors.Is(err, errTooLarge) {
		t.Errorf("twice %s is %s, %v", most, double, err)
	}
	if _, err := most.Mul(decimal.MustParse("1.5"), HalfEven); !errors.Is(err, errTooLarge) {
		t.Errorf("one and a half times %s: %v", most, err)
	}
}

func TestMoneyKeepsItsMinorUnitThroughJSON(t *testing.T) {
	type price struct{ Net Money }
	want := price{money(t, "412.500 KWD")}
	text, err := json.Marshal(want)
	if err != nil || string(text) != `{"Net":"412.500 KWD"}` {
		t.Fatalf("marshalled as %s, %v", text, err)
	}
	var got price
	if err := json.Unmarshal(text, &got); err != nil || got != want {
		t.Errorf("read back as %v, %v; want %v", got, err, want)
	}
	if err := json.Unmarshal([]byte(`{"Net":"412.5"}`), &got); err == nil {
		t.Error("money without a currency was read")
	}
}

func TestNewMoneyRefusesWhatTheCurrencyCannotHold(t *testing.T) {
	if got, err := NewMoney(decimal.MustParse("1.500"), "GBP"); err != nil || got != money(t, "1.50 GBP") {
		t.Errorf("1.500 GBP is %s, %v", got, err)
	}
	if got, err := NewMoney(decimal.MustParse("1.005"), "GBP"); err == nil {
		t.Errorf("1.005 GBP became %s", got)
	}
}
