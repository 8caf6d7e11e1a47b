package web

import (
	"net/http"
	"slices"
	"strings"

	"layshaft/workshop"
)

const whoCookie = "layshaft-who"

// whoIs is the person whom the cookie names. Without one it is nobody, so that no entry carries a name by default;
// but for the only person of a shop, and in the demo.
func (s *server) whoIs(r *http.Request, people []workshop.Person) workshop.Person {
	if cookie, err := r.Cookie(whoCookie); err == nil {
		if i := slices.IndexFunc(people, func(p workshop.Person) bool { return p.ID == cookie.Value }); i >= 0 {
			return people[i]
		}
	}
	if len(people) == 1 || s.Invented && len(people) > 0 {
		return people[0]
	}
	return workshop.Person{}
}

// chooseWho remembers who is working at this screen.
func (s *server) chooseWho(w http.ResponseWriter, r *request) error {
	who := r.PostFormValue("who")
	if !slices.ContainsFunc(r.People, func(p workshop.Person) bool { return p.ID == who }) {
		return refusal("nobody of that name works here")
	}
	http.SetCookie(w, &http.Cookie{
		Name: whoCookie, Value: who, Path: "/", HttpOnly: true, SameSite: http.SameSiteLaxMode, MaxAge: 30 * 24 * 3600,
	})
	http.Redirect(w, r.Request, ownPath(r.PostFormValue("back")), http.StatusSeeOther)
	return nil
}

// ownPath lets a form send the reader back only to a page of ours.
func ownPath(back string) string {
	if !strings.HasPrefix(back, "/") || strings.HasPrefix(back, "//") || strings.Contains(back, "\\") {
		return "/"
	}
	return back
}

// nameOf is the name of the person with this ID; the ID itself where nobody has it.
func nameOf(people []workshop.Person, id string) string {
	for _, p := range people {
		if p.ID == id {
			return p.Name
		}
	}
	return id
}
