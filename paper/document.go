package paper

import (
	"fmt"
	"io"

	"codeberg.org/go-pdf/fpdf"

	"layshaft/picture"
	"layshaft/picture/pdf"
)

// write draws the pages. Every one says which car it is of, and how many there are.
func (b *book) write(w io.Writer) error {
	doc := fpdf.New("P", "mm", "A4", "")
	doc.SetAutoPageBreak(false, 0)
	doc.SetCatalogSort(true)
	doc.SetCreationDate(b.At)
	doc.SetModificationDate(b.At)
	// Only what is printable: fpdf cannot write other characters here either.
	doc.SetTitle(b.printable("Work-up of "+b.title()), true)
	doc.SetAuthor(b.printable(b.ShopName), true)
	doc.SetCreator("Layshaft", true)
	doc.SetLang("en-GB")
	pdf.AddFonts(doc)
	p := &pen{doc}
	for i, page := range b.pages {
		doc.AddPage()
		if i > 0 {
			b.head(page.title).draw(p, edge, 9)
		}
		for _, block := range page.placed {
			block.draw(p, block.x, block.y)
		}
		b.foot(i+1).draw(p, edge, bodyBottom+2)
	}
	if err := doc.Output(w); err != nil {
		return fmt.Errorf("paper of %s: %w", b.title(), err)
	}
	return nil
}

// title names the car in a line of its own.
func (b *book) title() string { return joined(", ", b.carName(), b.Job.Car.Registration) }

// head stands above every page but the first.
func (b *book) head(title string) block {
	return b.banner(title, b.toRight(textWidth-bannerWidth, letters(9).says(b.title())))
}

// foot stands below every page.
func (b *book) foot(number int) block {
	s := b.label()
	const third = textWidth / 3
	from := joined(", ", b.ShopName, b.At.Format("2 January 2006"))
	page := b.toRight(third, s.says(fmt.Sprintf("page %d of %d", number, len(b.pages))))
	return stack(rule(textWidth, picture.Faint, 0.2),
		beside([]float64{0, third, 2 * third}, b.oneLine(third-3, s.says(from)), b.oneLine(third-3, s.says(b.title())), page).under(1.2))
}
