package web

import (
	"fmt"
	"strings"

	"layshaft/picture"
	"layshaft/workshop"
)

// number prints a figure without its unit, or a dash where there is none.
func number(f workshop.Figure, decimals int) string {
	if !f.Known() {
		return "–"
	}
	return fmt.Sprintf("%.*f", decimals, float64(f))
}

// measure prints a figure with its unit.
func measure(f workshop.Figure, decimals int, unit string) string {
	if !f.Known() {
		return "–"
	}
	return number(f, decimals) + " " + unit
}

// between prints two figures as a range.
func between(lo, hi workshop.Figure, decimals int, unit string) string {
	if !lo.Known() || !hi.Known() {
		return "–"
	}
	return number(lo, decimals) + " to " + measure(hi, decimals, unit)
}

func hours(f workshop.Figure) string { return measure(f, 2, "h") }

// symbols of the currencies that are written in front of the amount.
var symbols = map[string]string{"GBP": "£", "EUR": "€", "USD": "$"}

// money sets a decimal amount in its currency, with commas between the thousands.
func money(amount, currency string) string {
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

// toneClass is the class of a verdict's word; its mark and colour hang on it.
func toneClass(t picture.Tone) string {
	return map[picture.Tone]string{picture.Fine: "fine", picture.Near: "near", picture.Wrong: "wrong"}[t]
}

// word is a verdict with how good or bad news it is.
type word struct{ Text, Class string }

// table is a table as a page shows it: on a narrow screen every row becomes a block, each cell with its head.
type table struct {
	Caption string
	Head    []string
	Rows    []row
}

type row struct {
	Name  string
	Cells []cell
	Why   string // a sentence below the row
}

// cell is a text or a verdict.
type cell struct {
	Head string
	Text string
	Word word
}

// add appends a row; cells that are words are given as word, others as string.
func (t *table) add(name, why string, cells ...any) {
	r := row{Name: name, Why: why}
	for i, c := range cells {
		one := cell{Head: t.Head[i+1]}
		switch c := c.(type) {
		case string:
			one.Text = c
		case word:
			one.Word = c
		default:
			panic(fmt.Sprintf("web: a cell cannot hold a %T", c))
		}
		r.Cells = append(r.Cells, one)
	}
	t.Rows = append(t.Rows, r)
}

// drawing is a picture in both its arrangements; the style sheet shows the one that suits the screen.
type drawing struct{ Wide, Narrow *picture.Scene }

func draw(p interface {
	Scene(picture.Size) *picture.Scene
}) *drawing {
	return &drawing{p.Scene(picture.Wide), p.Scene(picture.Narrow)}
}
