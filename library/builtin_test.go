package library

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/stripdown"
)

var genericNames = []string{"4wd-longitudinal", "4wd-transverse", "fwd-transverse", "mid-transaxle", "rwd-longitudinal"}

func layout(t testing.TB, name string) *Layout {
	t.Helper()
	l, err := Builtin().Layout(name)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func plan(t testing.TB, l *Layout, jobs ...string) stripdown.Plan {
	t.Helper()
	p, err := l.Graph.Plan(jobs)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestTheFiveGenericLayoutsAreThere(t *testing.T) {
	var names []string
	for _, l := range Builtin().Layouts() {
		names = append(names, l.Name)
		if len(l.Operations) < 25 || len(l.Operations) > 60 || len(l.Jobs) < 15 {
			t.Errorf("%s has %d operations and %d jobs; 25 to 60 and 15 or more are wanted", l.Name, len(l.Operations), len(l.Jobs))
		}
		if !strings.Contains(l.Basis, "no source") || l.Title == "" || l.About == "" {
			t.Errorf("%s does not say what its hours rest on, or what car it is", l.Name)
		}
	}
	if !slices.Equal(names, genericNames) {
		t.Errorf("got %v, want %v", names, genericNames)
	}
}

// A shop that serves several kinds of car finds a job under the same name in each.
func TestJobsBearTheSameNamesEverywhere(t *testing.T) {
	common := []string{
		"replace-clutch", "replace-flywheel", "replace-release-hydraulics", "replace-release-bearing", "rear-main-seal",
		"input-shaft-seal", "spigot-bearing", "gearbox-mounts", "engine-mounts", "inspect-cross-pins", "replace-cross-pins",
		"limited-slip-differential", "half-shaft-boots", "gear-oil-change", "shifter-bushes",
	}
	only := map[string][]string{
		"propshaft-joints":    {"4wd-longitudinal", "4wd-transverse", "rwd-longitudinal"},
		"transfer-case-seals": {"4wd-longitudinal", "4wd-transverse"},
	}
	for _, l := range Builtin().Layouts() {
		for _, name := range common {
			if _, ok := l.Job(name); !ok {
				t.Errorf("%s has no job %s", l.Name, name)
			}
		}
		for name, layouts := range only {
			if _, ok := l.Job(name); ok != slices.Contains(layouts, l.Name) {
				t.Errorf("%s has job %s: %v", l.Name, name, ok)
			}
		}
	}
}

func TestEveryStepIsPutInWords(t *testing.T) {
	for _, l := range Builtin().Layouts() {
		for _, op := range l.Operations {
			if op.TakeOff == "" || op.PutBack == "" || op.Place == "" {
				t.Errorf("%s: %s lacks its words or its place", l.Name, op.Name)
			}
		}
		for _, job := range l.Jobs {
			if job.Title == "" || job.Place == "" {
				t.Errorf("%s: %s lacks its title or its place", l.Name, job.Name)
			}
		}
	}
}

func TestEveryOperationLeadsToSomeJob(t *testing.T) {
	for _, l := range Builtin().Layouts() {
		reached := map[string]bool{}
		var reach func(needs []string, anyOf [][]string)
		reach = func(needs []string, anyOf [][]string) {
			for _, name := range slices.Concat(append(anyOf, needs)...) {
				if op, _ := l.Operation(name); !reached[name] {
					reached[name] = true
					reach(op.Needs, op.AnyOf)
				}
			}
		}
		for _, job := range l.Jobs {
			reach(job.Needs, job.AnyOf)
		}
		for _, op := range l.Operations {
			if !reached[op.Name] {
				t.Errorf("%s: nothing leads to %s", l.Name, op.Name)
			}
		}
	}
}

// What can hurt people has a caution at the step itself, not somewhere else in the file.
func TestCautionsStandWhereTheyApply(t *testing.T) {
	lifting := regexp.MustCompile(`jack|table|beam|stand`)
	loaded := regexp.MustCompile(`(?i)strut|ball joint|cover bolts|part the case|raise, `)
	wet := regexp.MustCompile(`(?i)oil|fluid|cooling|drip`)
	for _, l := range Builtin().Layouts() {
		for _, op := range l.Operations {
			cautions := strings.Join(op.Cautions, "\n")
			heavy := op.People > 1 || lifting.MatchString(strings.Join(op.Tools, " "))
			if (heavy || loaded.MatchString(op.TakeOff) || op.Condition) && cautions == "" {
				t.Errorf("%s: %s has no caution", l.Name, op.Name)
			}
			if len(op.Fluids) > 0 && !wet.MatchString(cautions) {
				t.Errorf("%s: %s loses %v and its cautions do not speak of it: %q", l.Name, op.Name, op.Fluids, cautions)
			}
		}
		for name, word := range map[string]string{
			"gearbox": "second person", "clutch": "preloaded", "raised": "tips", "support-beam": "beam",
			"engine-jack": "not the car", "clutch-fluid-out": "skin and eyes", "battery-off": "airbag", "road-test": "licensed",
		} {
			op, ok := l.Operation(name)
			if !ok || !strings.Contains(strings.Join(op.Cautions, "\n"), word) {
				t.Errorf("%s: the cautions of %s do not say %q", l.Name, name, word)
			}
		}
	}
}

func TestSecondPersonLooksAtWhatMustHold(t *testing.T) {
	for _, l := range Builtin().Layouts() {
		for _, op := range l.Operations {
			vital := regexp.MustCompile(`^(front-wheels|rear-wheels|hub-nuts|rear-hub-nuts|subframe-lowered|steering-joint|propshaft-.*|flywheel|clutch|gearbox|lower-ball-joints)$`)
			if vital.MatchString(op.Name) && len(op.Checks) == 0 {
				t.Errorf("%s: nobody checks %s", l.Name, op.Name)
			}
		}
	}
}

func TestEveryFluidIsOfAKnownClass(t *testing.T) {
	r, err := OpenReference()
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range Builtin().Layouts() {
		for _, op := range l.Operations {
			for _, fluid := range op.Fluids {
				if len(r.FluidsUsedAs(fluid)) == 0 {
					t.Errorf("%s: %s loses %q, which no class of fluid is used as", l.Name, op.Name, fluid)
				}
			}
		}
	}
}

// The bands are common practice, no source: what shops say a clutch takes in hours, and what goes with it.
func TestHoursArePlausible(t *testing.T) {
	clutch := map[string][2]float64{
		"fwd-transverse": {5, 7}, "4wd-transverse": {7.5, 8.75}, "rwd-longitudinal": {4.5, 6.5}, "4wd-longitudinal": {6.5, 8.5}, "mid-transaxle": {6.5, 8.5},
	}
	for name, band := range clutch {
		if got := plan(t, layout(t, name), "replace-clutch").Together; got < band[0] || got > band[1] {
			t.Errorf("%s: a clutch takes %.2f h, expected %v", name, got, band)
		}
	}
	adds := []struct {
		layout, job string
		low, high   float64
	}{
		{"4wd-transverse", "replace-release-hydraulics", 1.6, 2.4},
		{"fwd-transverse", "replace-release-hydraulics", 1.6, 2.4},
		{"rwd-longitudinal", "replace-release-hydraulics", 1.6, 2.4},
		{"4wd-transverse", "inspect-cross-pins", 0.2, 0.5},
		{"fwd-transverse", "inspect-cross-pins", 0.2, 0.5},
		{"mid-transaxle", "inspect-cross-pins", 0.2, 0.5},
		{"4wd-transverse", "replace-cross-pins", 3, 6},
		{"fwd-transverse", "replace-cross-pins", 3, 6},
		{"mid-transaxle", "replace-cross-pins", 3, 6},
		{"4wd-transverse", "limited-slip-differential", 3, 6},
		{"rwd-longitudinal", "spigot-bearing", 0.2, 0.4},
		{"4wd-transverse", "replace-release-bearing", 0, 0.3},
		{"4wd-transverse", "rear-main-seal", 0.3, 1.2},
		{"4wd-transverse", "input-shaft-seal", 0.3, 1.0},
	}
	for _, a := range adds {
		p := plan(t, layout(t, a.layout), "replace-clutch", a.job)
		if got := p.Jobs[1].Adds; got < a.low || got > a.high {
			t.Errorf("%s: %s beside the clutch adds %.2f h, expected %.2f to %.2f", a.layout, a.job, got, a.low, a.high)
		}
	}
}

func TestMoreDrivenWheelsTakeLonger(t *testing.T) {
	for _, pair := range [][2]string{{"fwd-transverse", "4wd-transverse"}, {"rwd-longitudinal", "4wd-longitudinal"}} {
		few, many := plan(t, layout(t, pair[0]), "replace-clutch"), plan(t, layout(t, pair[1]), "replace-clutch")
		if few.Together >= many.Together {
			t.Errorf("%s takes %.2f h, %s only %.2f h", pair[0], few.Together, pair[1], many.Together)
		}
	}
}

func TestEachJobCanBePlannedAlone(t *testing.T) {
	for _, l := range Builtin().Layouts() {
		for _, job := range l.Jobs {
			p := plan(t, l, job.Name)
			if !p.Proven || p.Together < job.Work || p.Together > 16 {
				t.Errorf("%s: %s alone takes %.2f h, proven %v", l.Name, job.Name, p.Together, p.Proven)
			}
		}
	}
}

// Property: a further job never shortens the work, and never adds more than it takes by itself.
func TestAFurtherJobAddsBetweenItsOwnWorkAndAllOfItself(t *testing.T) {
	const rounding = 1e-6 // hours are kept in whole nanohours
	rapid.Check(t, func(r *rapid.T) {
		l := rapid.SampledFrom(Builtin().Layouts()).Draw(r, "layout")
		jobs := rapid.SliceOfNDistinct(rapid.SampledFrom(l.JobNames()), 2, 5, rapid.ID).Draw(r, "jobs")
		p, err := l.Graph.Plan(jobs)
		if err != nil {
			r.Fatal(err)
		}
		for _, job := range p.Jobs {
			if job.Adds < job.Work-rounding || job.Adds > job.Alone+rounding {
				r.Errorf("%s of %v: adds %.3f h, works %.3f h, alone %.3f h", job.Name, jobs, job.Adds, job.Work, job.Alone)
			}
		}
	})
}

// Where the job needs its seat free, a cheaper way round is given up: two ways to take the propshaft off share one car.
func TestAlternativesGiveWayToWhatAnotherJobNeeds(t *testing.T) {
	l := layout(t, "4wd-transverse")
	if off := plan(t, l, "replace-clutch").Off; !slices.Contains(off, "propshaft-front-half") || slices.Contains(off, "propshaft-whole") {
		t.Errorf("a clutch alone takes the front half off, got %v", off)
	}
	if off := plan(t, l, "replace-clutch", "propshaft-joints").Off; slices.Contains(off, "propshaft-front-half") || !slices.Contains(off, "propshaft-whole") {
		t.Errorf("with new joints the shaft comes off whole, once, got %v", off)
	}
}
