package diary_test

import (
	"context"
	"strings"
	"testing"

	"layshaft/diary"
	"layshaft/diary/check"
	"layshaft/diary/diarytest"
)

func small() *diary.Shop {
	return &diary.Shop{
		People: []diary.Person{
			{Name: "Ann", Skills: []string{"gearbox"}, Hours: diarytest.Hours(10, nil)},
			{Name: "Ben", Hours: diarytest.Hours(10, nil)},
		},
		Ramps: []diary.Ramp{{Name: "R1", Kind: "two-post"}, {Name: "R2", Kind: "four-post"}},
		Tools: []diary.Tool{{Name: "jack", Count: 1}},
	}
}

func task(name string, minutes int, after ...string) diary.Task {
	return diary.Task{Name: name, Minutes: minutes, People: 1, Pauses: true, Appointment: diary.Never, After: after}
}

func car(name string, tasks ...diary.Task) diary.Car {
	return diary.Car{Name: name, Promise: diary.Never, Weight: 1, Tasks: tasks}
}

func with(t diary.Task, change func(*diary.Task)) diary.Task {
	change(&t)
	return t
}

func make1(shop *diary.Shop, cars ...diary.Car) *diary.Plan {
	return diary.Make(context.Background(), shop, cars, diary.Effort{Seed: 1, Workers: 1, Work: 60})
}

func TestWhatCannotBePlannedIsToldAndTheRestIsPlanned(t *testing.T) {
	for want, bad := range map[string]diary.Car{
		`"welding"; there is nobody`:                                    car("bad", with(task("a", 60), func(t *diary.Task) { t.Skill = "welding" })),
		`needs 2 with the skill "gearbox"; there is one`:                car("bad", with(task("a", 60), func(t *diary.Task) { t.Skill, t.People = "gearbox", 2 })),
		"a ramp of the kind pit; the shop has two-post, four-post":      car("bad", with(task("a", 60), func(t *diary.Task) { t.Ramps = []string{"pit"} })),
		`the tool "crane"`:                                              car("bad", with(task("a", 60), func(t *diary.Task) { t.Tools = []string{"crane"} })),
		"wait for one another: a, which waits for b, which waits for a": car("bad", task("a", 60, "b"), task("b", 60, "a")),
		"nobody has said when its part comes":                           car("bad", with(task("a", 60), func(t *diary.Task) { t.Parts = diary.Never })),
		`waits for "z", which is no task`:                               car("bad", task("a", 60, "z")),
		"another task of this car":                                      car("bad", task("a", 60), task("a", 60)),
		"at a stretch":                                                  car("bad", with(task("a", 600), func(t *diary.Task) { t.Pauses = false })),
		"make the diary longer":                                         car("bad", task("a", 100_000)),
		"is not possible":                                               car("bad", task("a", 0)),
		"no task refits it":                                             car("bad", with(task("a", 60), func(t *diary.Task) { t.Strips, t.Ramps = "box", []string{"two-post"} })),
		"which no task strips":                                          car("bad", with(task("a", 60), func(t *diary.Task) { t.Refits, t.Ramps = "box", []string{"two-post"} })),
		"so needs a ramp":                                               car("bad", with(task("a", 60), func(t *diary.Task) { t.Strips = "box" }), with(task("b", 60, "a"), func(t *diary.Task) { t.Refits = "box" })),
		"no ramp of the shop serves all":                                car("bad", with(task("a", 60), func(t *diary.Task) { t.Strips, t.Ramps = "box", []string{"two-post"} }), with(task("b", 60, "a"), func(t *diary.Task) { t.Refits, t.Ramps = "box", []string{"four-post"} })),
		"must come after what strips it":                                car("bad", with(task("a", 60, "b"), func(t *diary.Task) { t.Strips, t.Ramps = "box", []string{"two-post"} }), with(task("b", 60), func(t *diary.Task) { t.Refits, t.Ramps = "box", []string{"two-post"} })),
		"who is not of this shop":                                       car("bad", with(task("a", 60), func(t *diary.Task) { t.Under = &diary.Under{People: []string{"Cid"}} })),
		"with 2 people and needs 1":                                     car("bad", with(task("a", 60), func(t *diary.Task) { t.Under = &diary.Under{People: []string{"Ann", "Ben"}} })),
	} {
		plan := make1(small(), bad, car("good", task("only", 60)))
		if len(plan.Faults) == 0 || !strings.Contains(plan.Faults[0].Error(), want) || plan.Faults[0].Car != "bad" {
			t.Errorf("wanted %q, got %v", want, plan.Faults)
		}
		if len(plan.Cars) != 1 || plan.Cars[0].Name != "good" || plan.Cars[0].To != 60 {
			t.Errorf("%s: the good car is not planned: %v", want, plan.Cars)
		}
	}
}

func TestBrokenPromiseIsToldAndPlanned(t *testing.T) {
	c := car("old", task("only", 60))
	c.Promise = -60
	plan := make1(small(), c)
	if len(plan.Faults) != 1 || !plan.Faults[0].Planned || len(plan.Cars) != 1 || plan.Cars[0].Late != 120 {
		t.Errorf("%v %v", plan.Faults, plan.Cars)
	}
}

func TestStrippedCarKeepsItsRampOverNight(t *testing.T) {
	shop := small()
	long := car("long", with(task("out", 240), func(t *diary.Task) { t.Strips, t.Ramps = "box", []string{"two-post"} }),
		with(task("part", 60, "out"), func(t *diary.Task) { t.Parts = 24*60 + 120 }),
		with(task("in", 120, "part"), func(t *diary.Task) { t.Refits, t.Ramps = "box", []string{"two-post"} }))
	long.StripEarly, long.Weight, long.Promise = true, 9, 24*60+300
	other := car("other", with(task("check", 60), func(t *diary.Task) { t.Ramps = []string{"two-post"} }))
	other.Weight = 0.01
	plan := make1(shop, long, other)
	if wrong := check.Diary(shop, []diary.Car{long, other}, plan); len(wrong) > 0 {
		t.Fatal(wrong)
	}
	long.StripEarly = false // now the part comes first, and the ramp is free meanwhile
	plan = make1(shop, long, other)
	for _, s := range plan.Stays {
		if s.Stripped && s.From < 24*60+120 {
			t.Errorf("stripped at %d, before its part came", s.From)
		}
	}
}

func TestWorkUnderWayStays(t *testing.T) {
	shop := small()
	c := car("c", with(task("a", 90), func(t *diary.Task) { t.Under = &diary.Under{People: []string{"Ben"}} }))
	urgent := car("urgent", task("b", 60))
	urgent.Promise, urgent.Weight = 60, 100
	plan := make1(shop, c, urgent)
	if wrong := check.Diary(shop, []diary.Car{c, urgent}, plan); len(wrong) > 0 || plan.Late != 0 {
		t.Errorf("%v, late %g", wrong, plan.Late)
	}
}

func TestAppointmentIsKeptOrToldOf(t *testing.T) {
	at := func(minute int) diary.Task {
		return with(task("dyno", 60), func(t *diary.Task) { t.Appointment, t.Skill = minute, "gearbox" })
	}
	plan := make1(small(), car("c", at(120)), car("d", with(task("long", 230), func(t *diary.Task) { t.Skill = "gearbox" })))
	for _, x := range plan.Tasks {
		if x.Task == "dyno" && x.From != 120 {
			t.Errorf("the appointment at 120 is kept at %d", x.From)
		}
	}
	plan = make1(small(), car("c", at(120)), car("d", at(130)))
	if len(plan.Faults) != 1 || !strings.Contains(plan.Faults[0].Message, "appointment") || !plan.Faults[0].Planned {
		t.Errorf("two appointments of one person at once: %v", plan.Faults)
	}
}

func TestPlanningAnewMovesLittle(t *testing.T) {
	shop, cars := diarytest.Invent(diarytest.Size{Cars: 6, People: 4, Ramps: 3, Days: 60, Tasks: 4}, 21)
	before := diary.Make(context.Background(), shop, cars, diary.Effort{Seed: 1, Workers: 1, Work: 200})
	same := diary.Make(context.Background(), shop, cars, diary.Effort{Seed: 2, Workers: 1, Work: 200, Before: before})
	if same.Late > before.Late || (same.Late == before.Late && same.Moved > 0) {
		t.Errorf("nothing changed, and the new plan moves %d minutes", same.Moved)
	}
	extra := car("extra", task("quick", 30))
	more := append(append([]diary.Car{}, cars...), extra)
	anew := diary.Make(context.Background(), shop, more, diary.Effort{Seed: 2, Workers: 1, Work: 200, Before: before})
	if wrong := check.Diary(shop, more, anew); len(wrong) > 0 {
		t.Fatal(wrong)
	}
	if anew.Late <= before.Late && anew.Moved > 0 {
		t.Errorf("a filler moved %d minutes of other work", anew.Moved)
	}
}

func TestChainLeadsBackToWhatHeldTheCarUp(t *testing.T) {
	first := car("first", with(task("a", 120), func(t *diary.Task) { t.Skill = "gearbox" }))
	first.Promise = 120
	second := car("second", with(task("b", 60), func(t *diary.Task) { t.Skill = "gearbox" }))
	plan := make1(small(), first, second)
	for _, o := range plan.Cars {
		if o.Name == "second" && (len(o.Waits) != 2 || o.Waits[0].For != "Ann was at a of first" || o.Waits[1].Car != "first") {
			t.Errorf("%+v", o.Waits)
		}
	}
}
