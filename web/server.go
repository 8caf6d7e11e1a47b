// Package web shows the workshop as pages. It holds no arithmetic: figures come from workshop, pictures and their
// words from carview, and what a person enters goes to workshop.Shop.
package web

import (
	"crypto/rand"
	"io"
	"io/fs"
	"log/slog"
	"net/http"
	"time"

	"layshaft/workshop"
)

// Paper writes a car's paper as PDF.
type Paper func(w io.Writer, car *workshop.Car, job *workshop.Job, answer *workshop.Workup, by string, at time.Time) error

// Config is what the pages stand on.
type Config struct {
	Shop     *workshop.Shop
	ShopName string
	Paper    Paper
	Examples fs.FS // job files to start from, with the dyno runs that they name
	Now      func() time.Time
	Log      *slog.Logger
	Invented bool // the shop is the demo's: pages say so, and somebody is working from the start
}

// server answers requests.
type server struct {
	Config
	pages   *pages
	assets  *assets
	answers answers
}

// New makes the pages' handler. It fails where a page's template or a file is missing or broken.
func New(config Config) (http.Handler, error) {
	s := &server{Config: config}
	var err error
	if s.assets, err = loadAssets(); err != nil {
		return nil, err
	}
	if s.pages, err = loadPages(s.assets); err != nil {
		return nil, err
	}
	return http.NewCrossOriginProtection().Handler(guarded(zipped(s.routes()))), nil
}

func (s *server) routes() http.Handler {
	mux := http.NewServeMux()
	mux.HandleFunc("GET /{$}", s.page(s.showShop))
	mux.HandleFunc("POST /who", s.page(s.chooseWho))
	mux.HandleFunc("GET /people", s.page(s.showPeople))
	mux.HandleFunc("POST /people", s.page(s.addPerson))
	mux.HandleFunc("GET /cars/new", s.page(s.showNewCar))
	mux.HandleFunc("POST /cars", s.page(s.openCar))
	mux.HandleFunc("GET /cars/{id}", s.page(s.showCar))
	mux.HandleFunc("POST /cars/{id}/try", s.page(s.tryCar))
	mux.HandleFunc("POST /cars/{id}/figures", s.page(s.keepFigures))
	mux.HandleFunc("POST /cars/{id}/options", s.page(s.recordOptions))
	mux.HandleFunc("POST /cars/{id}/stage", s.page(s.moveCar))
	mux.HandleFunc("POST /cars/{id}/note", s.page(s.writeNote))
	mux.HandleFunc("POST /cars/{id}/layout", s.page(s.renewLayout))
	mux.HandleFunc("GET /cars/{id}/paper.pdf", s.page(s.showPaper))
	mux.HandleFunc("GET /cars/{id}/job.yaml", s.page(s.showJobFile))
	mux.HandleFunc("GET /layouts", s.page(s.showLayouts))
	mux.HandleFunc("GET /layouts/{name}", s.page(s.showLayout))
	mux.HandleFunc("GET /layouts/{name}/layout.yaml", s.page(s.showLayoutFile))
	mux.Handle("GET /static/{version}/{file...}", s.assets)
	mux.HandleFunc("/", s.page(func(http.ResponseWriter, *request) error { return workshop.ErrNotFound }))
	return mux
}

// guarded sets the headers that keep a page to its own scripts, styles and pictures.
func guarded(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", "default-src 'self'; frame-ancestors 'none'; base-uri 'none'; form-action 'self'; object-src 'none'")
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "same-origin")
		next.ServeHTTP(w, r)
	})
}

// request is one request with who works here and who is working at this screen.
type request struct {
	*http.Request
	People []workshop.Person
	Who    workshop.Person // the zero Person while nobody has said so
}

// largestForm is the most that a form may carry: a job file and a dyno run are far smaller.
const largestForm = 8 << 20

// page finds out who is working, runs the handler, and shows what went wrong in words.
func (s *server) page(handle func(http.ResponseWriter, *request) error) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		r.Body = http.MaxBytesReader(w, r.Body, largestForm)
		people, err := s.Shop.People(r.Context())
		req := &request{Request: r, People: people}
		if err == nil {
			req.Who = s.whoIs(r, people)
			err = handle(w, req)
		}
		if err != nil {
			s.showFault(w, req, err)
		}
	}
}

// newID makes an ID that nobody can guess and that is made but once.
func newID() string { return rand.Text() }
