package yamlfile

import (
	"encoding"
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"layshaft/quantity"
	"layshaft/uncertain"
)

// text hands a single value to a type that reads itself.
func (d *decoder) text(n *node, into encoding.TextUnmarshaler, r rule, key string) {
	if !d.is(scalar, n, r, key) {
		return
	}
	err := into.UnmarshalText([]byte(n.text))
	if err == nil {
		return
	}
	if own, ok := err.(sentence); ok && r.like != "" {
		d.refuse(n.line, n.column, key, r.like, "%s", own.Sentence()) // the field's example says it better
		return
	}
	d.refuse(n.line, n.column, key, r.like, "%v", err)
}

// sentence is an error that can tell what is wrong without its own example of what would be right.
type sentence interface{ Sentence() string }

// plain decodes a string, a bool or an int.
func (d *decoder) plain(n *node, v reflect.Value, r rule, key string) {
	if !d.is(scalar, n, r, key) {
		return
	}
	switch v.Kind() {
	case reflect.String:
		d.words(n, v, r, key)
	case reflect.Bool:
		answer, ok := map[string]bool{"true": true, "yes": true, "false": false, "no": false}[strings.ToLower(n.text)]
		if !ok {
			d.refuse(n.line, n.column, key, "", "%s is neither yes nor no", strconv.Quote(short(n.text)))
		}
		v.SetBool(answer)
	case reflect.Int:
		d.whole(n, v, r, key)
	}
}

func (d *decoder) words(n *node, v reflect.Value, r rule, key string) {
	if r.need && strings.TrimSpace(n.text) == "" {
		d.refuse(n.line, n.column, key, r.like, "is empty")
		return
	}
	control := func(c rune) bool { return c < ' ' && c != '\n' && c != '\t' || c == 0x7f }
	if strings.ContainsFunc(n.text, control) {
		d.refuse(n.line, n.column, key, r.like, "has a control character in its text")
		return
	}
	v.SetString(n.text)
}

func (d *decoder) whole(n *node, v reflect.Value, r rule, key string) {
	number, err := strconv.Atoi(n.text)
	if err != nil {
		d.refuse(n.line, n.column, key, r.example(), "%s is not a whole number", strconv.Quote(short(n.text)))
		return
	}
	v.SetInt(int64(number))
	d.within(n, r, quantity.Number, key, float64(number))
}

// quantity decodes a figure with its unit, or a range where the field can hold one.
func (d *decoder) quantity(n *node, v reflect.Value, r rule, key string) {
	if !d.is(scalar, n, r, key) {
		return
	}
	if v.Type() != valueType {
		si, err := quantity.Parse(n.text, r.of[0])
		if d.accepts(n, r, err, key) && d.within(n, r, r.of[0], key, si) {
			v.SetFloat(si)
		}
		return
	}
	value, err := quantity.ParseValue(n.text, r.of[0])
	if d.accepts(n, r, err, key) && d.within(n, r, r.of[0], key, checked(value)...) {
		v.Set(reflect.ValueOf(value))
	}
}

// checked are the figures of a value that its checks look at.
func checked(v uncertain.Value) []float64 {
	if v.Kind() == uncertain.UniformKind {
		lo, hi := v.Bounds()
		return []float64{lo, hi}
	}
	return []float64{v.Mid()}
}

// accepts reports the error of a quantity, with the field's own example.
func (d *decoder) accepts(n *node, r rule, err error, key string) bool {
	var wrong *quantity.Error
	if !errors.As(err, &wrong) {
		return true
	}
	example := r.like
	if example == "" {
		example = wrong.Example
	}
	d.refuse(n.line, n.column, key, example, "%s", wrong.Sentence())
	return false
}

// within applies the checks to figures in SI units.
func (d *decoder) within(n *node, r rule, of quantity.Dimension, key string, figures ...float64) bool {
	for _, c := range r.checks {
		for _, figure := range figures {
			if !c.holds(figure) {
				d.refuse(n.line, n.column, key, r.example(), "%s %s", strconv.Quote(short(n.text)), c.words(limitIn(of, c.limit)))
				return false
			}
		}
	}
	return true
}

// limitIn prints a bound in the unit that readers mostly use.
func limitIn(of quantity.Dimension, limit float64) string {
	if of == quantity.Number {
		return quantity.Shortest(limit, "")
	}
	return quantity.Shortest(limit, of.Units()[0])
}

// row decodes one row of a table: exactly one quantity for each dimension.
func (d *decoder) row(n *node, v reflect.Value, r rule, key string) {
	if !d.is(list, n, r, key) {
		return
	}
	if len(n.items) != len(r.of) {
		d.refuse(n.line, n.column, key, r.like, "has %s, and a row here is %s", counted(len(n.items), "figure"), columns(r.of))
		return
	}
	row := make(Row, len(r.of))
	for i, item := range n.items {
		column := rule{of: r.of[i : i+1], like: r.like, checks: r.checks}
		d.value(item, reflect.ValueOf(&row[i]).Elem(), column, key)
	}
	v.Set(reflect.ValueOf(row))
}

func columns(of []quantity.Dimension) string {
	names := make([]string, len(of))
	for i, dimension := range of {
		names[i] = dimension.Name()
	}
	return strings.Join(names, ", ")
}

// counted puts a number before a noun: "1 figure", "3 figures".
func counted(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return fmt.Sprintf("%d %s", n, noun)
}

// short keeps a refused text from filling the message.
func short(text string) string {
	const most = 40
	if letters := []rune(text); len(letters) > most {
		return string(letters[:most]) + "…"
	}
	return text
}
