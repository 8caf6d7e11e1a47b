package yamlfile

import (
	"fmt"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
)

// position is a place in the file; the zero position is unknown.
type position struct{ line, column int }

func placeOf(tk *token.Token) position {
	if tk == nil || tk.Position == nil {
		return position{1, 1}
	}
	return position{tk.Position.Line, tk.Position.Column}
}

// node copies the library's tree into ours. Owner is where the key stands that holds the value, if a key does.
func (r *reader) node(from ast.Node, owner position, path string, depth int) *node {
	place := owner
	if place == (position{}) {
		place = firstOf(from)
	}
	n := &node{line: place.line, column: place.column}
	if depth > maxDepth {
		r.refuse(n.line, n.column, path, "groups and lists lie more than %d deep inside each other", maxDepth)
		return n
	}
	switch from := from.(type) {
	case nil, *ast.NullNode:
		// stays nothing
	case *ast.MappingNode:
		n.kind = mapping
		r.mapping(n, from.Values, path, depth)
	case *ast.MappingValueNode:
		n.kind = mapping
		r.mapping(n, []*ast.MappingValueNode{from}, path, depth)
	case *ast.SequenceNode:
		n.kind = list
		for i, item := range from.Values {
			n.items = append(n.items, r.node(item, position{}, fmt.Sprintf("%s[%d]", path, i), depth+1))
		}
	default:
		text, ok := scalarText(from)
		if !ok {
			r.refuse(n.line, n.column, path, "%s", errUnreadable)
			return n
		}
		at := placeOf(from.GetToken())
		n.kind, n.text, n.line, n.column = scalar, text, at.line, at.column
	}
	return n
}

func (r *reader) mapping(n *node, values []*ast.MappingValueNode, path string, depth int) {
	first := map[string]int{}
	for _, value := range values {
		at := placeOf(value.Key.GetToken())
		name, ok := scalarText(value.Key)
		if !ok || name == "" {
			r.refuse(at.line, at.column, path, "a key must be a word")
			continue
		}
		key := join(path, name)
		if line, twice := first[name]; twice {
			r.refuse(at.line, at.column, key, "is written twice, first in line %d; leave one out", line)
			continue
		}
		first[name] = at.line
		n.entries = append(n.entries, entry{name, at.line, at.column, r.node(value.Value, at, key, depth+1)})
	}
}

// join adds a name to a dotted key.
func join(path, name string) string {
	if path == "" {
		return name
	}
	return path + "." + name
}

// firstOf is where a value begins: at its first key if it is a mapping.
func firstOf(from ast.Node) position {
	switch from := from.(type) {
	case nil:
		return position{1, 1}
	case *ast.MappingNode:
		if len(from.Values) > 0 && !from.IsFlowStyle {
			return placeOf(from.Values[0].Key.GetToken())
		}
		return placeOf(from.Start)
	case *ast.MappingValueNode:
		return placeOf(from.Key.GetToken())
	}
	return placeOf(from.GetToken())
}

// scalarText is a single value as it was written, without quotes. Numbers keep their spelling, so that a part
// number 0123 or a price 78.00 is not changed by passing for a number.
func scalarText(from ast.Node) (string, bool) {
	switch from := from.(type) {
	case *ast.StringNode:
		return from.Value, true
	case *ast.LiteralNode:
		return from.Value.Value, true
	case *ast.IntegerNode, *ast.FloatNode, *ast.BoolNode, *ast.InfinityNode, *ast.NanNode:
		return from.GetToken().Value, true
	}
	return "", false
}
