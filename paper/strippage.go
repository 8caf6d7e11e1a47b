package paper

import (
	"fmt"
	"slices"
	"strings"

	"layshaft/carview"
	"layshaft/picture"
	"layshaft/workshop"
)

// stripPage is the sheet for the work at the car: what comes off in order, the work itself, what goes back on, with
// the cautions at the step that they are for.
func (b *book) stripPage() {
	strip := b.Answer.Strip
	if strip == nil {
		return
	}
	b.turn("What comes off, and back on")
	steps := map[string]workshop.Step{}
	for _, step := range strip.Steps {
		steps[step.Name] = step
	}
	off := append(b.supplies(strip), b.titled(halfWidth, "Off, in this order"), b.legend())
	on := []block{b.titled(halfWidth, "The work itself")}
	for _, name := range strip.JobOrder() {
		on = append(on, b.work(name, strip.Jobs[name]))
	}
	on = append(on, b.titled(halfWidth, "On again, in this order"))
	place := ""
	for i, name := range strip.Off {
		step := steps[name]
		off = append(off, b.step(i+1, step, carview.TitleOr(step.TakeOff, name), step.Off, &place, b.notes(caution, step.Cautions)))
	}
	place = ""
	for i, name := range strip.On {
		step := steps[name]
		on = append(on, b.step(i+1, step, carview.TitleOr(step.PutBack, name), step.On, &place, slices.Concat(
			b.notes(whichWay, step.WhichWay), b.notes(tighten, step.Tighten), b.notes(secondCheck, step.Checks))))
	}
	b.flow(append(off, on...))
}

// layers is the picture of the car coming apart, for a page that has room for it.
func (b *book) layers() []block {
	if b.Answer.Strip == nil {
		return nil
	}
	strip := carview.Layers(b.Answer.Strip)
	return []block{b.titled(textWidth, strip.Title).under(8), drawing(b.scene("layers", strip.Scene, picture.Wide), textWidth, bodyBottom).under(1.5)}
}

// hoursSums says what doing all of it at once saves.
func hoursSums(s *workshop.StripAnswer) string {
	text := carview.Hours(s.Together) + " in all. "
	if s.Saved > 0 {
		text = fmt.Sprintf("%s for all of it at once, %s one by one: %s saved. ", carview.Hours(s.Together), carview.Hours(s.Apart), carview.Hours(s.Saved))
	}
	if s.Proven {
		return text + "Nothing less reaches all the work; that is proven."
	}
	return text + "That nothing less would do is not proven; it cannot be less than " + carview.Hours(s.LowerBound) + "."
}

// A note hangs below a step behind its mark.
type note struct {
	mark span
	text string
}

// The marks of notes, which the legend explains.
func caution(s style) span     { return mark("▲", s.in(picture.Bad)) }
func whichWay(s style) span    { return mark("↔", s) }
func tighten(s style) span     { return mark("■", s) }
func secondCheck(s style) span { return mark("□", s) }

func mark(sign string, s style) span { return span{words: sign, style: s, tied: true} }

func (b *book) notes(mark func(style) span, texts []string) []note {
	var all []note
	for _, text := range texts {
		all = append(all, note{mark(b.list()), text})
	}
	return all
}

// legend explains the marks.
func (b *book) legend() block {
	s := b.list()
	return b.paragraph(halfWidth, caution(s), s.says("caution;"), whichWay(s), s.says("which way round;"),
		tighten(s), s.says("tighten;"), secondCheck(s), s.says("a second person checks and ticks. Figures are hours."))
}

// supplies are what has to be there before the strip begins.
func (b *book) supplies(strip *workshop.StripAnswer) []block {
	var tools []string
	for _, step := range strip.Steps {
		for _, tool := range step.Tools {
			if !slices.Contains(tools, tool) {
				tools = append(tools, tool)
			}
		}
	}
	blocks := []block{b.titled(halfWidth, "Before the strip begins")}
	for _, list := range []struct {
		name  string
		items []string
	}{{"New, not used again:", strip.SingleUse}, {"Fluids that come out:", strip.Fluids}, {"Special tools:", tools}} {
		if len(list.items) > 0 {
			blocks = append(blocks, b.paragraph(halfWidth, b.strong().says(list.name), b.list().says(strings.Join(list.items, "; ")+".")).under(0.8))
		}
	}
	return blocks
}

const (
	numberWidth = 5.0 // of the column for a step's number
	hoursWidth  = 8.0 // that its hours take of its first line
)

// step is one operation with its number, its hours and its notes. Where it is done is said when that changes.
func (b *book) step(number int, step workshop.Step, do string, hours workshop.Figure, place *string, notes []note) block {
	var spans []span
	if step.Place != *place && step.Place != "" {
		*place = step.Place
		spans = append(spans, b.quiet().says(carview.Sentence(step.Place)+":"))
	}
	spans = append(spans, b.list().says(do))
	if step.People > 1 {
		spans = append(spans, b.strong().says(fmt.Sprintf("(%d people)", step.People)))
	}
	return b.numbered(fmt.Sprint(number), carview.Number(hours, 2), spans, notes)
}

// work is one job at the place that the strip has opened.
func (b *book) work(name string, job workshop.JobHours) block {
	notes := slices.Concat(b.notes(caution, job.Cautions), b.notes(whichWay, job.WhichWay), b.notes(secondCheck, job.Checks))
	return b.numbered("", carview.Number(job.Work, 2), []span{b.strong().says(carview.TitleOr(job.Title, name))}, notes)
}

func (b *book) numbered(number, hours string, spans []span, notes []note) block {
	const width = halfWidth - numberWidth
	if b.tightness >= runIn {
		for _, n := range notes {
			spans = append(spans, n.mark, b.list().says(n.text))
		}
		notes = nil
	}
	blocks := []block{beside([]float64{0, numberWidth, 0}, b.oneLine(numberWidth, b.strong().says(number)),
		linesBlock(b.wrapBeside(hoursWidth, width, mostLines, spans...)), b.toRight(halfWidth, b.list().says(hours)))}
	for _, n := range notes {
		blocks = append(blocks, b.marked(width, n.mark, b.list().says(n.text)).inset(numberWidth))
	}
	return stack(blocks...).under(0.7)
}
