package jobfile

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"

	"layshaft/quantity"
)

// benchReadings reads a bench press's table: a line of column names with their units, such as "travel mm,load N", and
// below it a line for each reading. The columns are told by their units and may stand in any order, other columns
// among them; semicolons or tabs may part them, and with those a decimal comma is understood.
func benchReadings(name string, data []byte) (travel, load []float64, err error) {
	text := strings.ReplaceAll(string(bytes.TrimPrefix(data, []byte("\ufeff"))), "\r\n", "\n")
	reader := csv.NewReader(strings.NewReader(text))
	reader.Comma, reader.Comment, reader.FieldsPerRecord, reader.TrimLeadingSpace = benchComma(text), '#', -1, true
	head, err := reader.Read()
	if err != nil {
		return nil, nil, fmt.Errorf("%s: no line of column names; write for example travel mm,load N", name)
	}
	travelAt, travelUnit := column(head, quantity.Length)
	loadAt, loadUnit := column(head, quantity.Force)
	if travelAt < 0 || loadAt < 0 {
		return nil, nil, fmt.Errorf("%s:1: a column with a unit of length and one with a unit of force are wanted; write for example travel mm,load N", name)
	}
	rows, err := reader.ReadAll()
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", name, err)
	}
	for i, row := range rows {
		for _, c := range []struct {
			at   int
			unit string
			of   quantity.Dimension
			into *[]float64
		}{{travelAt, travelUnit, quantity.Length, &travel}, {loadAt, loadUnit, quantity.Force, &load}} {
			if c.at >= len(row) {
				return nil, nil, fmt.Errorf("%s: reading %d has only %d figures", name, i+1, len(row))
			}
			v, err := quantity.Parse(withPoint(row[c.at], reader.Comma)+" "+c.unit, c.of)
			if err != nil {
				return nil, nil, fmt.Errorf("%s: reading %d: %q is not a number", name, i+1, row[c.at])
			}
			*c.into = append(*c.into, v)
		}
	}
	return travel, load, nil
}

func benchComma(text string) rune {
	for line := range strings.Lines(text) {
		if strings.HasPrefix(line, "#") {
			continue
		}
		for _, comma := range []rune{';', '\t'} {
			if strings.ContainsRune(line, comma) {
				return comma
			}
		}
		break
	}
	return ','
}

// column finds the first column whose name ends in a unit of the dimension, bare or in brackets.
func column(head []string, of quantity.Dimension) (at int, unit string) {
	for i, name := range head {
		words := strings.FieldsFunc(name, func(c rune) bool { return strings.ContainsRune(" ()[]_/", c) })
		if len(words) < 2 {
			continue
		}
		unit := words[len(words)-1]
		if _, err := quantity.Parse("1 "+unit, of); err == nil {
			return i, unit
		}
	}
	return -1, ""
}

// withPoint writes a number with a decimal point, where the comma is not taken for parting columns.
func withPoint(text string, comma rune) string {
	if comma != ',' {
		text = strings.ReplaceAll(text, ",", ".")
	}
	return strings.TrimSpace(text)
}
