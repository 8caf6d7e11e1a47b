package paper

import (
	"layshaft/carview"
	"layshaft/picture"
)

// The styles of a book. Nothing is smaller than its lists, but for notes, which are never smaller than 7.5 points.
func (b *book) list() style    { return style{b.setting.size, false, picture.Ink} }
func (b *book) quiet() style   { return b.list().in(picture.Quiet) }
func (b *book) strong() style  { return b.list().heavy() }
func (b *book) heading() style { return style{10.5, true, picture.Ink} }
func (b *book) label() style   { return style{7.5, false, picture.Quiet} }

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
