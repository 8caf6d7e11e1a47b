package jobfile

import (
	"strings"
	"testing"

	"layshaft/workshop"
)

const small = `# kept
layshaft: 1
car: {name: Corrie} # this too
clutch:
  uprated:
    discs: 2
    facing: {outer: 200 mm, inner: 140 mm, friction: 0.26 .. 0.30}
    clamp_load: 9.8 kN
release:
  metal-master:
    pedal: {ratio: 5.8, travel: 150 mm}
    master: {bore: 19.05 mm}
    slave:
      bore: 20.64 mm # the casting says 13/16
work: [replace-clutch]
`

func changed(t *testing.T, changes ...workshop.Change) string {
	t.Helper()
	out, err := Change([]byte(small), changes)
	if err != nil {
		t.Fatal(err)
	}
	return string(out)
}

func TestChangedValueLeavesTheRestAsItStands(t *testing.T) {
	got := changed(t, workshop.Change{Key: "release.metal-master.master.bore", To: "17.78 mm"})
	want := strings.Replace(small, "19.05 mm", "17.78 mm", 1)
	if got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
}

func TestChangesInBlockStyleKeepTheirComments(t *testing.T) {
	got := changed(t,
		workshop.Change{Key: "release.metal-master.slave.bore", To: "22.22 mm"},
		workshop.Change{Key: "clutch.uprated.clamp_load", To: "9 .. 10 kN"})
	want := strings.NewReplacer("20.64 mm", "22.22 mm", "9.8 kN", "9 .. 10 kN").Replace(small)
	if got != want {
		t.Errorf("got:\n%s\nwant:\n%s", got, want)
	}
}

func TestMissingKeysAreAdded(t *testing.T) {
	got := changed(t,
		workshop.Change{Key: "release.metal-master.pedal.free_play", To: "6 mm"},
		workshop.Change{Key: "release.metal-master.line.length", To: "1.8 m"},
		workshop.Change{Key: "clutch.uprated.cushion", To: "0.35 mm"})
	for _, want := range []string{"free_play: 6 mm", "line: {length: 1.8 m}", "    cushion: 0.35 mm"} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in:\n%s", want, got)
		}
	}
}

func TestTablesAndOddTextsSurvive(t *testing.T) {
	got := changed(t,
		workshop.Change{Key: "clutch.uprated.bearing_load", To: "[[0 mm, 0 N], [4 mm, 2100 N]]"},
		workshop.Change{Key: "car.name", To: `Corrie: "the # one" {x}`})
	for _, want := range []string{"bearing_load: [[0 mm, 0 N], [4 mm, 2100 N]]", `Corrie: "the # one" {x}`} {
		if !strings.Contains(strings.ReplaceAll(got, `\"`, `"`), want) {
			t.Errorf("no %q in:\n%s", want, got)
		}
	}
}

func TestEmptyValueTakesTheKeyOut(t *testing.T) {
	got := changed(t, workshop.Change{Key: "clutch.uprated.clamp_load"})
	if strings.Contains(got, "clamp_load") {
		t.Errorf("clamp_load still in:\n%s", got)
	}
}

func TestKeyBelowASingleValueIsRefused(t *testing.T) {
	if _, err := Change([]byte(small), []workshop.Change{{Key: "clutch.uprated.discs.many", To: "1"}}); err == nil {
		t.Error("no error")
	}
}
