package picture

import (
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestFittedWordsFit(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.String().Draw(t, "words")
		width := rapid.Float64Range(0, 300).Draw(t, "width")
		heavy := rapid.Bool().Draw(t, "heavy")
		got := fit(words, 12, heavy, width)
		if w := TextWidth(got, 12, heavy); w > width+1e-9 {
			t.Fatalf("%q is %v wide, want at most %v", got, w, width)
		}
		if utf8.ValidString(words) && !utf8.ValidString(got) {
			t.Fatalf("%q was cut within a character: %q", words, got)
		}
		for _, l := range wrap(words, 12, heavy, width, 3) {
			if TextWidth(l, 12, heavy) > width+1e-9 {
				t.Fatalf("line %q is wider than %v", l, width)
			}
		}
	})
}

func TestWrappingKeepsAllWordsThatFit(t *testing.T) {
	got := wrap("master cylinder and pipe", 12, false, 100, 4)
	if len(got) != 2 || got[0] != "master cylinder" || got[1] != "and pipe" {
		t.Errorf("%q", got)
	}
	if got := wrap("one two three four five six", 12, false, 40, 2); len(got) != 2 {
		t.Errorf("%q", got)
	}
	if got := fit("short", 12, false, 500); got != "short" {
		t.Errorf("%q", got)
	}
}

func TestWidthsFollowTheTypeface(t *testing.T) {
	if TextWidth("HHHH", 10, false) != 4*TextWidth("H", 10, false) || TextWidth("H", 20, false) != 2*TextWidth("H", 10, false) {
		t.Error("widths do not add up")
	}
	if TextWidth("Wide", 10, true) <= TextWidth("Wide", 10, false) {
		t.Error("bold letters are no wider")
	}
	if TextWidth("齿", 10, false) != 10 {
		t.Error("a missing character does not count as a full square")
	}
}
