package paper

import (
	"fmt"
	"slices"
	"strings"

	"layshaft/carview"
	"layshaft/picture"
	"layshaft/workshop"
)

// pricePage is what it costs, what else is offered and why, what the figures rest on, and where the customer signs.
// It stands below the steps where there is room for all of it.
func (b *book) pricePage() {
	title := "What it costs, and what is offered"
	if b.Answer.Price == nil {
		title = "What this rests on"
	}
	parts := slices.Concat(together(b.priceLines()), together(b.options()),
		together(b.advice(workshop.Insisted, "We insist on")), together(b.advice(workshop.Advised, "We advise")), together(b.basis()))
	if len(b.shownPairs()) == 0 {
		parts = append(parts, b.assumed()...)
	}
	left, right := levelled(parts)
	sign := b.sign()
	banner := b.banner(title, gap(0)).under(6)
	if b.fresh || b.room() < tall([]block{banner})+max(tall(left), tall(right))+tall(sign) {
		b.addIfRoom(b.layers()...)
		b.turn(title)
	} else {
		b.add(banner)
	}
	b.flow(parts)
	b.add(sign...)
}

func (b *book) priceLines() []block {
	price := b.Answer.Price
	if price == nil {
		return nil
	}
	t := table{columns: []column{{head: "Price", spread: true}, {head: "quantity", right: true}, {head: "each", right: true}, {head: "net", right: true}}}
	add := func(s style, ruled bool, cells ...string) {
		r := row{ruled: ruled}
		for _, c := range cells {
			r.cells = append(r.cells, s.says(c))
		}
		t.rows = append(t.rows, r)
	}
	for _, line := range price.Lines {
		add(b.list(), false, line.Name, joined(" ", line.Quantity, line.Unit), carview.Money(line.Price, price.Currency), carview.Money(line.Net, price.Currency))
	}
	add(b.list(), true, "Net", "", "", carview.Money(price.Net, price.Currency))
	add(b.list(), false, price.TaxName, "", "", carview.Money(price.Tax, price.Currency))
	add(b.strong(), true, "To pay, with "+price.TaxName, "", "", carview.Money(price.Gross, price.Currency))
	return t.blocks(b.ruler, halfWidth, b.strong())
}

// options are what is offered beside the work, each with what it adds and a box to tick.
func (b *book) options() []block {
	price := b.Answer.Price
	if price == nil || len(price.Order()) == 0 {
		return nil
	}
	t := table{columns: []column{{width: 3.5}, {head: "Offered: tick what you want", spread: true}, {head: "adds", right: true}, {head: "adds, with " + price.TaxName, right: true}}}
	for _, name := range price.Order() {
		option := price.Options[name]
		box, rise := "□", "+"+carview.Money(option.Gross, price.Currency)
		if slices.Contains(price.Chosen, name) {
			box, rise = "■", "in the price: "+carview.Money(option.Gross, price.Currency)
		}
		s, tick := b.list(), letters(10)
		t.rows = append(t.rows, row{cells: []span{tick.says(box), s.says(carview.TitleOr(option.Title, name)), s.says(carview.Hours(option.Adds)), s.says(rise)}})
	}
	blocks := t.blocks(b.ruler, halfWidth, b.strong())
	blocks[0] = blocks[0].under(4)
	blocks[len(blocks)-1].stays = true
	return append(blocks,
		b.texts(halfWidth, b.quiet(), "Each sum is for that option by itself, done now, while the car is apart.")...)
}

// advice is what the shop insists on or advises, with the reason.
func (b *book) advice(weight, title string) []block {
	var blocks []block
	var all []span
	for _, a := range b.Answer.Advice {
		if a.Weight != weight || a.In && weight == workshop.Advised {
			continue // what was advised and is wanted needs no more words
		}
		in := ""
		switch {
		case a.In:
			in = "(in the work)"
		case weight == workshop.Insisted:
			in = "(not in the price yet)"
		}
		spans := []span{b.strong().says(a.Title), b.strong().says(in), b.list().says("because " + a.Because + ".")}
		blocks, all = append(blocks, b.paragraph(halfWidth, spans...).under(0.8)), append(all, spans...)
	}
	if len(blocks) == 0 {
		return nil
	}
	if b.tightness >= dense {
		blocks = []block{b.paragraph(halfWidth, all...).under(0.8)}
	}
	return append([]block{b.titled(halfWidth, title)}, blocks...)
}

// basis says what the figures rest on.
func (b *book) basis() []block {
	blocks := []block{b.titled(halfWidth, "What this rests on")}
	var notes []string
	if strip := b.Answer.Strip; strip != nil {
		notes = append(notes, strip.Basis,
			fmt.Sprintf("What is in the way of what comes from the layout %s, version %s (the first twelve digits of its SHA-256).", strip.Layout, strip.Version))
	}
	notes = append(notes, "The maker's data for this car comes first, for tightening, fluids, fills and lifting points; so do local rules and licensed practice.",
		"A stronger clutch passes more load on to the parts behind it. A modified car may have to be notified to its insurer and to the authorities.",
		"What is found while the car is apart is put to you, with its price, before it is done.")
	if b.tightness >= dense {
		notes = []string{strings.Join(notes, " ")}
	}
	return append(blocks, b.texts(halfWidth, b.list(), notes...)...)
}

// sign is where the customer says yes.
func (b *book) sign() []block {
	if b.Answer.Price == nil {
		return nil
	}
	words := b.list().says("Yes to the work at this price, and to the options ticked:")
	return []block{stack(b.paragraph(textWidth, words), gap(7), block{height: 5, draw: func(p *pen, x, y float64) {
		at := x
		for _, field := range []struct {
			name  string
			width float64
		}{{"signature", 80}, {"name in capitals", 62}, {"date", 34}} {
			p.rule(at, y, at+field.width, y, picture.Ink, 0.25)
			p.words(b.label().says(field.name), at, y+3.2)
			at += field.width + 6
		}
	}}).under(5)}
}
