package web

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"html/template"
	"net/http"
	"strings"
	"time"

	"layshaft/picture"
	"layshaft/workshop"
	"layshaft/yamlfile"
)

//go:embed pages/*.html
var pageFiles embed.FS

// pageNames are the pages; each has its own file beside the frame and the fragments that several share.
var pageNames = []string{"shop", "car", "newcar", "layouts", "layout", "fault"}

// pages are the parsed templates by page name.
type pages struct{ byName map[string]*template.Template }

func loadPages() (*pages, error) {
	p := &pages{map[string]*template.Template{}}
	for _, name := range pageNames {
		t, err := template.New(name).Funcs(functions).ParseFS(pageFiles, "pages/frame.html", "pages/answers.html", "pages/"+name+".html")
		if err != nil {
			return nil, fmt.Errorf("page %s: %w", name, err)
		}
		p.byName[name] = t.Option("missingkey=error")
	}
	return p, nil
}

var functions = template.FuncMap{
	"svg":   func(s *picture.Scene) template.HTML { return template.HTML(s.Inline()) },
	"date":  func(t time.Time) string { return t.Local().Format("2 Jan 2006, 15:04") },
	"iso":   func(t time.Time) string { return t.UTC().Format(time.RFC3339) },
	"join":  strings.Join,
	"words": func(name string) string { return strings.ReplaceAll(strings.ReplaceAll(name, "-", " "), "_", " ") },
	"id":    func(key string) string { return strings.NewReplacer(".", "-", " ", "-").Replace(key) },
}

// base is what every page shows.
type base struct {
	Title    string
	ShopName string
	People   []workshop.Person
	Who      workshop.Person
	Path     string
}

func (s *server) base(r *request, title string) base {
	return base{Title: title, ShopName: s.ShopName, People: r.People, Who: r.Who, Path: r.URL.Path}
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

// isPersons reports whether an error is about what a person gave rather than about the program.
func isPersons(err error) bool {
	var (
		fault    *workshop.Fault
		conflict *workshop.Conflict
		problem  yamlfile.Problem
		tooLarge *http.MaxBytesError
		refusal  refusal
	)
	return errors.As(err, &fault) || errors.As(err, &conflict) || errors.As(err, &problem) ||
		errors.As(err, &tooLarge) || errors.As(err, &refusal) || errors.Is(err, workshop.ErrIDTaken)
}

// refusal is a plain sentence to the person.
type refusal string

func (r refusal) Error() string { return string(r) }
