// Package web shows the workshop as pages. It holds no arithmetic: figures come from workshop, pictures from
// carview, and what a person enters goes to workshop.Shop.
package web

import (
	"context"
	"crypto/rand"
	"embed"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"log/slog"
	"net/http"
	"time"

	"layshaft/jobfile"
	"layshaft/workshop"
)

// Paper writes a car's paper as PDF.
type Paper func(w io.Writer, car *workshop.Car, job *workshop.Job, answer *workshop.Workup, by string, at time.Time) error

// Config is what the pages stand on.
type Config struct {
	Shop     *workshop.Shop
	ShopName string
	Paper    Paper
	Examples fs.FS // job files to start from
	Now      func() time.Time
	Log      *slog.Logger
}

// server answers requests.
type server struct {
	Config
	pages *pages
}

//go:embed static
var static embed.FS

// New makes the pages' handler. It fails where a page's template is missing or broken.
func New(config Config) (http.Handler, error) {
	pages, err := loadPages()
	if err != nil {
		return nil, err
	}
	s := &server{Config: config, pages: pages}
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.page(s.showShop))
	mux.HandleFunc("POST /who", s.page(s.chooseWho))
	mux.HandleFunc("GET /cars/new", s.page(s.showNewCar))
	mux.HandleFunc("POST /cars", s.page(s.openCar))
	mux.HandleFunc("GET /cars/{id}", s.page(s.showCar))
	mux.HandleFunc("POST /cars/{id}/try", s.page(s.tryCar))
	mux.HandleFunc("POST /cars/{id}/figures", s.page(s.keepFigures))
	mux.HandleFunc("POST /cars/{id}/options", s.page(s.keepOptions))
	mux.HandleFunc("POST /cars/{id}/stage", s.page(s.moveCar))
	mux.HandleFunc("POST /cars/{id}/note", s.page(s.writeNote))
	mux.HandleFunc("POST /cars/{id}/layout", s.page(s.renewLayout))
	mux.HandleFunc("GET /cars/{id}/paper.pdf", s.page(s.showPaper))
	mux.HandleFunc("GET /cars/{id}/job.yaml", s.page(s.showJobFile))
	mux.HandleFunc("GET /layouts", s.page(s.showLayouts))
	mux.HandleFunc("GET /layouts/{name}", s.page(s.showLayout))
	mux.Handle("GET /static/", http.FileServerFS(static))
	mux.HandleFunc("/", s.page(func(http.ResponseWriter, *request) error { return workshop.ErrNotFound }))
	return http.NewCrossOriginProtection().Handler(guarded(mux)), nil
}

// guarded sets the headers that keep a page to its own scripts and pictures.
func guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'self'; img-src 'self' data:; frame-ancestors 'none'; base-uri 'none'; form-action 'self'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "same-origin")
		next.ServeHTTP(w, r)
	})
}

// request is one request with who is working and who works here.
type request struct {
	*http.Request
	People []workshop.Person
	Who    workshop.Person
}

// largestForm is the most that a form may carry: a job file and a dyno run are far smaller.
const largestForm = 16 << 20

// page finds out who is working, runs the handler, and shows what went wrong in words.
func (s *server) page(handle func(http.ResponseWriter, *request) error) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		r.Body = http.MaxBytesReader(w, r.Body, largestForm)
		people, err := s.Shop.People(r.Context())
		req := &request{Request: r, People: people}
		if err == nil {
			req.Who = whoIs(r, people)
			err = handle(w, req)
		}
		if err != nil {
			s.showFault(w, req, err)
		}
	}
}

// showFault turns an error into a page: what is wrong with the request is said in full, what is wrong with the
// program only in the log.
func (s *server) showFault(w http.ResponseWriter, r *request, err error) {
	var notAllowed *workshop.NotAllowed
	status, head, text := http.StatusBadRequest, "That did not work", err.Error()
	switch {
	case errors.Is(err, context.Canceled):
		return
	case errors.Is(err, workshop.ErrNotFound):
		status, head, text = http.StatusNotFound, "There is nothing here", "No car and no page has this address. It may have been mistyped."
	case errors.As(err, &notAllowed):
		status, head = http.StatusForbidden, "Not yours to enter"
	case errors.Is(err, workshop.ErrNotSaved):
		status, head, text = http.StatusInsufficientStorage, "Nothing was saved",
			"The database could not keep what you entered: "+err.Error()+". Everything entered before is safe. Go back: what you typed is still on the page."
	case !isPersons(err):
		status, head, text = http.StatusInternalServerError, "A fault in the program",
			"Nothing that was saved is lost. Go back and try again; if it happens twice, say what you did."
		s.Log.Error("request failed", "method", r.Method, "path", r.URL.Path, "error", err)
	}
	s.render(w, r, status, "fault", faultPage{base: s.base(r, head), Text: text})
}

type faultPage struct {
	base
	Text string
}

// newID makes an ID that nobody can guess and that is made but once.
func newID() string {
	var b [12]byte
	if _, err := rand.Read(b[:]); err != nil {
		panic(err) // the system's source of randomness never fails on a working machine
	}
	return hex.EncodeToString(b[:])
}

// formOf lays out a car's job file for filling in.
func formOf(car *workshop.Car) []jobfile.Group { return jobfile.Form([]byte(car.Text)) }
