package picture

import (
	"strings"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Letters reach this far above and below their baseline, as a part of their size.
const (
	ascent  = 0.78
	descent = 0.22
)

// Paper is set in the Go typeface; the faces that a page falls back on are no wider on the whole, so words measured
// here fit there too.
var (
	regular = load(goregular.TTF)
	bold    = load(gobold.TTF)
)

func load(ttf []byte) func() *sfnt.Font {
	return sync.OnceValue(func() *sfnt.Font {
		f, err := sfnt.Parse(ttf)
		if err != nil {
			panic("picture: built-in typeface: " + err.Error())
		}
		return f
	})
}

// HasGlyph reports whether the typeface that paper is set in can show a character.
func HasGlyph(r rune) bool {
	i, err := regular().GlyphIndex(nil, r)
	return err == nil && i != 0
}

// TextWidth is how wide words are at a size, in the same unit. A character that the typeface lacks counts as a
// full square.
func TextWidth(words string, size float64, heavy bool) float64 {
	width := measure(heavy)
	var sum float64
	for _, r := range words {
		sum += width(r)
	}
	return sum * size
}

// measure returns what tells the width of a character as a part of its size.
func measure(heavy bool) func(rune) float64 {
	face := regular()
	if heavy {
		face = bold()
	}
	const em = 1000 // measured at a size where rounding does not matter
	var buf sfnt.Buffer
	return func(r rune) float64 {
		i, err := face.GlyphIndex(&buf, r)
		if err != nil || i == 0 {
			return 1
		}
		a, err := face.GlyphAdvance(&buf, i, fixed.I(em), font.HintingNone)
		if err != nil {
			return 1
		}
		return float64(a) / 64 / em
	}
}

// fit shortens words with an ellipsis until they are no wider than width.
func fit(words string, size float64, heavy bool, width float64) string {
	const cut = "…"
	words = strings.Join(strings.Fields(words), " ")
	of := measure(heavy)
	room := width / size
	var sum float64
	short := 0 // bytes that leave room for the ellipsis
	for i, r := range words {
		if sum+of('…') <= room {
			short = i
		}
		if sum += of(r); sum > room {
			kept := strings.TrimRight(words[:short], " ,.;:-")
			if kept == "" {
				return ""
			}
			return kept + cut
		}
	}
	return words
}

// wrap breaks words into at most most lines no wider than width; what does not fit ends in an ellipsis.
func wrap(words string, size float64, heavy bool, width float64, most int) []string {
	var lines []string
	rest := strings.Fields(words)
	for len(rest) > 0 {
		if len(lines) == most-1 {
			return append(lines, fit(strings.Join(rest, " "), size, heavy, width))
		}
		used := TextWidth(rest[0], size, heavy)
		n := 1
		for ; n < len(rest); n++ {
			used += TextWidth(" "+rest[n], size, heavy)
			if used > width {
				break
			}
		}
		lines = append(lines, fit(strings.Join(rest[:n], " "), size, heavy, width))
		rest = rest[n:]
	}
	return lines
}
