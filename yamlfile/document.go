package yamlfile

import (
	"fmt"
	"strconv"
	"strings"
)

// Document is a file that has been read as YAML. It is immutable.
type Document struct {
	file string
	root *node
}

// node is a value in the file. Line and column say where to point a reader: at the value itself if it is a
// scalar, at the key that holds it if it is a mapping or a list.
type node struct {
	kind         kind
	line, column int
	text         string  // of a scalar
	entries      []entry // of a mapping
	items        []*node // of a list
}

type kind uint8

const (
	nothing kind = iota // a key with no value, or null
	scalar
	mapping
	list
)

// entry is one key of a mapping.
type entry struct {
	name         string
	line, column int
	value        *node
}

// a names the kind in a sentence.
func (k kind) a() string {
	return [...]string{"nothing", "a single value", "a group of keys and values", "a list"}[k]
}

// Has reports whether the file has the dotted key, such as "clutch.uprated.clamp_load" or "work[0]".
func (d *Document) Has(key string) bool {
	_, found := d.find(key)
	return found
}

// Fault is a Problem at the dotted key. Where the file has no such key it points at the nearest enclosing one.
func (d *Document) Fault(key, format string, args ...any) Problem {
	at, _ := d.find(key)
	return Problem{File: d.file, Line: at.line, Column: at.column, Key: key, Message: fmt.Sprintf(format, args...)}
}

// find walks down the dotted key as far as the file goes, and tells whether it came to the end.
func (d *Document) find(key string) (at *node, found bool) {
	at = d.root
	for key != "" {
		next, rest := at.step(key)
		if next == nil {
			return at, false
		}
		at, key = next, rest
	}
	return at, true
}

// step takes the first part of a dotted key. A name in the file may itself have dots in it, so the longest one
// that fits is taken.
func (n *node) step(key string) (next *node, rest string) {
	if n.kind == list {
		return n.item(key)
	}
	longest := -1
	for _, e := range n.entries {
		after, fits := strings.CutPrefix(key, e.name)
		ends := after == "" || after[0] == '.' || after[0] == '['
		if fits && ends && len(e.name) > longest {
			longest, next, rest = len(e.name), e.value, strings.TrimPrefix(after, ".")
		}
	}
	return next, rest
}

// item takes "[2]" from the front of a key.
func (n *node) item(key string) (next *node, rest string) {
	digits, rest, closed := strings.Cut(strings.TrimPrefix(key, "["), "]")
	i, err := strconv.Atoi(digits)
	if !closed || key[0] != '[' || err != nil || i < 0 || i >= len(n.items) {
		return nil, ""
	}
	return n.items[i], strings.TrimPrefix(rest, ".")
}
