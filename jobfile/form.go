package jobfile

import (
	"reflect"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
)

// Field is one value of a job file that a person may fill in, whether the file has it or not.
type Field struct {
	Key     string // dotted, as in messages
	Label   string
	Value   string // as written; empty where the file does not have it
	Example string
	Needed  bool
}

// Group is a part of a job file, such as one candidate clutch.
type Group struct {
	Key    string // such as "release.metal-master"
	Fields []Field
}

// Form lays a job file out as fields to fill in: the engine, then every clutch and release system it names, then
// the driveline, the car and the shop's terms.
func Form(text []byte) []Group {
	tree, err := parser.ParseBytes(text, 0)
	if err != nil || len(tree.Docs) == 0 {
		return nil
	}
	values := map[string]string{}
	names := map[string][]string{}
	collect(tree.Docs[0].Body, "", values, names)
	groups := []Group{formGroup("engine", enginePart{}, values)}
	for _, name := range names["clutch"] {
		groups = append(groups, formGroup("clutch."+name, clutchPart{}, values))
	}
	for _, name := range names["release"] {
		groups = append(groups, formGroup("release."+name, releasePart{}, values))
	}
	if _, there := names["driveline"]; there {
		groups = append(groups, formGroup("driveline", drivePart{}, values))
	}
	return append(groups, formGroup("car", carPart{}, values), formGroup("shop", shopPart{}, values))
}

func formGroup(key string, part any, values map[string]string) Group {
	g := Group{Key: key}
	g.add(key, "", reflect.TypeOf(part), values)
	return g
}

// add appends the fields of a part, those of the parts inside it with their own label in front.
func (g *Group) add(key, label string, part reflect.Type, values map[string]string) {
	for i := range part.NumField() {
		field := part.Field(i)
		name := field.Tag.Get("key")
		fieldKey, fieldLabel := key+"."+name, strings.TrimSpace(label+" "+strings.ReplaceAll(name, "_", " "))
		inner := field.Type
		if inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		if field.Tag.Get("form") == "where given" && !given(fieldKey, values) {
			continue // one way of several to say something: the file has it or says it another way
		}
		if inner.Kind() == reflect.Struct && inner.PkgPath() == part.PkgPath() {
			g.add(fieldKey, fieldLabel, inner, values)
			continue
		}
		if inner.Kind() == reflect.Bool {
			continue
		}
		g.Fields = append(g.Fields, Field{
			Key: fieldKey, Label: strings.ToUpper(fieldLabel[:1]) + fieldLabel[1:], Value: values[fieldKey],
			Example: field.Tag.Get("like"), Needed: field.Tag.Get("need") != "",
		})
	}
}

// given reports whether the file has anything inside a key.
func given(key string, values map[string]string) bool {
	for have := range values {
		if strings.HasPrefix(have, key+".") {
			return true
		}
	}
	return false
}

// collect gathers every single value by its dotted key (a list as it is written), and the keys inside each mapping
// in the order of the file.
func collect(node ast.Node, key string, values map[string]string, names map[string][]string) {
	var pairs []*ast.MappingValueNode
	switch n := node.(type) {
	case *ast.MappingNode:
		pairs = n.Values
	case *ast.MappingValueNode:
		pairs = []*ast.MappingValueNode{n}
	case *ast.SequenceNode:
		values[key] = strings.TrimSpace(flow(n))
		return
	default:
		values[key] = node.GetToken().Value
		return
	}
	for _, pair := range pairs {
		name := pair.Key.GetToken().Value
		names[key] = append(names[key], name)
		inner := name
		if key != "" {
			inner = key + "." + name
		}
		collect(pair.Value, inner, values, names)
	}
}

// flow writes a list on one line.
func flow(list *ast.SequenceNode) string {
	parts := make([]string, len(list.Values))
	for i, value := range list.Values {
		if inner, isList := value.(*ast.SequenceNode); isList {
			parts[i] = flow(inner)
		} else {
			parts[i] = value.GetToken().Value
		}
	}
	return "[" + strings.Join(parts, ", ") + "]"
}
