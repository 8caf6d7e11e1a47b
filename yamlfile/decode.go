package yamlfile

import (
	"encoding"
	"fmt"
	"reflect"
	"strings"
)

// Decode fills the value that into points at. Struct fields are filled by their tags:
//
//	key:"bore"         the name in the file; a field without this tag is left alone
//	of:"length"        the dimension of a quantity, for float64 and uncertain.Value; several for a Row
//	like:"19.05 mm"    the example to show in an error
//	need:"yes"         the key must be there
//	check:">0,<=1"     bounds on the value in SI units; on both bounds of a range, on the mean of a spread
//
// A field is a string, bool, int, float64 (a single figure), uncertain.Value (or a range), anything with
// UnmarshalText, a struct, a pointer (nil where the key is absent), a slice, a Map or a table of Rows. Unknown
// keys are refused. The error is Problems, at most twenty, in the order of the file. Types and tags that make no
// sense panic.
func (d *Document) Decode(into any) error {
	target := reflect.ValueOf(into)
	if target.Kind() != reflect.Pointer || target.IsNil() {
		panic("yamlfile: Decode needs a pointer to fill")
	}
	mustDecode(target.Type(), rule{}, target.Type().String(), map[reflect.Type]bool{})
	dec := decoder{file: d.file}
	dec.value(d.root, target.Elem(), rule{}, "")
	return dec.problems.asError()
}

type decoder struct {
	file     string
	problems Problems
}

func (d *decoder) refuse(line, column int, key, example, message string, args ...any) {
	if !d.problems.full() {
		d.problems = append(d.problems, Problem{d.file, line, column, key, fmt.Sprintf(message, args...), example})
	}
}

// value decodes one node by the type it goes into.
func (d *decoder) value(n *node, v reflect.Value, r rule, key string) {
	switch {
	case d.problems.full():
		return
	case n.kind == nothing:
		d.refuse(n.line, n.column, key, r.example(), "has no value")
	case v.Kind() == reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		d.value(n, v.Elem(), r, key)
	case v.Addr().Type().Implements(textType):
		d.text(n, v.Addr().Interface().(encoding.TextUnmarshaler), r, key)
	case v.Type() == rowType:
		d.row(n, v, r, key)
	case v.Type() == valueType || v.Kind() == reflect.Float64:
		d.quantity(n, v, r, key)
	case v.Addr().Type().Implements(growerType):
		d.entries(n, v.Addr().Interface().(grower), r, key)
	case v.Kind() == reflect.Struct:
		d.fields(n, v, r, key)
	case v.Kind() == reflect.Slice:
		d.items(n, v, r, key)
	default:
		d.plain(n, v, r, key)
	}
}

// is tells whether a node is of the kind wanted, and refuses it if not; the whole file has no key to name.
func (d *decoder) is(want kind, n *node, r rule, key string) bool {
	if n.kind == want {
		return true
	}
	if key == "" {
		d.refuse(n.line, n.column, key, "", "the file is %s, and %s is wanted", n.kind.a(), want.a())
		return false
	}
	d.refuse(n.line, n.column, key, r.example(), "is %s, and %s is wanted", n.kind.a(), want.a())
	return false
}

// fields decodes a struct: first the keys in the order of the file, then what is missing.
func (d *decoder) fields(n *node, v reflect.Value, r rule, key string) {
	if !d.is(mapping, n, r, key) {
		return
	}
	fields := fieldsOf(v.Type())
	known := make([]string, len(fields))
	absent := make(map[string]field, len(fields))
	for i, f := range fields {
		known[i] = f.key
		absent[f.key] = f
	}
	for _, e := range n.entries {
		f, ok := absent[e.name]
		if !ok {
			d.unknown(e, join(key, e.name), known)
			continue
		}
		delete(absent, e.name)
		d.value(e.value, v.Field(f.index), f.rule, join(key, e.name))
	}
	for _, f := range fields {
		if _, missing := absent[f.key]; missing && f.rule.need {
			d.refuse(n.line, n.column, join(key, f.key), f.rule.example(), "is missing")
		}
	}
}

func (d *decoder) unknown(e entry, key string, known []string) {
	if near := Nearest(e.name, known); near != "" {
		d.refuse(e.line, e.column, key, "", "is not a known key; did you mean %s?", near)
		return
	}
	d.refuse(e.line, e.column, key, "", "is not a known key; known here: %s", strings.Join(known, ", "))
}

// entries decodes a mapping whose names the reader chooses.
func (d *decoder) entries(n *node, into grower, r rule, key string) {
	if !d.is(mapping, n, r, key) {
		return
	}
	for _, e := range n.entries {
		d.value(e.value, reflect.ValueOf(into.add(e.name)).Elem(), r, join(key, e.name))
	}
}

func (d *decoder) items(n *node, v reflect.Value, r rule, key string) {
	if !d.is(list, n, r, key) {
		return
	}
	v.Set(reflect.MakeSlice(v.Type(), len(n.items), len(n.items)))
	for i, item := range n.items {
		d.value(item, v.Index(i), r, fmt.Sprintf("%s[%d]", key, i))
	}
}
