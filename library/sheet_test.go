package library

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// What must be done before what, whatever jobs are wanted, or somebody gets hurt or does the work twice. Where both
// stand in a sheet, the first comes off before the second and goes back after it.
func TestTheSheetKeepsTheOrderThatMatters(t *testing.T) {
	before := [][2]string{
		{"road-test", "battery-off"}, {"road-test", "raised"}, {"alignment-measured", "raised"},
		{"raised", "gearbox-mount"}, {"raised", "top-bell-bolts"}, {"raised", "gearbox"}, {"raised", "engine-mounts-off"},
		{"engine-supported", "gearbox-mount"}, {"engine-supported", "top-bell-bolts"}, {"engine-supported", "gearbox-crossmember"},
		{"support-beam", "engine-supported"}, {"engine-jack", "engine-supported"}, {"support-beam", "subframe-lowered"},
		{"battery-off", "starter"}, {"steering-joint", "subframe-lowered"},
		{"gear-oil-out", "half-shafts"}, {"transfer-oil-out", "transfer-case"}, {"axle-oil-out", "rear-cover"},
		{"clutch-fluid-out", "master-cylinder"}, {"clutch-fluid-out", "slave-off"}, {"clutch-fluid-out", "line-parted"},
		{"slave-off", "gearbox"}, {"hub-nuts", "half-shafts"}, {"gearbox", "clutch"}, {"clutch", "flywheel"},
	}
	seen := map[[2]string]bool{}
	rapid.Check(t, func(r *rapid.T) {
		l := rapid.SampledFrom(Builtin().Layouts()).Draw(r, "layout")
		jobs := rapid.SliceOfNDistinct(rapid.SampledFrom(l.JobNames()), 1, 6, rapid.ID).Draw(r, "jobs")
		p, err := l.Graph.Plan(jobs)
		if err != nil {
			r.Fatal(err)
		}
		for _, pair := range before {
			first, second := slices.Index(p.Off, pair[0]), slices.Index(p.Off, pair[1])
			if first < 0 || second < 0 {
				continue
			}
			seen[pair] = true
			if first > second || slices.Index(p.On, pair[0]) < slices.Index(p.On, pair[1]) {
				r.Errorf("%s, %v: %s must come before %s\noff %v\non %v", l.Name, jobs, pair[0], pair[1], p.Off, p.On)
			}
		}
	})
	for _, l := range Builtin().Layouts() {
		p := plan(t, l, l.JobNames()...)
		for _, pair := range before {
			if slices.Contains(p.Off, pair[0]) && slices.Contains(p.Off, pair[1]) {
				seen[pair] = true
			}
		}
	}
	for _, pair := range before {
		if !seen[pair] {
			t.Errorf("no sheet ever held both %s and %s, so their order was never looked at", pair[0], pair[1])
		}
	}
}

func TestTheSheetGoesOffThenWorkThenOn(t *testing.T) {
	l := layout(t, "4wd-transverse")
	p := plan(t, l, "replace-clutch", "replace-release-hydraulics")
	lines := l.Sheet(p)
	if len(lines) != 2*len(p.Off)+2 {
		t.Fatalf("%d lines for %d operations and 2 jobs", len(lines), len(p.Off))
	}
	hours := 0.0
	for i, line := range lines {
		hours += line.Hours
		want := Work
		switch {
		case i < len(p.Off):
			want = TakeOff
		case i >= len(p.Off)+2:
			want = PutBack
		}
		if line.Act != want || line.Text == "" || line.People < 1 {
			t.Errorf("line %d is %+v, expected %s", i, line, want)
		}
	}
	const rounding = 1e-6 // hours are kept in whole nanohours
	if d := hours - p.Together; d > rounding || d < -rounding {
		t.Errorf("the lines sum to %.3f h, the plan to %.3f h", hours, p.Together)
	}
	first, last := lines[0], lines[len(lines)-1]
	if first.Name != "road-test" || last.Name != "road-test" || len(last.Checks) == 0 || len(first.Checks) != 0 {
		t.Errorf("the sheet begins with %q and ends with %q; checks belong to the refit", first.Name, last.Name)
	}
}

func TestBothWaysCarryTheCaution(t *testing.T) {
	l := layout(t, "rwd-longitudinal")
	for _, line := range l.Sheet(plan(t, l, "replace-clutch")) {
		op, isOperation := l.Operation(line.Name)
		if isOperation && !slices.Equal(line.Cautions, op.Cautions) {
			t.Errorf("%s %s lost its cautions", line.Act, line.Name)
		}
		if line.Act == TakeOff && len(line.NewParts)+len(line.Tighten) > 0 {
			t.Errorf("new parts and tightening belong to the refit, not to taking off %s", line.Name)
		}
	}
}

func TestToolsAreListedOnce(t *testing.T) {
	l := layout(t, "4wd-transverse")
	tools := l.Tools(plan(t, l, "replace-clutch", "replace-flywheel"))
	for _, want := range []string{"transmission jack", "engine support beam", "lifting table", "clutch centring tool", "flywheel lock"} {
		if !slices.Contains(tools, want) {
			t.Errorf("no %s among %v", want, tools)
		}
	}
	if slices.Sort(tools); len(slices.Compact(slices.Clone(tools))) != len(tools) {
		t.Errorf("a tool stands there twice: %v", tools)
	}
}

func TestASheetOfAnotherLayoutPanics(t *testing.T) {
	defer func() {
		if text, _ := recover().(string); !strings.Contains(text, "no operation") {
			t.Errorf("got %q", text)
		}
	}()
	layout(t, "fwd-transverse").Sheet(plan(t, layout(t, "rwd-longitudinal"), "replace-clutch"))
}
