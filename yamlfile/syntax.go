package yamlfile

import (
	"strings"

	"github.com/goccy/go-yaml/token"
)

// syntax reports the parser's own error at its place, in the reader's words.
func (r *reader) syntax(err error) {
	placed, ok := err.(interface {
		GetToken() *token.Token
		GetMessage() string
	})
	if !ok {
		r.refuse(1, 1, "", "%v", err)
		return
	}
	at := placeOf(placed.GetToken())
	r.refuse(at.line, at.column, "", "%s", plainly(placed.GetMessage()))
}

// wordings put the parser's commonest complaints so that somebody who does not know YAML can act on them.
var wordings = []struct{ complaint, plainly string }{
	{"cannot start any token", "this line is indented with a tab or begins with a character that needs quotes; indent with spaces"},
	{"tab character cannot", "this line is indented with a tab; indent with spaces"},
	{"is a reserved character", "a value cannot begin with @ or `; put it in quotes"},
	{"mapping value is not allowed", "a second colon stands in this value; put the value in quotes, or indent the next line like this one"},
	{"map key-value is pre-defined", "this line stands neither under the key above nor beside it; mend its indentation, or the colon above"},
	{"value is not allowed in this context", "this value stands where none can be; look at its indentation and at the colon before it"},
	{"could not find flow mapping end token", "this { is never closed with }"},
	{"sequence end token ']' not found", "this [ is never closed with ]"},
	{"',' or '}' must be specified", "a comma or } is missing before this"},
	{"',' or ']' must be specified", "a comma or ] is missing before this"},
	{"could not find '[' character", "this ] closes nothing"},
	{"could not find '{' character", "this } closes nothing"},
	{"expected sequence element", "a value is missing before this comma"},
	{"unexpected scalar value type", "a value is missing before this"},
	{"could not find flow map content", "a key is missing here; put a text with brackets in quotes"},
	{"invalid key for this map", "a key must be a word"},
	{"could not find end character of double-quoted", "this text begins with \" and never ends with one"},
	{"could not find end character of single-quoted", "this text begins with ' and never ends with one"},
	{"unknown escape character", "a backslash in a text in double quotes means something else here; use single quotes"},
	{"non-map value is specified", "this line has no colon after its key, or is indented wrongly"},
	{"unexpected key name", "this line has no colon and a space after its key"},
	{"block sequence entries are not allowed", "a list with dashes begins on the line after its key"},
	{"implicit line break", "a key cannot go over two lines"},
}

func plainly(complaint string) string {
	for _, w := range wordings {
		if strings.Contains(complaint, w.complaint) {
			return w.plainly
		}
	}
	return "this cannot be read as YAML: " + firstLine(complaint)
}

func firstLine(text string) string {
	line, _, _ := strings.Cut(strings.TrimSpace(text), "\n")
	return line
}
