package yamlfile

import (
	"encoding"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"layshaft/quantity"
	"layshaft/uncertain"
)

// rule is what a struct tag says about a value.
type rule struct {
	of     []quantity.Dimension
	like   string
	need   bool
	checks []check
}

// field is a struct field that a key fills.
type field struct {
	index int
	key   string
	rule  rule
}

var (
	valueType  = reflect.TypeFor[uncertain.Value]()
	rowType    = reflect.TypeFor[Row]()
	textType   = reflect.TypeFor[encoding.TextUnmarshaler]()
	growerType = reflect.TypeFor[grower]()
)

// fieldsOf reads the tags of a struct; fields without a key tag are not the file's concern. A tag that makes no
// sense panics, as the program is wrong, not the file.
func fieldsOf(t reflect.Type) []field {
	var fields []field
	taken := map[string]bool{}
	for i := range t.NumField() {
		f := t.Field(i)
		key, ok := f.Tag.Lookup("key")
		if !ok {
			continue
		}
		where := t.String() + "." + f.Name
		if !f.IsExported() || key == "" || taken[key] {
			panic(fmt.Sprintf("yamlfile: %s: the key tag needs an exported field and a key of its own", where))
		}
		taken[key] = true
		fields = append(fields, field{i, key, ruleOf(f.Tag, where)})
	}
	return fields
}

func ruleOf(tag reflect.StructTag, where string) rule {
	r := rule{like: tag.Get("like")}
	switch need := tag.Get("need"); need {
	case "":
	case "yes":
		r.need = true
	default:
		panic(fmt.Sprintf("yamlfile: %s: need:%q is not need:\"yes\"", where, need))
	}
	for _, name := range listed(tag.Get("of")) {
		d, ok := quantity.DimensionNamed(name)
		if !ok {
			panic(fmt.Sprintf("yamlfile: %s: no dimension is called %q", where, name))
		}
		r.of = append(r.of, d)
	}
	for _, text := range listed(tag.Get("check")) {
		c, ok := parseCheck(text)
		if !ok {
			panic(fmt.Sprintf("yamlfile: %s: cannot understand check %q", where, text))
		}
		r.checks = append(r.checks, c)
	}
	return r
}

func listed(tag string) []string {
	if tag == "" {
		return nil
	}
	return strings.Split(tag, ",")
}

// example is what to show in an error: the tag's own, or the dimension's.
func (r rule) example() string {
	if r.like == "" && len(r.of) == 1 {
		return r.of[0].Example()
	}
	return r.like
}

// mustDecode panics where a type or a tag cannot be decoded, whether or not this file has such a key.
func mustDecode(t reflect.Type, r rule, where string, seen map[reflect.Type]bool) {
	wrong := func(why string) { panic(fmt.Sprintf("yamlfile: %s: %s %s", where, t, why)) }
	plain := func() {
		if len(r.of) > 0 || len(r.checks) > 0 && t.Kind() != reflect.Int {
			wrong("is no quantity and has an of or a check tag")
		}
	}
	switch {
	case t.Kind() == reflect.Pointer:
		mustDecode(t.Elem(), r, where, seen)
	case reflect.PointerTo(t).Implements(textType):
		plain()
	case t == rowType:
		if len(r.of) == 0 {
			wrong("needs the dimensions of its columns in an of tag")
		}
	case t == valueType, t.Kind() == reflect.Float64:
		if len(r.of) != 1 {
			wrong("needs one dimension in an of tag")
		}
	case reflect.PointerTo(t).Implements(growerType):
		entry, _ := t.Elem().FieldByName("Value")
		mustDecode(entry.Type, r, where, seen)
	case t.Kind() == reflect.Slice:
		mustDecode(t.Elem(), r, where, seen)
	case t.Kind() == reflect.Struct:
		plain()
		if seen[t] {
			return
		}
		seen[t] = true
		for _, f := range fieldsOf(t) {
			mustDecode(t.Field(f.index).Type, f.rule, t.String()+"."+t.Field(f.index).Name, seen)
		}
	case t.Kind() == reflect.String, t.Kind() == reflect.Bool, t.Kind() == reflect.Int:
		plain()
	default:
		wrong("cannot be read from a file")
	}
}

// check is a bound on a value in SI units.
type check struct {
	sign  string // ">", ">=", "<" or "<="
	limit float64
}

func parseCheck(text string) (check, bool) {
	for _, sign := range []string{">=", "<=", ">", "<"} {
		if number, ok := strings.CutPrefix(text, sign); ok {
			limit, err := strconv.ParseFloat(number, 64)
			return check{sign, limit}, err == nil
		}
	}
	return check{}, false
}

func (c check) holds(v float64) bool {
	switch c.sign {
	case ">":
		return v > c.limit
	case ">=":
		return v >= c.limit
	case "<":
		return v < c.limit
	default:
		return v <= c.limit
	}
}

// words put the check so that it follows the value in a sentence; limit is the bound in the reader's unit.
func (c check) words(limit string) string {
	switch {
	case c.sign == ">" && c.limit == 0:
		return "must be more than zero"
	case c.sign == ">=" && c.limit == 0:
		return "must not be less than zero"
	case c.sign == ">":
		return "must be more than " + limit
	case c.sign == ">=":
		return "must be at least " + limit
	case c.sign == "<":
		return "must be less than " + limit
	default:
		return "must be at most " + limit
	}
}
