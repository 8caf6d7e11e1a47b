package paper

import (
	"bytes"
	"context"
	"io"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"layshaft/examples"
	"layshaft/jobfile"
	"layshaft/library"
	"layshaft/workshop"
)

var at = time.Date(2026, 3, 14, 9, 30, 0, 0, time.UTC)

func sheetOf(t testing.TB, text []byte) Sheet {
	t.Helper()
	job, _, err := jobfile.Parse("job file", text, func(name string) ([]byte, error) { return fs.ReadFile(examples.Files, name) })
	if err != nil {
		t.Fatal(err)
	}
	var layout *library.Layout
	if job.Car.Layout != "" {
		if layout, err = workshop.LayoutFor(job, library.Builtin()); err != nil {
			t.Fatal(err)
		}
	}
	answer, err := workshop.WorkUp(context.Background(), job, layout, nil, workshop.Quick)
	if err != nil {
		t.Fatal(err)
	}
	return Sheet{ShopName: "Quarry Lane Driveline", Job: job, Answer: answer, Stage: "offered", Place: "Unit 1", By: "Ida Marsh", At: at}
}

func written(t testing.TB, sheet Sheet) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, sheet); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func exampleText(t testing.TB, name string) []byte {
	t.Helper()
	text, err := fs.ReadFile(examples.Files, name)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// read is what a reader finds on the pages, with all white space made single blanks.
func read(t *testing.T, pdf []byte) string {
	t.Helper()
	if _, err := exec.LookPath("pdftotext"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("pdftotext is missing: install the Debian package poppler-utils")
		}
		t.Skip("pdftotext is missing: install the Debian package poppler-utils to run this test")
	}
	file := filepath.Join(t.TempDir(), "paper.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// words are a text's words in order, bare of marks, so that line breaks and columns do not matter.
func words(text string) []string { return regexp.MustCompile(`[\pL\pN]+`).FindAllString(text, -1) }

var pageMark = regexp.MustCompile(`/Type /Page\b`)

func carFiles(t *testing.T) []string {
	t.Helper()
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var cars []string
	for _, name := range names {
		if bytes.Contains(exampleText(t, name), []byte("\ncar:")) {
			cars = append(cars, name)
		}
	}
	if len(cars) < 8 {
		t.Fatalf("only %d example cars", len(cars))
	}
	return cars
}

func TestEveryExampleFillsTwoToFourPages(t *testing.T) {
	for _, name := range carFiles(t) {
		pdf := written(t, sheetOf(t, exampleText(t, name)))
		pages := len(pageMark.FindAll(pdf, -1))
		if pages < 2 || pages > mostPages {
			t.Errorf("%s: %d pages", name, pages)
		}
		if len(pdf) > 400_000 {
			t.Errorf("%s: %d bytes", name, len(pdf))
		}
	}
}

func TestPaperSaysWhatTheAnswersSay(t *testing.T) {
	sheet := sheetOf(t, exampleText(t, "street-saloon.yaml"))
	text := read(t, written(t, sheet))
	for _, want := range []string{"Corrie S4 saloon", "LY19 SHF", "slips", "holds", "drags", "frees", "2,143.67", "14 March 2026", "page 1 of 4"} {
		if !strings.Contains(text, want) {
			t.Errorf("no %q on the paper", want)
		}
	}
	if sheet.Answer.Price.Gross != "2143.67" {
		t.Errorf("the example costs %s now: follow it above", sheet.Answer.Price.Gross)
	}
}

func TestEveryCautionStandsOnThePaper(t *testing.T) {
	for _, name := range []string{"street-saloon.yaml", "track-coupe.yaml"} {
		sheet := sheetOf(t, exampleText(t, name))
		printed := map[string]bool{}
		for _, word := range words(read(t, written(t, sheet))) {
			printed[word] = true
		}
		cautions := 0
		for _, step := range sheet.Answer.Strip.Steps {
			for _, caution := range step.Cautions {
				cautions++
				for _, word := range words(caution) {
					if !printed[word] {
						t.Errorf("%s: %s: no word %q of the caution %q", name, step.Name, word, caution)
					}
				}
			}
		}
		if cautions < 10 {
			t.Errorf("%s: only %d cautions in the plan", name, cautions)
		}
	}
}

func TestSameSheetSameBytes(t *testing.T) {
	text := exampleText(t, "town-hatch.yaml")
	if !bytes.Equal(written(t, sheetOf(t, text)), written(t, sheetOf(t, text))) {
		t.Error("two papers of one sheet differ")
	}
}

func TestPaperOfALittleIsStillAPaper(t *testing.T) {
	for name, text := range map[string]string{
		"a name alone":   "layshaft: 1\ncar: {name: Bare}\n",
		"engine, clutch": "layshaft: 1\ncar: {name: Bare}\nengine: {power: 100 kW, at: 6000 rpm}\nclutch: {a: {discs: 1, facing: {outer: 200 mm, inner: 140 mm, friction: 0.3}, clamp_load: 5 kN}}\n",
		"work alone":     "layshaft: 1\ncar: {name: Bare, layout: rwd-longitudinal}\nwork: [replace-clutch]\n",
	} {
		if pdf := written(t, sheetOf(t, []byte(text))); !bytes.HasPrefix(pdf, []byte("%PDF-")) {
			t.Errorf("%s: no PDF", name)
		}
	}
}

func TestHostileNamesDoNoHarm(t *testing.T) {
	long := strings.Repeat("Wherewithal", 40)
	for _, name := range []string{long, "漢字 🚗 \u202e backwards", "(\\) << /JS >> endstream"} {
		text := strings.Replace(string(exampleText(t, "town-hatch.yaml")), "Fell 1.6 hatch", `"`+strings.ReplaceAll(name, `\`, `\\`)+`"`, 1)
		pdf := written(t, sheetOf(t, []byte(text)))
		if pages := len(pageMark.FindAll(pdf, -1)); pages > mostPages {
			t.Errorf("%.20q: %d pages", name, pages)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	sheet := sheetOf(b, exampleText(b, "street-saloon.yaml"))
	for b.Loop() {
		if err := Write(io.Discard, sheet); err != nil {
			b.Fatal(err)
		}
	}
}
