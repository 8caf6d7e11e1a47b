package quantity

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// Error says why a text is not the quantity that was wanted. The parts are kept apart so that a form or a file
// reader can put its own example in place of the general one.
type Error struct {
	Text    string // as it was written; messages shorten it where it is very long
	Reason  string // the rest of the sentence that begins with the text: "has no unit"
	Example string // a text that would be accepted: "9.8 kN"
}

// Error is the whole sentence: `"9.8" has no unit; write for example 9.8 kN`.
func (e *Error) Error() string {
	return fmt.Sprintf("%s; write for example %s", e.Sentence(), e.Example)
}

// Sentence is what is wrong, without the example: `"9.8" has no unit`.
func (e *Error) Sentence() string { return fmt.Sprintf("%s %s", quote(e.Text), e.Reason) }

// shown is the number of characters of a refused text that a message repeats.
const shown = 40

func quote(text string) string {
	if utf8.RuneCountInString(text) > shown {
		text = string([]rune(text)[:shown]) + "…"
	}
	return `"` + strings.Map(visible, text) + `"`
}

// visible replaces characters that would break a line of output.
func visible(r rune) rune {
	if r < ' ' || r == 0x7f || r == '\u2028' || r == '\u2029' || r == utf8.RuneError {
		return '?'
	}
	return r
}
