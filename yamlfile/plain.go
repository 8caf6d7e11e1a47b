package yamlfile

import "github.com/goccy/go-yaml/token"

// refused are the parts of YAML that are not taken, in the reader's words.
var refused = map[token.Type]string{
	token.AnchorType:     "anchors (&name) are not used here; write the value out at each place",
	token.AliasType:      "aliases (*name) are not used here; write the value out, or put the text in quotes",
	token.MergeKeyType:   "merge keys (<<) are not used here; write the keys out at each place",
	token.TagType:        "tags (!name) are not used here; write the value alone, or put the text in quotes",
	token.DirectiveType:  "directives (%NAME) are not used here; leave the line out",
	token.MappingKeyType: "keys after a question mark are not used here; write \"key: value\"",
}

// isPlain refuses, before the recursive parser runs, what is not taken and what lies too deep.
func (r *reader) isPlain(tokens token.Tokens) bool {
	var depth nesting
	content, ended := false, false
	for i, tk := range tokens {
		at := tk.Position
		if message, ok := refused[tk.Type]; ok {
			r.refuse(at.Line, at.Column, "", "%s", message)
			return false
		}
		switch tk.Type {
		case token.CommentType:
			continue
		case token.DocumentHeaderType:
			ended = ended || content
			content = true // a header alone already makes a document
			continue
		case token.DocumentEndType:
			ended = true
			continue
		}
		if ended {
			r.refuse(at.Line, at.Column, "", "a second document begins here; one file holds one document")
			return false
		}
		content = true
		if depth.after(tokens, i) > maxDepth {
			r.refuse(at.Line, at.Column, "", "groups and lists lie more than %d deep inside each other", maxDepth)
			return false
		}
	}
	return true
}

// nesting estimates, never too high, how deep a token lies: by brackets and by the columns of keys and dashes.
type nesting struct {
	brackets int
	columns  []int
}

func (n *nesting) after(tokens token.Tokens, i int) int {
	switch tk := tokens[i]; tk.Type {
	case token.SequenceStartType, token.MappingStartType:
		n.brackets++
	case token.SequenceEndType, token.MappingEndType:
		n.brackets--
	case token.SequenceEntryType:
		n.indent(tk.Position.Column)
	case token.MappingValueType:
		if i > 0 {
			n.indent(tokens[i-1].Position.Column)
		}
	}
	return n.brackets + len(n.columns)
}

func (n *nesting) indent(column int) {
	if n.brackets > 0 {
		return
	}
	for len(n.columns) > 0 && n.columns[len(n.columns)-1] >= column {
		n.columns = n.columns[:len(n.columns)-1]
	}
	n.columns = append(n.columns, column)
}
