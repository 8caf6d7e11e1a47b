package picture

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestOperationsLieDeeperThanWhatTheyNeed(t *testing.T) {
	p := sampleStrip().plan()
	for i, op := range p.Ops {
		for _, j := range p.known(op.Needs) {
			if p.layer[i] <= p.layer[j] {
				t.Errorf("%s in layer %d needs %s in layer %d", op.Key, p.layer[i], p.Ops[j].Key, p.layer[j])
			}
		}
	}
}

func TestOperationsNameTheJobsTheyServe(t *testing.T) {
	want := map[string]string{
		"gearbox":   "replace-clutch rear-main-seal",
		"master":    "replace-release-hydraulics",
		"propshaft": "replace-clutch rear-main-seal inspect-cross-pins",
		"battery":   "replace-clutch replace-release-hydraulics rear-main-seal",
	}
	for _, size := range []Size{Wide, Narrow} {
		seen := 0
		for _, g := range groups(sampleStrip().Scene(size).Root.Items, "op") {
			jobs, ok := want[g.datum("op")]
			if !ok {
				continue
			}
			seen++
			if g.datum("jobs") != jobs {
				t.Errorf("%s serves %q, want %q", g.datum("op"), g.datum("jobs"), jobs)
			}
			if shared := strings.Contains(g.Class, "shared"); shared != strings.Contains(jobs, " ") {
				t.Errorf("%s shared: %v", g.datum("op"), shared)
			}
		}
		if seen != len(want) {
			t.Errorf("%d of %d operations drawn", seen, len(want))
		}
	}
}

func TestBarsAreAsLongAsTheirHours(t *testing.T) {
	s := sampleStrip().Scene(Wide)
	long := map[string]float64{}
	for _, g := range groups(s.Root.Items, "op") {
		for _, it := range g.Items {
			if shape, ok := it.(Shape); ok && shape.Style.Stroke != "" && len(shape.Path) == 5 {
				long[g.datum("op")] = shape.Path[1].P[0].X - shape.Path[0].P[0].X
			}
		}
	}
	perHour := long["gearbox"] / 2.7
	for _, op := range sampleStrip().Ops {
		if got := long[op.Key]; math.Abs(got-op.Hours*perHour) > 1e-6 {
			t.Errorf("%s: %.2f long, %.1f h at %.2f an hour", op.Key, got, op.Hours, perHour)
		}
	}
}

func TestACircleInTheNeedsStillDraws(t *testing.T) {
	s := Strip{Ops: []StripOp{{"a", "A", 1, []string{"b"}}, {"b", "B", 1, []string{"a"}}, {"c", "C", 1, []string{"c", "gone"}}},
		Jobs: []StripJob{{Key: "j", Name: "J", Needs: []string{"a"}}}}
	for _, size := range []Size{Wide, Narrow} {
		if n := len(groups(s.Scene(size).Root.Items, "op")); n != 3 {
			t.Errorf("%d of 3 operations drawn", n)
		}
	}
}

func TestAnyStripKeepsItsWordsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var s Strip
		for i := range rapid.IntRange(0, 30).Draw(t, "ops") {
			op := StripOp{Key: fmt.Sprint(i), Name: rapid.StringMatching(`[A-Za-z -]{0,40}`).Draw(t, "name"), Hours: rapid.Float64Range(0, 12).Draw(t, "hours")}
			for j := range i {
				if rapid.IntRange(0, 4).Draw(t, "needed") == 0 {
					op.Needs = append(op.Needs, fmt.Sprint(j))
				}
			}
			s.Ops = append(s.Ops, op)
		}
		for j := range rapid.IntRange(0, 9).Draw(t, "jobs") {
			job := StripJob{Key: fmt.Sprint("job", j), Name: "Job", Work: 1, Adds: 1, Alone: 2}
			for i := range s.Ops {
				if rapid.IntRange(0, 9).Draw(t, "job needs") == 0 {
					job.Needs = append(job.Needs, fmt.Sprint(i))
				}
			}
			s.Jobs = append(s.Jobs, job)
		}
		for _, size := range []Size{Wide, Narrow} {
			checkText(t, fmt.Sprint("strip ", size), s.Scene(size))
		}
	})
}
