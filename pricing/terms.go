package pricing

// Terms are what a shop prices work by.
type Terms struct {
	LabourRate  Rate
	Consumables Percent // of the labour line
	Taxes       []Tax   // the first is the usual one
	Rounding    Rounding
}

// Bill is what work costs: its lines and their totals.
type Bill struct {
	Lines  []Line `json:"lines"`
	Totals Totals `json:"totals"`
}

// Price charges hours of labour, consumables on them, and parts (lines made by Part) in the order given.
// Without a consumables percentage there is no line for them.
func (t Terms) Price(hours float64, parts ...Line) (Bill, error) {
	labour, err := Labour(hours, t.LabourRate, t.Rounding)
	if err != nil {
		return Bill{}, err
	}
	lines := []Line{labour}
	if !t.Consumables.IsZero() {
		consumables, err := Consumables(t.Consumables, labour, t.Rounding)
		if err != nil {
			return Bill{}, err
		}
		lines = append(lines, consumables)
	}
	lines = append(lines, parts...)
	totals, err := Document{
		Currency: t.LabourRate.perHour.currency, Lines: lines, Taxes: t.Taxes, Rounding: t.Rounding,
	}.Totals()
	return Bill{lines, totals}, err
}

// Rise is what the gross total rises by when an option is added: the whole job priced with it less the whole job priced
// without it. It is not the option priced alone, because access is shared and tax is rounded on the sum.
func Rise(without, with Bill) (Money, error) {
	return with.Totals.Gross.Sub(without.Totals.Gross)
}
