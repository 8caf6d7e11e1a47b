package picture

// Tone is how good or bad news a word is. The word itself says so; the mark and the colour support it.
type Tone int

const (
	Plain Tone = iota // nothing to judge
	Fine              // holds, frees
	Near              // thin, close to a limit
	Wrong             // slips, drags, over-travels, bottoms
)

func (t Tone) role() Role { return [...]Role{Ink, Good, Warn, Bad}[t] }

// markSize is the room that the mark of a tone takes up in front of its word.
const markSize = 9

// mark draws the sign of a tone with its middle at x, y: a disc, a triangle or a cross; nothing for Plain.
func (g *Group) mark(t Tone, x, y float64) {
	const r = markSize / 2.0
	switch t {
	case Fine:
		g.Draw(circle(x, y, r-1), Style{Fill: Good})
	case Near:
		g.Draw(polygon(x, y-r, x+r, y+r-1, x-r, y+r-1), Style{Stroke: Warn, Width: 1.6})
	case Wrong:
		g.Draw(join(line(x-r+1, y-r+1, x+r-1, y+r-1), line(x-r+1, y+r-1, x+r-1, y-r+1)), Style{Stroke: Bad, Width: 2.2})
	}
}

// writeWord puts a verdict with its mark; y is the baseline.
func (g *Group) writeWord(word string, t Tone, x, y, size, width float64) {
	if t != Plain {
		g.mark(t, x+markSize/2, y-size*0.34)
		x += markSize + 4
		width -= markSize + 4
	}
	g.Write(Text{X: x, Y: y, Size: size, Bold: true, Role: t.role(), Words: fit(word, size, true, width)})
}

// wordWidth is the room that writeWord needs.
func wordWidth(word string, t Tone, size float64) float64 {
	w := TextWidth(word, size, true)
	if t != Plain {
		w += markSize + 4
	}
	return w
}

// block is the text that belongs to one part: its name, a few numbers and a verdict.
type block struct {
	name    []string
	numbers []string
	word    string
	tone    Tone
}

const (
	nameSize   = 12.5
	numberSize = 12.0
	lineStep   = 14.5
	mostLines  = 6
)

// newBlock sets a part's text in lines no wider than width; never more than mostLines of them.
func newBlock(p Part, width float64) block {
	b := block{name: wrap(p.Name, nameSize, true, width, 2), word: p.Word, tone: p.Tone}
	for _, n := range p.Numbers {
		if room := mostLines - 1 - len(b.name) - len(b.numbers); room > 0 {
			b.numbers = append(b.numbers, wrap(n, numberSize, false, width, min(room, 2))...)
		}
	}
	return b
}

func (b block) lines() int {
	n := len(b.name) + len(b.numbers)
	if b.word != "" {
		n++
	}
	return n
}

func (b block) height() float64 { return float64(b.lines())*lineStep + 1 }

func (b block) draw(g *Group, x, y, width float64) {
	y += ascent * nameSize
	for _, s := range b.name {
		g.Write(Text{X: x, Y: y, Size: nameSize, Bold: true, Role: Ink, Words: s})
		y += lineStep
	}
	for _, s := range b.numbers {
		g.Write(Text{X: x, Y: y, Size: numberSize, Role: Ink, Words: s})
		y += lineStep
	}
	if b.word != "" {
		g.writeWord(b.word, b.tone, x, y, nameSize, width)
	}
}
