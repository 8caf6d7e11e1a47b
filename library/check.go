package library

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"layshaft/pricing"
	"layshaft/yamlfile"
)

// Places are where one stands at a step.
var Places = []string{
	"under the bonnet", "in the engine bay", "under the car", "at the wheels", "around the car", "in the cabin",
	"in the front luggage space", "in the boot", "on the bench", "on the road",
}

// checker finds what a layout must not say although each of its values can be read.
type checker struct {
	doc      *yamlfile.Document
	file     *file
	priced   pricing.Currency // of the first price
	problems yamlfile.Problems
}

func check(doc *yamlfile.Document, f *file) yamlfile.Problems {
	c := &checker{doc: doc, file: f}
	if len(f.Operations) == 0 {
		c.refuse("operations", "is empty; a layout has at least one operation")
	}
	for _, entry := range f.Operations {
		c.operation("operations."+entry.Name, &entry.Value)
	}
	for _, entry := range f.Jobs {
		c.job("jobs."+entry.Name, entry.Name, &entry.Value)
	}
	return firstOf(c.problems)
}

// mostProblems is how many problems are told at once; more would bury the first.
const mostProblems = 20

// firstOf puts problems in the order of the file and keeps the first of them.
func firstOf(problems yamlfile.Problems) yamlfile.Problems {
	slices.SortStableFunc(problems, func(a, b yamlfile.Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return problems[:min(len(problems), mostProblems)]
}

func (c *checker) refuse(key, format string, args ...any) {
	c.problems = append(c.problems, c.doc.Fault(key, format, args...))
}

func (c *checker) operation(key string, op *operationEntry) {
	c.place(key+".place", op.Place)
	c.texts(key+".tools", op.Tools)
	c.texts(key+".single_use", op.SingleUse)
	c.texts(key+".fluids", op.Fluids)
	c.notes(key, op.Tighten, op.WhichWay, op.Caution, op.Checks)
}

func (c *checker) job(key, name string, job *jobEntry) {
	c.place(key+".place", job.Place)
	c.notes(key, job.Tighten, job.WhichWay, job.Caution, job.Checks)
	for i, part := range job.Parts {
		c.currency(fmt.Sprintf("%s.parts[%d].price", key, i), part.Price)
	}
	c.advice(key+".insist", name, job.Insist)
	c.advice(key+".advise", name, job.Advise)
}

func (c *checker) place(key, place string) {
	if place == "" || slices.Contains(Places, place) {
		return
	}
	if near := yamlfile.Nearest(place, Places); near != "" {
		c.refuse(key, "%q is not a known place; did you mean %q?", place, near)
		return
	}
	c.refuse(key, "%q is not a known place; known are: %s", place, strings.Join(Places, ", "))
}

// notes checks what operations and jobs both carry.
func (c *checker) notes(key string, tighten, whichWay, caution, checks []string) {
	c.texts(key+".tighten", tighten)
	c.texts(key+".which_way", whichWay)
	c.texts(key+".caution", caution)
	c.texts(key+".checks", checks)
}

func (c *checker) texts(key string, texts []string) {
	for i, text := range texts {
		if strings.TrimSpace(text) == "" {
			c.refuse(fmt.Sprintf("%s[%d]", key, i), "is empty; write the text or take the line out")
		}
	}
}

// currency wants one currency in a layout, so that whatever is offered together can be added up.
func (c *checker) currency(key string, price pricing.Money) {
	switch {
	case price.Sign() < 0:
		c.refuse(key, "%s is less than nothing; a price is 0 or more", price)
	case c.priced == "":
		c.priced = price.Currency()
	case price.Currency() != c.priced:
		c.refuse(key, "is in %s, but the layout's first price is in %s; one layout keeps to one currency", price.Currency(), c.priced)
	}
}

func (c *checker) advice(key, job string, entries []adviceEntry) {
	names := c.file.Jobs.Names()
	for i, entry := range entries {
		at := fmt.Sprintf("%s[%d].job", key, i)
		switch near := yamlfile.Nearest(entry.Job, names); {
		case entry.Job == job:
			c.refuse(at, "job %q names itself; name another job", job)
		case slices.Contains(names, entry.Job):
		case near != "":
			c.refuse(at, "no job of this layout is called %q; did you mean %q?", entry.Job, near)
		default:
			c.refuse(at, "no job of this layout is called %q; it has %s", entry.Job, strings.Join(names, ", "))
		}
	}
}
