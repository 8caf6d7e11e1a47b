package library

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"layshaft/yamlfile"
)

const small = `layout: small
operations:
  subframe: {off: 1.1 h, on: 1.3 h, any_of: [[beam, jack]], single_use: ["subframe bolts x4"], tighten: ["to the maker's figure"]}
  beam:     {off: 12 min, on: 0.2 h, condition: yes}
  jack:     {off: 0.5 h, on: 0.5 h}
  gearbox:  {off: 1.2 h, on: 1.5 h, needs: [subframe], fluids: [gear oil], people: 2}
jobs:
  replace-clutch:
    work: 0.9 h
    needs: [gearbox]
    parts: [{name: Clutch kit, price: 1120.00 GBP}, {name: Cover bolt, price: 1.90 GBP, qty: 6}]
    insist: [{job: replace-release-hydraulics, when: "release.original drags or over-travels with the new clutch"}]
  replace-release-hydraulics: {work: 2 h}
`

func TestALayoutIsReadWhole(t *testing.T) {
	l, err := Load("small.yaml", []byte(small))
	if err != nil {
		t.Fatal(err)
	}
	gearbox, _ := l.Operation("gearbox")
	if gearbox.Off != 1.2 || gearbox.On != 1.5 || gearbox.People != 2 || gearbox.Fluids[0] != "gear oil" {
		t.Errorf("got %+v", gearbox)
	}
	clutch, _ := l.Job("replace-clutch")
	if clutch.Work != 0.9 || clutch.Parts[0].Price.String() != "1120.00 GBP" || clutch.Parts[0].Quantity != 1 || clutch.Parts[1].Quantity != 6 {
		t.Errorf("got %+v", clutch)
	}
	if len(clutch.Insist) != 1 || clutch.Insist[0].When.String() != "release.original drags or over-travels with the new clutch" {
		t.Errorf("got %+v", clutch.Insist)
	}
	// By hand: subframe 2.4, beam 12 min off and 12 min on, gearbox 2.7, work 0.9 and 2.
	if got := fmt.Sprintf("%.3f", plan(t, l, "replace-clutch", "replace-release-hydraulics").Together); got != "8.400" {
		t.Errorf("together %s h, expected 8.400", got)
	}
}

func TestALayoutGoesOutAsItCameIn(t *testing.T) {
	for _, l := range Builtin().Layouts() {
		out := l.Export()
		again, err := Load("copy.yaml", out)
		if err != nil {
			t.Fatal(err)
		}
		if again.Hash != l.Hash || !bytes.Equal(again.Export(), out) || len(again.Jobs) != len(l.Jobs) {
			t.Errorf("%s changed on its way out and in", l.Name)
		}
		out[0]++
		if l.Export()[0] == out[0] {
			t.Errorf("whoever changes what %s exported changes the layout", l.Name)
		}
	}
}

func TestAChangeOfOneHourIsAnotherVersion(t *testing.T) {
	one, err := Load("small.yaml", []byte(small))
	if err != nil {
		t.Fatal(err)
	}
	other, err := Load("small.yaml", []byte(strings.Replace(small, "1.1 h", "1.2 h", 1)))
	if err != nil {
		t.Fatal(err)
	}
	// sha256sum of the text above, computed outside this program.
	const want = "332ffc19fd46bf429fe65b8b9d5cfa0744193ec1105a101d1479983ea3abbcff"
	if one.Hash != want || one.Version() != want[:12] || other.Version() == one.Version() {
		t.Errorf("versions %s and %s", one.Hash, other.Hash)
	}
}

// Every file in testdata/bad is refused with just the text in the .want file beside it.
func TestBadLayoutsAreRefusedWordForWord(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*.yaml")
	if err != nil || len(files) < 15 {
		t.Fatalf("found %d files, %v", len(files), err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		want, err := os.ReadFile(strings.TrimSuffix(file, ".yaml") + ".want")
		if err != nil {
			t.Fatal(err)
		}
		_, err = Load(filepath.Base(file), data)
		if err == nil || err.Error()+"\n" != string(want) {
			t.Errorf("got  %v\nwant %s", err, want)
		}
		if !errors.As(err, new(yamlfile.Problem)) {
			t.Errorf("%s: the error is %T and has no place in the file", file, err)
		}
	}
}

func TestProblemsComeInTheOrderOfTheFileAndNotWithoutEnd(t *testing.T) {
	text := "layout: x\noperations:\n  a: {off: 1 h, on: 1 h, caution: [" + strings.Repeat(`"", `, 40) + `""], tools: [""]}` + "\njobs: {}\n"
	_, err := Load("x.yaml", []byte(text))
	var problems yamlfile.Problems
	if !errors.As(err, &problems) || len(problems) != mostProblems || problems[0].Key != "operations.a.caution[0]" {
		t.Errorf("got %v", err)
	}
}

// The loader owes either a layout or problems, whatever bytes come in.
func FuzzLoad(f *testing.F) {
	f.Add([]byte(small))
	files, err := filepath.Glob("testdata/bad/*.yaml")
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		l, err := Load("fuzz.yaml", data)
		switch {
		case err == nil && (l.Graph == nil || l.Name == "" || len(l.Operations) == 0):
			t.Errorf("half a layout: %+v", l)
		case err != nil && !errors.As(err, new(yamlfile.Problem)):
			t.Errorf("%T has no place in the file", err)
		}
	})
}

func BenchmarkLoad(b *testing.B) {
	data := layout(b, "4wd-transverse").Export()
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := Load("4wd-transverse.yaml", data); err != nil {
			b.Fatal(err)
		}
	}
}
