package pricing

import (
	"errors"
	"testing"
)

func TestRatesAreMoneyPerHour(t *testing.T) {
	for text, want := range map[string]string{
		"78.00 GBP/h": "78.00 GBP/h",
		"78 GBP / h":  "78.00 GBP/h",
		"9800 JPY/h":  "9800 JPY/h",
	} {
		got, err := ParseRate(text)
		if err != nil || got.String() != want {
			t.Errorf("ParseRate(%q) = %s, %v; want %s", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"78.00 GBP":     `"78.00 GBP" does not say per what; write for example "78.00 GBP/h"`,
		"78.00 GBP/min": `"78.00 GBP/min" is per "min" where a rate is per hour, h; write for example "78.00 GBP/h"`,
		"78.00/h":       `"78.00/h" has no currency; write for example "78.00 GBP/h"`,
		"78,00 GBP/h":   `"78,00 GBP/h" has a comma: decimals are written after a point, thousands without a mark; write for example "78.00 GBP/h"`,
	} {
		_, err := ParseRate(text)
		var refusal *Error
		if !errors.As(err, &refusal) || err.Error() != want {
			t.Errorf("ParseRate(%q):\n got %v\nwant %s", text, err, want)
		}
	}
}

func TestPercentagesAreExact(t *testing.T) {
	for text, want := range map[string]string{"20 %": "20 %", "2.50%": "2.5 %", " 17.5  % ": "17.5 %", "0 %": "0 %"} {
		got, err := ParsePercent(text)
		if err != nil || got.String() != want {
			t.Errorf("ParsePercent(%q) = %s, %v; want %s", text, got, err, want)
		}
	}
	if percent(t, "20.0 %") != percent(t, "20 %") {
		t.Error("20.0 % and 20 % differ")
	}
	for text, want := range map[string]string{
		"0.2":                      `"0.2" has no percent sign; write for example "20 %"`,
		"-5 %":                     `"-5 %" is negative; write for example "17.5 %"`,
		"2,5 %":                    `"2,5 %" has a comma: decimals are written after a point, thousands without a mark; write for example "17.5 %"`,
		"NaN %":                    `"NaN %" has "NaN" where a plain number is wanted; write for example "17.5 %"`,
		"0.00000000000000000001 %": `"0.00000000000000000001 %" has more than 19 digits; write for example "17.5 %"`,
	} {
		if _, err := ParsePercent(text); err == nil || err.Error() != want {
			t.Errorf("ParsePercent(%q):\n got %v\nwant %s", text, err, want)
		}
	}
}

func TestRatesAndPercentagesReadBackWhatTheyWrite(t *testing.T) {
	var r Rate
	text, err := rate(t, "78.00 GBP/h").MarshalText()
	if err != nil || r.UnmarshalText(text) != nil || r != rate(t, "78.00 GBP/h") {
		t.Errorf("rate written as %q, %v, read back as %s", text, err, r)
	}
	if text, err := (Rate{}).MarshalText(); err == nil {
		t.Errorf("a rate without currency was written as %q", text)
	}
	var p Percent
	text, err = percent(t, "17.5 %").MarshalText()
	if err != nil || p.UnmarshalText(text) != nil || p != percent(t, "17.5 %") {
		t.Errorf("percentage written as %q, %v, read back as %s", text, err, p)
	}
}
