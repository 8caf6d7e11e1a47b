package library

import (
	"fmt"
	"slices"
	"strings"

	"layshaft/quantity"
	"layshaft/spelling"
)

// Condition says when a job is called for. It is one of
//
//	always
//	odometer over 80000 mi
//	clutch.NAME WORD [or WORD ...]                         WORD: holds, thin, slips
//	release.NAME WORD [or WORD ...] with the new clutch    WORD: frees, drags, over-travels, bottoms
//
// NAME is a candidate of the job file; "fitted" is the one that is in the car, and so is "original" unless a
// candidate bears that name.
type Condition struct {
	subject  string // "always", "odometer", "clutch" or "release"
	name     string
	verdicts []string
	distance float64 // m
	text     string
}

// ConditionError says which word of a condition is wrong, and what would be right.
type ConditionError struct {
	Text    string // the condition as written
	Word    string // the word at fault; empty where something is missing
	Reason  string
	Nearest string // the word that was probably meant, or empty
	Example string
}

func (e *ConditionError) Error() string {
	text := fmt.Sprintf("condition %q: %s", e.Text, e.Reason)
	if e.Nearest != "" {
		return fmt.Sprintf("%s; did you mean %q?", text, e.Nearest)
	}
	return text + "; write for example " + e.Example
}

var examples = map[string]string{
	"always":   "always",
	"odometer": "odometer over 80000 mi",
	"clutch":   "clutch.fitted thin or slips",
	"release":  "release.original drags or over-travels with the new clutch",
}

var (
	subjects        = []string{"always", "odometer", "clutch", "release"}
	clutchVerdicts  = []string{"holds", "thin", "slips"}
	releaseVerdicts = []string{"frees", "drags", "over-travels", "bottoms"}
)

// ParseCondition reads a condition. A refusal is a *ConditionError.
func ParseCondition(text string) (Condition, error) {
	words := strings.Fields(text)
	text = strings.Join(words, " ")
	p := &conditionParser{text: text, words: words, example: examples["release"]}
	c, err := p.condition()
	if err != nil {
		return Condition{}, err
	}
	c.text = text
	return c, nil
}

// UnmarshalText reads a condition as ParseCondition does.
func (c *Condition) UnmarshalText(text []byte) (err error) {
	*c, err = ParseCondition(string(text))
	return err
}

// MarshalText writes what ParseCondition reads.
func (c Condition) MarshalText() ([]byte, error) { return []byte(c.text), nil }

func (c Condition) String() string { return c.text }

// conditionParser takes a condition word by word from the front.
type conditionParser struct {
	text    string
	words   []string
	example string
}

func (p *conditionParser) fail(word, nearest, format string, args ...any) error {
	return &ConditionError{Text: p.text, Word: word, Reason: fmt.Sprintf(format, args...), Nearest: nearest, Example: p.example}
}

// next takes the first word, empty at the end.
func (p *conditionParser) next() string {
	if len(p.words) == 0 {
		return ""
	}
	word := p.words[0]
	p.words = p.words[1:]
	return word
}

func (p *conditionParser) condition() (Condition, error) {
	first := p.next()
	subject, name, dotted := strings.Cut(first, ".")
	switch {
	case first == "":
		return Condition{}, p.fail("", "", "is empty")
	case !slices.Contains(subjects, subject):
		return Condition{}, p.fail(subject, spelling.Nearest(subject, subjects), "%q is not what a condition begins with (%s)", subject, strings.Join(subjects, ", "))
	}
	p.example = examples[subject]
	takesName := subject == "clutch" || subject == "release"
	switch {
	case takesName && name == "":
		return Condition{}, p.fail(first, "", "%q does not name a candidate", first)
	case dotted && !takesName:
		return Condition{}, p.fail(first, "", "%q takes no name after a dot", subject)
	}
	c := Condition{subject: subject, name: name}
	var err error
	switch subject {
	case "odometer":
		c.distance, err = p.distance()
	case "clutch":
		c.verdicts, err = p.verdicts(clutchVerdicts)
	case "release":
		if c.verdicts, err = p.verdicts(releaseVerdicts); err == nil {
			err = p.phrase("with", "the", "new", "clutch")
		}
	}
	if err == nil && len(p.words) > 0 {
		err = p.fail(p.words[0], "", "%q is left over at the end", p.words[0])
	}
	return c, err
}

// distance reads "over 80000 mi".
func (p *conditionParser) distance() (float64, error) {
	if err := p.phrase("over"); err != nil {
		return 0, err
	}
	text := strings.Join(p.words, " ")
	if text == "" {
		return 0, p.fail("", "", "ends before its distance")
	}
	metres, err := quantity.Parse(text, quantity.Length)
	if wrong, ok := err.(*quantity.Error); ok {
		return 0, p.fail(text, "", "%s", wrong.Sentence())
	}
	if metres <= 0 {
		return 0, p.fail(text, "", "%q must be more than zero", text)
	}
	p.words = nil
	return metres, nil
}

// verdicts reads "WORD [or WORD ...]".
func (p *conditionParser) verdicts(known []string) ([]string, error) {
	var verdicts []string
	for {
		word := p.next()
		switch {
		case word == "":
			return nil, p.fail("", "", "ends where %s should stand", oneOf(known))
		case !slices.Contains(known, word):
			return nil, p.fail(word, spelling.Nearest(word, known), "%q is not %s", word, oneOf(known))
		case slices.Contains(verdicts, word):
			return nil, p.fail(word, "", "%q stands there twice", word)
		}
		verdicts = append(verdicts, word)
		if len(p.words) == 0 || p.words[0] != "or" {
			return verdicts, nil
		}
		p.next()
	}
}

// phrase reads fixed words.
func (p *conditionParser) phrase(words ...string) error {
	for _, want := range words {
		switch got := p.next(); {
		case got == "":
			return p.fail("", "", "ends where %q should stand", want)
		case got != want:
			return p.fail(got, spelling.Nearest(got, []string{want}), "%q stands where %q should", got, want)
		}
	}
	return nil
}

// oneOf joins words for a sentence: "holds, thin or slips".
func oneOf(words []string) string {
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}
