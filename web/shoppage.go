package web

import (
	"net/http"
	"slices"
	"strings"

	"layshaft/carview"
	"layshaft/workshop"
)

type shopPage struct {
	base
	Groups []placeGroup
	Empty  bool
}

// placeGroup are the cars that stand in one part of the shop.
type placeGroup struct {
	Name string
	Cars []carLine
}

// carLine is one car in the list.
type carLine struct {
	ID, Name, Registration string
	Stage, Place           string
	Holds                  bool // its ramp: it does not roll
	Answer                 string
	Hours, Gross           string
	Last                   entryLine
}

// notHere heads the cars that stand nowhere in the shop yet; goneHome those that have left.
const (
	notHere  = "Not here yet"
	goneHome = "Gone home"
)

func (s *server) showShop(w http.ResponseWriter, r *request) error {
	cars, err := s.Shop.Cars(r.Context())
	if err != nil {
		return err
	}
	page := shopPage{base: s.base(r, "Cars", "/"), Empty: len(cars) == 0}
	byPlace := map[string][]carLine{}
	for _, car := range cars {
		part, line := s.carLine(r, car)
		byPlace[part] = append(byPlace[part], line)
	}
	for _, name := range placeOrder(byPlace) {
		page.Groups = append(page.Groups, placeGroup{name, byPlace[name]})
	}
	s.render(w, r, http.StatusOK, "shop", page)
	return nil
}

// carLine is a car's line and the part of the shop that it stands in.
func (s *server) carLine(r *request, car *workshop.Car) (part string, line carLine) {
	entry := car.History[len(car.History)-1]
	line = carLine{ID: car.ID, Name: car.ID, Stage: string(car.Stage), Holds: !car.Stage.Rolls(),
		Last: entryLine{Who: nameOf(r.People, entry.By), At: entry.At}}
	part, line.Place = standing(car)
	job, answer, err := s.answers.of(r.Context(), s.Shop, car)
	if err != nil {
		line.Answer = "No answer: " + err.Error()
		return part, line
	}
	line.Name, line.Registration = job.Car.Name, job.Car.Registration
	line.Answer = sentence(carview.Short(job, answer))
	line.Hours, line.Gross = "–", "–"
	if answer.Strip != nil {
		line.Hours = carview.Hours(answer.Strip.Together)
	}
	if answer.Price != nil {
		line.Gross = carview.Money(answer.Price.Gross, answer.Price.Currency)
	}
	return part, line
}

// standing parts a place such as "Unit 1, ramp 2" into the part of the shop and the spot in it.
func standing(car *workshop.Car) (part, spot string) {
	if car.Stage == workshop.Gone {
		return goneHome, ""
	}
	part, spot, _ = strings.Cut(car.Place, ",")
	if part = strings.TrimSpace(part); part == "" {
		return notHere, ""
	}
	return part, strings.TrimSpace(spot)
}

// placeOrder puts the parts of the shop by name, then what is not here yet, then what has gone.
func placeOrder(groups map[string][]carLine) []string {
	var names []string
	for name := range groups {
		if name != notHere && name != goneHome {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	for _, name := range []string{notHere, goneHome} {
		if len(groups[name]) > 0 {
			names = append(names, name)
		}
	}
	return names
}
