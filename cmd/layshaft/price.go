package main

import (
	"context"
	"fmt"
	"io"

	"layshaft/workshop"
)

type priceCommand struct {
	jobArgs
	With []string `placeholder:"OPTION" help:"Options to include in the total."`
}

func (p *priceCommand) Run(c console) error {
	job, source, layouts, err := p.load()
	if err != nil {
		return err
	}
	layout, err := workshop.LayoutFor(job, layouts)
	if err != nil {
		return source.Locate(err)
	}
	if err := workshop.CheckChosen(job, p.With); err != nil {
		return source.Locate(err)
	}
	answer, err := workshop.Price(context.Background(), job, layout, p.With)
	if err != nil {
		return source.Locate(err)
	}
	if p.JSON {
		return printJSON(c.out, answer)
	}
	printPrice(c.out, answer)
	return nil
}

func printPrice(w io.Writer, a *workshop.PriceAnswer) {
	t := newTable("", "quantity", "each", "net "+a.Currency)
	for _, line := range a.Lines {
		t.row(line.Name, line.Quantity+" "+line.Unit, line.Price, line.Net)
	}
	t.row("Net", "", "", a.Net)
	if a.TaxName != "" {
		t.row(a.TaxName, "", "", a.Tax)
	}
	t.row("Gross", "", "", a.Gross)
	t.print(w)
	if len(a.Order()) == 0 {
		return
	}
	fmt.Fprintln(w)
	t = newTable("option", "adds", "gross "+a.Currency)
	for _, name := range a.Order() {
		option := a.Options[name]
		t.row(option.Title, hours(option.Adds), "+"+option.Gross)
	}
	t.print(w)
}
