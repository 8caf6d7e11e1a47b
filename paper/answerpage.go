package paper

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"layshaft/carview"
	"layshaft/picture"
	"layshaft/quantity"
)

// leadSizes are tried from the largest, so that the answer is as large as the page allows.
var leadSizes = []float64{11.5, 11, 10.5, 10, 9.5, 9}

// answerPage is the customer's page: what holds, what frees, why, how sure, and what it takes.
func (b *book) answerPage() {
	b.onePage("", len(leadSizes), func(way int) {
		b.add(b.masthead()...)
		b.answers(leadSizes[way])
		b.add(b.sums().under(4))
	})
}

// answers are the sentences with the pictures that show them.
func (b *book) answers(size float64) {
	lead := b.lead(halfWidth, size)
	if hold := b.Answer.Hold; hold != nil {
		bars := carview.HoldBars(b.Job, hold)
		b.halves(lead, []block{b.titled(halfWidth, bars.Title), drawing(b.scene("hold", bars.Scene, picture.Narrow), halfWidth, 96).under(1.5)})
	} else {
		b.add(b.lead(textWidth, size)...)
	}
	if clutch, release := b.Job.ProposedPair(); clutch != "" || release != "" {
		path := carview.LoadPath(b.Job, b.Answer, clutch, release)
		b.add(b.titled(textWidth, "From foot to road: "+carview.PairName(clutch, release)),
			drawing(b.scene("load path", path.Scene, picture.Wide), textWidth, 110).under(1.5))
	}
}

// lead are the sentences, and how sure they are.
func (b *book) lead(width, size float64) []block {
	large := letters(size)
	var blocks []block
	for i, text := range append(carview.Lead(b.Job, b.Answer), b.missing()...) {
		p := b.paragraph(width, stressed(large, text)...).under(large.leading() * 0.5)
		if i == 0 {
			p = p.under(5)
		}
		blocks = append(blocks, p)
	}
	sure := letters(max(size-2, 8))
	for i, text := range carview.HowSure(b.Job, b.Answer) {
		spans := []span{sure.says(text)}
		if i == 0 {
			spans = []span{sure.heavy().says("How sure:"), sure.says(text)}
		}
		blocks = append(blocks, b.paragraph(width, spans...).under(sure.leading()*0.5))
	}
	return blocks
}

// stressed sets the words that judge in bold.
func stressed(s style, text string) []span {
	var spans []span
	for {
		at := judging.FindStringIndex(text)
		if at == nil {
			return append(spans, s.says(text))
		}
		spans = append(spans, s.says(text[:at[0]]), s.heavy().says(text[at[0]:at[1]]))
		text = text[at[1]:]
	}
}

// judging finds a verdict with the mark that follows it.
var judging = regexp.MustCompile(`\b(holds|thin|slips|frees|drags|over-travels|bottoms)\b[:;,.]?`)

// missing says what could not be worked out.
func (b *book) missing() []string {
	leftOut := b.Answer.NotComputed
	if b.Answer.Release != nil {
		leftOut = slices.Concat(leftOut, b.Answer.Release.NotComputed)
	}
	var all []string
	for _, left := range leftOut {
		all = append(all, fmt.Sprintf("Not worked out: %s, %s.", carview.KeyWords(left.Key), left.Text))
	}
	return all
}

// masthead says whose paper it is and which car.
func (b *book) masthead() []block {
	shop, name := letters(13).heavy(), letters(22).heavy()
	when := letters(9).in(picture.Quiet)
	dated := b.toRight(halfWidth, when.says("Work-up of "+b.At.Format("2 January 2006")))
	return []block{
		level([]float64{0, halfWidth + columnGap}, b.oneLine(halfWidth, shop.says(b.ShopName)), dated),
		rule(textWidth, picture.Ink, 0.6).under(1),
		b.paragraphOf(textWidth, 2, name.says(b.carName())).under(3),
		b.facts().under(1.5),
	}
}

// carName is the car's name, or what stands for it.
func (b *book) carName() string {
	if strings.TrimSpace(b.Job.Car.Name) == "" {
		return "Car without a name"
	}
	return b.Job.Car.Name
}

// facts are what is known of the car, each under its label.
func (b *book) facts() block {
	car := b.Job.Car
	facts := [][2]string{{"Registration", car.Registration}, {"VIN", car.VIN}, {"Odometer", odometer(car.Odometer)}, {"Layout", car.Layout},
		{"Stage", b.Stage}, {"Stands at", b.Place}, {"Worked up by", b.By}}
	facts = slices.DeleteFunc(facts, func(f [2]string) bool { return strings.TrimSpace(f[1]) == "" })
	value := letters(9.5).heavy()
	const space, widest = 7.0, 60.0
	var rows []block
	var places []float64
	var cells []block
	x := 0.0
	for _, f := range facts {
		cell := stack(b.oneLine(widest, b.label().says(f[0])), b.oneLine(widest, value.says(f[1])))
		w := min(widest, max(b.width(f[0], b.label()), b.width(b.printable(f[1]), value)))
		if len(cells) > 0 && x+w > textWidth {
			rows = append(rows, beside(places, cells...).under(1))
			places, cells, x = nil, nil, 0
		}
		places, cells = append(places, x), append(cells, cell)
		x += w + space
	}
	return stack(append(rows, beside(places, cells...).under(1))...)
}

// odometer is given in both units, as the reader may think in either.
func odometer(metres float64) string {
	if !(metres > 0) {
		return ""
	}
	return quantity.Nice(metres, "mi", 6) + " (" + quantity.Nice(metres, "km", 3) + ")"
}

// sums are the hours and the price, whose parts stand further on.
func (b *book) sums() block {
	hours, price := b.hoursBlock(halfWidth), b.grossBlock(halfWidth)
	return beside([]float64{0, halfWidth + columnGap}, stack(hours...), stack(price...))
}

// hoursBlock tells what each job takes alone and adds to the rest.
func (b *book) hoursBlock(width float64) []block {
	strip := b.Answer.Strip
	if strip == nil {
		return nil
	}
	t := table{columns: []column{{head: "Job", spread: true}, {head: "alone", right: true}, {head: "adds", right: true}}}
	add := func(title string, adds, alone string) {
		t.rows = append(t.rows, row{cells: []span{b.list().says(title), b.list().says(alone), b.list().says(adds)}})
	}
	for _, name := range strip.JobOrder() {
		job := strip.Jobs[name]
		add(carview.TitleOr(job.Title, name), carview.Hours(job.Adds), carview.Hours(job.Alone))
	}
	blocks := append([]block{b.titled(width, "What it takes")}, t.blocks(b.ruler, width, b.quiet())...)
	return append(blocks, b.texts(width, b.list(), hoursSums(strip))...)
}

// grossBlock is the price in one figure.
func (b *book) grossBlock(width float64) []block {
	price := b.Answer.Price
	if price == nil {
		return nil
	}
	large := letters(20).heavy()
	text := fmt.Sprintf("%s net and %s %s. The lines, the options and a place to sign are on the price page.",
		carview.Money(price.Net, price.Currency), carview.Money(price.Tax, price.Currency), price.TaxName)
	return append([]block{b.titled(width, "What it costs"), b.oneLine(width, large.says(carview.Money(price.Gross, price.Currency)))},
		b.texts(width, b.list(), text)...)
}
