package stripdown

import (
	"reflect"
	"slices"
	"testing"
)

// A car where two jobs share an operation and each has one of its own.
func sharedCar() car {
	return car{
		ops: []Operation{
			{Name: "raise", Off: 0.1, On: 0.1, Condition: true},
			{Name: "tray", Off: 0.2, On: 0.2, Needs: []string{"raise"}, SingleUse: []string{"clips x4"}, Tighten: []string{"screws: 5 N m"}, Cautions: []string{"sharp edges"}},
			{
				Name: "exhaust", Off: 0.5, On: 0.7, Needs: []string{"tray"}, People: 2,
				SingleUse: []string{"gasket", "nuts x3"}, Tighten: []string{"nuts: 40 N m"}, Cautions: []string{"hot"}, Fluids: []string{"coolant"},
			},
			{Name: "hose", Off: 0.1, On: 0.2, Needs: []string{"tray"}, Fluids: []string{"gear oil", "coolant"}},
		},
		jobs: []Job{{Name: "silencer", Work: 0.3, Needs: []string{"exhaust"}}, {Name: "leak", Work: 0.2, AnyOf: [][]string{{"hose"}}}},
	}
}

func TestPlanTellsWhatToMind(t *testing.T) {
	plan := mustPlan(t, sharedCar().graph(t), "silencer", "leak")
	for what, pair := range map[string][2]any{
		"off":        {plan.Off, []string{"raise", "tray", "exhaust", "hose"}},
		"on":         {plan.On, []string{"hose", "exhaust", "tray", "raise"}},
		"single use": {plan.SingleUse, []Note{{"tray", "clips x4"}, {"exhaust", "gasket"}, {"exhaust", "nuts x3"}}},
		"tighten":    {plan.Tighten, []Note{{"exhaust", "nuts: 40 N m"}, {"tray", "screws: 5 N m"}}},
		"cautions":   {plan.Cautions, []Note{{"tray", "sharp edges"}, {"exhaust", "hot"}}},
		"fluids":     {plan.Fluids, []string{"coolant", "gear oil"}},
		"conditions": {plan.Conditions, []string{"raise"}},
		"people":     {plan.People, 2},
		"silencer":   {plan.Jobs[0], JobHours{Name: "silencer", Work: 0.3, Adds: 1.5, Alone: 2.1, Operations: []string{"raise", "tray", "exhaust"}}},
		"leak":       {plan.Jobs[1], JobHours{Name: "leak", Work: 0.2, Adds: 0.5, Alone: 1.1, Operations: []string{"raise", "tray", "hose"}}},
		"together":   {plan.Together, 2.6},
		"apart":      {plan.Apart, 3.2},
		"saved":      {plan.Saved, 0.6},
	} {
		if !reflect.DeepEqual(pair[0], pair[1]) {
			t.Errorf("%s: %v, want %v", what, pair[0], pair[1])
		}
	}
}

func TestStepsTellWhichJobsTheyServe(t *testing.T) {
	plan := mustPlan(t, sharedCar().graph(t), "silencer", "leak")
	both := []string{"silencer", "leak"}
	for name, want := range map[string][]string{"raise": both, "tray": both, "exhaust": {"silencer"}, "hose": {"leak"}} {
		step := plan.Steps[slices.Index(plan.Off, name)]
		if !slices.Equal(step.Jobs, want) {
			t.Errorf("%s serves %v, want %v", name, step.Jobs, want)
		}
	}
}

func TestEveryStepServesAJob(t *testing.T) {
	for seed := range uint64(10) {
		c := rivals(seed, 120, 30, 8)
		for _, step := range mustPlan(t, c.graph(t), c.jobNames()...).Steps {
			if len(step.Jobs) == 0 {
				t.Errorf("seed %d: %s serves no job", seed, step.Name)
			}
		}
	}
}

func TestPlansMayBeMadeAtTheSameTime(t *testing.T) {
	c := rivals(2, 120, 30, 8)
	g := c.graph(t)
	want := mustPlan(t, g, c.jobNames()...)
	plans := make(chan Plan)
	for range 4 {
		go func() {
			plan, _ := g.Plan(c.jobNames())
			plans <- plan
		}()
	}
	for range 4 {
		if plan := <-plans; !reflect.DeepEqual(plan, want) {
			t.Errorf("another plan at the same time: %v h, want %v h", plan.Together, want.Together)
		}
	}
}
