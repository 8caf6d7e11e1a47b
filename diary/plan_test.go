package diary_test

import (
	"context"
	"reflect"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"layshaft/diary"
	"layshaft/diary/check"
	"layshaft/diary/diarytest"
)

func TestEveryPlanKeepsTheRules(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		size := diarytest.Size{Cars: rapid.IntRange(1, 6).Draw(t, "cars"), People: rapid.IntRange(2, 4).Draw(t, "people"),
			Ramps: rapid.IntRange(1, 3).Draw(t, "ramps"), Days: 60, Tasks: rapid.IntRange(1, 6).Draw(t, "tasks")}
		shop, cars := diarytest.Invent(size, rapid.Uint64Range(0, 1<<32).Draw(t, "seed"))
		plan := diary.Make(context.Background(), shop, cars, diary.Effort{Seed: 1, Workers: 1, Work: 25})
		if len(plan.Faults) > 0 {
			t.Fatalf("faults: %v", plan.Faults)
		}
		if wrong := check.Diary(shop, cars, plan); len(wrong) > 0 {
			t.Fatalf("%v", wrong)
		}
		if len(plan.Cars) != len(cars) {
			t.Fatalf("%d cars planned of %d", len(plan.Cars), len(cars))
		}
		if plan.Bound > plan.End || plan.LateBound > plan.Late+1e-6 {
			t.Fatalf("bound %d above the end %d, or %g above the lateness %g", plan.Bound, plan.End, plan.LateBound, plan.Late)
		}
	})
}

func TestBusyMonthIsPlanned(t *testing.T) {
	shop, cars := diarytest.Invent(diarytest.Busy, 1)
	plan := diary.Make(context.Background(), shop, cars, diary.Effort{Seed: 1, Workers: 2, Work: 20})
	if wrong := check.Diary(shop, cars, plan); len(wrong) > 0 || len(plan.Faults) > 0 {
		t.Fatalf("%v %v", wrong, plan.Faults)
	}
	t.Logf("%d tasks, ends %d h, bound %d h, late %g weighted h, at least %g", len(plan.Tasks), plan.End/60, plan.Bound/60, plan.Late/60, plan.LateBound/60)
}

func TestSameSeedSamePlan(t *testing.T) {
	shop, cars := diarytest.Invent(diarytest.Size{Cars: 6, People: 3, Ramps: 3, Days: 60, Tasks: 5}, 3)
	effort := diary.Effort{Seed: 7, Workers: 2, Work: 60}
	a := diary.Make(context.Background(), shop, cars, effort)
	b := diary.Make(context.Background(), shop, cars, effort)
	if !reflect.DeepEqual(a, b) {
		t.Error("two runs with the same seed gave different plans")
	}
	pa, pb := diary.Promise(shop, cars, a, 200, 1), diary.Promise(shop, cars, b, 200, 1)
	if !reflect.DeepEqual(pa, pb) {
		t.Error("two runs with the same seed gave different promises")
	}
}

func TestMoreWorkIsNeverWorse(t *testing.T) {
	shop, cars := diarytest.Invent(diarytest.Size{Cars: 8, People: 3, Ramps: 2, Days: 90, Tasks: 6}, 11)
	little := diary.Make(context.Background(), shop, cars, diary.Effort{Seed: 1, Workers: 1, Work: 16})
	much := diary.Make(context.Background(), shop, cars, diary.Effort{Seed: 1, Workers: 1, Work: 400})
	if much.Late > little.Late || (much.Late == little.Late && much.End > little.End) {
		t.Errorf("late %g end %d after little work, late %g end %d after much", little.Late, little.End, much.Late, much.End)
	}
}

func TestPromiseIsLaterThanTheHopeAndSpreadsNothingWithoutSpread(t *testing.T) {
	shop, cars := diarytest.Invent(diarytest.Size{Cars: 5, People: 3, Ramps: 3, Days: 60, Tasks: 5}, 5)
	plan := diary.Make(context.Background(), shop, cars, diary.Effort{Seed: 1, Workers: 1, Work: 50})
	for _, c := range diary.Promise(shop, cars, plan, 400, 1) {
		if c.By(0.2) > c.By(0.8) || c.InTime(c.By(0.8)) < 0.8 || c.InTime(c.Ready[0]-1) != 0 {
			t.Errorf("%s: quantiles out of order", c.Car)
		}
	}
	for i := range cars {
		for k := range cars[i].Tasks {
			cars[i].Tasks[k].Spread = 0
		}
	}
	for _, c := range diary.Promise(shop, cars, plan, 50, 1) {
		k := slices.IndexFunc(plan.Cars, func(o diary.Outcome) bool { return o.Name == c.Car })
		if c.Ready[0] != c.Ready[49] || c.Ready[49] > plan.Cars[k].To {
			t.Errorf("%s: without spread ready at %d to %d, planned %d", c.Car, c.Ready[0], c.Ready[49], plan.Cars[k].To)
		}
	}
}
