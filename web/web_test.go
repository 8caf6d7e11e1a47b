package web

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"net/url"
	"regexp"
	"strings"
	"testing"
	"time"

	"layshaft/examples"
	"layshaft/jobfile"
	"layshaft/library"
	"layshaft/workshop"
	"layshaft/workshop/ledgertest"
)

// site is the invented shop behind the real pages.
type site struct {
	t       testing.TB
	shop    *workshop.Shop
	handler http.Handler
	who     string
}

func newSite(t testing.TB) *site {
	t.Helper()
	shop := workshop.NewShop(&ledgertest.Memory{}, jobfile.Reader{}, library.Builtin(), time.Now)
	if err := examples.Fill(context.Background(), shop); err != nil {
		t.Fatal(err)
	}
	handler, err := New(Config{
		Shop: shop, ShopName: "Quarry Lane Driveline", Examples: examples.Files, Now: time.Now, Invented: true,
		Log: slog.New(slog.NewTextHandler(testWriter{t}, nil)),
		Paper: func(w io.Writer, car *workshop.Car, _ *workshop.Job, a *workshop.Workup, _ string, _ time.Time) error {
			_, err := fmt.Fprintf(w, "%%PDF-1.4 %s %s", car.ID, a.Price.Gross)
			return err
		},
	})
	if err != nil {
		t.Fatal(err)
	}
	return &site{t: t, shop: shop, handler: handler, who: "ida"}
}

func (s *site) do(method, path string, form url.Values, header ...string) *httptest.ResponseRecorder {
	s.t.Helper()
	r := httptest.NewRequest(method, path, strings.NewReader(form.Encode()))
	if form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	}
	r.AddCookie(&http.Cookie{Name: whoCookie, Value: s.who})
	for i := 0; i+1 < len(header); i += 2 {
		r.Header.Set(header[i], header[i+1])
	}
	w := httptest.NewRecorder()
	s.handler.ServeHTTP(w, r)
	return w
}

func (s *site) car(id string) *workshop.Car {
	s.t.Helper()
	car, err := s.shop.Car(context.Background(), id)
	if err != nil {
		s.t.Fatal(err)
	}
	return car
}

func shows(t *testing.T, w *httptest.ResponseRecorder, status int, want ...string) {
	t.Helper()
	if w.Code != status {
		t.Errorf("status %d, want %d: %.300s", w.Code, status, w.Body)
	}
	for _, text := range want {
		if !strings.Contains(w.Body.String(), text) {
			t.Errorf("no %q on the page", text)
		}
	}
}

const bore = "figure.release.metal-master.master.bore"

func figures(seen int64, deed string, pairs ...string) url.Values {
	form := url.Values{"seen": {fmt.Sprint(seen)}, "deed": {deed}}
	for i := 0; i+1 < len(pairs); i += 2 {
		form.Set(pairs[i], pairs[i+1])
	}
	return form
}

func TestShopListsEveryCarWithItsAnswer(t *testing.T) {
	s := newSite(t)
	w := s.do("GET", "/", nil)
	shows(t, w, 200, "Corrie S4 saloon", "LY19 SHF", "two-disc holds", "holds its ramp", "Unit 1", "Unit 2", "Not here yet")
	if cars := strings.Count(w.Body.String(), `href="/cars/`); cars < 8 {
		t.Errorf("%d links to cars", cars)
	}
}

func TestCarShowsAllItsAnswers(t *testing.T) {
	w := newSite(t).do("GET", "/cars/street-saloon", nil)
	shows(t, w, 200, `id="head-hold"`, `id="head-letgo"`, `id="head-strip"`, `id="head-price"`, `id="head-assumed"`, "<svg", "drags", "frees", "slips", "2,143.67", "/cars/street-saloon/paper.pdf")
	for _, never := range []string{"NaN", "%!", "<no value>", "+Inf"} {
		if strings.Contains(w.Body.String(), never) {
			t.Errorf("%q reached the page", never)
		}
	}
}

func TestEveryExampleCarHasAPage(t *testing.T) {
	s := newSite(t)
	cars, err := s.shop.Cars(context.Background())
	if err != nil || len(cars) < 8 {
		t.Fatalf("%d cars (%v)", len(cars), err)
	}
	for _, car := range cars {
		shows(t, s.do("GET", "/cars/"+car.ID, nil), 200, "<h1")
	}
}

func TestTryingFiguresEntersNothing(t *testing.T) {
	s := newSite(t)
	before := s.car("street-saloon").Seq
	w := s.do("POST", "/cars/street-saloon/try", figures(before, "d", bore, "12.7 mm"), partHeader, "answers")
	shows(t, w, 200, "drags")
	if after := s.car("street-saloon").Seq; after != before {
		t.Errorf("trying entered something: %d entries, then %d", before, after)
	}
}

func TestABadFigureIsAnsweredWithASentence(t *testing.T) {
	s := newSite(t)
	w := s.do("POST", "/cars/street-saloon/try", figures(s.car("street-saloon").Seq, "d", bore, "17.78"), partHeader, "answers")
	shows(t, w, 422, "release.metal-master.master.bore", "has no unit", "for example")
	w = s.do("POST", "/cars/street-saloon/try", figures(s.car("street-saloon").Seq, "d", bore, "17.78"))
	shows(t, w, 200, `value="17.78"`, "has no unit", `aria-invalid="true"`) // without script: the page comes back with what was typed
}

func TestKeptFiguresCarryWhoAndWhatChanged(t *testing.T) {
	s := newSite(t)
	w := s.do("POST", "/cars/street-saloon/figures", figures(s.car("street-saloon").Seq, "deed-1", bore, "19.05 mm"))
	if w.Code != http.StatusSeeOther {
		t.Fatalf("status %d: %.300s", w.Code, w.Body)
	}
	car := s.car("street-saloon")
	last := car.History[len(car.History)-1]
	if last.By != "ida" || last.Kind != workshop.KindFigures || !bytes.Contains(last.Body, []byte("19.05 mm")) {
		t.Errorf("the entry is %+v", last)
	}
	shows(t, s.do("GET", "/cars/street-saloon", nil), 200, "17.78 mm", "19.05 mm")
}

func TestTheSameDeedSentTwiceStandsOnce(t *testing.T) {
	s := newSite(t)
	form := figures(s.car("street-saloon").Seq, "deed-twice", bore, "19.05 mm")
	s.do("POST", "/cars/street-saloon/figures", form)
	once := s.car("street-saloon").Seq
	s.do("POST", "/cars/street-saloon/figures", form)
	if twice := s.car("street-saloon").Seq; twice != once {
		t.Errorf("entry %d, then %d", once, twice)
	}
}

func TestTwoWritersLoseNothing(t *testing.T) {
	s := newSite(t)
	seen := s.car("street-saloon").Seq
	s.do("POST", "/cars/street-saloon/figures", figures(seen, "first", bore, "19.05 mm"))
	w := s.do("POST", "/cars/street-saloon/figures", figures(seen, "second", bore, "15.87 mm"))
	if w.Code == http.StatusSeeOther {
		t.Fatal("the second writer overwrote the first unseen")
	}
	for _, text := range []string{"19.05 mm", "15.87 mm"} {
		if !strings.Contains(w.Body.String(), text) {
			t.Errorf("%q is not shown", text)
		}
	}
}

func TestATechnicianMayNotChangePrices(t *testing.T) {
	s := newSite(t)
	s.who = "noor"
	seen := s.car("street-saloon").Seq
	w := s.do("POST", "/cars/street-saloon/figures", figures(seen, "rate", "figure.shop.labour_rate", "1.00 GBP/h"))
	if w.Code < 400 || s.car("street-saloon").Seq != seen {
		t.Errorf("status %d, entry %d", w.Code, s.car("street-saloon").Seq)
	}
}

func TestOptionsAreRecordedAndOthersRefused(t *testing.T) {
	s := newSite(t)
	form := figures(s.car("street-saloon").Seq, "options", "options", "sent", "option", "rear-main-seal")
	if w := s.do("POST", "/cars/street-saloon/options", form); w.Code != http.StatusSeeOther {
		t.Fatalf("status %d: %.300s", w.Code, w.Body)
	}
	if chosen := s.car("street-saloon").Chosen; len(chosen) != 1 || chosen[0] != "rear-main-seal" {
		t.Errorf("chosen %v", chosen)
	}
	seen := s.car("street-saloon").Seq
	s.do("POST", "/cars/street-saloon/options", figures(seen, "gold", "options", "sent", "option", "gold-plating"))
	if s.car("street-saloon").Seq != seen {
		t.Error("an option that was never offered was recorded")
	}
}

func TestHostileWordsAreShownAsWords(t *testing.T) {
	s := newSite(t)
	s.do("POST", "/cars/street-saloon/figures", figures(s.car("street-saloon").Seq, "name", "figure.car.name", `<script>alert(1)</script>`))
	for _, path := range []string{"/", "/cars/street-saloon"} {
		w := s.do("GET", path, nil)
		if strings.Contains(w.Body.String(), "<script>alert") {
			t.Errorf("%s carries the script", path)
		}
		shows(t, w, 200, "&lt;script&gt;")
	}
}

func TestPostsFromElsewhereAreRefused(t *testing.T) {
	s := newSite(t)
	seen := s.car("street-saloon").Seq
	w := s.do("POST", "/cars/street-saloon/figures", figures(seen, "far", bore, "19.05 mm"), "Sec-Fetch-Site", "cross-site")
	if w.Code != http.StatusForbidden || s.car("street-saloon").Seq != seen {
		t.Errorf("status %d", w.Code)
	}
}

func TestUnknownPagesSaySo(t *testing.T) {
	s := newSite(t)
	shows(t, s.do("GET", "/cars/nobody", nil), 404)
	shows(t, s.do("GET", "/nowhere", nil), 404)
}

func TestPaperAndJobFileComeAsFiles(t *testing.T) {
	s := newSite(t)
	w := s.do("GET", "/cars/street-saloon/paper.pdf", nil)
	shows(t, w, 200, "%PDF-", "2143.67")
	if kind := w.Header().Get("Content-Type"); kind != "application/pdf" {
		t.Errorf("content type %q", kind)
	}
	shows(t, s.do("GET", "/cars/street-saloon/job.yaml", nil), 200, "layshaft: 1", "metal-master")
}

func TestLayoutsCanBeRead(t *testing.T) {
	s := newSite(t)
	shows(t, s.do("GET", "/layouts", nil), 200, "4wd-transverse", "mid-transaxle")
	shows(t, s.do("GET", "/layouts/rwd-longitudinal", nil), 200, "Replace the clutch")
}

func TestEveryFieldHasALabel(t *testing.T) {
	page := newSite(t).do("GET", "/cars/street-saloon", nil).Body.String()
	ids := regexp.MustCompile(`<(?:input|textarea) [^>]*id="(figure[^"]*|f-[^"]*)"`).FindAllStringSubmatch(page, -1)
	labels := strings.Count(page, "<label for=")
	if labels < 20 || labels < len(ids) {
		t.Errorf("%d labels for %d fields", labels, len(ids))
	}
}

// BenchmarkTry is what a page waits for after a figure was typed.
func BenchmarkTry(b *testing.B) {
	s := newSite(b)
	form := figures(s.car("street-saloon").Seq, "d", bore, "19.05 mm")
	for b.Loop() {
		if w := s.do("POST", "/cars/street-saloon/try", form, partHeader, "answers"); w.Code != 200 {
			b.Fatal(w.Code)
		}
	}
}

// testWriter puts what the pages log beside the test that caused it.
type testWriter struct{ t testing.TB }

func (w testWriter) Write(line []byte) (int, error) {
	w.t.Log(strings.TrimSpace(string(line)))
	return len(line), nil
}
