package web

import (
	"net/http"
	"strings"

	"layshaft/workshop"
)

const whoCookie = "layshaft-who"

// whoIs is the person whom the cookie names; without one, the first of the shop's people.
func whoIs(r *http.Request, people []workshop.Person) workshop.Person {
	if cookie, err := r.Cookie(whoCookie); err == nil {
		for _, p := range people {
			if p.ID == cookie.Value {
				return p
			}
		}
	}
	if len(people) > 0 {
		return people[0]
	}
	return workshop.Person{}
}

// chooseWho remembers who is working at this screen.
func (s *server) chooseWho(w http.ResponseWriter, r *request) error {
	http.SetCookie(w, &http.Cookie{
		Name: whoCookie, Value: r.PostFormValue("who"), Path: "/", HttpOnly: true, SameSite: http.SameSiteLaxMode, MaxAge: 30 * 24 * 3600,
	})
	back := r.PostFormValue("back")
	if !strings.HasPrefix(back, "/") || strings.HasPrefix(back, "//") {
		back = "/"
	}
	http.Redirect(w, r.Request, back, http.StatusSeeOther)
	return nil
}
