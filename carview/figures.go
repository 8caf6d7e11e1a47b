package carview

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"layshaft/workshop"
)

// Number prints a figure without its unit, or a dash where there is none.
func Number(f workshop.Figure, decimals int) string {
	if !f.Known() {
		return "–"
	}
	return fmt.Sprintf("%.*f", decimals, float64(f))
}

// Measure prints a figure with its unit, or a dash where there is none.
func Measure(f workshop.Figure, decimals int, unit string) string {
	if !f.Known() {
		return "–"
	}
	return Number(f, decimals) + " " + unit
}

// Between prints two figures as a range.
func Between(lo, hi workshop.Figure, decimals int, unit string) string {
	if !lo.Known() || !hi.Known() {
		return "–"
	}
	return strings.TrimSpace(Number(lo, decimals) + " to " + Measure(hi, decimals, unit))
}

// Hours prints hours to the hundredth.
func Hours(f workshop.Figure) string { return Measure(f, 2, "h") }

// symbols of the currencies that are written in front of the amount.
var symbols = map[string]string{"GBP": "£", "EUR": "€", "USD": "$"}

// Money sets a decimal amount in its currency, with commas between the thousands.
func Money(amount, currency string) string {
	sign := ""
	if rest, negative := strings.CutPrefix(amount, "-"); negative {
		sign, amount = "−", rest
	}
	whole, rest, dotted := strings.Cut(amount, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		whole = whole[:i] + "," + whole[i:]
	}
	if dotted {
		whole += "." + rest
	}
	if symbol, known := symbols[currency]; known {
		return sign + symbol + whole
	}
	return sign + whole + " " + currency
}

// KeyWords turns a job file's key, such as release.metal-master.master.bore, into words: "release metal-master,
// master bore".
func KeyWords(key string) string {
	parts := strings.Split(strings.ReplaceAll(key, "_", " "), ".")
	if len(parts) > 2 {
		return parts[0] + " " + parts[1] + ", " + strings.Join(parts[2:], " ")
	}
	return strings.Join(parts, " ")
}

// TitleOr is a title, or the name in words where nobody gave one.
func TitleOr(title, name string) string {
	if title == "" {
		return strings.ReplaceAll(name, "-", " ")
	}
	return title
}

// Sentence begins a text with a capital letter.
func Sentence(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if first == utf8.RuneError {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}
