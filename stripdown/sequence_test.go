package stripdown

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// checkOrder checks that all that an operation waits for comes off before it and goes back after it, that some of
// each group does, and that its depth is one more than the deepest of them.
func checkOrder(t failer, c car, plan Plan) {
	t.Helper()
	reversed := slices.Clone(plan.On)
	slices.Reverse(reversed)
	if !slices.Equal(reversed, plan.Off) {
		t.Errorf("on %v is not off %v turned round", plan.On, plan.Off)
	}
	depth := make(map[string]int)
	for _, step := range plan.Steps {
		want := 0
		for _, need := range step.Needs {
			d, off := depth[need]
			if !off {
				t.Errorf("%s comes off before %s", step.Name, need)
			}
			want = max(want, d+1)
		}
		for _, group := range step.AnyOf {
			met := false
			for _, member := range group {
				d, off := depth[member]
				if met = met || off; off {
					want = max(want, d+1)
				} else if slices.Contains(plan.Off, member) {
					t.Errorf("%s comes off before %s, which comes off anyway", step.Name, member)
				}
			}
			if !met {
				t.Errorf("%s comes off before any of %v", step.Name, group)
			}
		}
		if step.Depth != want {
			t.Errorf("%s has depth %d, want %d", step.Name, step.Depth, want)
		}
		depth[step.Name] = step.Depth
	}
}

func TestOrderRespectsNeedsAndGroups(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := smallCars(t)
		checkOrder(t, c, mustPlan(t, c.graph(t), c.jobNames()...))
	})
	c := rivals(3, 300, 40, 15)
	checkOrder(t, c, mustPlan(t, c.graph(t), c.jobNames()...))
}

func changes(plan Plan) int {
	n, at := 0, ""
	for _, step := range plan.Steps {
		if step.Place != "" && step.Place != at {
			n, at = n+1, step.Place
		}
	}
	return n
}

// Whether one starts below or above decides whether one has to go back there.
func TestOrderLooksAheadForFewerWalks(t *testing.T) {
	c := car{
		ops: []Operation{
			{Name: "battery", Place: "above"}, {Name: "intake", Place: "above"},
			{Name: "undertray", Place: "below"},
			{Name: "manifold", Place: "above", Needs: []string{"undertray"}},
		},
		jobs: []Job{{Name: "all", Needs: []string{"battery", "intake", "manifold"}}},
	}
	plan := mustPlan(t, c.graph(t), "all")
	if want := []string{"undertray", "battery", "intake", "manifold"}; !slices.Equal(plan.Off, want) {
		t.Errorf("off %v, want %v", plan.Off, want)
	}
}

// fewestChanges tries every order of places.
func fewestChanges(plan Plan) int {
	before := func(step Step, done map[string]bool) bool {
		waits := slices.Concat(step.Needs, slices.Concat(step.AnyOf...))
		return !slices.ContainsFunc(waits, func(name string) bool { return slices.Contains(plan.Off, name) && !done[name] })
	}
	var try func(done map[string]bool, at string, left int) bool
	try = func(done map[string]bool, at string, left int) bool {
		here := make(map[string]bool)
		for name := range done {
			here[name] = true
		}
		for more := true; more; {
			more = false
			for _, step := range plan.Steps {
				if !here[step.Name] && (step.Place == at || step.Place == "") && before(step, here) {
					here[step.Name], more = true, true
				}
			}
		}
		if len(here) == len(plan.Steps) {
			return true
		}
		for _, place := range []string{"engine bay", "under the car", "wheel"} {
			if left > 0 && place != at && try(here, place, left-1) {
				return true
			}
		}
		return false
	}
	for n := 0; ; n++ {
		if try(nil, "", n) {
			return n
		}
	}
}

func TestSmallCarsAreStrippedWithTheFewestChangesOfPlace(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := smallCars(t)
		plan := mustPlan(t, c.graph(t), c.jobNames()...)
		if got, want := changes(plan), fewestChanges(plan); got != want {
			t.Errorf("%d changes of place in %v, %d are enough", got, plan.Off, want)
		}
	})
}
