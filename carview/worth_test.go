package carview

import (
	"context"
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"layshaft/examples"
	"layshaft/jobfile"
	"layshaft/library"
	"layshaft/picture"
	"layshaft/workshop"
)

func TestPictureOfWorthShowsTheAnswersFigures(t *testing.T) {
	text, err := fs.ReadFile(examples.Files, "street-saloon.yaml")
	if err != nil {
		t.Fatal(err)
	}
	job, _, err := jobfile.Parse("street-saloon.yaml", text, nil)
	if err != nil {
		t.Fatal(err)
	}
	const findings = "basis: Invented\njobs:\n  rear-main-seal: {looked: 13, found: 12}\n  gearbox-mounts: {looked: 6, found: 3}\n"
	lib, err := library.Open(library.Folder{Name: "own", Files: fstest.MapFS{"findings.yaml": {Data: []byte(findings)}}})
	if err != nil {
		t.Fatal(err)
	}
	layout, err := workshop.LayoutFor(job, lib)
	if err != nil {
		t.Fatal(err)
	}
	w, err := workshop.WorkUp(context.Background(), job, layout, nil, workshop.Quick)
	if err != nil {
		t.Fatal(err)
	}
	a, err := workshop.Worth(context.Background(), job, layout, w, nil, lib.Findings())
	if err != nil {
		t.Fatal(err)
	}
	bars := Worth(a)
	if len(bars.Rows) != len(a.Order()) || len(bars.Rows) < 4 {
		t.Fatalf("%d rows for %d jobs", len(bars.Rows), len(a.Order()))
	}
	seen := map[string]bool{}
	for i, name := range a.Order() {
		now, row := a.Jobs[name], bars.Rows[i]
		seen[row.Word] = true
		if row.Name != now.Title || row.BreakEven != float64(now.BreakEven) || !strings.Contains(bars.Desc, now.Words) {
			t.Errorf("%s: %+v", name, row)
		}
		if now.Chance == nil != math.IsNaN(row.Chance.Mid) || now.Chance != nil && row.Chance.High != float64(now.Chance.High) {
			t.Errorf("%s: chance %+v, picture %+v", name, now.Chance, row.Chance)
		}
		if (row.Tone == picture.Fine) != (now.Verdict == "pays") {
			t.Errorf("%s: %s in tone %v", name, now.Verdict, row.Tone)
		}
	}
	for _, word := range []string{"pays", "too few to tell", "no records yet"} {
		if !seen[word] {
			t.Errorf("no row says %q", word)
		}
	}
}
