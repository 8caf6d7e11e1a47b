package web

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"html/template"
	"io"
	"net/http"
	"regexp"
	"strings"
	"time"

	"layshaft/carview"
	"layshaft/picture"
	"layshaft/workshop"
)

//go:embed pages/*.html
var pageFiles embed.FS

// pageNames are the pages; each has its own file beside the frame and the fragments that several share.
var pageNames = []string{"shop", "car", "newcar", "layouts", "layout", "people", "fault"}

// pages are the parsed templates by page name.
type pages struct{ byName map[string]*template.Template }

func loadPages(a *assets) (*pages, error) {
	p := &pages{map[string]*template.Template{}}
	for _, name := range pageNames {
		t := template.New(name).Funcs(functions).Funcs(template.FuncMap{"asset": a.address})
		t, err := t.ParseFS(pageFiles, "pages/frame.html", "pages/answers.html", "pages/figures.html", "pages/"+name+".html")
		if err != nil {
			return nil, fmt.Errorf("page %s: %w", name, err)
		}
		if err := checkEscaping(t); err != nil {
			return nil, fmt.Errorf("page %s: %w", name, err)
		}
		p.byName[name] = t
	}
	return p, nil
}

// checkEscaping finds mark-up that values cannot be set into safely. Templates are looked through when they are first
// used; doing so here makes the program fail at its start rather than at a page.
func checkEscaping(t *template.Template) error {
	var broken *template.Error
	if err := t.ExecuteTemplate(io.Discard, "frame", nil); errors.As(err, &broken) {
		return broken
	}
	return nil
}

var functions = template.FuncMap{
	"svg":      func(s *picture.Scene) template.HTML { return template.HTML(s.Inline()) },
	"day":      func(t time.Time) string { return t.Local().Format("2 Jan 2006, 15:04") },
	"iso":      func(t time.Time) string { return t.UTC().Format(time.RFC3339) },
	"join":     strings.Join,
	"unbroken": unbroken,
	"words":    func(name string) string { return strings.NewReplacer("-", " ", "_", " ").Replace(name) },
}

// measures are numbers with their units, which a line must not part.
var measures = regexp.MustCompile(`\d (?:N m|mm|N|kN|MPa|h|rpm|bhp|kW|kJ|K|mi|km|%|: 1)`)

// unbroken keeps numbers and their units on one line.
func unbroken(text string) string {
	return measures.ReplaceAllStringFunc(text, func(measure string) string { return strings.ReplaceAll(measure, " ", "\u00a0") })
}

// base is what every page shows.
type base struct {
	Title    string
	ShopName string
	Invented bool
	People   []workshop.Person
	Who      workshop.Person
	Back     string // where the reader goes on after saying who they are
}

func (s *server) base(r *request, title, back string) base {
	return base{title, s.ShopName, s.Invented, r.People, r.Who, back}
}

// render writes a page. It is put together first, so that a fault in it leaves no half page.
func (s *server) render(w http.ResponseWriter, r *request, status int, page string, data any) {
	s.renderPart(w, r, status, page, "frame", data)
}

func (s *server) renderPart(w http.ResponseWriter, r *request, status int, page, part string, data any) {
	var out bytes.Buffer
	if err := s.pages.byName[page].ExecuteTemplate(&out, part, data); err != nil {
		s.Log.Error("page could not be put together", "page", page, "path", r.URL.Path, "error", err)
		http.Error(w, "This page could not be put together. Nothing that was saved is lost.", http.StatusInternalServerError)
		return
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.Header().Set("Cache-Control", "no-store")
	w.WriteHeader(status)
	_, _ = out.WriteTo(w) // a reader who has gone away needs no answer
}

// sentence begins with a capital and ends with a full stop.
func sentence(text string) string {
	if text == "" {
		return ""
	}
	text = carview.Sentence(text)
	if !strings.ContainsAny(text[len(text)-1:], ".!?") {
		text += "."
	}
	return text
}
