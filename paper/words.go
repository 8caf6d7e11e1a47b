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
	size  float64
	bold  bool
	tight bool // with as little white between the lines as can be read
	role  picture.Role
}

// letters is plain type in a size.
func letters(size float64) style { return style{size: size, role: picture.Ink} }

func (s style) heavy() style               { s.bold = true; return s }
func (s style) in(role picture.Role) style { s.role = role; return s }

// leading is how far lines stand apart.
func (s style) leading() float64 {
	if s.tight {
		return s.size * 1.09 * mm
	}
	return s.size * 1.17 * mm
}

func (s style) says(words string) span { return span{words: words, style: s} }

// span is a run of words in one style.
type span struct {
	words string
	style
	tied bool // to the word that follows, in its line: a mark of what it says
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

// chunks are the words that lines are broken between: a figure and its unit stay together.
func chunks(words string) []string {
	var all []string
	for _, word := range strings.Fields(words) {
		if n := len(all); n > 0 && ofFigure(word, all[n-1]) {
			all[n-1] += " " + word
		} else {
			all = append(all, word)
		}
	}
	return all
}

// ofFigure reports whether a word is the unit of the figure before it, or the rest of it.
func ofFigure(word, before string) bool {
	last := before[len(before)-1]
	word = strings.TrimRight(word, ":;,.)")
	return last >= '0' && last <= '9' && slices.Contains(units, word) || word == "m" && strings.HasSuffix(before, " N")
}

var units = []string{"N", "mm", "h", "%", "m", "MPa", "kN", "kg", "mi", "km", "rpm", "bhp", "kW"}

// wrap breaks spans into lines no wider than width. Between two spans stands a space. A word that is wider than a
// line is broken wherever it must; what goes beyond most lines ends in an ellipsis.
func (r *ruler) wrap(width float64, most int, spans ...span) []line {
	return r.wrapBeside(0, width, most, spans...)
}

// wrapBeside leaves room at the right end of the first line.
func (r *ruler) wrapBeside(room, width float64, most int, spans ...span) []line {
	var lines []line
	var now line
	free := func() float64 {
		if len(lines) == 0 {
			return width - room
		}
		return width
	}
	var tied []span
	for _, s := range spans {
		if s.tied {
			tied = append(tied, s)
			continue
		}
		space := r.width(" ", s.style)
		for _, word := range chunks(r.printable(s.words)) {
			before := 0.0 // the width of what is tied to the word
			for _, t := range tied {
				before += r.width(t.words, t.style) + 2*space
			}
			for _, part := range r.broken(word, s.style, width-room-before) {
				w := r.width(part, s.style)
				if len(now.runs) > 0 && now.width+space+before+w > free() {
					lines = append(lines, now)
					now = line{}
				}
				for _, t := range tied {
					now.put(t, 2*space, r.width(t.words, t.style))
				}
				now.put(s.style.says(part), space, w)
				tied, before = nil, 0
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

// put adds a word to the line, to the run before it where the style is the same. A mark begins a run of its own.
func (l *line) put(word span, space, width float64) {
	if len(l.runs) == 0 {
		space = 0
	}
	if n := len(l.runs); n > 0 && l.runs[n-1].style == word.style && !word.tied {
		l.runs[n-1].words += " " + word.words
	} else {
		l.runs = append(l.runs, run{l.width + space, word})
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
