package stripdown

import (
	"context"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestPlanIsTheLeastOfAllSets(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) { checkLeast(t, smallCars(t)) })
}

func TestPlanIsTheLeastAmongManyChoices(t *testing.T) {
	nodes := 0
	for seed := range uint64(100) {
		nodes += checkLeast(t, rivals(seed, 14, 20, 3)).Nodes
	}
	if nodes < 200 {
		t.Errorf("%d nodes for 100 cars: too easy to tell anything", nodes)
	}
}

// checkLeast compares a plan for all jobs with what trying every set gives.
func checkLeast(t failer, c car) Plan {
	t.Helper()
	plan := mustPlan(t, c.graph(t), c.jobNames()...)
	hundredths, names := leastByTrial(c, c.jobNames())
	if got := slices.Sorted(slices.Values(plan.Off)); !slices.Equal(got, names) {
		t.Errorf("takes off %v, least is %v", got, names)
	}
	if want := float64(hundredths)/100 + c.work(); !near(plan.Together, want) {
		t.Errorf("takes %v h, least is %v h", plan.Together, want)
	}
	if !plan.Proven || plan.LowerBound != plan.Together {
		t.Errorf("proven %v, bound %v of %v h", plan.Proven, plan.LowerBound, plan.Together)
	}
	return plan
}

func TestAddsAndAloneAreLeastToo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := smallCars(t)
		all := c.jobNames()
		plan := mustPlan(t, c.graph(t), all...)
		together, _ := leastByTrial(c, all)
		for i, job := range plan.Jobs {
			without, _ := leastByTrial(c, slices.Delete(slices.Clone(all), i, i+1))
			alone, names := leastByTrial(c, all[i:i+1])
			if want := float64(together-without)/100 + c.jobs[i].Work; !near(job.Adds, want) {
				t.Errorf("%s adds %v h, want %v h", job.Name, job.Adds, want)
			}
			if want := float64(alone)/100 + c.jobs[i].Work; !near(job.Alone, want) {
				t.Errorf("%s alone %v h, want %v h", job.Name, job.Alone, want)
			}
			if got := slices.Sorted(slices.Values(job.Operations)); !slices.Equal(got, names) {
				t.Errorf("%s alone takes off %v, want %v", job.Name, got, names)
			}
		}
	})
}

func TestMoreJobsNeverTakeLess(t *testing.T) {
	for seed := range uint64(5) {
		c := rivals(seed, 120, 30, 8)
		g := c.graph(t)
		last := 0.0
		for n := range c.jobs {
			plan := mustPlan(t, g, c.jobNames()[:n+1]...)
			if plan.Together < last {
				t.Errorf("seed %d: %d jobs take %v h, one less %v h", seed, n+1, plan.Together, last)
			}
			last = plan.Together
		}
	}
}

func TestTogetherIsNeverMoreThanApart(t *testing.T) {
	for seed := range uint64(10) {
		c := rivals(seed, 120, 30, 8)
		plan := mustPlan(t, c.graph(t), c.jobNames()...)
		apart := 0.0
		for _, job := range plan.Jobs {
			apart += job.Alone
			if job.Adds > job.Alone || job.Adds < job.Work {
				t.Errorf("seed %d: %s adds %v h, alone %v h, work %v h", seed, job.Name, job.Adds, job.Alone, job.Work)
			}
		}
		if plan.Together > plan.Apart || !near(plan.Apart, apart) || !near(plan.Saved, plan.Apart-plan.Together) {
			t.Errorf("seed %d: together %v, apart %v (jobs alone %v), saved %v h", seed, plan.Together, plan.Apart, apart, plan.Saved)
		}
	}
}

func TestEveryOperationIsCountedOnce(t *testing.T) {
	for seed := range uint64(10) {
		c := rivals(seed, 120, 30, 8)
		plan := mustPlan(t, c.graph(t), c.jobNames()...)
		hours := c.work()
		for _, step := range plan.Steps {
			hours += step.Off + step.On
		}
		if !near(plan.Together, hours) {
			t.Errorf("seed %d: together %v h, steps and work %v h", seed, plan.Together, hours)
		}
		if names := slices.Sorted(slices.Values(plan.Off)); len(slices.Compact(names)) != len(plan.Off) {
			t.Errorf("seed %d: an operation comes off twice: %v", seed, plan.Off)
		}
	}
}

func TestTheOrderGivenDoesNotChangeTheAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := smallCars(t)
		plan := mustPlan(t, c.graph(t), c.jobNames()...)
		c.ops = rapid.Permutation(c.ops).Draw(t, "another order")
		again := mustPlan(t, c.graph(t), c.jobNames()...)
		if a, b := slices.Sorted(slices.Values(plan.Off)), slices.Sorted(slices.Values(again.Off)); !slices.Equal(a, b) {
			t.Errorf("%v, given in another order %v", a, b)
		}
	})
}

func TestTiesGoToFewestThenFirstByName(t *testing.T) {
	c := car{
		ops: []Operation{
			{Name: "zinc cover", Off: 0.2}, {Name: "cover", Off: 0.2}, {Name: "bracket", Off: 0.1}, {Name: "bolt", Off: 0.1, Needs: []string{"bracket"}},
		},
		jobs: []Job{{Name: "look inside", AnyOf: [][]string{{"zinc cover", "bolt", "cover"}}}},
	}
	if plan := mustPlan(t, c.graph(t), "look inside"); !slices.Equal(plan.Off, []string{"cover"}) {
		t.Errorf("takes off %v, want only the cover", plan.Off)
	}
}

func TestHoursCarryNoDust(t *testing.T) {
	c := car{
		ops: []Operation{
			{Name: "a", Off: 0.1, On: 0.2}, {Name: "b", Off: 1.0 / 3, On: 1.0 / 3, Needs: []string{"a"}}, {Name: "c", Off: 1.0 / 3, Needs: []string{"b"}},
		},
		jobs: []Job{{Name: "one", Needs: []string{"a"}}, {Name: "two", Needs: []string{"c"}}},
	}
	g := c.graph(t)
	if got := mustPlan(t, g, "one").Together; got != 0.3 {
		t.Errorf("0.1 + 0.2 = %v", got)
	}
	if got := mustPlan(t, g, "two").Together; got != 1.3 {
		t.Errorf("0.3 and three times a third = %v", got)
	}
}

func TestAStoppedSearchGivesItsBestAndSaysSo(t *testing.T) {
	for seed := range uint64(100) {
		checkStopped(t, rivals(seed, 60, 40, 6))
	}
	checkStopped(t, rivals(1, 300, 40, 15))
}

func checkStopped(t *testing.T, c car) {
	t.Helper()
	stopped, stop := context.WithCancel(context.Background())
	stop()
	g := c.graph(t)
	best := mustPlan(t, g, c.jobNames()...)
	plan, err := g.PlanContext(stopped, c.jobNames())
	if err != nil {
		t.Fatal(err)
	}
	if plan.Proven || !best.Proven {
		t.Errorf("a stopped search is proven: %v; one that ran to its end: %v", plan.Proven, best.Proven)
	}
	if plan.LowerBound > best.Together || plan.Together < best.Together || plan.LowerBound <= 0 {
		t.Errorf("bound %v h, found %v h, least %v h", plan.LowerBound, plan.Together, best.Together)
	}
	if plan.Together > plan.Apart {
		t.Errorf("together %v h is more than apart %v h", plan.Together, plan.Apart)
	}
	for _, job := range plan.Jobs {
		own := job.Work
		for _, step := range plan.Steps {
			if slices.Equal(step.Jobs, []string{job.Name}) {
				own += step.Off + step.On
			}
		}
		if job.Adds < own && !near(job.Adds, own) {
			t.Errorf("%s adds %v h; its work and what comes off for it alone take %v h", job.Name, job.Adds, own)
		}
	}
	checkOrder(t, c, plan)
	for _, step := range plan.Steps {
		if len(step.Jobs) == 0 {
			t.Errorf("%s serves no job", step.Name)
		}
	}
}

// Within a limit there is either the least answer or none, whatever was asked before.
func TestALimitHidesNothingAndLetsNothingWorseThrough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := rivals(rapid.Uint64().Draw(t, "seed"), 14, 20, 3).oneJob()
		g := c.graph(t)
		whole := g.problem([]int{0})
		least := newSearch(context.Background(), len(g.ops)).within(whole, math.MaxInt64)
		step := int64(1) << g.bits * 50_000_000 // 0.05 h
		s := newSearch(context.Background(), len(g.ops))
		for _, off := range rapid.SliceOfN(rapid.Int64Range(-3, 3), 1, 5).Draw(t, "limits in steps from the least") {
			limit := least.cost + off*step
			got := s.within(whole, limit)
			switch {
			case off >= 0 && (got.ops == nil || got.cost != least.cost || !slices.Equal(got.ops, least.ops)):
				t.Errorf("within %d steps more: %v, want %v", off, got, least)
			case off < 0 && (got.ops != nil || got.least <= limit || got.least > least.cost):
				t.Errorf("within %d steps less: %v, of least %d", -off, got, least.cost)
			}
		}
	})
}

func TestNoJobsTakeNothing(t *testing.T) {
	plan := mustPlan(t, car{ops: []Operation{{Name: "a", Off: 1}}}.graph(t))
	if plan.Together != 0 || len(plan.Off) != 0 || !plan.Proven {
		t.Errorf("no jobs take %v h and %v", plan.Together, plan.Off)
	}
}

func TestAJobNamedTwiceCountsOnce(t *testing.T) {
	c := rivals(1, 60, 10, 2)
	g := c.graph(t)
	once, twice := mustPlan(t, g, "job00"), mustPlan(t, g, "job00", "job00")
	if once.Together != twice.Together || len(twice.Jobs) != 1 {
		t.Errorf("once %v h, twice %v h", once.Together, twice.Together)
	}
}

// The bound of a part must hold for its answer, and the plan beside it must be an answer.
func TestBoundEnclosesTheLeast(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := smallCars(t)
		g := c.graph(t)
		jobs := make([]int, len(c.jobs))
		for i := range jobs {
			jobs[i] = i
		}
		_, parts, ok := g.problem(jobs).reduce(nil)
		if !ok {
			t.Fatal("a sound graph cannot be met")
		}
		for _, part := range parts {
			b := part.bound()
			got := newSearch(context.Background(), len(g.ops)).within(part, math.MaxInt64)
			if b.least > got.cost || b.cost < got.cost {
				t.Errorf("bound %d .. %d, least %d", b.least, b.cost, got.cost)
			}
			plan := slices.Clone(b.plan)
			if !part.keepUsable(plan) || !slices.Equal(plan, b.plan) {
				t.Errorf("the plan beside the bound is no answer")
			}
		}
	})
}
