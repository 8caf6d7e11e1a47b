package paper

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/picture"
)

func TestLinesAreNeverWiderThanTheirColumn(t *testing.T) {
	r := newRuler()
	rapid.Check(t, func(t *rapid.T) {
		width, room := rapid.Float64Range(15, 190).Draw(t, "width"), rapid.Float64Range(0, 8).Draw(t, "room")
		s := letters(rapid.Float64Range(7.5, 22).Draw(t, "size"))
		text, more := rapid.String().Draw(t, "text"), rapid.String().Draw(t, "more")
		for i, l := range r.wrapBeside(room, width, 1000, s.says(text), s.heavy().says(more)) {
			most := width
			if i == 0 {
				most -= room
			}
			for _, run := range l.runs {
				if end := run.x + r.width(run.words, run.style); end > most+1e-6 {
					t.Fatalf("line %d ends at %g of %g: %q", i, end, most, run.words)
				}
			}
		}
	})
}

func TestWrappingLosesNoLetter(t *testing.T) {
	r := newRuler()
	bare := func(text string) string { return strings.Join(strings.Fields(text), "") }
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.String().Draw(t, "text")
		var got strings.Builder
		for _, l := range r.wrap(rapid.Float64Range(15, 100).Draw(t, "width"), 10000, letters(8).says(text)) {
			for _, run := range l.runs {
				got.WriteString(run.words)
			}
		}
		if bare(got.String()) != bare(r.printable(text)) {
			t.Fatalf("%q came out as %q", text, got.String())
		}
	})
}

func TestWhatIsTooLongEndsInAnEllipsis(t *testing.T) {
	r := newRuler()
	s := letters(8)
	lines := r.wrap(40, 3, s.says(strings.Repeat("word ", 500)))
	if last := lines[len(lines)-1].runs[0].words; len(lines) != 3 || !strings.HasSuffix(last, "…") {
		t.Errorf("%d lines, the last ends %q", len(lines), last)
	}
}

func TestAFigureKeepsItsUnit(t *testing.T) {
	got := chunks("Original slips (341 N m), free at 93 mm of 142 mm; 0.50 h, 20 %: for (5 in 100)")
	want := []string{"Original", "slips", "(341 N m),", "free", "at", "93 mm", "of", "142 mm;", "0.50 h,", "20 %:", "for", "(5", "in", "100)"}
	if !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
}

func TestAMarkStaysWithTheWordThatFollows(t *testing.T) {
	r := newRuler()
	s := letters(8)
	for width := 20.0; width < 90; width += 0.5 {
		for _, l := range r.wrap(width, 100, s.says("Take the gearbox off and lower it"), caution(s), s.says("Never let it hang")) {
			if last := l.runs[len(l.runs)-1]; last.tied {
				t.Errorf("%g mm: a line ends in its mark", width)
			}
		}
	}
}

func TestColumnsAreParted(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var blocks []block
		for _, h := range rapid.SliceOfN(rapid.Float64Range(1, 60), 0, 40).Draw(t, "heights") {
			blocks = append(blocks, block{height: h, stays: rapid.Bool().Draw(t, "stays")})
		}
		left, right := levelled(blocks)
		if len(left)+len(right) != len(blocks) {
			t.Fatalf("%d and %d of %d", len(left), len(right), len(blocks))
		}
		if len(left) > 0 && len(right) > 0 && left[len(left)-1].stays {
			t.Fatal("parted where it must not be")
		}
		if taller := max(tall(left), tall(right)); taller > tall(blocks)+1e-9 {
			t.Fatalf("%g of %g", taller, tall(blocks))
		}
	})
}

func TestFiguresStandBelowOneAnother(t *testing.T) {
	r := newRuler()
	for _, s := range []style{letters(8), letters(8).heavy()} {
		for _, digit := range "0123456789" {
			if w := r.letter(digit, s); math.Abs(w-r.letter('0', s)) > 1e-9 {
				t.Errorf("%c is %g wide, 0 is %g", digit, w, r.letter('0', s))
			}
		}
	}
}

func TestVerdictsAreMarkedInBlackAndWhiteToo(t *testing.T) {
	seen := map[string]bool{}
	for _, word := range []string{"holds", "thin", "slips"} {
		seen[strings.Fields(verdict(word, letters(8)).words)[0]] = true
	}
	if len(seen) != 3 {
		t.Errorf("%d marks for three kinds of verdict", len(seen))
	}
	for mark := range seen {
		if !picture.HasGlyph([]rune(mark)[0]) {
			t.Errorf("the typeface lacks %s", mark)
		}
	}
}
