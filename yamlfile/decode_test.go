package yamlfile

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"layshaft/quantity"
	"layshaft/uncertain"
)

// grade reads itself, as types of other packages do.
type grade struct{ letter string }

func (g *grade) UnmarshalText(text []byte) error {
	if len(text) != 1 {
		return fmt.Errorf("%q is not a grade of one letter", text)
	}
	g.letter = string(text)
	return nil
}

type part struct {
	Name  string `key:"name" need:"yes"`
	Grade grade  `key:"grade" like:"B"`
}

type clutch struct {
	Fitted bool             `key:"fitted"`
	Discs  int              `key:"discs" need:"yes" like:"1" check:">=1"`
	Clamp  float64          `key:"clamp_load" of:"force" need:"yes" like:"9.8 kN" check:">0"`
	Grip   uncertain.Value  `key:"friction" of:"number" like:"0.26 .. 0.30" check:">0,<=2"`
	Share  *uncertain.Value `key:"share" of:"percent" check:">=0,<1"`
	Load   []Row            `key:"bearing_load" of:"length,force" like:"[4 mm, 2100 N]"`
	Gears  []float64        `key:"gears" of:"number" like:"3.2" check:">0"`
	Parts  []part           `key:"parts"`
	Facing *struct {
		Outer float64 `key:"outer" of:"length" need:"yes" like:"230 mm" check:"<=0.4"`
	} `key:"facing"`
}

type car struct {
	Version  int          `key:"layshaft" need:"yes" like:"1"`
	Clutches Map[clutch]  `key:"clutch"`
	Work     []string     `key:"work"`
	Notes    string       `key:"notes"`
	Weights  Map[float64] `key:"weights" of:"mass"`
}

const good = `layshaft: 1
clutch:
  original: {fitted: true, discs: 1, clamp_load: 6.2 kN, friction: 0.27}
  uprated:
    discs: 2
    clamp_load: 9.8 kN # hot
    friction: 0.26 .. 0.30
    share: 54 +- 2 %
    bearing_load: [[0 mm, 0 N], [4 mm, 2100 N]]
    gears: [3.2, 1.9]
    parts:
      - name: 0123
        grade: B
      - {name: cover}
    facing:
      outer: 7 7/8 in
work: [replace-clutch]
notes: |
  two
  lines
weights: {wheel: 18 kg, disc: 4 lb}
`

func decoded(t *testing.T, text string) (car, error) {
	t.Helper()
	doc, err := Parse("car.yaml", []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	var c car
	return c, doc.Decode(&c)
}

func TestDecodeFillsAStruct(t *testing.T) {
	got, err := decoded(t, good)
	if err != nil {
		t.Fatal(err)
	}
	share := uncertain.Normal(0.54, 0.02)
	uprated := clutch{
		Discs: 2, Clamp: 9800, Grip: uncertain.Uniform(0.26, 0.30), Share: &share,
		Load: []Row{{0, 0}, {0.004, 2100}}, Gears: []float64{3.2, 1.9},
		Parts: []part{{"0123", grade{"B"}}, {"cover", grade{}}},
	}
	uprated.Facing = &struct {
		Outer float64 `key:"outer" of:"length" need:"yes" like:"230 mm" check:"<=0.4"`
	}{0.200025}
	want := car{
		Version: 1,
		Clutches: Map[clutch]{
			{"original", clutch{Fitted: true, Discs: 1, Clamp: 6200, Grip: uncertain.Exact(0.27)}},
			{"uprated", uprated},
		},
		Work:    []string{"replace-clutch"},
		Notes:   "two\nlines\n",
		Weights: Map[float64]{{"wheel", 18}, {"disc", 1.81436948}},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

func TestMapKeepsTheOrderAndFindsByName(t *testing.T) {
	c, err := decoded(t, good)
	if err != nil {
		t.Fatal(err)
	}
	if names := c.Clutches.Names(); !reflect.DeepEqual(names, []string{"original", "uprated"}) {
		t.Errorf("names are %v", names)
	}
	if up, ok := c.Clutches.Get("uprated"); !ok || up.Discs != 2 {
		t.Errorf("uprated is %+v, %v", up, ok)
	}
	if _, ok := c.Clutches.Get("racing"); ok {
		t.Error("found a clutch that is not there")
	}
}

func TestDecodeRefusesWithPlaceKeyAndExample(t *testing.T) {
	const least = "layshaft: 1\nclutch:\n  uprated:\n    discs: 2\n    clamp_load: 9.8 kN\n"
	for _, c := range []struct{ text, want string }{
		{strings.Replace(least, " kN", "", 1), `car.yaml:5:17: clutch.uprated.clamp_load: "9.8" has no unit; write for example 9.8 kN`},
		{strings.Replace(least, "kN", "kg", 1), `car.yaml:5:17: clutch.uprated.clamp_load: "9.8 kg" is a mass, and a force is wanted (did you mean kgf?); write for example 9.8 kN`},
		{strings.Replace(least, "9.8", "0", 1), `car.yaml:5:17: clutch.uprated.clamp_load: "0 kN" must be more than zero; write for example 9.8 kN`},
		{strings.Replace(least, "9.8", "9 .. 10", 1), `car.yaml:5:17: clutch.uprated.clamp_load: "9 .. 10 kN" is a range, and a single figure is wanted; write for example 9.8 kN`},
		{strings.Replace(least, "clamp_load", "clampload", 1), "car.yaml:3:3: clutch.uprated.clamp_load: is missing; write for example 9.8 kN\n" +
			`car.yaml:5:5: clutch.uprated.clampload: is not a known key; did you mean clamp_load?`},
		{strings.Replace(least, "discs: 2", "discs: two", 1), `car.yaml:4:12: clutch.uprated.discs: "two" is not a whole number; write for example 1`},
		{strings.Replace(least, "discs: 2", "discs: 0", 1), `car.yaml:4:12: clutch.uprated.discs: "0" must be at least 1; write for example 1`},
		{strings.Replace(least, "discs: 2", "discs:", 1), `car.yaml:4:5: clutch.uprated.discs: has no value; write for example 1`},
		{strings.Replace(least, "discs: 2", "discs: [2]", 1), `car.yaml:4:5: clutch.uprated.discs: is a list, and a single value is wanted; write for example 1`},
		{least + "    fitted: perhaps\n", `car.yaml:6:13: clutch.uprated.fitted: "perhaps" is neither yes nor no`},
		{least + "    friction: -0.1 .. 0.3\n", `car.yaml:6:15: clutch.uprated.friction: "-0.1 .. 0.3" must be more than zero; write for example 0.26 .. 0.30`},
		{least + "    friction: 3\n", `car.yaml:6:15: clutch.uprated.friction: "3" must be at most 2; write for example 0.26 .. 0.30`},
		{least + "    share: 100 %\n", `car.yaml:6:12: clutch.uprated.share: "100 %" must be less than 100 %; write for example 95 %`},
		{least + "    share: -1 +- 5 %\n", `car.yaml:6:12: clutch.uprated.share: "-1 +- 5 %" must not be less than zero; write for example 95 %`},
		{least + "    bearing_load: [[0 mm, 0 N], [4 mm]]\n", `car.yaml:6:33: clutch.uprated.bearing_load[1]: has 1 figure, and a row here is length, force; write for example [4 mm, 2100 N]`},
		{least + "    bearing_load: [[0 mm, 0 N], [4 mm, 3]]\n", `car.yaml:6:40: clutch.uprated.bearing_load[1]: "3" has no unit; write for example [4 mm, 2100 N]`},
		{least + "    bearing_load: [0 mm, 0 N]\n", "car.yaml:6:20: clutch.uprated.bearing_load[0]: is a single value, and a list is wanted; write for example [4 mm, 2100 N]\n" +
			"car.yaml:6:26: clutch.uprated.bearing_load[1]: is a single value, and a list is wanted; write for example [4 mm, 2100 N]"},
		{least + "    gears: [3.2, 0]\n", `car.yaml:6:18: clutch.uprated.gears[1]: "0" must be more than zero; write for example 3.2`},
		{least + "    parts: [{name: a}, {grade: BB}]\n", "car.yaml:6:24: clutch.uprated.parts[1].name: is missing\n" +
			`car.yaml:6:32: clutch.uprated.parts[1].grade: "BB" is not a grade of one letter; write for example B`},
		{least + "    parts: [{name: ' '}]\n", "car.yaml:6:20: clutch.uprated.parts[0].name: is empty"},
		{least + "    facing: {outer: 1 m}\n", `car.yaml:6:21: clutch.uprated.facing.outer: "1 m" must be at most 400 mm; write for example 230 mm`},
		{least + "    facing: round\n", `car.yaml:6:13: clutch.uprated.facing: is a single value, and a group of keys and values is wanted`},
		{least + "colour: red\n", `car.yaml:6:1: colour: is not a known key; known here: layshaft, clutch, work, notes, weights`},
		{least + "notes: \"a\\x07\"\n", `car.yaml:6:8: notes: has a control character in its text`},
		{"- a\n", `car.yaml:1:1: the file is a list, and a group of keys and values is wanted`},
		{"layshaft 1\n", `car.yaml:1:1: the file is a single value, and a group of keys and values is wanted`},
	} {
		if _, err := decoded(t, c.text); err == nil || err.Error() != c.want {
			t.Errorf("%s\n got %v\nwant %s", c.text, err, c.want)
		}
	}
}

func TestYesAndNoAreAnswersAndElsewhereText(t *testing.T) {
	for text, want := range map[string]bool{"true": true, "yes": true, "Yes": true, "'yes'": true, "false": false, "no": false} {
		c, err := decoded(t, "layshaft: 1\nnotes: no\nclutch: {a: {discs: 1, clamp_load: 1 N, fitted: "+text+"}}\n")
		if err != nil || c.Clutches[0].Value.Fitted != want || c.Notes != "no" {
			t.Errorf("fitted: %s gives %+v, %v", text, c, err)
		}
	}
}

func TestAllProblemsAreToldInTheOrderOfTheFileUpToALimit(t *testing.T) {
	text := "work:\n"
	for range 50 {
		text += "- [a]\n"
	}
	_, err := decoded(t, text)
	var all Problems
	if !errors.As(err, &all) || len(all) != maxProblems {
		t.Fatalf("got %v", err)
	}
	for i, p := range all[1:] {
		if p.Line < all[i].Line {
			t.Errorf("line %d is told after line %d", p.Line, all[i].Line)
		}
	}
}

func TestRemarksAndLineEndsDoNotShiftPlaces(t *testing.T) {
	for name, text := range map[string]string{
		"remark":  "# one\n# two\nwrok: 1\n",
		"crlf":    "# one\r\nnotes: a\r\nwrok: 1\r\n",
		"literal": "notes: |\n  a\nwrok: 1\n",
		"empty":   "\n\nwrok: 1\n",
	} {
		_, err := decoded(t, text)
		if err == nil || !strings.Contains(err.Error(), "car.yaml:3:1: wrok: is not a known key; did you mean work?") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestColumnsCountCharacters(t *testing.T) {
	_, err := decoded(t, "{layshaft: 1, notes: ü€𝛍, wrok: 1}")
	if err == nil || !strings.HasPrefix(err.Error(), "car.yaml:1:27: wrok: ") {
		t.Error(err)
	}
}

func TestTypesAndTagsThatMakeNoSensePanic(t *testing.T) {
	doc, err := Parse("f", []byte("a: 1\n"))
	if err != nil {
		t.Fatal(err)
	}
	for name, into := range map[string]any{
		"no pointer": struct{}{},
		"nil":        (*car)(nil),
		"quantity without of": &struct {
			F float64 `key:"f"`
		}{},
		"value without of": &struct {
			F uncertain.Value `key:"f"`
		}{},
		"unknown dimension": &struct {
			F float64 `key:"f" of:"colour"`
		}{},
		"two dimensions": &struct {
			F float64 `key:"f" of:"length,force"`
		}{},
		"row without of": &struct {
			F []Row `key:"f"`
		}{},
		"text with of": &struct {
			F string `key:"f" of:"length"`
		}{},
		"bad check": &struct {
			F int `key:"f" check:"=1"`
		}{},
		"bad need": &struct {
			F int `key:"f" need:"true"`
		}{},
		"the same key twice": &struct {
			F, G int `key:"f"`
		}{},
		"a channel": &struct {
			F chan int `key:"f"`
		}{},
		"a Go map": &struct {
			F map[string]int `key:"f"`
		}{},
		"deep in a list of Map": &struct {
			F []Map[complex128] `key:"f"`
		}{},
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("Decode did not panic")
				}
			}()
			_ = doc.Decode(into)
		})
	}
}

func TestATypeMayContainItself(t *testing.T) {
	type tree struct {
		Name string `key:"name"`
		// Sub is a slice of its own type.
		Sub []tree `key:"sub"`
	}
	doc, err := Parse("f", []byte("name: a\nsub: [{name: b, sub: [{name: c}]}]\n"))
	if err != nil {
		t.Fatal(err)
	}
	var got tree
	if err := doc.Decode(&got); err != nil || got.Sub[0].Sub[0].Name != "c" {
		t.Errorf("got %+v, %v", got, err)
	}
}

// The fixed texts that a reader copies from an error must themselves be accepted.
func TestExamplesInErrorsAreAccepted(t *testing.T) {
	for d := quantity.Number; d <= quantity.Acceleration; d++ {
		if _, err := quantity.ParseValue(rule{of: []quantity.Dimension{d}}.example(), d); err != nil {
			t.Error(err)
		}
	}
}
