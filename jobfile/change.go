package jobfile

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"

	"layshaft/workshop"
)

// Change sets single values in a job file's text and leaves everything else, comments included, as it stands
// (but for blanks after a colon). A key that is not there yet is added, with whatever it stands in. An empty value takes the key out.
func Change(text []byte, changes []workshop.Change) ([]byte, error) {
	tree, err := parser.ParseBytes(text, parser.ParseComments)
	if err != nil || len(tree.Docs) != 1 {
		return nil, fmt.Errorf("the job file can no longer be read as YAML: %w", err)
	}
	for _, change := range changes {
		if err := set(tree.Docs[0].Body, change); err != nil {
			return nil, err
		}
	}
	out := []byte(tree.String())
	if !bytes.HasSuffix(out, []byte("\n")) {
		out = append(out, '\n')
	}
	return out, nil
}

func set(root ast.Node, change workshop.Change) error {
	steps := strings.Split(change.Key, ".")
	mapping, ok := root.(*ast.MappingNode)
	for ok && len(steps) > 1 {
		value := find(mapping, steps[0])
		if value == nil {
			break
		}
		next, isMapping := value.Value.(*ast.MappingNode)
		if !isMapping {
			return &workshop.Fault{Key: change.Key, Message: fmt.Sprintf("%q holds a single value, not keys", steps[0])}
		}
		mapping, steps = next, steps[1:]
	}
	if !ok {
		return &workshop.Fault{Key: change.Key, Message: "the job file is not a mapping of keys"}
	}
	if change.To == "" {
		remove(mapping, steps)
		return nil
	}
	added, err := written(mapping, steps, change.To)
	if err != nil {
		return &workshop.Fault{Key: change.Key, Message: fmt.Sprintf("%q cannot be written as a value: %v", change.To, err)}
	}
	if there := find(mapping, steps[0]); there != nil {
		if comment := there.Value.GetComment(); comment != nil {
			if err := added.Value.SetComment(comment); err != nil {
				return err
			}
		}
		added.Value.AddColumn(there.Value.GetToken().Position.Column - added.Value.GetToken().Position.Column)
		return there.Replace(added.Value)
	}
	mapping.Merge(&ast.MappingNode{BaseNode: &ast.BaseNode{}, Start: added.Start, IsFlowStyle: mapping.IsFlowStyle, Values: []*ast.MappingValueNode{added}})
	return nil
}

func find(mapping *ast.MappingNode, key string) *ast.MappingValueNode {
	for _, value := range mapping.Values {
		if value.Key.GetToken().Value == key {
			return value
		}
	}
	return nil
}

func remove(mapping *ast.MappingNode, steps []string) {
	if len(steps) > 1 {
		return
	}
	for i, value := range mapping.Values {
		if value.Key.GetToken().Value == steps[0] {
			mapping.Values = append(mapping.Values[:i:i], mapping.Values[i+1:]...)
			return
		}
	}
}

// written is the key with its value as YAML nodes, one step inside the other.
func written(mapping *ast.MappingNode, steps []string, value string) (*ast.MappingValueNode, error) {
	text := value
	if !strings.HasPrefix(value, "[") {
		quoted, err := yaml.Marshal(value)
		if err != nil {
			return nil, err
		}
		text = strings.TrimSuffix(string(quoted), "\n")
	}
	for i := len(steps) - 1; i > 0; i-- {
		text = "{" + steps[i] + ": " + text + "}"
	}
	tree, err := parser.ParseBytes([]byte(steps[0]+": "+text+"\n"), 0)
	if err != nil {
		return nil, err
	}
	switch body := tree.Docs[0].Body.(type) {
	case *ast.MappingNode:
		return body.Values[0], nil
	case *ast.MappingValueNode:
		return body, nil
	}
	return nil, fmt.Errorf("it does not make one key")
}
