package web

import (
	"context"
	"errors"
	"fmt"
	"net/http"

	"layshaft/workshop"
)

// deed is what a form enters: by whom, under which ID, and after which entry.
func deed(r *request) (workshop.Deed, error) {
	if r.Who.ID == "" {
		return workshop.Deed{}, refusal("nobody has said who is working here; choose your name above, then enter it again")
	}
	id := r.PostForm.Get("deed")
	if id == "" {
		return workshop.Deed{}, refusal("the form came without its number; load the page anew")
	}
	return workshop.Deed{By: r.Who, ID: id, Seen: seenBy(r)}, nil
}

// enter does one deed to a car and sends the reader back to its page. What stands in its way is shown there, with
// everything that was typed.
func (s *server) enter(w http.ResponseWriter, r *request, do func(workshop.Deed, *workshop.Car, *typed) (*workshop.Car, error)) error {
	car, t, err := s.carAndTyped(r)
	if err != nil {
		return err
	}
	d, err := deed(r)
	if err == nil {
		var after *workshop.Car
		if after, err = do(d, car, t); err == nil {
			http.Redirect(w, r.Request, fmt.Sprintf("/cars/%s?entered=%d", car.ID, entryOf(after, d.ID)), http.StatusSeeOther)
			return nil
		}
	}
	status, known := s.trouble(r.Context(), r, car, t, err)
	if !known {
		return err
	}
	return s.showCarAgain(w, r, status, car, t)
}

// entryOf is the number of the entry that a deed made.
func entryOf(car *workshop.Car, id string) int64 {
	for _, e := range car.History {
		if e.ID == id {
			return e.Seq
		}
	}
	return car.Seq
}

// trouble notes what stood in the way of a deed, for the page that is shown again; unknown troubles are the program's.
func (s *server) trouble(ctx context.Context, r *request, car *workshop.Car, t *typed, err error) (status int, known bool) {
	var conflict *workshop.Conflict
	if errors.As(err, &conflict) {
		s.noteTheirs(r, t, conflict)
		if fresh, readErr := s.Shop.Car(ctx, car.ID); readErr == nil {
			*car = *fresh
		}
		return http.StatusConflict, true
	}
	if errors.Is(err, workshop.ErrIDTaken) {
		t.Trouble = "This form was sent before with other figures, and those were entered. Look at what is kept now, then enter the rest again."
		return http.StatusConflict, true
	}
	if t.Faults = figureFaults(err); len(t.Faults) > 0 {
		t.Trouble = "Nothing was entered yet: " + faultCount(len(t.Faults)) + "."
		return http.StatusUnprocessableEntity, true
	}
	status, _, text := faultWords(err)
	t.Trouble = text
	return status, status != http.StatusInternalServerError
}

func faultCount(n int) string {
	if n == 1 {
		return "one thing cannot be taken as it stands"
	}
	return fmt.Sprintf("%d things cannot be taken as they stand", n)
}

// noteTheirs tells what others entered since the page was loaded, as a whole and at each figure they changed.
func (s *server) noteTheirs(r *request, t *typed, conflict *workshop.Conflict) {
	t.Since = historyLines(conflict.Theirs, r.People, func(option string) string { return option })
	t.Trouble = "Somebody entered something since you loaded this page, so nothing was entered yet. What you typed is still here: look at both, then enter it again."
	t.Theirs = map[string]string{}
	for _, change := range figureChanges(conflict.Theirs) {
		t.Theirs[change.Key] = nameOf(r.People, change.by) + " changed it from " + orNothing(change.From) + " to " + orNothing(change.To) + " meanwhile."
	}
}

// keepFigures enters the figures that were changed.
func (s *server) keepFigures(w http.ResponseWriter, r *request) error {
	return s.enter(w, r, func(d workshop.Deed, car *workshop.Car, t *typed) (*workshop.Car, error) {
		before := asSeen(car, d.Seen)
		changes := changesOf(before.Text, t.Figures)
		if len(changes) == 0 {
			return nil, refusal("no figure differs from what is kept, so there is nothing to enter")
		}
		return s.Shop.ChangeFigures(r.Context(), d, before, changes)
	})
}

// recordOptions enters which options are wanted.
func (s *server) recordOptions(w http.ResponseWriter, r *request) error {
	return s.enter(w, r, func(d workshop.Deed, car *workshop.Car, t *typed) (*workshop.Car, error) {
		d.ID += "-options" // figures and options share a form
		return s.Shop.ChooseOptions(r.Context(), d, car, t.Chosen)
	})
}

// moveCar enters how far the car is and where it stands.
func (s *server) moveCar(w http.ResponseWriter, r *request) error {
	return s.enter(w, r, func(d workshop.Deed, car *workshop.Car, t *typed) (*workshop.Car, error) {
		t.MoveSent, t.Stage, t.Place = true, r.PostForm.Get("stage"), r.PostForm.Get("place")
		return s.Shop.MoveCar(r.Context(), d, car, workshop.Stage(t.Stage), t.Place)
	})
}

// writeNote enters a note. A note stands by itself, so what others wrote meanwhile does not hold it up.
func (s *server) writeNote(w http.ResponseWriter, r *request) error {
	return s.enter(w, r, func(d workshop.Deed, car *workshop.Car, t *typed) (*workshop.Car, error) {
		t.Note = r.PostForm.Get("note")
		d.Seen = car.Seq
		after, err := s.Shop.WriteNote(r.Context(), d, car, t.Note)
		var conflict *workshop.Conflict
		if errors.As(err, &conflict) {
			d.Seen = conflict.Theirs[len(conflict.Theirs)-1].Seq
			return s.Shop.WriteNote(r.Context(), d, car, t.Note)
		}
		return after, err
	})
}

// renewLayout moves the car to the layout's present version.
func (s *server) renewLayout(w http.ResponseWriter, r *request) error {
	return s.enter(w, r, func(d workshop.Deed, car *workshop.Car, _ *typed) (*workshop.Car, error) {
		return s.Shop.RenewLayout(r.Context(), d, car)
	})
}
