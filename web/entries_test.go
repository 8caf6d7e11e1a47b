package web

import (
	"context"
	"errors"
	"log/slog"
	"net/http"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"layshaft/jobfile"
	"layshaft/library"
	"layshaft/workshop"
	"layshaft/workshop/ledgertest"
)

func kept(t *testing.T, s *site, key string) string {
	t.Helper()
	for _, group := range jobfile.Form([]byte(s.car("street-saloon").Text)) {
		for _, field := range group.Fields {
			if field.Key == key {
				return field.Value
			}
		}
	}
	t.Fatalf("no figure %s", key)
	return ""
}

// Without scripts a form sends every figure. Those that somebody else changed meanwhile must not be turned back.
func TestAFigureLeftAloneIsNotTurnedBack(t *testing.T) {
	s := newSite(t)
	seen := s.car("street-saloon").Seq
	whole := func(deed string, changed ...string) url.Values {
		form := figures(seen, deed)
		for _, group := range jobfile.Form([]byte(asSeen(s.car("street-saloon"), seen).Text)) {
			for _, field := range group.Fields {
				form.Set(figurePrefix+field.Key, field.Value)
			}
		}
		for i := 0; i+1 < len(changed); i += 2 {
			form.Set(figurePrefix+changed[i], changed[i+1])
		}
		return form
	}
	s.do("POST", "/cars/street-saloon/figures", whole("ida-1", "release.metal-master.master.bore", "19.05 mm"))
	s.who = "noor"
	w := s.do("POST", "/cars/street-saloon/figures", whole("noor-1", "release.metal-master.pedal.ratio", "5.4"))
	shows(t, w, http.StatusConflict, "Ida Marsh changed figures", `value="5.4"`, `value="19.05 mm"`, "What you typed is still here")
	form := url.Values{}
	for _, input := range regexp.MustCompile(`<input value="([^"]*)" id="[^"]*" name="(figure\.[^"]*)"`).FindAllStringSubmatch(w.Body.String(), -1) {
		form.Set(input[2], input[1])
	}
	hidden := regexp.MustCompile(`name="deed" value="([^"]*)"><input type="hidden" name="seen" value="([^"]*)"`)
	ids := hidden.FindStringSubmatch(w.Body.String()[strings.Index(w.Body.String(), `<form id="figures"`):])
	form.Set("deed", ids[1])
	form.Set("seen", ids[2])
	if w := s.do("POST", "/cars/street-saloon/figures", form); w.Code != http.StatusSeeOther {
		t.Fatalf("status %d: %.400s", w.Code, w.Body)
	}
	if bore, ratio := kept(t, s, "release.metal-master.master.bore"), kept(t, s, "release.metal-master.pedal.ratio"); bore != "19.05 mm" || ratio != "5.4" {
		t.Errorf("bore %s, ratio %s", bore, ratio)
	}
}

func TestAConflictIsToldAtTheFigureThatBothChanged(t *testing.T) {
	s := newSite(t)
	seen := s.car("street-saloon").Seq
	s.do("POST", "/cars/street-saloon/figures", figures(seen, "first", bore, "19.05 mm"))
	s.who = "tom"
	w := s.do("POST", "/cars/street-saloon/figures", figures(seen, "second", bore, "15.87 mm"))
	shows(t, w, http.StatusConflict, "Ida Marsh changed it from 17.78 mm to 19.05 mm meanwhile", `value="15.87 mm"`)
}

func TestOneBadFigureKeepsTheOthersThatWereTyped(t *testing.T) {
	s := newSite(t)
	seen := s.car("street-saloon").Seq
	w := s.do("POST", "/cars/street-saloon/figures", figures(seen, "mixed", bore, "19", "figure.release.metal-master.pedal.ratio", "5.4", "figure.car.odometer", "90000 mi"))
	shows(t, w, http.StatusUnprocessableEntity, `value="19"`, `value="5.4"`, `value="90000 mi"`, "has no unit", "Nothing was entered yet")
	if s.car("street-saloon").Seq != seen {
		t.Error("something was entered")
	}
}

func TestAFormSentAgainWithOtherFiguresLosesNeither(t *testing.T) {
	s := newSite(t)
	seen := s.car("street-saloon").Seq
	s.do("POST", "/cars/street-saloon/figures", figures(seen, "same", bore, "19.05 mm"))
	w := s.do("POST", "/cars/street-saloon/figures", figures(seen, "same", bore, "15.87 mm")) // back in the browser, changed, sent again
	shows(t, w, http.StatusConflict, `value="15.87 mm"`, "19.05 mm")
}

func TestANoteStandsWhateverOthersEnteredMeanwhile(t *testing.T) {
	s := newSite(t)
	seen := s.car("street-saloon").Seq
	s.do("POST", "/cars/street-saloon/note", figures(seen, "note-1", "note", "Rang the owner."))
	s.who = "noor"
	form := figures(seen, "note-2", "note", "Bleed screw is seized.")
	for range 2 {
		if w := s.do("POST", "/cars/street-saloon/note", form); w.Code != http.StatusSeeOther {
			t.Fatalf("status %d: %.300s", w.Code, w.Body)
		}
	}
	page := s.do("GET", "/cars/street-saloon", nil).Body.String()
	if n := strings.Count(page, "Bleed screw is seized."); n != 1 {
		t.Errorf("the note stands %d times", n)
	}
}

func TestAStrippedCarHoldsItsPlace(t *testing.T) {
	s := newSite(t)
	seen := s.car("track-coupe").Seq
	w := s.do("POST", "/cars/track-coupe/stage", figures(seen, "move", "stage", string(workshop.Waiting), "place", "Unit 2, yard"))
	shows(t, w, http.StatusUnprocessableEntity, "does not roll", `value="Unit 2, yard"`)
	if car := s.car("track-coupe"); car.Seq != seen {
		t.Error("the car was moved")
	}
	w = s.do("POST", "/cars/track-coupe/stage", figures(seen, "wait", "stage", string(workshop.Waiting), "place", "Unit 1, ramp 2"))
	if w.Code != http.StatusSeeOther || s.car("track-coupe").Stage != workshop.Waiting {
		t.Errorf("status %d, stage %s", w.Code, s.car("track-coupe").Stage)
	}
}

func TestWhatAPersonMayNotDoIsSaidAndRefused(t *testing.T) {
	s := newSite(t)
	s.who = "sam"
	page := s.do("GET", "/cars/street-saloon", nil)
	shows(t, page, 200, "Sam Holt (technician) may not record options")
	if strings.Contains(page.Body.String(), "Record these options") {
		t.Error("the button is there all the same")
	}
	seen := s.car("street-saloon").Seq
	w := s.do("POST", "/cars/street-saloon/options", figures(seen, "o", "options", "sent", "option", "rear-main-seal"))
	shows(t, w, http.StatusForbidden, "Sam Holt (technician) may not choose options; ask somebody who may: owner or manager")
	if s.car("street-saloon").Seq != seen {
		t.Error("the option was recorded")
	}
}

func TestNothingIsEnteredBeforeSomebodySaysWhoTheyAre(t *testing.T) {
	shop := workshop.NewShop(&ledgertest.Memory{}, jobfile.Reader{}, library.Builtin(), time.Now)
	ctx := context.Background()
	owner := workshop.Person{ID: "o", Name: "Ada Pike", Role: workshop.Owner}
	text := string(exampleFile(t, "street-saloon.yaml"))
	_, opening := shop.OpenCar(ctx, workshop.Deed{By: owner, ID: "open"}, "street-saloon", []byte(text), nil)
	if err := errors.Join(shop.AddPerson(ctx, owner, owner), shop.AddPerson(ctx, owner, workshop.Person{ID: "t", Name: "Ben Low", Role: workshop.Technician}), opening); err != nil {
		t.Fatal(err)
	}
	handler, err := New(Config{Shop: shop, ShopName: "Real shop", Now: time.Now, Log: slog.New(slog.NewTextHandler(testWriter{t}, nil))})
	if err != nil {
		t.Fatal(err)
	}
	s := &site{t: t, shop: shop, handler: handler}
	shows(t, s.do("GET", "/cars/street-saloon", nil), 200, "nobody yet", "Say first who is working here")
	w := s.do("POST", "/cars/street-saloon/figures", figures(1, "d", bore, "19.05 mm"))
	shows(t, w, http.StatusBadRequest, "Nobody has said who is working here", `value="19.05 mm"`)
	opened := s.send(newUpload(t, "id", freshCar, "deed", "open-1", "text", string(exampleFile(t, "old-roadster.yaml"))))
	shows(t, opened, http.StatusBadRequest, "Nobody has said who is working here", "Moss roadster")
	if s.car("street-saloon").Seq != 1 || s.cars() != 1 {
		t.Error("something was entered")
	}
}

// Enter in a field presses the first button of its form: one that enters nothing.
func TestTheFirstButtonOfTheFiguresOnlyTries(t *testing.T) {
	page := newSite(t).do("GET", "/cars/street-saloon", nil).Body.String()
	buttons := regexp.MustCompile(`<button[^>]*form="figures"[^>]*>`).FindAllString(page, -1)
	if len(buttons) < 3 || !strings.Contains(buttons[0], `formaction="/cars/street-saloon/try"`) {
		t.Errorf("the buttons are %q", buttons)
	}
}

func TestThePairThatIsAskedForIsDrawn(t *testing.T) {
	s := newSite(t)
	w := s.do("POST", "/cars/street-saloon/try", figures(3, "d", "pair", "two-disc/original"), partHeader, "answers")
	shows(t, w, 200, "Load path of Corrie S4 saloon: two-disc with original")
	w = s.do("POST", "/cars/street-saloon/try", figures(3, "d", "pair", `"><script>`), partHeader, "answers")
	shows(t, w, 200, "Load path of Corrie S4 saloon: two-disc with metal-master")
}

func TestTickedOptionsMoveThePriceOfATry(t *testing.T) {
	s := newSite(t)
	w := s.do("POST", "/cars/street-saloon/try", figures(3, "d", "options", "sent", "option", "rear-main-seal"), partHeader, "answers")
	shows(t, w, 200, "£2,273.22") // 2143.67 and the 129.55 that the option says it adds
	w = s.do("POST", "/cars/street-saloon/try", figures(3, "d", "options", "sent", "option", "gold-plating"), partHeader, "answers")
	shows(t, w, http.StatusUnprocessableEntity, "is not offered for this car")
}

func TestTheWayBackLeadsToOwnPagesOnly(t *testing.T) {
	s := newSite(t)
	for back, want := range map[string]string{"/cars/street-saloon": "/cars/street-saloon", "//evil.example/": "/", "https://evil.example/": "/", `/\evil.example`: "/"} {
		w := s.do("POST", "/who", url.Values{"who": {"noor"}, "back": {back}})
		if got := w.Header().Get("Location"); w.Code != http.StatusSeeOther || got != want {
			t.Errorf("back to %q leads to %q (%d)", back, got, w.Code)
		}
	}
	shows(t, s.do("POST", "/who", url.Values{"who": {"mallory"}}), http.StatusBadRequest, "Nobody of that name works here")
}

func TestTheOwnerAddsPeople(t *testing.T) {
	s := newSite(t)
	form := url.Values{"id": {"new-1"}, "name": {"Jo <b>Reed</b>"}, "role": {"technician"}}
	if w := s.do("POST", "/people", form); w.Code != http.StatusSeeOther {
		t.Fatalf("status %d: %.300s", w.Code, w.Body)
	}
	shows(t, s.do("GET", "/people", nil), 200, "Jo &lt;b&gt;Reed&lt;/b&gt;")
	s.who = "tom"
	form.Set("id", "new-2")
	shows(t, s.do("POST", "/people", form), http.StatusForbidden, "Tom Weir (manager) may not add people")
}

func TestPagesKeepToTheirOwnScriptsAndStyles(t *testing.T) {
	s := newSite(t)
	w := s.do("GET", "/cars/street-saloon", nil)
	policy := w.Header().Get("Content-Security-Policy")
	if !strings.Contains(policy, "default-src 'self'") || strings.Contains(policy, "unsafe") {
		t.Errorf("policy %q", policy)
	}
	for _, never := range []string{" style=", " onclick=", " onload=", "javascript:"} {
		if strings.Contains(w.Body.String(), never) {
			t.Errorf("the page has %q, which the policy forbids", never)
		}
	}
	for _, address := range regexp.MustCompile(`(?:href|src)="(/static/[^"]*)"`).FindAllStringSubmatch(w.Body.String(), -1) {
		if file := s.do("GET", address[1], nil); file.Code != 200 || !strings.Contains(file.Header().Get("Cache-Control"), "immutable") {
			t.Errorf("%s: status %d, %q", address[1], file.Code, file.Header().Get("Cache-Control"))
		}
	}
}
