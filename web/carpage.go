package web

import (
	"cmp"
	"net/http"
	"slices"
	"strconv"

	"layshaft/carview"
	"layshaft/workshop"
)

// typed is what somebody typed into a car's page that is not entered, and what stood in its way. The page is shown
// again with it, so that nothing is lost.
type typed struct {
	Figures      map[string]string // by key of the job file
	Chosen       []string
	ChosenSent   bool
	Stage, Place string
	MoveSent     bool
	Note         string
	Faults       []figureFault
	Trouble      string            // why it was not entered
	Since        []entryLine       // what others entered meanwhile
	Theirs       map[string]string // figures that others changed meanwhile, in words, by key
}

type carPage struct {
	base
	ID           string
	Facts        workshop.CarFacts
	Stage, Place string
	Holds        bool // a stripped car holds its ramp
	Seq          int64
	Layout       workshop.LayoutRef
	NewerLayout  bool
	Last         entryLine
	Entered      *entryLine // the entry that brought the reader here
	Trouble      string
	Since        []entryLine
	Tried        bool // the answers are those of figures that are not kept
	Answers      *answerView
	NoAnswers    string // why there are none
	Form         *figureForm
	MayFigures, MayOptions, MayMove,
	MayNote, MayLayout bool
	Move    moveForm
	Note    noteForm
	Entries []entryLine // the last one first
}

type moveForm struct {
	Deed         string
	Seq          int64
	Stage, Place string
	Stages       []workshop.Stage
}

type noteForm struct{ Deed, Text string }

func (s *server) car(r *request) (*workshop.Car, error) {
	return s.Shop.Car(r.Context(), r.PathValue("id"))
}

func (s *server) showCar(w http.ResponseWriter, r *request) error {
	car, err := s.car(r)
	if err != nil {
		return err
	}
	job, answer, answerErr := s.answers.of(r.Context(), s.Shop, car)
	want := asked{r.URL.Query().Get("pair"), r.URL.Query().Get("beside")}
	page, err := s.carPage(r, car, job, answer, answerErr, want, &typed{})
	if err != nil {
		return err
	}
	if seq, err := strconv.ParseInt(r.URL.Query().Get("entered"), 10, 64); err == nil {
		page.Entered = entryNumber(page.Entries, seq)
	}
	s.render(w, r, http.StatusOK, "car", page)
	return nil
}

// showCarAgain shows the page with what was typed and why it was not entered. The answers are those of what was typed,
// or of what is kept where that cannot be read.
func (s *server) showCarAgain(w http.ResponseWriter, r *request, status int, car *workshop.Car, t *typed) error {
	job, answer, answerErr := s.Shop.Try(r.Context(), car, changesOf(car.Text, t.Figures), t.chosen(car), workshop.Quick)
	tried := answerErr == nil
	if !tried {
		if faults := figureFaults(answerErr); len(t.Faults) == 0 {
			t.Faults = faults
		}
		job, answer, answerErr = s.answers.of(r.Context(), s.Shop, car)
	}
	page, err := s.carPage(r, car, job, answer, answerErr, askedOf(r), t)
	if err != nil {
		return err
	}
	page.Tried = tried
	s.render(w, r, status, "car", page)
	return nil
}

// chosen are the options that are ticked on the page.
func (t *typed) chosen(car *workshop.Car) []string {
	if t.ChosenSent {
		return t.Chosen
	}
	return car.Chosen
}

// askedOf is the pair that a form asks for.
func askedOf(r *request) asked { return asked{r.PostForm.Get("pair"), r.PostForm.Get("beside")} }

// carPage puts a car's page together. answerErr says why there are no answers: the car is still there, with its
// figures and its entries.
func (s *server) carPage(r *request, car *workshop.Car, job *workshop.Job, answer *workshop.Workup, answerErr error, want asked, t *typed) (*carPage, error) {
	p := &carPage{
		ID: car.ID, Stage: string(car.Stage), Place: car.Place, Holds: !car.Stage.Rolls(), Seq: car.Seq,
		Layout: car.Layout, NewerLayout: car.Layout.Name != "" && s.Shop.NewerLayout(car),
		Trouble: t.Trouble, Since: t.Since,
		MayFigures: r.Who.May(workshop.ChangeFigures), MayOptions: r.Who.May(workshop.ChooseOptions), MayMove: r.Who.May(workshop.MoveCar),
		MayNote: r.Who.May(workshop.WriteNote), MayLayout: r.Who.May(workshop.RenewLayout),
		Form: newFigureForm(car, t),
		Move: moveForm{newID(), car.Seq, string(car.Stage), car.Place, workshop.Stages()},
		Note: noteForm{newID(), t.Note},
	}
	if t.MoveSent {
		p.Move.Stage, p.Move.Place = t.Stage, t.Place
	}
	title := func(option string) string { return option }
	if answerErr != nil {
		p.NoAnswers = sentence(answerErr.Error())
		p.Facts.Name = car.ID
	} else {
		p.Facts = job.Car
		p.Answers = viewAnswers(car, job, answer, want)
		p.Form.unfold("release." + p.Answers.Release)
		title = func(option string) string { return optionTitle(answer, option) }
		p.Answers.tick(t.chosen(car))
	}
	p.base = s.base(r, p.Facts.Name, "/cars/"+car.ID)
	p.Entries = historyLines(car.History, r.People, title)
	slices.SortStableFunc(p.Entries, func(a, b entryLine) int { return cmp.Compare(b.Seq, a.Seq) })
	p.Last = p.Entries[0]
	return p, nil
}

func optionTitle(answer *workshop.Workup, option string) string {
	if answer.Strip == nil {
		return option
	}
	return carview.TitleOr(answer.Strip.Options[option].Title, option)
}

func entryNumber(entries []entryLine, seq int64) *entryLine {
	i := slices.IndexFunc(entries, func(e entryLine) bool { return e.Seq == seq })
	if i < 0 {
		return nil
	}
	return &entries[i]
}
