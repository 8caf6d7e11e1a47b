package web

import (
	"bytes"
	"cmp"
	"net/http"
	"strings"

	"layshaft/workshop"
)

// showPaper hands out the car's paper, worked up thoroughly.
func (s *server) showPaper(w http.ResponseWriter, r *request) error {
	car, err := s.car(r)
	if err != nil {
		return err
	}
	job, answer, err := s.Shop.WorkUp(r.Context(), car, workshop.Thorough)
	if err != nil {
		return err
	}
	var out bytes.Buffer
	if err := s.Paper(&out, car, job, answer, r.Who.Name, s.Now()); err != nil {
		return err
	}
	handOut(w, "application/pdf", "inline", fileName(job.Car.Name, "pdf"), out.Bytes())
	return nil
}

// showJobFile hands out the car's job file as it is kept.
func (s *server) showJobFile(w http.ResponseWriter, r *request) error {
	car, err := s.car(r)
	if err != nil {
		return err
	}
	handOut(w, "application/yaml; charset=utf-8", "attachment", fileName(car.ID, "yaml"), []byte(car.Text))
	return nil
}

func handOut(w http.ResponseWriter, kind, how, name string, data []byte) {
	h := w.Header()
	h.Set("Content-Type", kind)
	h.Set("Content-Disposition", how+`; filename="`+name+`"`)
	h.Set("Cache-Control", "no-store")
	_, _ = w.Write(data) // a reader who has gone away needs no answer
}

// fileName makes a file's name of letters and digits that every system can keep.
func fileName(name, ending string) string {
	plain := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, name)
	return cmp.Or(strings.Trim(plain, "-"), "car") + "." + ending
}
