package workshop

import (
	"context"
	"slices"

	"layshaft/library"
	"layshaft/pricing"
)

// PriceAnswer is what the wanted work costs. Amounts are decimal strings in the shop's currency.
type PriceAnswer struct {
	Currency string                 `json:"currency"`
	Lines    []PriceLine            `json:"lines"`
	Net      string                 `json:"net"`
	TaxName  string                 `json:"tax_name"`
	Tax      string                 `json:"tax"`
	Gross    string                 `json:"gross"`
	Options  map[string]OptionPrice `json:"options"`
	Chosen   []string               `json:"chosen,omitempty"` // options that are in the sums above
	order    []string
}

// Order lists the options as the job file has them.
func (p *PriceAnswer) Order() []string { return p.order }

// PriceLine is one row of the price.
type PriceLine struct {
	Kind     string `json:"kind"`
	Name     string `json:"name"`
	Quantity string `json:"quantity"`
	Unit     string `json:"unit,omitempty"`
	Price    string `json:"price"`
	Net      string `json:"net"`
}

// OptionPrice is what the gross total rises by with an option; of one that is chosen, what it rose by.
type OptionPrice struct {
	Title string `json:"title"`
	Gross string `json:"gross"`
	Adds  Figure `json:"adds_h"`
}

// Price reckons the job's work with the chosen options, and what each option adds. Hours come from the least work
// for all that is wanted together.
func Price(ctx context.Context, job *Job, layout *library.Layout, chosen []string) (*PriceAnswer, error) {
	strip, err := Strip(ctx, job, layout, chosen)
	if err != nil {
		return nil, err
	}
	return priceOf(job, layout, strip, chosen)
}

func priceOf(job *Job, layout *library.Layout, strip *StripAnswer, chosen []string) (*PriceAnswer, error) {
	if job.Shop == nil {
		return nil, &Fault{Key: "shop", Message: "without the shop's terms there is no price",
			Example: "shop: {currency: GBP, labour_rate: 78.00 GBP/h, consumables: 2.5 %, tax: {name: VAT, rate: 20 %}}"}
	}
	wanted := wantedWork(job, chosen)
	bill, err := billFor(job.Shop, layout, wanted, float64(strip.Together))
	if err != nil {
		return nil, err
	}
	answer := &PriceAnswer{
		Currency: string(bill.Totals.Gross.Currency()), Options: map[string]OptionPrice{}, Chosen: chosen, order: job.Options,
		Net: bill.Totals.Net.Amount(), Tax: bill.Totals.Tax.Amount(), Gross: bill.Totals.Gross.Amount(),
	}
	if len(job.Shop.Taxes) > 0 {
		answer.TaxName = job.Shop.Taxes[0].Name
	}
	for _, line := range bill.Lines {
		answer.Lines = append(answer.Lines, PriceLine{
			Kind: string(line.Kind), Name: line.Name, Quantity: line.Quantity.String(), Unit: line.Unit,
			Price: line.Price.Amount(), Net: line.Net.Amount()})
	}
	for _, option := range job.Options {
		hours := strip.Options[option]
		rise, err := optionRise(job, layout, strip, bill, wanted, option)
		if err != nil {
			return nil, err
		}
		answer.Options[option] = OptionPrice{Title: hours.Title, Gross: rise.Amount(), Adds: hours.Adds}
	}
	return answer, nil
}

func optionRise(job *Job, layout *library.Layout, strip *StripAnswer, bill pricing.Bill, wanted []string, option string) (pricing.Money, error) {
	if slices.Contains(job.Work, option) {
		return pricing.Zero(bill.Totals.Gross.Currency()), nil // it is in the work anyway
	}
	adds := float64(strip.Options[option].Adds)
	if slices.Contains(wanted, option) {
		others := slices.DeleteFunc(slices.Clone(wanted), func(name string) bool { return name == option })
		without, err := billFor(job.Shop, layout, others, tidyHours(float64(strip.Together)-adds))
		if err != nil {
			return pricing.Money{}, err
		}
		return pricing.Rise(without, bill)
	}
	with, err := billFor(job.Shop, layout, append(slices.Clone(wanted), option), tidyHours(float64(strip.Together)+adds))
	if err != nil {
		return pricing.Money{}, err
	}
	return pricing.Rise(bill, with)
}

// billFor prices hours and the parts of jobs.
func billFor(terms *pricing.Terms, layout *library.Layout, jobs []string, hours float64) (pricing.Bill, error) {
	var parts []pricing.Line
	for _, name := range jobs {
		job, _ := layout.Job(name)
		for _, part := range job.Parts {
			line, err := pricing.Part(part.Name, part.Price, part.Quantity, terms.Rounding)
			if err != nil {
				return pricing.Bill{}, &Fault{Key: "work", Message: "layout " + layout.Name + ", " + name + ": " + err.Error()}
			}
			parts = append(parts, line)
		}
	}
	bill, err := terms.Price(hours, parts...)
	if err != nil {
		return bill, &Fault{Key: "shop", Message: err.Error()}
	}
	return bill, nil
}
