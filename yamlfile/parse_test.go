package yamlfile

import (
	"errors"
	"fmt"
	"strings"
	"testing"
)

// refusal is the whole text of the error that Parse gives.
func refusal(t *testing.T, text string) string {
	t.Helper()
	doc, err := Parse("f", []byte(text))
	if err == nil {
		t.Fatalf("%.60q was accepted", text)
	}
	if doc != nil {
		t.Errorf("%.60q gives an error and a document", text)
	}
	return err.Error()
}

func TestParseRefusesWhatIsNoPlainYAML(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"", "f:1:1: the file is empty"},
		{"# only a remark\n", "f:1:1: the file is empty"},
		{"---\n", "f:1:1: the file is empty"},
		{"a: \xff\n", "f:1:4: byte 4 of the file (hexadecimal ff) is not UTF-8 text; save the file as UTF-8"},
		{"ä: 1\nb: \x00\n", "f:2:4: byte 10 of the file is a control character (hexadecimal 00)"},
		{"a: 1\n---\nb: 2\n", "f:3:1: a second document begins here; one file holds one document"},
		{"a: 1\n...\nb: 2\n", "f:3:1: a second document begins here; one file holds one document"},
		{"a: 1\nb: 2\na: 3\n", "f:3:1: a: is written twice, first in line 1; leave one out"},
		{"a: {b: 1, b: 2}\n", "f:1:11: a.b: is written twice, first in line 1; leave one out"},
		{"a: &x 3\n", "f:1:4: anchors (&name) are not used here; write the value out at each place"},
		{"a: *x\n", "f:1:4: aliases (*name) are not used here; write the value out, or put the text in quotes"},
		{"<<: {a: 1}\n", "f:1:1: merge keys (<<) are not used here; write the keys out at each place"},
		{"a: !!str 3\n", "f:1:4: tags (!name) are not used here; write the value alone, or put the text in quotes"},
		{"%YAML 1.2\n---\na: 1\n", "f:1:1: directives (%NAME) are not used here; leave the line out, or put the text in quotes"},
		{"? a\n: 3\n", "f:1:1: keys after a question mark are not used here; write \"key: value\""},
		{"[a, b]: c\n", "f:1:7: a key must be a word"},
		{"'': 3\n", "f:1:1: a key must be a word"},
	} {
		if got := refusal(t, c.text); got != c.want {
			t.Errorf("%.60q\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

func TestSyntaxErrorsAreToldPlainly(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"a: 1\n\tb: 2\n", "f:2:1: this line is indented with a tab or begins with a character that needs quotes; indent with spaces"},
		{"\ta: 1\n", "f:1:2: this line is indented with a tab; indent with spaces"},
		{"a: [3\n", "f:1:4: this [ is never closed with ]"},
		{"a: {b: 3\n", "f:1:4: this { is never closed with }"},
		{"a: ]\n", "f:1:4: this ] closes nothing"},
		{"a: [b,,c]\n", "f:1:7: a value is missing before this"},
		{"a: \"3\n", "f:1:4: this text begins with \" and never ends with one"},
		{"a: '3\n", "f:1:4: this text begins with ' and never ends with one"},
		{"a: \"\\q\"\n", "f:1:6: a backslash in a text in double quotes means something else here; use single quotes"},
		{"a: @x\n", "f:1:4: a value cannot begin with @ or `; put it in quotes"},
		{"a: b: c\n", "f:1:4: a second colon stands in this value; put the value in quotes, or indent the next line like this one"},
		{"a: 1\n  b: 2\n", "f:1:4: a second colon stands in this value; put the value in quotes, or indent the next line like this one"},
		{"a: - b\n", "f:1:4: a list with dashes begins on the line after its key"},
		{"a: {{x}}\n", "f:1:5: a key is missing here; put a text with brackets in quotes"},
		{": 3\n", "f:1:1: this line has no colon and a space after its key"},
	} {
		if got := refusal(t, c.text); got != c.want {
			t.Errorf("%.60q\n got %s\nwant %s", c.text, got, c.want)
		}
	}
}

func TestParseTakesTheUsualForms(t *testing.T) {
	for _, text := range []string{
		"a: 1\n", "---\na: 1\n", "---\na: 1\n...\n", "\ufeffa: 1\n", "a: 1\r\nb: 2\r\n", "{a: 1, b: [2, 3]}", "- 1\n- 2\n",
		"a: |\n  two\n  lines\n", "'a': \"1\"\n", "a:\n- 1\n- 2\nb: 3\n", "a: 1 # remark\n# remark\nb: 2", "\"<<\": 1\n",
	} {
		if _, err := Parse("f", []byte(text)); err != nil {
			t.Errorf("%q: %v", text, err)
		}
	}
}

func TestParseRefusesWhatIsTooLarge(t *testing.T) {
	var keys strings.Builder
	for i := range maxKeys + 1 {
		fmt.Fprintf(&keys, "k%d: 1\n", i)
	}
	for name, c := range map[string]struct{ text, want string }{
		"bytes":    {strings.Repeat("#", maxBytes+1), "f:1:1: the file has 4194305 bytes, more than the 4194304 that are read"},
		"brackets": {strings.Repeat("[", 100000), "f:1:33: groups and lists lie more than 32 deep inside each other"},
		"braces":   {strings.Repeat("a: {", 40), "more than 32 deep"},
		"dashes":   {strings.Repeat("- ", 40) + "a", "f:1:65: groups and lists lie more than 32 deep inside each other"},
		"indents":  {indented(40), "more than 32 deep"},
		"keys":     {keys.String(), "f:2001:6: a group has more than 2000 keys"},
		"words":    {"[" + strings.Repeat("a,", 100000) + "a]", "f:1:200001: the file goes on too long; it may have 200000 words and marks"},
	} {
		if got := refusal(t, c.text); !strings.Contains(got, c.want) || strings.Count(got, "\n") > 0 {
			t.Errorf("%s: got %.200s, want %s", name, got, c.want)
		}
	}
}

// indented is a mapping of so many levels.
func indented(levels int) string {
	var text strings.Builder
	for i := range levels {
		text.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return text.String()
}

func TestDepthIsAllowedUpToItsLimit(t *testing.T) {
	if _, err := Parse("f", []byte(indented(maxDepth))); err != nil {
		t.Error(err)
	}
	if _, err := Parse("f", []byte(strings.Repeat("[", maxDepth)+strings.Repeat("]", maxDepth))); err != nil {
		t.Error(err)
	}
}

func TestParseErrorsAreProblems(t *testing.T) {
	_, err := Parse("f", []byte("a: 1\na: 2\nb: 1\nb: 2\n"))
	var all Problems
	if !errors.As(err, &all) || len(all) != 2 {
		t.Fatalf("got %#v", err)
	}
	var first Problem
	if !errors.As(err, &first) || first != (Problem{File: "f", Line: 2, Column: 1, Key: "a", Message: "is written twice, first in line 1; leave one out"}) {
		t.Errorf("got %#v", first)
	}
}
