package web

import (
	"bytes"
	"cmp"
	"errors"
	"io"
	"io/fs"
	"mime/multipart"
	"net/http"
	"path"
	"slices"
	"strings"
	"unicode/utf8"

	"layshaft/jobfile"
	"layshaft/workshop"
)

type newCarPage struct {
	base
	ID, Deed string // of the car that is being opened
	Text     string
	Files    []namedFile // that come with the job file and were read already
	Trouble  string
	Faults   []placedFault
	Examples []exampleLine
	May      bool
}

// namedFile is a file that a job file names, such as a dyno run.
type namedFile struct{ Name, Text string }

// placedFault is a fault with the line of the text that it is in.
type placedFault struct {
	figureFault
	Text, Pointer string // the line, and blanks up to a caret under its place
}

// exampleLine is a job file to start from.
type exampleLine struct{ Name, Title string }

func (s *server) showNewCar(w http.ResponseWriter, r *request) error {
	page := s.newCarPage(r)
	if name := r.URL.Query().Get("example"); name != "" {
		text, files, err := s.example(name)
		if err != nil {
			return err
		}
		page.Text, page.Files = text, files
	}
	s.render(w, r, http.StatusOK, "newcar", page)
	return nil
}

func (s *server) newCarPage(r *request) *newCarPage {
	return &newCarPage{base: s.base(r, "Open a car", "/cars/new"), ID: strings.ToLower(newID()), Deed: newID(),
		Examples: s.examples(), May: r.Who.May(workshop.OpenCar)}
}

// examples lists the job files to start from, by the name of their car.
func (s *server) examples() []exampleLine {
	if s.Examples == nil {
		return nil
	}
	names, err := fs.Glob(s.Examples, "*.yaml")
	if err != nil {
		return nil // the pattern is a good one
	}
	var lines []exampleLine
	for _, file := range names {
		name := strings.TrimSuffix(file, ".yaml")
		text, _, err := s.example(name)
		if err != nil {
			continue
		}
		lines = append(lines, exampleLine{name, aboutExample(text, name)})
	}
	return lines
}

// aboutExample is the first sentence of the comment that an example begins with.
func aboutExample(text, name string) string {
	var words []string
	for line := range strings.Lines(text) {
		comment, is := strings.CutPrefix(line, "#")
		if !is {
			break
		}
		words = append(words, strings.Fields(comment)...)
	}
	about, _, _ := strings.Cut(strings.Join(words, " "), ". ")
	return cmp.Or(about, name)
}

// example reads a job file to start from, with the files that it names.
func (s *server) example(name string) (string, []namedFile, error) {
	if s.Examples == nil || strings.Contains(name, "/") {
		return "", nil, workshop.ErrNotFound
	}
	text, err := fs.ReadFile(s.Examples, name+".yaml")
	if err != nil {
		return "", nil, errors.Join(workshop.ErrNotFound, err)
	}
	var files []namedFile
	open := func(file string) ([]byte, error) {
		data, err := fs.ReadFile(s.Examples, file)
		if err == nil {
			files = append(files, namedFile{file, string(data)})
		}
		return data, err
	}
	_, _, err = jobfile.Parse(name, text, open)
	return string(text), files, err
}

// openCar enters a new car. What is wrong is shown beside the text, and nothing of it is lost.
func (s *server) openCar(w http.ResponseWriter, r *request) error {
	page := s.newCarPage(r)
	if err := page.read(r); err != nil {
		return err
	}
	d, err := deed(r)
	if err == nil {
		var car *workshop.Car
		if car, err = s.Shop.OpenCar(r.Context(), d, page.ID, []byte(page.Text), page.byName()); err == nil {
			http.Redirect(w, r.Request, "/cars/"+car.ID+"?entered=1", http.StatusSeeOther)
			return nil
		}
	}
	status, _, text := faultWords(err)
	if status == http.StatusInternalServerError || status == http.StatusConflict {
		return err
	}
	page.Trouble = text
	if faults := figureFaults(err); len(faults) > 0 {
		page.Trouble = "The car was not opened: " + faultCount(len(faults)) + "."
		page.Faults = place(faults, page.Text)
	}
	s.render(w, r, status, "newcar", page)
	return nil
}

// read takes what the form sent: the text or, before it, an uploaded job file; files sent now, and those that were
// read before.
func (p *newCarPage) read(r *request) error {
	if err := r.ParseMultipartForm(largestForm); err != nil && !errors.Is(err, http.ErrNotMultipart) {
		return err
	}
	p.Text = strings.ReplaceAll(r.PostForm.Get("text"), "\r\n", "\n")
	if id := r.PostForm.Get("id"); isID(id) {
		p.ID = id
	}
	for i, name := range r.PostForm["filename"] {
		if texts := r.PostForm["filetext"]; i < len(texts) && name != "" {
			p.Files = append(p.Files, namedFile{name, texts[i]})
		}
	}
	if r.MultipartForm == nil {
		return nil
	}
	for _, header := range r.MultipartForm.File["job"] {
		text, err := uploaded(header)
		if err != nil {
			return err
		}
		p.Text = text
	}
	for _, header := range r.MultipartForm.File["file"] {
		text, err := uploaded(header)
		if err != nil {
			return err
		}
		name := path.Base(strings.ReplaceAll(header.Filename, "\\", "/"))
		p.Files = slices.DeleteFunc(p.Files, func(f namedFile) bool { return f.Name == name })
		p.Files = append(p.Files, namedFile{name, text})
	}
	return nil
}

// isID keeps to the letters of the IDs that newID makes.
func isID(id string) bool {
	return len(id) >= 20 && len(id) <= 40 && strings.Trim(id, "abcdefghijklmnopqrstuvwxyz0123456789") == ""
}

func uploaded(header *multipart.FileHeader) (string, error) {
	file, err := header.Open()
	if err != nil {
		return "", err
	}
	defer file.Close()
	data, err := io.ReadAll(file)
	if err != nil {
		return "", err
	}
	if !utf8.Valid(data) || bytes.ContainsRune(data, 0) {
		return "", refusal(header.Filename + " is not a text file; a job file is YAML, a dyno run is CSV, both in UTF-8")
	}
	return strings.ReplaceAll(string(data), "\r\n", "\n"), nil
}

func (p *newCarPage) byName() map[string][]byte {
	files := map[string][]byte{}
	for _, f := range p.Files {
		files[f.Name] = []byte(f.Text)
	}
	return files
}

// place finds the lines of the text that faults are in.
func place(faults []figureFault, text string) []placedFault {
	lines := strings.Split(text, "\n")
	placed := make([]placedFault, len(faults))
	for i, f := range faults {
		placed[i].figureFault = f
		if f.Line >= 1 && f.Line <= len(lines) {
			placed[i].Text = lines[f.Line-1]
			placed[i].Pointer = strings.Repeat(" ", max(0, f.Column-1)) + "^"
		}
	}
	return placed
}
