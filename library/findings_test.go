package library

import (
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"layshaft/worth"
)

const ourFindings = `basis: Invented for this test
horizon: 50000 km
jobs:
  replace-cross-pins:
    means: scored, blued or loose in the case
    collateral: 40 %
    look: {job: inspect-cross-pins, detects: 90 %, false_alarm: 5 %}
    looked: 10
    found: 7
  rear-main-seal:
    looked: 3
    found: 1
    looks:
      - {odometer: 100000 km, found: yes}
      - {odometer: 90000 km, found: no}
      - {odometer: 120000 km, found: yes, since: 80000 km}
      - {odometer: 130000 km, found: yes, failed: yes}
      - {odometer: 140000 km, found: no, fitted: 60000 km}
      - {odometer: 150000 km, found: yes, fitted: 60000 km, since: 100000 km}
  gearbox-mounts: {}
`

func openFindings(text string) (*Findings, error) {
	lib, err := Open(files(map[string]string{"findings.yaml": text}))
	if err != nil {
		return nil, err
	}
	return lib.Findings(), nil
}

func TestFindingsAreReadBesideTheLayouts(t *testing.T) {
	lib, err := Open(files(map[string]string{"findings.yaml": ourFindings, "ours.yaml": named("fwd-transverse")}))
	if err != nil {
		t.Fatal(err)
	}
	if l, err := lib.Layout("fwd-transverse"); err != nil || l.File != "own/ours.yaml" {
		t.Errorf("got %+v, %v", l, err)
	}
	f := lib.Findings()
	pins, _ := f.Jobs.Get("replace-cross-pins")
	want := JobFindings{Means: "scored, blued or loose in the case", Collateral: 0.4, Look: &Look{"inspect-cross-pins", 0.9, 0.05}, Looked: 10, Found: 7}
	if f.File != "own/findings.yaml" || f.Horizon != 50e6 || f.Basis != "Invented for this test" || !reflect.DeepEqual(pins, want) {
		t.Errorf("got %+v", f)
	}
	if mounts, there := f.Jobs.Get("gearbox-mounts"); !there || mounts.Looked != 0 {
		t.Errorf("a job without looks yet: %+v", mounts)
	}
}

// Looks that were only counted and looks with their distance add up; each of the latter tells what it can of a life.
func TestLooksBecomeLives(t *testing.T) {
	f, err := openFindings(ourFindings)
	if err != nil {
		t.Fatal(err)
	}
	seal, _ := f.Jobs.Get("rear-main-seal")
	want := []worth.Finding{
		worth.WornBy(100e6), worth.SoundAt(90e6), worth.WornBetween(80e6, 120e6), worth.FailedAt(130e6),
		worth.SoundAt(80e6), worth.WornBetween(40e6, 90e6),
	}
	if seal.Looked != 9 || seal.Found != 5 || !slices.Equal(seal.Lives, want) {
		t.Errorf("found %d of %d, lives %v", seal.Found, seal.Looked, seal.Lives)
	}
}

func TestNobodyElsesFindingsAreBuiltIn(t *testing.T) {
	if f := Builtin().Findings(); f != nil {
		t.Errorf("got %+v", f)
	}
	if lib, err := Open(files(map[string]string{"ours.yaml": named("coupe")})); err != nil || lib.Findings() != nil {
		t.Errorf("got %+v, %v", lib, err)
	}
}

func TestFindingsInTwoFoldersAreRefused(t *testing.T) {
	other := files(map[string]string{"findings.yaml": ourFindings})
	other.Name = "other"
	_, err := Open(files(map[string]string{"findings.yaml": ourFindings}), other)
	if want := "other/findings.yaml: there are findings in own/findings.yaml already; keep all of them in one file"; err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}

func TestBadFindingsAreRefusedWhereTheyStand(t *testing.T) {
	job := func(text string) string { return "basis: Ours\njobs:\n  rear-main-seal: " + text + "\n" }
	for name, c := range map[string]struct{ text, want string }{
		"no basis":            {"jobs: {rear-main-seal: {looked: 1}}\n", "own/findings.yaml:1:1: basis: is missing"},
		"misspelt job":        {"basis: Ours\njobs: {rear-mian-seal: {looked: 1}}\n", `own/findings.yaml:2:8: jobs.rear-mian-seal: no layout has a job called "rear-mian-seal"; did you mean "rear-main-seal"?`},
		"unknown job":         {"basis: Ours\njobs: {paint: {looked: 1}}\n", `no layout has a job called "paint"`},
		"more than looked":    {job("{looked: 3, found: 4}"), "own/findings.yaml:3:38: jobs.rear-main-seal.found: found 4 times of 3 looked"},
		"negative":            {job("{looked: -3}"), "looked: \"-3\" must not be less than zero"},
		"unknown key":         {job("{fund: 3}"), "jobs.rear-main-seal.fund: is not a known key; did you mean found?"},
		"no odometer":         {job("{looks: [{found: yes}]}"), "jobs.rear-main-seal.looks[0].odometer: is missing; write for example 81000 mi"},
		"no unit":             {job("{looks: [{odometer: 81000, found: yes}]}"), "jobs.rear-main-seal.looks[0].odometer: \"81000\" has no unit"},
		"no answer":           {job("{looks: [{odometer: 81000 mi}]}"), "jobs.rear-main-seal.looks[0].found: is missing"},
		"since of a sound":    {job("{looks: [{odometer: 81000 mi, found: no, since: 60000 mi}]}"), "looks[0].since: a part found sound was last seen sound at this odometer"},
		"since after":         {job("{looks: [{odometer: 81000 mi, found: yes, since: 82000 mi}]}"), "looks[0].since: since is where it was last seen sound"},
		"since before fitted": {job("{looks: [{odometer: 81000 mi, found: yes, since: 10000 mi, fitted: 20000 mi}]}"), "looks[0].since: since is where"},
		"since of a failure":  {job("{looks: [{odometer: 81000 mi, found: yes, failed: yes, since: 10000 mi}]}"), "looks[0].since: where it failed is known"},
		"fitted after":        {job("{looks: [{odometer: 81000 mi, found: no, fitted: 81000 mi}]}"), "looks[0].fitted: the part cannot have been fitted at or after"},
		"failed but sound":    {job("{looks: [{odometer: 81000 mi, found: no, failed: yes}]}"), "looks[0].failed: a part that failed was found worn"},
		"look at itself":      {job("{look: {job: rear-main-seal, detects: 90 %}}"), "look.job: job \"rear-main-seal\" is not a look at itself"},
		"look by nothing":     {job("{look: {job: inspect-cross-pin, detects: 90 %}}"), `look.job: no layout has a job called "inspect-cross-pin"; did you mean "inspect-cross-pins"?`},
		"useless look":        {job("{look: {job: inspect-cross-pins, detects: 20 %, false_alarm: 20 %}}"), "look.false_alarm: a look that raises false alarms as often"},
		"blind look":          {job("{look: {job: inspect-cross-pins, detects: 0 %}}"), "look.false_alarm: a look that raises false alarms as often"},
		"look without odds":   {job("{look: {job: inspect-cross-pins}}"), "look.detects: is missing; write for example 90 %"},
		"no distance ahead":   {"basis: Ours\nhorizon: 0 km\njobs: {}\n", "own/findings.yaml:2:10: horizon: \"0 km\" must be more than zero"},
	} {
		if _, err := openFindings(c.text); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s:\ngot  %v\nwant %s", name, err, c.want)
		}
	}
}

// What people read about the file is what is read.
func TestEveryKeyOfTheFindingsIsDescribed(t *testing.T) {
	text, err := os.ReadFile("../docs/worth.md")
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range []any{writtenFindings{}, findingsOfAJob{}, Look{}, writtenLook{}} {
		for i := range reflect.TypeOf(entry).NumField() {
			key := reflect.TypeOf(entry).Field(i).Tag.Get("key")
			if !strings.Contains(string(text), "`"+key+"`") {
				t.Errorf("%T: key %s is not described", entry, key)
			}
		}
	}
	_, rest, _ := strings.Cut(string(text), "```yaml\n")
	example, _, _ := strings.Cut(rest, "```")
	if f, err := openFindings(example); err != nil || len(f.Jobs) < 2 {
		t.Errorf("the example in the description: %+v, %v", f, err)
	}
}
