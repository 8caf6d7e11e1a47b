package library

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

const mile = 1609.344 // m

// facts of a car whose original release parts drag with the new clutch.
var facts = Facts{
	Odometer:      81000 * mile,
	Clutch:        map[string]string{"original": "slips", "uprated": "holds"},
	FittedClutch:  "original",
	Release:       map[string]string{"original": "drags", "metal-master": "frees"},
	FittedRelease: "original",
}

func TestConditionsHoldOrNot(t *testing.T) {
	for text, want := range map[string]bool{
		"always":                   true,
		"odometer over 80000 mi":   true,
		"odometer over 81000 mi":   false, // over, not at
		"odometer over 130000 km":  true,
		"odometer over 131000 km":  false,
		"clutch.fitted slips":      true,
		"clutch.original thin":     false,
		"clutch.uprated holds":     true,
		"  clutch.uprated   holds": true,
		"release.original drags or over-travels with the new clutch":         true,
		"release.fitted bottoms or over-travels with the new clutch":         false,
		"release.metal-master drags or bottoms with the new clutch":          false,
		"release.metal-master drags or frees or bottoms with the new clutch": true,
	} {
		c, err := ParseCondition(text)
		if err != nil {
			t.Errorf("%q: %v", text, err)
			continue
		}
		if got, err := c.Holds(facts); got != want || err != nil {
			t.Errorf("%q: got %v, %v", text, got, err)
		}
	}
}

func TestOriginalMeansTheFittedOneUnlessSomethingBearsThatName(t *testing.T) {
	c, err := ParseCondition("release.original drags with the new clutch")
	if err != nil {
		t.Fatal(err)
	}
	swapped := Facts{Release: map[string]string{"as-bought": "drags"}, FittedRelease: "as-bought"}
	if held, err := c.Holds(swapped); !held || err != nil {
		t.Errorf("nothing is called original: the fitted one counts; got %v, %v", held, err)
	}
	swapped.Release["original"] = "frees"
	if held, err := c.Holds(swapped); held || err != nil {
		t.Errorf("something is called original: it counts; got %v, %v", held, err)
	}
}

func TestAMissingFactIsNeitherYesNorNo(t *testing.T) {
	for text, want := range map[string]string{
		"odometer over 80000 mi":                     `"odometer over 80000 mi" cannot be judged: the odometer is not given`,
		"clutch.fitted slips":                        `"clutch.fitted slips" cannot be judged: no clutch is marked as fitted`,
		"clutch.uprated slips":                       `"clutch.uprated slips" cannot be judged: there is no verdict on clutch "uprated"`,
		"release.original drags with the new clutch": `"release.original drags with the new clutch" cannot be judged: no release is marked as fitted`,
	} {
		c, err := ParseCondition(text)
		if err != nil {
			t.Fatal(err)
		}
		held, err := c.Holds(Facts{})
		var unknown *NotKnown
		if held || !errors.As(err, &unknown) || err.Error() != want {
			t.Errorf("got %v, %v\nwant %s", held, err, want)
		}
	}
}

func TestABadConditionNamesTheWordAndTheNearestRightOne(t *testing.T) {
	for text, want := range map[string]string{
		"":                           `is empty; write for example release.original drags or over-travels with the new clutch`,
		"alwys":                      `"alwys" is not what a condition begins with (always, odometer, clutch, release); did you mean "always"?`,
		"always please":              `"please" is left over at the end; write for example always`,
		"always.now":                 `"always" takes no name after a dot; write for example always`,
		"clutch slips":               `"clutch" does not name a candidate; write for example clutch.fitted thin or slips`,
		"clutch.fitted slipps":       `"slipps" is not holds, thin or slips; did you mean "slips"?`,
		"clutch.fitted":              `ends where holds, thin or slips should stand; write for example clutch.fitted thin or slips`,
		"clutch.fitted thin or":      `ends where holds, thin or slips should stand; write for example clutch.fitted thin or slips`,
		"clutch.fitted thin or thin": `"thin" stands there twice; write for example clutch.fitted thin or slips`,
		"clutch.fitted thin slips":   `"slips" is left over at the end; write for example clutch.fitted thin or slips`,
		"odometer over 80000":        `"80000" has no unit; write for example odometer over 80000 mi`,
		"odometer over":              `ends before its distance; write for example odometer over 80000 mi`,
		"odometer over 0 mi":         `"0 mi" must be more than zero; write for example odometer over 80000 mi`,
		"odometer ovre 9 mi":         `"ovre" stands where "over" should; did you mean "over"?`,
		"release.original drag with the new clutch":  `"drag" is not frees, drags, over-travels or bottoms; did you mean "drags"?`,
		"release.original drags with the new clucth": `"clucth" stands where "clutch" should; did you mean "clutch"?`,
		"release.original drags":                     `ends where "with" should stand; write for example release.original drags or over-travels with the new clutch`,
	} {
		_, err := ParseCondition(text)
		var wrong *ConditionError
		if full := fmt.Sprintf("condition %q: %s", text, want); !errors.As(err, &wrong) || err.Error() != full {
			t.Errorf("got  %v\nwant %s", err, full)
		}
	}
}

// Property: what a condition prints reads back as itself, and it is met by just the verdicts that it names.
func TestAConditionReadsBackAndMeetsJustItsVerdicts(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		subject, known, tail := "clutch", clutchVerdicts, ""
		if rapid.Bool().Draw(r, "release") {
			subject, known, tail = "release", releaseVerdicts, " with the new clutch"
		}
		words := rapid.SliceOfNDistinct(rapid.SampledFrom(known), 1, len(known), rapid.ID).Draw(r, "words")
		c, err := ParseCondition(subject + ".x " + strings.Join(words, " or ") + tail)
		if err != nil {
			r.Fatal(err)
		}
		if again, err := ParseCondition(c.String()); err != nil || again.String() != c.String() {
			r.Fatalf("%q reads back as %q, %v", c, again, err)
		}
		for _, verdict := range known {
			on := map[string]string{"x": verdict}
			held, err := c.Holds(Facts{Clutch: on, Release: on})
			named := strings.Contains(" "+strings.Join(words, " ")+" ", " "+verdict+" ")
			if err != nil || held != named {
				r.Errorf("%q with verdict %s: %v, %v", c, verdict, held, err)
			}
		}
	})
}

func TestAConditionThatWasNeverParsedPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("no panic")
		}
	}()
	Condition{}.Holds(facts)
}

func ExampleCondition_Holds() {
	c, err := ParseCondition("release.original drags or over-travels with the new clutch")
	if err != nil {
		panic(err)
	}
	held, err := c.Holds(Facts{Release: map[string]string{"original": "drags"}})
	fmt.Println(held, err)
	// Output: true <nil>
}

func FuzzParseCondition(f *testing.F) {
	for _, example := range examples {
		f.Add(example)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c, err := ParseCondition(text)
		if err != nil {
			return
		}
		if again, err := ParseCondition(c.String()); err != nil || again.String() != c.String() {
			t.Errorf("%q reads back as %q, %v", c, again, err)
		}
		if _, err := c.Holds(Facts{}); err != nil && !errors.As(err, new(*NotKnown)) {
			t.Error(err)
		}
	})
}
