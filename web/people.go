package web

import (
	"net/http"
	"strings"

	"layshaft/workshop"
)

type peoplePage struct {
	base
	Trouble string
	ID      string // of the next person
	Name    string
	Role    string
	Roles   []workshop.Role
	May     bool
}

func (s *server) showPeople(w http.ResponseWriter, r *request) error {
	s.render(w, r, http.StatusOK, "people", s.peoplePage(r))
	return nil
}

func (s *server) peoplePage(r *request) *peoplePage {
	return &peoplePage{base: s.base(r, "People", "/people"), ID: newID(), Role: string(workshop.Technician),
		Roles: workshop.Roles(), May: r.Who.May(workshop.ManagePeople)}
}

// addPerson enters somebody who works in the shop.
func (s *server) addPerson(w http.ResponseWriter, r *request) error {
	if err := r.ParseForm(); err != nil {
		return err
	}
	person := workshop.Person{ID: r.PostForm.Get("id"), Name: strings.TrimSpace(r.PostForm.Get("name")), Role: workshop.Role(r.PostForm.Get("role"))}
	err := s.Shop.AddPerson(r.Context(), r.Who, person)
	if err == nil {
		http.Redirect(w, r.Request, "/people", http.StatusSeeOther)
		return nil
	}
	status, _, text := faultWords(err)
	if status == http.StatusInternalServerError {
		return err
	}
	page := s.peoplePage(r)
	page.Trouble, page.Name, page.Role = text, person.Name, string(person.Role)
	s.render(w, r, status, "people", page)
	return nil
}
