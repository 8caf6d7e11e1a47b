package dyno

import (
	"math"
	"regexp"
	"strconv"
	"strings"

	"layshaft/quantity"
)

// cell is one figure of the file.
type cell struct {
	line  int
	text  string
	value float64
	step  float64 // of the last digit written
}

// si returns the column's figures in SI units.
func (c *column) si() []float64 {
	factor := quantity.From(1, c.unit)
	values := make([]float64, len(c.cells))
	for i, cell := range c.cells {
		values[i] = cell.value * factor
	}
	return values
}

// used are the columns that are read, in the order of their places in a row.
func (cols *columns) used() []*column {
	var used []*column
	for _, c := range []*column{cols.speed, cols.power, cols.torque} {
		if c != nil {
			used = append(used, c)
		}
	}
	return used
}

// readFigures fills the columns from the rows of figures.
func readFigures(cols *columns, rows []row) *Error {
	used := cols.used()
	for _, r := range rows {
		if over := strings.Join(r.cells[min(cols.count, len(r.cells)):], ""); over != "" {
			return fault(r.line, "", "%d cells under %d column names; if these are decimal commas, write decimal points or part the columns by semicolons",
				len(r.cells), cols.count)
		}
		for _, c := range used {
			c.cells = append(c.cells, cell{line: r.line, text: r.cell(c.index)})
		}
	}
	decimalComma := cols.provesDecimalComma()
	for i := range rows {
		for _, c := range used {
			if err := c.read(&c.cells[i], decimalComma); err != nil {
				return err
			}
		}
	}
	return nil
}

var (
	number = regexp.MustCompile(`^[+-]?[0-9]+(\.[0-9]*)?([eE][+-]?[0-9]{1,3})?$`)
	// comma matches a figure with one comma; the first group is what a thousands comma cannot be.
	comma = regexp.MustCompile(`^([0-9]+,[0-9]{1,2}|[0-9]+,[0-9]{4,}|0[0-9]*,[0-9]+|[0-9]{4,},[0-9]+)$|^[0-9]+,[0-9]{3}$`)
)

// provesDecimalComma reports whether the file's commas can only be decimal: there is one that parts no thousands, and
// no figure has a point.
func (cols *columns) provesDecimalComma() bool {
	proved := false
	for _, c := range cols.used() {
		for _, cell := range c.cells {
			if strings.Contains(cell.text, ".") {
				return false
			}
			if m := comma.FindStringSubmatch(cell.text); m != nil && m[1] != "" {
				proved = true
			}
		}
	}
	return proved
}

// read turns a cell's text into its figure.
func (c *column) read(cell *cell, decimalComma bool) *Error {
	text := cell.text
	if decimalComma && comma.MatchString(text) {
		text = strings.Replace(text, ",", ".", 1)
	}
	switch {
	case text == "":
		return fault(cell.line, c.name, "no figure; fill it in or take the row out")
	case strings.Contains(text, ","):
		return fault(cell.line, c.name, "%q may have a decimal comma or one that parts thousands; write a decimal point and no other mark", clip(text))
	case !number.MatchString(text):
		return fault(cell.line, c.name, "%q is not a number", clip(text))
	}
	value, err := strconv.ParseFloat(text, 64)
	switch {
	case err != nil || value > 1e9:
		return fault(cell.line, c.name, "%q is too large", clip(text))
	case value < 0 || math.Signbit(value):
		return fault(cell.line, c.name, "%s is negative; keep only the pull, where the engine drives", clip(text))
	}
	cell.value, cell.step = value, lastDigit(text)
	return nil
}

// lastDigit is the worth of one in the last place of a figure: 0.1 for "12.3".
func lastDigit(text string) float64 {
	mantissa, exponent, _ := strings.Cut(strings.ToLower(text), "e")
	_, decimals, _ := strings.Cut(mantissa, ".")
	power, _ := strconv.Atoi(exponent) // "" is 0
	return math.Pow10(power - len(decimals))
}

// clip keeps a quoted cell short.
func clip(text string) string {
	if runes := []rune(text); len(runes) > 24 {
		return string(runes[:24]) + "..."
	}
	return text
}
