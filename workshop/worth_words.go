package workshop

import (
	"fmt"
	"math"
	"strconv"

	"layshaft/worth"
)

// sentence says in plain words what it takes to pay, what the shop found, and what follows. renews is the title of the
// job that would be needed.
func (now *WorthNow) sentence(renews string, horizon, odometer float64) string {
	lead, sure := now.condition(renews, horizon)
	if sure {
		return lead + "."
	}
	end := map[worth.Verdict]string{
		worth.Pays: "it pays", worth.DoesNotPay: "on average it does not pay", worth.TooFew: "these are too few to tell", worth.NoRecords: "",
	}[now.Verdict]
	text := lead + "; " + now.found(horizon, odometer)
	if end != "" {
		text += ": " + end
	}
	return text + "."
}

// condition is the chance of need that it takes; sure is true where no chance makes a difference.
func (now *WorthNow) condition(renews string, horizon float64) (words string, sure bool) {
	if now.LooksAt != "" {
		return now.lookCondition(renews, horizon)
	}
	switch p := float64(now.BreakEven); {
	case p <= 0:
		return "It adds nothing to the price, so it pays to do it now", true
	case p >= 1:
		return "Coming back for it costs no more than doing it now, so nothing is gained by doing it now", true
	default:
		return fmt.Sprintf("It pays to do it now if the chance that it is needed within %s is above %s", kilometres(horizon), inWords(p)), false
	}
}

func (now *WorthNow) lookCondition(renews string, horizon float64) (words string, sure bool) {
	from, to := float64(now.Look.From), float64(now.Look.To)
	if from >= to {
		return "Looking costs more than it can save: do the job unseen or leave it", true
	}
	words = fmt.Sprintf("It pays to look if the chance that %q is needed within %s is above %s", renews, kilometres(horizon), inWords(from))
	if to < 1 {
		words += " (above " + inWords(to) + ", to do it unseen)"
	}
	return words, false
}

// found is what the shop's records say.
func (now *WorthNow) found(horizon, odometer float64) string {
	if now.Rate == nil {
		return "this shop has no records of it yet"
	}
	text := fmt.Sprintf("this shop found it worn in %d of %d", now.Rate.Found, now.Rate.Looked)
	if now.Chance.From == FromRate {
		return text + fmt.Sprintf(" (80 %% range %s)", rangeInWords(now.Chance, now.Rate.Looked))
	}
	return text + fmt.Sprintf(", and by the distances it is worn by %s in %.0f of 100 (80 %% range %s)",
		kilometres(odometer+horizon), 100*float64(now.Chance.Best), rangeInWords(now.Chance, 100))
}

// rangeInWords says an interval as so many of ten, or of a hundred where there are enough records to tell; rounded
// outwards, so that it promises no more than it holds.
func rangeInWords(chance *ChanceOfNeed, looked int) string {
	of := 10.0
	if looked > 20 {
		of = 100
	}
	return fmt.Sprintf("%.0f to %.0f of %.0f", math.Floor(of*float64(chance.Low)), math.Ceil(of*float64(chance.High)), of)
}

// inWords says a chance the way people do: one in so many while it is small, else so many in a hundred.
func inWords(p float64) string {
	switch {
	case p < 0.001:
		return "1 in 1,000"
	case p <= 0.22:
		return fmt.Sprintf("1 in %.0f", 1/p)
	}
	return fmt.Sprintf("%.0f in 100", math.Min(99, 100*p))
}

// kilometres prints a distance in whole kilometres with a comma between the thousands.
func kilometres(metres float64) string {
	digits := strconv.FormatFloat(math.Round(metres/1e3), 'f', 0, 64)
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits + " km"
}
