package web

import (
	"net/http"
	"strconv"

	"layshaft/workshop"
)

// partHeader marks a request of the page's script, which wants the answers alone rather than a page around them.
const partHeader = "Layshaft-Part"

// tryCar answers what would be if what is typed were kept. Nothing is entered.
func (s *server) tryCar(w http.ResponseWriter, r *request) error {
	car, t, err := s.carAndTyped(r)
	if err != nil {
		return err
	}
	if r.Header.Get(partHeader) == "" {
		return s.showCarAgain(w, r, http.StatusOK, car, t)
	}
	job, answer, err := s.Shop.Try(r.Context(), car, changesOf(car.Text, t.Figures), t.chosen(car), workshop.Quick)
	if faults := figureFaults(err); len(faults) > 0 {
		s.renderPart(w, r, http.StatusUnprocessableEntity, "car", "faults", faults)
		return nil
	}
	if err != nil {
		return err
	}
	s.renderPart(w, r, http.StatusOK, "car", "answers", viewAnswers(car, job, answer, askedOf(r)))
	return nil
}

// carAndTyped reads what a car's form sent, against the entry that the writer had seen last.
func (s *server) carAndTyped(r *request) (*workshop.Car, *typed, error) {
	if err := r.ParseForm(); err != nil {
		return nil, nil, err
	}
	car, err := s.car(r)
	if err != nil {
		return nil, nil, err
	}
	t := &typed{Figures: map[string]string{}, Chosen: r.PostForm["option"], ChosenSent: r.PostForm.Get("options") != ""}
	for _, change := range changesOf(asSeen(car, seenBy(r)).Text, typedFigures(r)) {
		t.Figures[change.Key] = change.To
	}
	return car, t, nil
}

// seenBy is the number of the last entry that the writer of a form had seen.
func seenBy(r *request) int64 {
	seen, err := strconv.ParseInt(r.PostForm.Get("seen"), 10, 64)
	if err != nil {
		return 0
	}
	return seen
}
