package paper

import (
	"slices"
	"strings"

	"layshaft/picture"
)

// mm is a point of type in millimetres.
const mm = 25.4 / 72

// style is how words are set; size is in points.
type style struct {
	size float64
	bold bool
	role picture.Role
}

func (s style) heavy() style               { s.bold = true; return s }
func (s style) in(role picture.Role) style { s.role = role; return s }
func (s style) leading() float64           { return s.size * 1.17 * mm }
func (s style) says(words string) span     { return span{words, s} }

// span is a run of words in one style.
type span struct {
	words string
	style
}

// run is words that stand in a line, x from the line's left end.
type run struct {
	x float64
	span
}

// line is one line of a paragraph.
type line struct {
	runs  []run
	width float64
}

// ruler measures words in the typeface that paper is set in. It keeps what it has found out about every character.
type ruler struct {
	plain, bold map[rune]float64
	shown       map[rune]rune // what is printed for a character
}

func newRuler() *ruler {
	return &ruler{map[rune]float64{}, map[rune]float64{}, map[rune]rune{softHyphen: -1}}
}

const (
	softHyphen = '\u00ad' // a place to break, not a character
	missing    = '\ufffd' // stands for a character that the typeface lacks, so that it is seen to be missing
)

// printable sets words on one line with single spaces, and replaces what cannot be shown.
func (r *ruler) printable(words string) string {
	return strings.Map(func(c rune) rune {
		shown, known := r.shown[c]
		if !known {
			shown = missing
			if picture.HasGlyph(c) {
				shown = c
			}
			r.shown[c] = shown
		}
		return shown
	}, strings.Join(strings.Fields(words), " "))
}

// width is how wide words are, in mm.
func (r *ruler) width(words string, s style) float64 {
	sum := 0.0
	for _, c := range words {
		sum += r.letter(c, s)
	}
	return sum
}

func (r *ruler) letter(c rune, s style) float64 {
	known := r.plain
	if s.bold {
		known = r.bold
	}
	w, there := known[c]
	if !there {
		w = picture.TextWidth(string(c), 1, s.bold)
		known[c] = w
	}
	return w * s.size * mm
}

// cut ends words in an ellipsis within width.
func (r *ruler) cut(words string, s style, width float64) string {
	room := width - r.letter('…', s)
	for i, c := range words {
		if room -= r.letter(c, s); room < 0 {
			words = words[:i]
			break
		}
	}
	return strings.TrimRight(words, " ,.;:-") + "…"
}

// mostLines is the number of lines that any paragraph may have: more is nobody's honest text.
const mostLines = 24

// wrap breaks spans into lines no wider than width. Between two spans stands a space. A word that is wider than a
// line is broken wherever it must; what goes beyond most lines ends in an ellipsis.
func (r *ruler) wrap(width float64, most int, spans ...span) []line {
	var lines []line
	var now line
	for _, s := range spans {
		space := r.width(" ", s.style)
		for _, word := range strings.Fields(r.printable(s.words)) {
			for _, part := range r.broken(word, s.style, width) {
				w := r.width(part, s.style)
				if len(now.runs) > 0 && now.width+space+w > width {
					lines = append(lines, now)
					now = line{}
				}
				now.put(part, s.style, space, w)
			}
		}
	}
	if len(now.runs) > 0 {
		lines = append(lines, now)
	}
	if len(lines) > most {
		lines = lines[:most]
		end := lines[most-1].runs
		last := &end[len(end)-1]
		last.words = r.cut(last.words, last.style, width-last.x)
	}
	return lines
}

// put adds a word to the line, to the run before it where the style is the same.
func (l *line) put(word string, s style, space, width float64) {
	if len(l.runs) == 0 {
		space = 0
	}
	if n := len(l.runs); n > 0 && l.runs[n-1].style == s {
		l.runs[n-1].words += " " + word
	} else {
		l.runs = append(l.runs, run{l.width + space, span{word, s}})
	}
	l.width += space + width
}

// broken parts a word that is wider than a line.
func (r *ruler) broken(word string, s style, width float64) []string {
	if r.width(word, s) <= width {
		return []string{word}
	}
	var parts []string
	start, sum := 0, 0.0
	for i, c := range word {
		w := r.letter(c, s)
		if i > start && sum+w > width {
			parts = append(parts, word[start:i])
			start, sum = i, 0
		}
		sum += w
	}
	return append(parts, word[start:])
}

// joined lists texts in one line, without the empty ones.
func joined(separator string, texts ...string) string {
	return strings.Join(slices.DeleteFunc(slices.Clone(texts), func(t string) bool { return t == "" }), separator)
}
