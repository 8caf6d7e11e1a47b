package pricing

import (
	"fmt"

	"github.com/govalues/decimal"
)

// Kind says what a line charges for.
type Kind string

// The kinds of line that a job has.
const (
	LabourKind      Kind = "labour"
	ConsumablesKind Kind = "consumables"
	PartKind        Kind = "part"
)

// Line is one row of an estimate or invoice.
type Line struct {
	Kind     Kind            `json:"kind"`
	Name     string          `json:"name"`
	Quantity decimal.Decimal `json:"quantity"`
	Unit     string          `json:"unit,omitempty"` // "h", "%", or empty for pieces
	Price    Money           `json:"price"`          // for one hour or piece; of consumables the sum that the percentage is taken of
	Tax      string          `json:"tax,omitempty"`  // name of one of the document's taxes; empty for its first
	Net      Money           `json:"net"`            // rounded to the minor unit, before tax
}

// Labour charges hours at a rate.
//
//	net = hours · rate, rounded to the minor unit
func Labour(hours float64, rate Rate, r Rounding) (Line, error) {
	quantity, err := exact(hours)
	if err == nil && quantity.Sign() < 0 {
		err = fmt.Errorf("%v h is less than nothing", hours)
	}
	if err != nil {
		return Line{}, fmt.Errorf("labour hours: %w", err)
	}
	net, err := rate.perHour.Mul(quantity, r)
	if err != nil {
		return Line{}, fmt.Errorf("labour at %s: %w", rate, err)
	}
	return Line{Kind: LabourKind, Name: "Labour", Quantity: quantity, Unit: "h", Price: rate.perHour, Net: net}, nil
}

// Consumables charges cleaner, grease, rags and the like as a percentage of the labour line.
//
//	net = labour net · percent / 100, rounded to the minor unit
func Consumables(percent Percent, labour Line, r Rounding) (Line, error) {
	net, err := labour.Net.Percent(percent, r)
	if err != nil {
		return Line{}, fmt.Errorf("consumables: %w", err)
	}
	return Line{
		Kind: ConsumablesKind, Name: "Consumables", Quantity: percent.points, Unit: "%",
		Price: labour.Net, Tax: labour.Tax, Net: net,
	}, nil
}

// Part charges a quantity of a part at its net price; a negative quantity is a part taken back.
//
//	net = quantity · price, rounded to the minor unit
func Part(name string, price Money, quantity float64, r Rounding) (Line, error) {
	q, err := exact(quantity)
	if err == nil && q.IsZero() {
		err = fmt.Errorf("a quantity of 0 charges nothing; leave the part out or say how many")
	}
	if err != nil {
		return Line{}, fmt.Errorf("part %q: %w", name, err)
	}
	net, err := price.Mul(q, r)
	if err != nil {
		return Line{}, fmt.Errorf("part %q: %w", name, err)
	}
	return Line{Kind: PartKind, Name: name, Quantity: q, Price: price, Net: net}, nil
}
