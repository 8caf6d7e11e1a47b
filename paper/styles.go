package paper

import (
	"layshaft/carview"
	"layshaft/picture"
)

// The styles of a book. Nothing is smaller than its lists, but for labels, which are never smaller than 7.5 points.
func (b *book) list() style {
	s := letters(b.setting.size)
	s.tight = b.tightness >= closer
	return s
}
func (b *book) quiet() style   { return b.list().in(picture.Quiet) }
func (b *book) strong() style  { return b.list().heavy() }
func (b *book) heading() style { return letters(10.5).heavy() }
func (b *book) label() style   { return letters(7.5).in(picture.Quiet) }

// banner is the title of a page, or of a part that begins within one.
func (b *book) banner(title string, beside block) block {
	large := letters(13).heavy()
	return stack(level([]float64{0, bannerWidth}, b.oneLine(bannerWidth, large.says(title)), beside),
		rule(textWidth, picture.Ink, 0.4).under(0.8)).with()
}

const bannerWidth = 110.0 // of a title; what is beside it has the rest

// titled is a section's heading.
func (b *book) titled(width float64, words string) block {
	return b.oneLine(width, b.heading().says(words)).under(4).with()
}

// texts sets each text as a paragraph.
func (b *book) texts(width float64, s style, all ...string) []block {
	var blocks []block
	for _, text := range all {
		blocks = append(blocks, b.paragraph(width, s.says(text)).under(s.leading()*0.35))
	}
	return blocks
}

// verdict is a verdict's word behind the mark of how good or bad it is, which does not rest on colour.
func verdict(word string, s style) span {
	tone := carview.Tone(word)
	mark := map[picture.Tone]string{picture.Fine: "● ", picture.Near: "▲ ", picture.Wrong: "× "}[tone]
	role := map[picture.Tone]picture.Role{picture.Plain: picture.Ink, picture.Fine: picture.Good, picture.Near: picture.Warn, picture.Wrong: picture.Bad}[tone]
	return s.heavy().in(role).says(mark + word)
}
