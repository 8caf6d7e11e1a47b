package stripdown

import (
	"errors"
	"math"
	"slices"
	"testing"
)

func TestFaultsNameTheKindThePlaceAndWhatWouldBeRight(t *testing.T) {
	sound := []Operation{{Name: "raise"}, {Name: "undertray", Needs: []string{"raise"}}}
	for name, c := range map[string]struct {
		ops  []Operation
		jobs []Job
		want Fault
	}{
		"an unknown need": {
			ops: append(sound, Operation{Name: "subframe", Needs: []string{"undertay"}}),
			want: Fault{Kind: UnknownName, In: "operation", Name: "subframe", Key: "needs", Reference: "undertay", Nearest: "undertray",
				Message: `operation "subframe" needs "undertay", which is unknown; did you mean "undertray"?`},
		},
		"an unknown member of a group": {
			ops: append(sound, Operation{Name: "subframe", AnyOf: [][]string{{"raise", "gantry"}}}),
			want: Fault{Kind: UnknownName, In: "operation", Name: "subframe", Key: "any_of", Reference: "gantry",
				Message: `operation "subframe" needs "gantry", which is unknown; no operation has that name`},
		},
		"a job's unknown need": {
			ops: sound, jobs: []Job{{Name: "oil leak", Needs: []string{"Raise"}}},
			want: Fault{Kind: UnknownName, In: "job", Name: "oil leak", Key: "needs", Reference: "Raise", Nearest: "raise",
				Message: `job "oil leak" needs "Raise", which is unknown; did you mean "raise"?`},
		},
		"a need that is a job": {
			ops: sound, jobs: []Job{{Name: "drain"}, {Name: "seal", Needs: []string{"drain"}}},
			want: Fault{Kind: Unmet, In: "job", Name: "seal", Key: "needs", Reference: "drain",
				Message: `job "seal" needs "drain", which is a job; name the operations that it takes instead`},
		},
		"an empty group": {
			ops: append(sound, Operation{Name: "subframe", AnyOf: [][]string{{"raise"}, {}}}),
			want: Fault{Kind: EmptyGroup, In: "operation", Name: "subframe", Key: "any_of",
				Message: `operation "subframe" has an empty any_of group; name at least one operation in it or leave it out`},
		},
		"an operation that needs itself": {
			ops: append(sound, Operation{Name: "subframe", AnyOf: [][]string{{"subframe", "raise"}}}),
			want: Fault{Kind: SelfNeed, In: "operation", Name: "subframe", Key: "any_of", Reference: "subframe",
				Message: `operation "subframe" needs itself; take that out`},
		},
		"two operations of one name": {
			ops: append(sound, Operation{Name: "raise"}),
			want: Fault{Kind: DuplicateName, In: "operation", Name: "raise", Key: "name", Reference: "raise",
				Message: `operation "raise" is there twice; give one of them another name`},
		},
		"two jobs of one name": {
			ops: sound, jobs: []Job{{Name: "drain"}, {Name: "drain"}},
			want: Fault{Kind: DuplicateName, In: "job", Name: "drain", Key: "name", Reference: "drain",
				Message: `job "drain" is there twice; give one of them another name`},
		},
		"no name": {
			ops: append(sound, Operation{}),
			want: Fault{Kind: NoName, In: "operation", Key: "name",
				Message: `operation "" has no name; give it one that needs can refer to`},
		},
		"hours below nought": {
			ops: append(sound, Operation{Name: "subframe", Off: 1, On: -0.5}),
			want: Fault{Kind: BadHours, In: "operation", Name: "subframe", Key: "on",
				Message: `operation "subframe" has -0.5 hours on; a number from 0 up is wanted`},
		},
		"hours that are no number": {
			ops: sound, jobs: []Job{{Name: "drain", Work: math.NaN()}},
			want: Fault{Kind: BadHours, In: "job", Name: "drain", Key: "work",
				Message: `job "drain" has NaN hours work; a number from 0 up is wanted`},
		},
		"hours without end": {
			ops: append(sound, Operation{Name: "subframe", Off: math.Inf(1)}),
			want: Fault{Kind: BadHours, In: "operation", Name: "subframe", Key: "off",
				Message: `operation "subframe" has +Inf hours off; a number from 0 up is wanted`},
		},
		"more hours than can be counted": {
			ops: append(sound, Operation{Name: "subframe", Off: 1e300}),
			want: Fault{Kind: BadHours, In: "operation", Name: "subframe", Key: "off",
				Message: `operation "subframe" takes the sum of all hours past 1152921505, more than can be counted`},
		},
		"fewer than no people": {
			ops: append(sound, Operation{Name: "subframe", People: -1}),
			want: Fault{Kind: BadPeople, In: "operation", Name: "subframe", Key: "people",
				Message: `operation "subframe" takes -1 people; it takes 1 or more`},
		},
		"a ring": {
			ops: []Operation{{Name: "a", Needs: []string{"b"}}, {Name: "b", AnyOf: [][]string{{"d", "c"}}}, {Name: "c", Needs: []string{"a"}}, {Name: "d"}},
			want: Fault{Kind: Cycle, In: "operation", Name: "a", Key: "needs", Reference: "b", Loop: []string{"a", "b", "c", "a"},
				Message: `operation "a" needs itself in a ring: a -> b -> c -> a; one of them must not wait for the next`},
		},
		"a ring that begins in a group": {
			ops: []Operation{{Name: "b", AnyOf: [][]string{{"c"}}}, {Name: "c", Needs: []string{"b"}}},
			want: Fault{Kind: Cycle, In: "operation", Name: "b", Key: "any_of", Reference: "c", Loop: []string{"b", "c", "b"},
				Message: `operation "b" needs itself in a ring: b -> c -> b; one of them must not wait for the next`},
		},
	} {
		t.Run(name, func(t *testing.T) {
			_, err := New(slices.Clip(c.ops), c.jobs)
			checkFault(t, err, c.want)
		})
	}
}

func checkFault(t *testing.T, err error, want Fault) {
	t.Helper()
	var got *Fault
	if !errors.As(err, &got) {
		t.Fatalf("no fault: %v", err)
	}
	if got.Kind != want.Kind || got.In != want.In || got.Name != want.Name || got.Key != want.Key || got.Reference != want.Reference ||
		got.Nearest != want.Nearest || !slices.Equal(got.Loop, want.Loop) || got.Message != want.Message {
		t.Errorf("got  %+v\nwant %+v", *got, want)
	}
	if err.Error() != want.Message {
		t.Errorf("says %q, want only %q", err, want.Message)
	}
}

func TestSeveralFaultsComeTogether(t *testing.T) {
	_, err := New([]Operation{{Name: "a", Needs: []string{"x"}, Off: -1}}, []Job{{Name: "j", AnyOf: [][]string{{}}}})
	var all interface{ Unwrap() []error }
	if !errors.As(err, &all) || len(all.Unwrap()) != 3 {
		t.Fatalf("want three faults, got %v", err)
	}
	for i, kind := range []Kind{BadHours, UnknownName, EmptyGroup} {
		var f *Fault
		if !errors.As(all.Unwrap()[i], &f) || f.Kind != kind {
			t.Errorf("fault %d is %v, want %s", i, all.Unwrap()[i], kind)
		}
	}
}

func TestAnUnknownJobIsAFault(t *testing.T) {
	g := car{jobs: []Job{{Name: "replace-clutch"}, {Name: "bleed"}}}.graph(t)
	_, err := g.Plan([]string{"bleed", "replace-cluch"})
	checkFault(t, err, Fault{Kind: UnknownJob, In: "job", Name: "replace-cluch", Key: "name", Reference: "replace-cluch", Nearest: "replace-clutch",
		Message: `job "replace-cluch" does not exist; did you mean "replace-clutch"?`})
	_, err = g.Plan([]string{"paint"})
	checkFault(t, err, Fault{Kind: UnknownJob, In: "job", Name: "paint", Key: "name", Reference: "paint",
		Message: `job "paint" does not exist; known are replace-clutch, bleed`})
}

// A need always means an operation, so a job may bear the name of one.
func TestAJobMayBearTheNameOfAnOperation(t *testing.T) {
	c := car{
		ops:  []Operation{{Name: "raise", Off: 0.1, On: 0.1}, {Name: "undertray", Off: 0.2, On: 0.2, Needs: []string{"raise"}}},
		jobs: []Job{{Name: "undertray", Work: 0.3, Needs: []string{"undertray"}}},
	}
	if plan := mustPlan(t, c.graph(t), "undertray"); plan.Together != 0.9 {
		t.Errorf("takes %v h, want 0.9 h", plan.Together)
	}
}
