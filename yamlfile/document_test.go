package yamlfile

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func parsed(t *testing.T, text string) *Document {
	t.Helper()
	doc, err := Parse("car.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return doc
}

func TestFaultPointsAtTheKeyOrTheNearestAroundIt(t *testing.T) {
	doc := parsed(t, good)
	for key, want := range map[string]string{
		"clutch.uprated.clamp_load":          "6:17",
		"clutch.uprated.friction":            "7:15",
		"clutch.uprated.bearing_load":        "9:5",
		"clutch.uprated.bearing_load[1]":     "9:33",
		"clutch.uprated.bearing_load[1][1]":  "9:40",
		"clutch.uprated.bearing_load[9]":     "9:5",
		"clutch.uprated.parts[0].grade":      "13:16",
		"clutch.uprated.parts[1].grade":      "14:9",
		"clutch.uprated.facing":              "15:5",
		"clutch.uprated.cushion":             "4:3",
		"clutch.original.clamp_load":         "3:50",
		"clutch.racing.clamp_load":           "2:1",
		"work[0]":                            "17:8",
		"release":                            "1:1",
		"":                                   "1:1",
		"clutch.uprated.clamp_load.too.deep": "6:17",
		"work[x]":                            "17:1",
		"work]":                              "1:1",
		"work[":                              "17:1",
	} {
		got := doc.Fault(key, "is %s", "odd")
		if at := fmt.Sprintf("%d:%d", got.Line, got.Column); at != want || got.Key != key || got.Message != "is odd" || got.File != "car.yaml" {
			t.Errorf("Fault(%q) = %v, want at %s", key, got, want)
		}
	}
}

func TestHasTellsWhatTheFileHas(t *testing.T) {
	doc := parsed(t, good)
	for key, want := range map[string]bool{
		"clutch": true, "clutch.uprated.facing.outer": true, "work[0]": true, "work[1]": false, "clutch.uprated.cushion": false,
		"release": false, "clutch.uprated.clamp": false, "layshaft": true, "layshaft.x": false,
	} {
		if got := doc.Has(key); got != want {
			t.Errorf("Has(%q) = %v", key, got)
		}
	}
}

func TestNamesMayHaveDotsInThem(t *testing.T) {
	doc := parsed(t, "clutch:\n  v1: {discs: 1}\n  v1.2: {discs: 2}\n")
	if p := doc.Fault("clutch.v1.2.discs", "x"); p.Line != 3 || !doc.Has("clutch.v1.2.discs") {
		t.Errorf("got %v", p)
	}
	if p := doc.Fault("clutch.v1.discs", "x"); p.Line != 2 {
		t.Errorf("got %v", p)
	}
}

func TestProblemPrintsPlaceKeyMessageAndExample(t *testing.T) {
	for want, p := range map[string]Problem{
		`car.yaml:14:19: clutch.uprated.clamp_load: "9.8" has no unit; write for example 9.8 kN`: {
			"car.yaml", 14, 19, "clutch.uprated.clamp_load", `"9.8" has no unit`, "9.8 kN"},
		"car.yaml:1:1: the file is empty": {File: "car.yaml", Line: 1, Column: 1, Message: "the file is empty"},
	} {
		if p.Error() != want {
			t.Errorf("got %s, want %s", p.Error(), want)
		}
	}
}

// Values are written at places that the test knows, in block and flow style, between remarks and over depths.
func TestPlacesAreRightInRandomFiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := &writer{t: t, places: map[string]string{}, line: 1}
		w.block("", 0, 3)
		doc, err := Parse("f", []byte(w.text.String()))
		if err != nil {
			t.Fatalf("%v in\n%s", err, w.text.String())
		}
		for key, want := range w.places {
			p := doc.Fault(key, "x")
			if got := fmt.Sprintf("%d:%d", p.Line, p.Column); got != want || !doc.Has(key) {
				t.Fatalf("%s is at %s, want %s in\n%s", key, got, want, w.text.String())
			}
		}
	})
}

// writer writes a random file and notes where each value stands.
type writer struct {
	t      *rapid.T
	text   strings.Builder
	line   int
	places map[string]string
}

var scalars = []string{"1", "19.05 mm", "0.26 .. 0.30", "yes", "'quoted text'", "\"µm ü\"", "5/8 in", "148 ± 1 mm", "-3"}

// block writes a mapping of up to four keys, each on a line of its own.
func (w *writer) block(path string, indent, depth int) {
	for i := range rapid.IntRange(1, 4).Draw(w.t, "keys") {
		if rapid.Bool().Draw(w.t, "remark") {
			w.newLine(strings.Repeat(" ", indent) + "# a remark: with {marks}")
		}
		key := fmt.Sprintf("k%d", i)
		start := strings.Repeat(" ", indent) + key + ":"
		at := join(path, key)
		switch form := rapid.IntRange(0, 3).Draw(w.t, "form"); {
		case form == 0 && depth > 0:
			w.note(at, indent+1)
			w.newLine(start)
			w.block(at, indent+2, depth-1)
		case form == 1:
			w.note(at, indent+1)
			w.flow(at, start+" ")
		case form == 2:
			w.note(at, indent+1)
			w.newLine(start)
			for j := range rapid.IntRange(1, 3).Draw(w.t, "items") {
				w.note(fmt.Sprintf("%s[%d]", at, j), indent+3)
				w.newLine(strings.Repeat(" ", indent) + "- " + rapid.SampledFrom(scalars).Draw(w.t, "item"))
			}
		default:
			w.note(at, len(start)+2)
			w.newLine(start + " " + rapid.SampledFrom(scalars).Draw(w.t, "value") + "  # a remark")
		}
	}
}

// flow writes a list in brackets after start, on one line.
func (w *writer) flow(path, start string) {
	line := start + "["
	for i := range rapid.IntRange(1, 4).Draw(w.t, "items") {
		if i > 0 {
			line += ", "
		}
		w.note(fmt.Sprintf("%s[%d]", path, i), len([]rune(line))+1)
		line += rapid.SampledFrom(scalars).Draw(w.t, "item")
	}
	w.newLine(line + "]")
}

func (w *writer) note(key string, column int) { w.places[key] = fmt.Sprintf("%d:%d", w.line, column) }

func (w *writer) newLine(text string) {
	w.text.WriteString(text + "\n")
	w.line++
}
