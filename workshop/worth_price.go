package workshop

import (
	"math"
	"slices"

	"layshaft/library"
	"layshaft/pricing"
	"layshaft/worth"
)

// nowAndLater is what a job costs beside the wanted work and by itself.
type nowAndLater struct {
	now, later pricing.Money
	with       []string // jobs in the price now besides the job itself
	costs      worth.Costs
}

// price reckons what a job adds to the wanted work, and what it costs by itself.
func (s *scales) price(name string, collateral float64) (p nowAndLater, err error) {
	others := slices.DeleteFunc(slices.Clone(s.wanted), func(other string) bool { return other == name })
	alone, brought := s.withInsisted(name), s.withInsisted(others...)
	adds := slices.DeleteFunc(slices.Clone(alone), func(job string) bool { return job != name && slices.Contains(brought, job) })
	p.with = adds[1:]
	var without, with, later pricing.Bill
	if without, err = s.bill(others); err != nil {
		return p, err
	}
	if with, err = s.bill(append(others, adds...)); err != nil {
		return p, err
	}
	if later, err = s.bill(alone); err != nil {
		return p, err
	}
	p.later = later.Totals.Gross
	if p.now, err = pricing.Rise(without, with); err != nil {
		return p, err
	}
	p.costs = worth.Costs{Now: amountOf(p.now), Later: amountOf(p.later), Collateral: collateral}
	return p, nil
}

// withInsisted are jobs and, after them, what the layout insists on with them in every case: whoever comes back for a
// job later pays for that again.
func (s *scales) withInsisted(jobs ...string) []string {
	all := slices.Clone(jobs)
	for i := 0; i < len(all); i++ {
		from, _ := s.layout.Job(all[i])
		for _, rule := range from.Insist {
			if always, _ := rule.When.Holds(library.Facts{}); always && !slices.Contains(all, rule.Job) {
				all = append(all, rule.Job)
			}
		}
	}
	return all
}

func (s *scales) bill(jobs []string) (pricing.Bill, error) {
	plan, err := s.layout.Graph.PlanContext(s.ctx, jobs)
	if err != nil {
		return pricing.Bill{}, &Fault{Key: "options", Message: err.Error()}
	}
	return billFor(s.job.Shop, s.layout, jobs, tidyHours(plan.Together))
}

// amountOf is money as a bare number, for ratios and averages.
func amountOf(m pricing.Money) float64 {
	v, _ := m.Decimal().Float64()
	return v
}

// reckoned is an amount that was worked out rather than billed, to the hundredth.
func reckoned(v float64) Figure { return Figure(math.Round(v*100) / 100) }
