// Package yamlfile reads YAML 1.2 files strictly and tells, for everything it refuses, the file, line, column
// and key, what is wrong and what would be right. Quantities are read with their units. Of YAML it takes what
// people write by hand: mappings, lists and single values. Anchors, aliases, merge keys, tags and several
// documents in one file are refused, because each of them lets a file mean something else than it seems to say.
package yamlfile

import (
	"bytes"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/lexer"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"
)

// maxBytes is far more than any file that people write by hand.
const maxBytes = 4 << 20

// maxDepth is how deep groups and lists may lie inside each other.
const maxDepth = 32

// Parse reads a file's text. Its error is always Problems.
func Parse(file string, data []byte) (*Document, error) {
	r := reader{file: file}
	root := r.read(data)
	if err := r.problems.asError(); err != nil {
		return nil, err
	}
	return &Document{file: file, root: root}, nil
}

// reader turns text into nodes and collects what it has to refuse.
type reader struct {
	file     string
	problems Problems
}

func (r *reader) refuse(line, column int, key, message string, args ...any) {
	if !r.problems.full() {
		r.problems = append(r.problems, Problem{File: r.file, Line: line, Column: column, Key: key, Message: fmt.Sprintf(message, args...)})
	}
}

func (r *reader) read(data []byte) *node {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !r.isText(data) {
		return nil
	}
	tokens, err := tokenize(lineEnds.Replace(string(data)))
	if err != nil {
		r.refuse(1, 1, "", "%v", err)
		return nil
	}
	if !r.isPlain(tokens) {
		return nil
	}
	body, err := parseTokens(tokens)
	if err != nil {
		r.syntax(err)
		return nil
	}
	if body == nil {
		r.refuse(1, 1, "", "the file is empty")
		return nil
	}
	return r.node(body, position{}, "", 0)
}

// lineEnds makes all line ends alike, as YAML has it; the library counts some of the others twice.
var lineEnds = strings.NewReplacer("\r\n", "\n", "\r", "\n")

// isText refuses bytes that are no text, before anything else looks at them.
func (r *reader) isText(data []byte) bool {
	if len(data) > maxBytes {
		r.refuse(1, 1, "", "the file has %d bytes, more than the %d that are read", len(data), maxBytes)
		return false
	}
	line, column := 1, 1
	for i := 0; i < len(data); {
		c, size := utf8.DecodeRune(data[i:])
		switch {
		case c == utf8.RuneError && size <= 1:
			r.refuse(line, column, "", "byte %d of the file (hexadecimal %02x) is not UTF-8 text; save the file as UTF-8", i+1, data[i])
			return false
		case c < ' ' && c != '\t' && c != '\n' && c != '\r', c == 0x7f:
			r.refuse(line, column, "", "byte %d of the file is a control character (hexadecimal %02x)", i+1, data[i])
			return false
		case c == '\n':
			line, column = line+1, 1
		default:
			column++
		}
		i += size
	}
	return true
}

// tokenize splits the text. The library is trusted with text, not with never failing on it.
func tokenize(text string) (tokens token.Tokens, err error) {
	defer failSoftly(&err)
	return lexer.Tokenize(text), nil
}

// parseTokens returns the body of the only document, nil if it is empty.
func parseTokens(tokens token.Tokens) (body ast.Node, err error) {
	defer failSoftly(&err)
	// Duplicate keys are refused in reader.mapping, which can name all of them.
	tree, err := parser.Parse(tokens, 0, parser.AllowDuplicateMapKey())
	if err != nil {
		return nil, err
	}
	for _, doc := range tree.Docs {
		if doc.Body != nil {
			return doc.Body, nil
		}
	}
	return nil, nil
}

var errUnreadable = errors.New("the file cannot be read as YAML")

func failSoftly(err *error) {
	if recover() != nil {
		*err = errUnreadable
	}
}
