package web

import (
	"fmt"
	"net/http"
	"strings"

	"layshaft/carview"
	"layshaft/library"
	"layshaft/workshop"
)

type layoutsPage struct {
	base
	Layouts []layoutLine
}

type layoutLine struct {
	Name, Title, About, Version string
	Operations, Jobs            int
}

type layoutPage struct {
	base
	layoutLine
	Title      string // of the page and the layout: they are one
	Basis      string
	Operations []operationLine
	Jobs       []layoutJob
}

// operationLine is one operation of a layout, or one condition that is set up and undone.
type operationLine struct {
	Name, TakeOff, PutBack, Off, On, Needs, Where      string
	Condition                                          bool
	Cautions, WhichWay, Tighten, Checks, Single, Tools []string
	Fluids                                             []string
}

// layoutJob is one job of a layout.
type layoutJob struct {
	Name, Title, Work, Needs                   string
	Parts, Cautions, WhichWay, Tighten, Checks []string
	Insisted, Advised                          []string
}

func (s *server) showLayouts(w http.ResponseWriter, r *request) error {
	page := layoutsPage{base: s.base(r, "Layouts", "/layouts")}
	for _, layout := range s.Shop.Layouts().Layouts() {
		page.Layouts = append(page.Layouts, lineOf(layout))
	}
	s.render(w, r, http.StatusOK, "layouts", page)
	return nil
}

func lineOf(l *library.Layout) layoutLine {
	return layoutLine{l.Name, l.Title, l.About, l.Version(), len(l.Operations), len(l.Jobs)}
}

func (s *server) showLayout(w http.ResponseWriter, r *request) error {
	layout, err := s.layout(r)
	if err != nil {
		return err
	}
	page := layoutPage{base: s.base(r, layout.Title, "/layouts/"+layout.Name), layoutLine: lineOf(layout), Title: layout.Title, Basis: layout.Basis}
	for _, op := range layout.Operations {
		page.Operations = append(page.Operations, viewOperation(op))
	}
	for _, job := range layout.Jobs {
		page.Jobs = append(page.Jobs, viewLayoutJob(job, layout))
	}
	s.render(w, r, http.StatusOK, "layout", page)
	return nil
}

// showLayoutFile hands out a layout's file, to start one's own from.
func (s *server) showLayoutFile(w http.ResponseWriter, r *request) error {
	layout, err := s.layout(r)
	if err != nil {
		return err
	}
	handOut(w, "application/yaml; charset=utf-8", "attachment", fileName(layout.Name, "yaml"), layout.Export())
	return nil
}

func (s *server) layout(r *request) (*library.Layout, error) {
	layout, err := s.Shop.Layouts().Layout(r.PathValue("name"))
	if err != nil {
		return nil, fmt.Errorf("%w: %w", workshop.ErrNotFound, err)
	}
	return layout, nil
}

func viewOperation(op library.Operation) operationLine {
	return operationLine{
		Name: op.Name, TakeOff: carview.TitleOr(op.TakeOff, op.Name), PutBack: op.PutBack,
		Off: carview.Hours(workshop.Figure(op.Off)), On: carview.Hours(workshop.Figure(op.On)), Needs: needWords(op.Needs, op.AnyOf),
		Where:     where(workshop.Step{Place: op.Place, People: op.People}),
		Condition: op.Condition, Cautions: op.Cautions, WhichWay: op.WhichWay, Tighten: op.Tighten, Checks: op.Checks,
		Single: op.SingleUse, Tools: op.Tools, Fluids: op.Fluids,
	}
}

func viewLayoutJob(job library.Job, layout *library.Layout) layoutJob {
	v := layoutJob{
		Name: job.Name, Title: carview.TitleOr(job.Title, job.Name), Work: carview.Hours(workshop.Figure(job.Work)), Needs: needWords(job.Needs, job.AnyOf),
		Cautions: job.Cautions, WhichWay: job.WhichWay, Tighten: job.Tighten, Checks: job.Checks,
		Insisted: adviceWords(job.Insist, layout), Advised: adviceWords(job.Advise, layout),
	}
	for _, part := range job.Parts {
		text := part.Name + ", " + carview.Money(part.Price.Amount(), string(part.Price.Currency()))
		if part.Quantity != 1 && part.Quantity != 0 {
			text += fmt.Sprintf(" each, %g of them", part.Quantity)
		}
		v.Parts = append(v.Parts, text)
	}
	return v
}

// needWords lists what has to be out of the way first.
func needWords(all []string, anyOf [][]string) string {
	var parts []string
	for _, name := range all {
		parts = append(parts, carview.TitleOr("", name))
	}
	for _, group := range anyOf {
		var names []string
		for _, name := range group {
			names = append(names, carview.TitleOr("", name))
		}
		parts = append(parts, strings.Join(names, " or "))
	}
	return strings.Join(parts, ", ")
}

func adviceWords(all []library.Advice, layout *library.Layout) []string {
	var out []string
	for _, advice := range all {
		title := advice.Job
		if job, known := layout.Job(advice.Job); known {
			title = carview.TitleOr(job.Title, job.Name)
		}
		text := title + ", when " + advice.When.String()
		if advice.Why != "" {
			text += ": " + advice.Why
		}
		out = append(out, text)
	}
	return out
}
