package paper

import (
	"slices"

	"layshaft/carview"
	"layshaft/picture"
	"layshaft/workshop"
)

// letGoPage is the technician's page for the pedal: the map, what to set, where the travel goes, all pairs.
func (b *book) letGoPage() {
	answer := b.Answer.Release
	proposed, original := carview.ShownPairs(b.Job, answer)
	shown := slices.DeleteFunc([]*workshop.PairAnswer{proposed, original}, func(p *workshop.PairAnswer) bool { return p == nil })
	if len(shown) == 0 {
		return
	}
	b.turn("Letting go: how the pedal is set")
	pedalMap := carview.PedalMap(shown...)
	b.halves(
		[]block{b.titled(halfWidth, pedalMap.Title), drawing(pedalMap.Scene(picture.Narrow), halfWidth, 122).under(1)},
		append(b.settings(shown[0]), b.travel(shown)...))
	b.add(b.pairs(answer.Pairs)...)
	b.halves(b.gears(), b.assumed())
}

// settings is the table to set the pedal by.
func (b *book) settings(pair *workshop.PairAnswer) []block {
	t := table{columns: []column{{head: "Set it so", width: 42}, {head: carview.PairName(pair.Clutch, pair.Release), spread: true}}}
	for i, s := range carview.Settings(b.Job, pair) {
		value := b.list()
		if i == 0 {
			value = b.strong()
		}
		t.rows = append(t.rows, row{cells: []span{b.list().says(s.Name), value.says(s.Value)}})
	}
	blocks := t.blocks(b.ruler, halfWidth, b.strong())
	for _, note := range pair.Notes {
		blocks = append(blocks, b.marked(halfWidth, caution(b.list()), b.list().says(note)).under(0.8))
	}
	return blocks
}

// travel shows where the pedal's travel goes.
func (b *book) travel(shown []*workshop.PairAnswer) []block {
	bars := carview.TravelBars(shown...)
	return []block{b.titled(halfWidth, bars.Title), drawing(bars.Scene(picture.Narrow), halfWidth, 78).under(1)}
}

// pairsBeside is how many pairs stand in one table.
const pairsBeside = 4

// pairs sets every clutch with every release system side by side.
func (b *book) pairs(all []workshop.PairAnswer) []block {
	blocks := []block{b.titled(textWidth, "Every clutch with every release system")}
	for some := range slices.Chunk(all, pairsBeside) {
		blocks = append(blocks, gap(1))
		blocks = append(blocks, b.pairTable(some).blocks(b.ruler, textWidth, b.strong())...)
	}
	return blocks
}

func (b *book) pairTable(pairs []workshop.PairAnswer) table {
	const names = 46.0
	each := (textWidth-names)/float64(max(len(pairs), 3)) - cellGap
	t := table{columns: []column{{head: "", width: names}}}
	for _, p := range pairs {
		t.columns = append(t.columns, column{head: carview.PairName(p.Clutch, p.Release), width: each})
	}
	verdicts := row{cells: []span{b.list().says("It")}}
	for _, p := range pairs {
		verdicts.cells = append(verdicts.cells, verdict(p.Verdict, b.list()))
	}
	t.rows = append(t.rows, verdicts)
	for _, line := range pairLines {
		r := row{cells: []span{b.list().says(line.name)}}
		for i := range pairs {
			r.cells = append(r.cells, b.list().says(line.value(&pairs[i])))
		}
		t.rows = append(t.rows, r)
	}
	return t
}

// pairLines are the figures that pairs are compared by.
var pairLines = []struct {
	name  string
	value func(*workshop.PairAnswer) string
}{
	{"Fingers at full pedal", func(p *workshop.PairAnswer) string { return carview.Measure(p.FingerTravel, 1, "mm") }},
	{"Free at; never beyond", func(p *workshop.PairAnswer) string {
		return carview.Measure(p.FreedFinger, 1, "mm") + "; " + carview.Measure(p.FingerLimit, 1, "mm")
	}},
	{"Plate lift (needed)", func(p *workshop.PairAnswer) string {
		return carview.Measure(p.PlateLift, 2, "mm") + " (" + carview.Number(p.LiftNeeded, 2) + ")"
	}},
	{"Bite band", func(p *workshop.PairAnswer) string { return carview.Between(p.BiteEnd, p.BiteStart, 0, "mm") }},
	{"The stop may stand", carview.Window},
	{"Set the stop at", func(p *workshop.PairAnswer) string { return carview.Measure(p.StopRecommended, 0, "mm") }},
	{"Effort at most; at the stop", func(p *workshop.PairAnswer) string {
		return carview.Measure(p.PeakEffort, 0, "N") + "; " + carview.Measure(p.EffortAtStop, 0, "N")
	}},
	{"Pressure in the line", func(p *workshop.PairAnswer) string { return carview.Measure(p.PeakPressure, 1, "MPa") }},
	{"Master's stroke used", func(p *workshop.PairAnswer) string { return carview.Used(p.MasterStroke, p.MasterHas) }},
	{"Frees at full pedal", func(p *workshop.PairAnswer) string { return carview.Chance(p.PFrees) }},
	{"Past its limit at full pedal", func(p *workshop.PairAnswer) string { return carview.Chance(p.POverTravels) }},
	{"Both good at the stop", func(p *workshop.PairAnswer) string { return carview.Chance(p.PBoth) }},
}

// gears tells what stands behind the clutch sees.
func (b *book) gears() []block {
	if b.Answer.Hold == nil || b.Answer.Hold.Drive == nil {
		return nil
	}
	drive := b.Answer.Hold.Drive
	t := table{columns: []column{{head: "Gear"}, {head: "gearbox out", right: true}, {head: "differential", right: true}, {head: "half shaft", right: true}, {head: "limit", spread: true}}}
	for _, g := range drive.Gears {
		limit := "the engine"
		if g.TyreLimited {
			limit = "the tyres"
		}
		s := b.list()
		t.rows = append(t.rows, row{cells: []span{s.says(carview.Number(workshop.Figure(g.Gear), 0)), s.says(carview.Measure(g.GearboxOut, 0, "N m")),
			s.says(carview.Measure(g.Case, 0, "N m")), s.says(carview.Measure(g.HalfShaft, 0, "N m")), s.says(limit)}})
	}
	blocks := append([]block{b.titled(halfWidth, "Behind the clutch, with "+carview.Measure(drive.Torque, 0, "N m")+" put in")},
		t.blocks(b.ruler, halfWidth, b.quiet())...)
	return append(blocks, b.texts(halfWidth, b.quiet(), drive.Notes...)...)
}

// assumed lists what nobody gave and what was taken instead.
func (b *book) assumed() []block {
	if len(b.Answer.Assumptions) == 0 {
		return nil
	}
	blocks := []block{b.titled(halfWidth, "Assumed, because nobody gave it")}
	for _, a := range b.Answer.Assumptions {
		blocks = append(blocks, b.paragraph(halfWidth, b.strong().says(carview.KeyWords(a.Key)+":"), b.list().says(a.Text)).under(0.8))
	}
	return blocks
}
