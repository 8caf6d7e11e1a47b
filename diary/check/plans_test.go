package check_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"layshaft/diary/check"
	"layshaft/diary/project"
	"layshaft/diary/psplib"

	"pgregory.net/rapid"
)

// tiny is a random project small enough for trying every plan.
func tiny(t *rapid.T) *project.Problem {
	n := rapid.IntRange(1, 5).Draw(t, "activities")
	p := &project.Problem{Capacities: []int{rapid.IntRange(1, 3).Draw(t, "capacity")}}
	for i := range n {
		p.Durations = append(p.Durations, rapid.IntRange(0, 3).Draw(t, "duration"))
		p.Demands = append(p.Demands, []int{rapid.IntRange(0, p.Capacities[0]).Draw(t, "demand")})
		var after []int
		for j := i + 1; j < n; j++ {
			if rapid.IntRange(0, 3).Draw(t, "arc") == 0 {
				after = append(after, j)
			}
		}
		p.Successors = append(p.Successors, after)
	}
	return p
}

// soonest tries every start of every activity and keeps the soonest end of the plans that the checker passes.
func soonest(p *project.Problem) int {
	latest := 0
	for _, d := range p.Durations {
		latest += d
	}
	best := latest
	starts := make([]int, len(p.Durations))
	var try func(i int)
	try = func(i int) {
		if i == len(starts) {
			if end, wrong := check.Project(p, starts); len(wrong) == 0 {
				best = min(best, end)
			}
			return
		}
		for starts[i] = 0; starts[i]+p.Durations[i] <= best; starts[i]++ {
			try(i + 1)
		}
	}
	try(0)
	return best
}

func TestTinyProjectsArePlannedAsTryingEveryPlanDoes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := tiny(t)
		plan, err := project.Solve(context.Background(), p, project.Effort{Seed: 1, Workers: 1, Work: 20})
		if err != nil {
			t.Fatal(err)
		}
		end, wrong := check.Project(p, plan.Starts)
		if len(wrong) > 0 || end != plan.End {
			t.Fatalf("end %d told as %d; %v", end, plan.End, wrong)
		}
		if best := soonest(p); plan.End < best || plan.LowerBound > best {
			t.Fatalf("told %d..%d, the soonest is %d", plan.LowerBound, plan.End, best)
		}
	})
}

func readProject(t testing.TB, file string) *project.Problem {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	p, err := psplib.Read(file, text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestLibraryProjectsGetPlansThatKeepTheRules(t *testing.T) {
	files, err := filepath.Glob("../psplib/testdata/*.sm")
	if err != nil || len(files) == 0 {
		t.Fatalf("no projects (%v)", err)
	}
	for _, file := range files {
		p := readProject(t, file)
		plan, err := project.Solve(context.Background(), p, project.Effort{Seed: 1, Workers: 2, Work: 3})
		if err != nil {
			t.Fatal(err)
		}
		end, wrong := check.Project(p, plan.Starts)
		if len(wrong) > 0 || end != plan.End {
			t.Errorf("%s: end %d told as %d; %v", file, end, plan.End, wrong)
		}
		if plan.LowerBound > plan.End || plan.LowerBound < p.CriticalPath() {
			t.Errorf("%s: bound %d, end %d, critical path %d", file, plan.LowerBound, plan.End, p.CriticalPath())
		}
	}
}

func TestSameSeedAndWorkSamePlan(t *testing.T) {
	p := readProject(t, "../psplib/testdata/j6029_1.sm")
	effort := project.Effort{Seed: 3, Workers: 2, Work: 2}
	one, err1 := project.Solve(context.Background(), p, effort)
	two, err2 := project.Solve(context.Background(), p, effort)
	if err1 != nil || err2 != nil || one.End != two.End {
		t.Fatalf("%v %v: ends %d and %d", err1, err2, one.End, two.End)
	}
	for i := range one.Starts {
		if one.Starts[i] != two.Starts[i] {
			t.Fatalf("activity %d starts at %d and at %d", i+1, one.Starts[i], two.Starts[i])
		}
	}
}

func TestTheCheckerSeesWhatIsWrong(t *testing.T) {
	p := &project.Problem{Durations: []int{2, 2}, Successors: [][]int{{1}, nil}, Demands: [][]int{{1}, {1}}, Capacities: []int{1}}
	for name, starts := range map[string][]int{"too soon": {0, 1}, "negative": {-1, 3}, "too few": {0}} {
		if _, wrong := check.Project(p, starts); len(wrong) == 0 {
			t.Errorf("%s: nothing was found wrong with %v", name, starts)
		}
	}
	if _, wrong := check.Project(p, []int{0, 2}); len(wrong) > 0 {
		t.Errorf("a good plan is refused: %v", wrong)
	}
}
