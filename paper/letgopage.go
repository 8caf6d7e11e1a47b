package paper

import (
	"slices"

	"layshaft/carview"
	"layshaft/picture"
	"layshaft/workshop"
)

// mapHeights are tried from the tallest, so that the map is as large as the page allows.
var mapHeights = []float64{165, 156, 148, 140, 132, 124}

// letGoPage is the technician's page for the pedal: the map, what to set, where the travel goes, all pairs.
func (b *book) letGoPage() {
	shown := b.shownPairs()
	if len(shown) == 0 {
		return
	}
	pedalMap := carview.PedalMap(shown...)
	scene := b.scene("pedal map", pedalMap.Scene, picture.Narrow)
	b.onePage("Letting go: how the pedal is set", len(mapHeights), func(way int) {
		b.halves(
			[]block{b.titled(halfWidth, pedalMap.Title), drawing(scene, halfWidth, mapHeights[way]).under(1)},
			append(b.settings(shown[0]), b.travel(shown)...))
		b.add(b.pairs(b.Answer.Release.Pairs)...)
		b.halves(b.gears(), b.assumed())
	})
}

// shownPairs are the proposed pair and the one that it is set against, as far as there are any.
func (b *book) shownPairs() []*workshop.PairAnswer {
	proposed, original := carview.ShownPairs(b.Job, b.Answer.Release)
	return slices.DeleteFunc([]*workshop.PairAnswer{proposed, original}, func(p *workshop.PairAnswer) bool { return p == nil })
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
	notes := pair.Notes
	if pair.Verdict == "over-travels" {
		notes = append([]string{"without its stop the pedal pushes the fingers past their limit: fit the stop and set it before anybody presses the pedal"}, notes...)
	}
	for _, note := range notes {
		blocks = append(blocks, b.marked(halfWidth, caution(b.list()), b.list().says(carview.Sentence(note))).under(0.8))
	}
	return blocks
}

// travel shows where the pedal's travel goes.
func (b *book) travel(shown []*workshop.PairAnswer) []block {
	bars := carview.TravelBars(shown...)
	return []block{b.titled(halfWidth, bars.Title), drawing(b.scene("travel", bars.Scene, picture.Narrow), halfWidth, 78).under(1)}
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
	{"Bite band", carview.BiteBand},
	{"The stop may stand", func(p *workshop.PairAnswer) string {
		if p.NoWindow != "" {
			return "nowhere"
		}
		return carview.Window(p)
	}},
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
	for _, note := range drive.Notes {
		blocks = append(blocks, b.texts(halfWidth, b.quiet(), carview.Sentence(note))...)
	}
	return blocks
}

// assumed lists what nobody gave, or gave only roughly, and what was taken instead.
func (b *book) assumed() []block {
	var blocks []block
	say := func(what, taken string) {
		if len(blocks) == 0 {
			blocks = append(blocks, b.titled(halfWidth, "What the figures start from"))
		}
		blocks = append(blocks, b.paragraph(halfWidth, b.strong().says(what+":"), b.list().says(taken)).under(0.8))
	}
	if hold := b.Answer.Hold; hold != nil {
		say("engine's peak", hold.DemandFrom)
	}
	for _, a := range b.Answer.Assumptions {
		say(carview.KeyWords(a.Key), a.Text)
	}
	return blocks
}
