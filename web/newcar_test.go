package web

import (
	"bytes"
	"context"
	"fmt"
	"io/fs"
	"mime/multipart"
	"net/http"
	"net/http/httptest"
	"regexp"
	"strings"
	"testing"

	"layshaft/examples"
)

// upload is a form with files, as a browser sends it.
type upload struct {
	body   bytes.Buffer
	writer *multipart.Writer
}

func newUpload(t *testing.T, fields ...string) *upload {
	t.Helper()
	u := &upload{}
	u.writer = multipart.NewWriter(&u.body)
	for i := 0; i+1 < len(fields); i += 2 {
		if err := u.writer.WriteField(fields[i], fields[i+1]); err != nil {
			t.Fatal(err)
		}
	}
	return u
}

func (u *upload) file(t *testing.T, field, name string, data []byte) {
	t.Helper()
	part, err := u.writer.CreateFormFile(field, name)
	if err == nil {
		_, err = part.Write(data)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func (s *site) send(u *upload) *httptest.ResponseRecorder {
	s.t.Helper()
	if err := u.writer.Close(); err != nil {
		s.t.Fatal(err)
	}
	r := httptest.NewRequest("POST", "/cars", &u.body)
	r.Header.Set("Content-Type", u.writer.FormDataContentType())
	r.AddCookie(&http.Cookie{Name: whoCookie, Value: s.who})
	w := httptest.NewRecorder()
	s.handler.ServeHTTP(w, r)
	return w
}

func (s *site) cars() int {
	s.t.Helper()
	cars, err := s.shop.Cars(context.Background())
	if err != nil {
		s.t.Fatal(err)
	}
	return len(cars)
}

func exampleFile(t *testing.T, name string) []byte {
	t.Helper()
	data, err := fs.ReadFile(examples.Files, name)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

const freshCar = "freshcarfreshcarfreshcar01"

func TestACarIsOpenedFromAnUploadWithItsDynoRun(t *testing.T) {
	s := newSite(t)
	s.who = "tom"
	u := newUpload(t, "id", freshCar, "deed", "open-1", "text", "layshaft: 1\nleft in the text field")
	u.file(t, "job", "coupe.yaml", exampleFile(t, "track-coupe.yaml"))
	u.file(t, "file", "track-coupe-dyno.csv", exampleFile(t, "track-coupe-dyno.csv"))
	w := s.send(u)
	if w.Code != http.StatusSeeOther || w.Header().Get("Location") != "/cars/"+freshCar+"?entered=1" {
		t.Fatalf("status %d to %q: %.500s", w.Code, w.Header().Get("Location"), w.Body)
	}
	shows(t, s.do("GET", "/cars/"+freshCar+"?entered=1", nil), 200, "Tarn GT coupe", "Entered: Tom Weir opened the car")
}

func TestTheSameOpeningSentTwiceIsOneCar(t *testing.T) {
	s := newSite(t)
	before := s.cars()
	for range 2 {
		w := s.send(newUpload(t, "id", freshCar, "deed", "open-1", "text", string(exampleFile(t, "old-roadster.yaml"))))
		if w.Code != http.StatusSeeOther {
			t.Fatalf("status %d: %.500s", w.Code, w.Body)
		}
	}
	if after := s.cars(); after != before+1 {
		t.Errorf("%d cars became %d", before, after)
	}
}

// What is wrong is told with its line and column beside the line itself, and the text is still there.
func TestFaultsOfAJobFileAreShownAtTheirLines(t *testing.T) {
	s := newSite(t)
	before := s.cars()
	text := strings.Replace(string(exampleFile(t, "street-saloon.yaml")), "clamp_load: 9.4 kN", "clamp_load: 9.4", 1)
	line := 1 + strings.Count(text[:strings.Index(text, "clamp_load: 9.4\n")], "\n")
	u := newUpload(t, "id", freshCar, "deed", "open-1", "text", "")
	u.file(t, "job", "saloon.yaml", []byte(text))
	w := s.send(u)
	shows(t, w, http.StatusUnprocessableEntity, "one thing cannot be taken", "clutch.two-disc.clamp_load", "has no unit",
		"write for example 9.8 kN", "finger_travel_max: 11.5 mm", fmt.Sprintf(`data-line="%d"`, line), "<pre aria-hidden=\"true\">    clamp_load: 9.4")
	if s.cars() != before {
		t.Error("a car was opened all the same")
	}
}

// A file that came with a bad job file is not asked for again.
func TestFilesThatWereReadAreKeptWhileTheTextIsMended(t *testing.T) {
	s := newSite(t)
	text := string(exampleFile(t, "track-coupe.yaml"))
	u := newUpload(t, "id", freshCar, "deed", "open-1", "text", strings.Replace(text, "13 .. 17 %", "thirteen", 1))
	u.file(t, "file", "track-coupe-dyno.csv", exampleFile(t, "track-coupe-dyno.csv"))
	w := s.send(u)
	shows(t, w, http.StatusUnprocessableEntity, "track-coupe-dyno.csv, read already", "engine.loss")
	kept := regexp.MustCompile(`(?s)<textarea name="filetext"[^>]*>(.*?)</textarea>`).FindStringSubmatch(w.Body.String())
	if kept == nil {
		t.Fatal("the dyno run is not in the form")
	}
	again := newUpload(t, "id", freshCar, "deed", "open-1", "text", text, "filename", "track-coupe-dyno.csv", "filetext", kept[1])
	if w := s.send(again); w.Code != http.StatusSeeOther {
		t.Errorf("status %d after mending: %.500s", w.Code, w.Body)
	}
}

func TestAFileThatIsNoTextIsRefusedInWords(t *testing.T) {
	s := newSite(t)
	u := newUpload(t, "id", freshCar, "deed", "open-1", "text", "")
	u.file(t, "job", "photo.yaml", []byte{0xff, 0xd8, 0xff, 0xe0})
	shows(t, s.send(u), http.StatusBadRequest, "Photo.yaml is not a text file")
}

func TestAFormThatIsFarTooLargeIsRefusedInWords(t *testing.T) {
	s := newSite(t)
	u := newUpload(t, "id", freshCar, "deed", "open-1", "text", strings.Repeat("# much\n", largestForm/6))
	shows(t, s.send(u), http.StatusRequestEntityTooLarge, "larger than any job file")
}

func TestEveryExampleCanBeStartedFrom(t *testing.T) {
	s := newSite(t)
	page := s.do("GET", "/cars/new", nil)
	links := regexp.MustCompile(`/cars/new\?example=([a-z-]+)`).FindAllStringSubmatch(page.Body.String(), -1)
	if len(links) < 8 {
		t.Fatalf("%d examples", len(links))
	}
	for _, link := range links {
		shows(t, s.do("GET", link[0], nil), 200, "layshaft: 1")
	}
	shows(t, s.do("GET", "/cars/new?example=track-coupe", nil), 200, "track-coupe-dyno.csv, read already")
	shows(t, s.do("GET", "/cars/new?example=../shop", nil), 404)
}
