package paper

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"layshaft/carview"
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

// read is what a reader finds on the pages, block after block; a form feed ends each page.
func read(t *testing.T, pdf []byte) string { return poppler(t, pdf, "pdftotext", "-raw", "", "-") }

// poppler runs one of Poppler's programs on a paper; an empty argument stands for the file.
func poppler(t *testing.T, pdf []byte, program string, args ...string) string {
	t.Helper()
	if _, err := exec.LookPath(program); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is missing: install the Debian package poppler-utils", program)
		}
		t.Skipf("%s is missing: install the Debian package poppler-utils to run this test", program)
	}
	file := filepath.Join(t.TempDir(), "paper.pdf")
	if err := os.WriteFile(file, pdf, 0o644); err != nil {
		t.Fatal(err)
	}
	args = slices.Clone(args)
	args[slices.Index(args, "")] = file
	out, err := exec.Command(program, args...).Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

// plain is a text's words and figures with single blanks between, bare of marks, so that line breaks do not matter.
func plain(text string) string {
	return " " + strings.Join(regexp.MustCompile(`[\pL\pN]+`).FindAllString(text, -1), " ") + " "
}

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
	for _, name := range carFiles(t) {
		sheet := sheetOf(t, exampleText(t, name))
		a := sheet.Answer
		said := map[string][]string{
			"car":   {sheet.Job.Car.Name, sheet.Job.Car.Registration, sheet.ShopName, "14 March 2026", "Ida Marsh", "Unit 1"},
			"price": {carview.Money(a.Price.Net, a.Price.Currency), carview.Money(a.Price.Gross, a.Price.Currency)},
			"strip": {carview.Hours(a.Strip.Together), a.Strip.Version, a.Strip.Basis},
			"lead":  slices.Concat(carview.Lead(sheet.Job, a), carview.HowSure(sheet.Job, a)),
		}
		for _, line := range a.Price.Lines {
			said["price"] = append(said["price"], line.Name, carview.Money(line.Net, a.Price.Currency))
		}
		for _, option := range a.Price.Options {
			said["options"] = append(said["options"], option.Title, carview.Money(option.Gross, a.Price.Currency))
		}
		for _, advice := range a.Advice {
			if !advice.In || advice.Weight == workshop.Insisted {
				said["advice"] = append(said["advice"], advice.Title, advice.Because)
			}
		}
		for _, assumed := range a.Assumptions {
			said["assumed"] = append(said["assumed"], assumed.Text)
		}
		for _, pair := range a.Release.Pairs {
			said["pairs"] = append(said["pairs"], pair.Verdict, carview.BiteBand(&pair))
		}
		paper := plain(read(t, written(t, sheet)))
		for part, texts := range said {
			for _, text := range texts {
				if !strings.Contains(paper, plain(text)) {
					t.Errorf("%s: %s: not on the paper: %q", name, part, text)
				}
			}
		}
	}
}

// What can hurt, and what is easily done wrong, has to stand behind its own step.
func TestEveryCautionStandsAtItsStep(t *testing.T) {
	for _, name := range carFiles(t) {
		sheet := sheetOf(t, exampleText(t, name))
		paper := plain(read(t, written(t, sheet)))
		cautions := 0
		at := 0
		for _, step := range sheet.Answer.Strip.Steps {
			off := plain(carview.TitleOr(step.TakeOff, step.Name))
			for i, text := range append([]string{off}, step.Cautions...) {
				from := strings.Index(paper[at:], strings.TrimRight(plain(text), " "))
				if from < 0 {
					t.Fatalf("%s: step %s: not behind what comes before it: %q", name, step.Name, text)
				}
				at += from
				cautions += min(i, 1)
			}
		}
		steps := map[string]workshop.Step{}
		for _, step := range sheet.Answer.Strip.Steps {
			steps[step.Name] = step
		}
		for _, back := range sheet.Answer.Strip.On {
			step := steps[back]
			for _, text := range slices.Concat([]string{carview.TitleOr(step.PutBack, back)}, step.WhichWay, step.Tighten, step.Checks) {
				from := strings.Index(paper[at:], strings.TrimRight(plain(text), " "))
				if from < 0 {
					t.Fatalf("%s: step %s back on: not behind what comes before it: %q", name, back, text)
				}
				at += from
			}
		}
		if cautions < 10 {
			t.Errorf("%s: only %d cautions in the plan", name, cautions)
		}
	}
}

func TestEveryPageSaysWhichCarAndWhichPageItIs(t *testing.T) {
	sheet := sheetOf(t, exampleText(t, "street-saloon.yaml"))
	pages := strings.Split(strings.TrimRight(read(t, written(t, sheet)), "\f"), "\f")
	for i, page := range pages {
		for _, want := range []string{"Corrie S4 saloon", "LY19 SHF", fmt.Sprintf("page %d of %d", i+1, len(pages))} {
			if !strings.Contains(page, want) {
				t.Errorf("page %d does not say %q", i+1, want)
			}
		}
	}
}

func TestThePDFSaysWhatItIs(t *testing.T) {
	pdf := written(t, sheetOf(t, exampleText(t, "street-saloon.yaml")))
	if !bytes.Contains(pdf, []byte("/Lang (en-GB)")) {
		t.Error("no language")
	}
	info := poppler(t, pdf, "pdfinfo", "-isodates", "")
	for _, want := range []string{`Title: +Work-up of Corrie S4 saloon, LY19 SHF`, `Author: +Quarry Lane Driveline`, `CreationDate: +2026-03-14T09:30`, `Page size: .*A4`} {
		if !regexp.MustCompile(want).MatchString(info) {
			t.Errorf("no %s in:\n%s", want, info)
		}
	}
}

var update = flag.Bool("update", false, "rewrite the text in testdata")

// Whoever changes the words on paper should read them in their place once.
func TestThePaperReadsAsItWasLastRead(t *testing.T) {
	const file = "testdata/hill-hatch.txt"
	got := read(t, written(t, sheetOf(t, exampleText(t, "hill-hatch.yaml"))))
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if plain(got) != plain(string(want)) {
		t.Errorf("the words have changed; read the paper, then run the test with -update. Now:\n%s", got)
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
		sheet := sheetOf(t, []byte(text))
		paper := plain(read(t, written(t, sheet)))
		for _, missing := range sheet.Answer.NotComputed {
			if !strings.Contains(paper, plain("Not worked out: "+missing.Key)) {
				t.Errorf("%s: the paper does not say that %s is missing", name, missing.Key)
			}
		}
	}
}

func TestMissingPartsAndFiguresLeaveDashesNotPanics(t *testing.T) {
	for name, spoil := range map[string]func(*workshop.Workup){
		"no hold":    func(a *workshop.Workup) { a.Hold = nil },
		"no release": func(a *workshop.Workup) { a.Release = nil },
		"no strip":   func(a *workshop.Workup) { a.Strip, a.Price = nil, nil },
		"no price":   func(a *workshop.Workup) { a.Price = nil },
		"no advice":  func(a *workshop.Workup) { a.Advice, a.Assumptions = nil, nil },
		"nothing":    func(a *workshop.Workup) { *a = workshop.Workup{} },
		"no figures": func(a *workshop.Workup) { unknown(reflect.ValueOf(a)) },
	} {
		sheet := sheetOf(t, exampleText(t, "street-saloon.yaml"))
		spoil(sheet.Answer)
		if paper := read(t, written(t, sheet)); strings.Contains(paper, "NaN") || strings.Contains(paper, "Inf") {
			t.Errorf("%s: a figure that is none is printed as one:\n%s", name, paper)
		}
		for _, set := range settings {
			standWithinTheirPages(t, name, &sheet, set)
		}
	}
}

// unknown makes every figure below a value NaN.
func unknown(v reflect.Value) {
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			unknown(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			unknown(v.Field(i))
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			unknown(v.Index(i))
		}
	case reflect.Map:
		for _, key := range v.MapKeys() {
			value := reflect.New(v.Type().Elem()).Elem()
			value.Set(v.MapIndex(key))
			unknown(value)
			v.SetMapIndex(key, value)
		}
	case reflect.Float64:
		if v.CanSet() && v.Type() == reflect.TypeFor[workshop.Figure]() {
			v.SetFloat(math.NaN())
		}
	}
}

// hostile are names that no honest car has.
var hostile = []string{
	strings.Repeat("Wherewithal", 400), strings.Repeat("many words ", 600), "漢字 🚗 \u202e backwards", `(\) << /JS >> endstream`, "\x00\xff\xfe", "",
}

func TestHostileNamesDoNoHarm(t *testing.T) {
	for _, name := range hostile {
		sheet := sheetOf(t, exampleText(t, "town-hatch.yaml"))
		sheet.ShopName, sheet.By, sheet.Place, sheet.Stage = name, name, name, name
		car := &sheet.Job.Car
		car.Name, car.Registration, car.VIN, car.Layout = name, name, name, name
		for i := range sheet.Answer.Strip.Steps {
			step := &sheet.Answer.Strip.Steps[i]
			step.TakeOff, step.Place, step.Cautions, step.SingleUse = name, name, []string{name, name}, []string{name}
		}
		sheet.Answer.Strip.SingleUse = []string{name, name}
		for i := range sheet.Answer.Price.Lines {
			sheet.Answer.Price.Lines[i].Name = name
		}
		for i := range sheet.Answer.Advice {
			sheet.Answer.Advice[i].Title, sheet.Answer.Advice[i].Because = name, name
		}
		if pdf := written(t, sheet); !bytes.HasSuffix(bytes.TrimSpace(pdf), []byte("%%EOF")) {
			t.Errorf("%.20q: no whole PDF", name)
		}
		for _, set := range []setting{settings[0], settings[len(settings)-1]} {
			standWithinTheirPages(t, fmt.Sprintf("%.20q", name), &sheet, set)
		}
	}
}

func TestAWrongNameCostsNoFurtherPage(t *testing.T) {
	for _, name := range hostile {
		sheet := sheetOf(t, exampleText(t, "town-hatch.yaml"))
		sheet.Job.Car.Name = name
		if pages := len(pageMark.FindAll(written(t, sheet), -1)); pages > mostPages {
			t.Errorf("%.20q: %d pages", name, pages)
		}
	}
}

func TestWhatTheTypefaceLacksIsSeenToBeMissing(t *testing.T) {
	sheet := sheetOf(t, exampleText(t, "town-hatch.yaml"))
	sheet.Job.Car.Name = "Fell 漢 hatch"
	if text := read(t, written(t, sheet)); !strings.Contains(text, "Fell \ufffd hatch") {
		t.Errorf("the car is called something else:\n%.300s", text)
	}
}

func TestNothingStandsBeyondItsPageOrOnSomethingElse(t *testing.T) {
	for _, name := range carFiles(t) {
		sheet := sheetOf(t, exampleText(t, name))
		for _, set := range settings {
			standWithinTheirPages(t, name, &sheet, set)
		}
	}
}

// standWithinTheirPages fails where a block of a composed book ends below its page or above the end of another that
// it stands below.
func standWithinTheirPages(t *testing.T, name string, sheet *Sheet, set setting) {
	t.Helper()
	b := newBook(sheet)
	b.compose(set)
	for number, page := range b.pages {
		ends := map[float64]float64{} // of what was placed so far, by the left edge
		for _, p := range page.placed {
			if bottom := p.y + p.height; !(bottom <= bodyBottom+0.01) {
				t.Errorf("%s %v: page %d: a block ends at %.1f mm", name, set, number+1, bottom)
			}
			if !(p.y >= ends[p.x]-0.01) {
				t.Errorf("%s %v: page %d: a block begins at %.1f mm, the one above it ends at %.1f mm", name, set, number+1, p.y, ends[p.x])
			}
			ends[p.x] = p.y + p.height
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
