package web

import (
	"slices"

	"layshaft/carview"
	"layshaft/workshop"
)

// holdView is the answer to "does the clutch hold".
type holdView struct {
	Bars     *drawing
	From     string
	Clutches table
	Gears    *table
	Notes    []string // on the driveline
}

func viewHold(job *workshop.Job, hold *workshop.HoldAnswer) *holdView {
	v := &holdView{Bars: draw(carview.HoldBars(job, hold)), From: sentence(hold.DemandFrom)}
	v.Clutches = table{
		Caption: "Torque carried against " + carview.Measure(hold.Wanted, 0, "N m") + " wanted",
		Head:    []string{"Clutch", "Carries", "9 times in 10 between", "Margin", "9 times in 10 between", "As new", "It"},
	}
	for _, name := range hold.Order() {
		h := hold.Clutches[name]
		v.Clutches.add(name, "", carview.Measure(h.Capacity, 0, "N m"), carview.Between(h.CapacityP05, h.CapacityP95, 0, "N m"),
			carview.Number(h.Margin, 2), carview.Between(h.MarginP05, h.MarginP95, 2, "")+"", carview.Measure(h.CapacityNew, 0, "N m"), verdict(h.Verdict))
		if hot := h.Hot; hot != nil {
			v.Clutches.add(name+", hot", "", carview.Measure(hot.Capacity, 0, "N m"), carview.Between(hot.CapacityP05, hot.CapacityP95, 0, "N m"),
				carview.Number(hot.Margin, 2), carview.Between(hot.MarginP05, hot.MarginP95, 2, ""), "–", verdict(hot.Verdict))
		}
	}
	if hold.Drive != nil {
		v.Gears, v.Notes = gearTable(hold.Drive), hold.Drive.Notes
	}
	return v
}

// gearTable tells what stands behind the clutch sees, gear by gear.
func gearTable(drive *workshop.DriveAnswer) *table {
	t := &table{
		Caption: "Behind the clutch, with " + carview.Measure(drive.Torque, 0, "N m") + " put in",
		Head:    []string{"Gear", "Gearbox out", "Propshaft", "Differential", "Half shaft", "Limit"},
	}
	for _, g := range drive.Gears {
		limit := "engine"
		if g.TyreLimited {
			limit = "tyres"
		}
		t.add(carview.Number(workshop.Figure(g.Gear), 0), "", carview.Measure(g.GearboxOut, 0, "N m"), carview.Measure(g.Propshaft, 0, "N m"),
			carview.Measure(g.Case, 0, "N m"), carview.Measure(g.HalfShaft, 0, "N m"), limit)
	}
	return t
}

// adviceLine is a job that the shop insists on or advises, with the computed reason.
type adviceLine struct {
	Title, Because string
	In             bool
}

// worthView says of each further job whether it is worth doing now, while the way to it is open.
type worthView struct {
	Bars *drawing
	Jobs []assumption // a job and what is to be said of it
}

func viewWorth(a *workshop.WorthAnswer) *worthView {
	v := &worthView{Bars: draw(carview.Worth(a))}
	for _, name := range a.Order() {
		v.Jobs = append(v.Jobs, assumption{a.Jobs[name].Title, sentence(a.Jobs[name].Words)})
	}
	return v
}

// priceView is what the wanted work costs.
type priceView struct {
	Lines   table
	Net     string
	TaxName string
	Tax     string
	Gross   string
	Options []optionLine
}

// optionLine is an offered job that can be ticked.
type optionLine struct {
	Name, Title, Adds, Rise string
	Chosen                  bool
}

func viewPrice(p *workshop.PriceAnswer) *priceView {
	v := &priceView{
		Lines: table{Caption: "What the price is made of", Head: []string{"Line", "Quantity", "Each", "Net"}},
		Net:   carview.Money(p.Net, p.Currency), TaxName: p.TaxName, Tax: carview.Money(p.Tax, p.Currency), Gross: carview.Money(p.Gross, p.Currency),
	}
	for _, line := range p.Lines {
		quantity := line.Quantity
		if line.Unit != "" {
			quantity += " " + line.Unit
		}
		v.Lines.add(line.Name, "", quantity, carview.Money(line.Price, p.Currency), carview.Money(line.Net, p.Currency))
	}
	for _, name := range p.Order() {
		option := p.Options[name]
		v.Options = append(v.Options, optionLine{Name: name, Title: option.Title, Adds: carview.Hours(option.Adds),
			Rise: carview.Money(option.Gross, p.Currency), Chosen: slices.Contains(p.Chosen, name)})
	}
	return v
}
