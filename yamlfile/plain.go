package yamlfile

import "github.com/goccy/go-yaml/token"

// refused are the parts of YAML that are not taken, in the reader's words.
var refused = map[token.Type]string{
	token.AnchorType:     "anchors (&name) are not used here; write the value out at each place",
	token.AliasType:      "aliases (*name) are not used here; write the value out, or put the text in quotes",
	token.MergeKeyType:   "merge keys (<<) are not used here; write the keys out at each place",
	token.TagType:        "tags (!name) are not used here; write the value alone, or put the text in quotes",
	token.DirectiveType:  "directives (%NAME) are not used here; leave the line out, or put the text in quotes",
	token.MappingKeyType: "keys after a question mark are not used here; write \"key: value\"",
}

// isPlain refuses, before the recursive parser runs, what is not taken and what lies too deep.
func (r *reader) isPlain(tokens token.Tokens) bool {
	if len(tokens) > maxTokens {
		at := placeOf(tokens[maxTokens])
		r.refuse(at.line, at.column, "", "the file goes on too long; it may have %d words and marks", maxTokens)
		return false
	}
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
		depth.take(tokens, i)
		if depth.levels() > maxDepth {
			r.refuse(at.Line, at.Column, "", "groups and lists lie more than %d deep inside each other", maxDepth)
			return false
		}
		if depth.keys() > maxKeys {
			r.refuse(at.Line, at.Column, "", "a group has more than %d keys", maxKeys)
			return false
		}
	}
	return true
}

// maxKeys is how many keys a group may have, and maxTokens how many words and marks a file. The parser goes one
// call deeper for each key of a group and takes time with the square of their number, so that without limits a
// long file could exhaust the stack or keep a machine busy for minutes.
const (
	maxKeys   = 2000
	maxTokens = 200_000
)

// nesting estimates, never too high, how deep a token lies: by brackets and by the columns of keys and dashes.
type nesting struct {
	brackets int
	indents  []indent
}

// indent is one level of indentation and the number of keys that stand at it.
type indent struct{ column, keys int }

func (n *nesting) levels() int { return n.brackets + len(n.indents) }

// keys is the number of keys so far in the innermost group.
func (n *nesting) keys() int {
	if len(n.indents) == 0 {
		return 0
	}
	return n.indents[len(n.indents)-1].keys
}

func (n *nesting) take(tokens token.Tokens, i int) {
	switch tk := tokens[i]; tk.Type {
	case token.SequenceStartType, token.MappingStartType:
		n.brackets++
	case token.SequenceEndType, token.MappingEndType:
		n.brackets--
	case token.SequenceEntryType:
		n.at(tk.Position.Column, 0)
	case token.MappingValueType:
		if i > 0 {
			n.at(tokens[i-1].Position.Column, 1)
		}
	}
}

// at goes to the level of a column, out of the deeper ones.
func (n *nesting) at(column, keys int) {
	if n.brackets > 0 {
		return
	}
	for len(n.indents) > 0 && n.indents[len(n.indents)-1].column > column {
		n.indents = n.indents[:len(n.indents)-1]
	}
	if len(n.indents) == 0 || n.indents[len(n.indents)-1].column < column {
		n.indents = append(n.indents, indent{column: column})
	}
	n.indents[len(n.indents)-1].keys += keys
}
