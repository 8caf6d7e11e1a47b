package ledgertest

import (
	"context"
	"encoding/json"
	"errors"
	"testing"

	"layshaft/workshop"
)

func conflictHoldsTheirs(t *testing.T, s workshop.Storage) {
	appendTo(t, s, "car/1", 0, note("a"))
	theirs := appendTo(t, s, "car/1", 1, note("b"), note("c"))
	_, err := s.Append(t.Context(), "car/1", 1, note("mine"))
	var conflict *workshop.Conflict
	if !errors.As(err, &conflict) {
		t.Fatalf("got %v, want a conflict", err)
	}
	if conflict.Stream != "car/1" || conflict.After != 1 || !same(conflict.Theirs, theirs) {
		t.Errorf("conflict is %+v, want after 1 of car/1 with %+v", conflict, theirs)
	}
	wantPlaces(t, "after the conflict", read(t, s, "car/1", 0), "car/1 1 a", "car/1 2 b", "car/1 3 c")
	// Having seen theirs, the writer can add.
	wantPlaces(t, "second try", appendTo(t, s, "car/1", 3, note("mine")), "car/1 4 mine")
}

func sentTwiceStandsOnce(t *testing.T, s workshop.Storage) {
	first := appendTo(t, s, "car/1", 0, note("a"), note("b"))
	appendTo(t, s, "car/1", 2, note("theirs"))
	for _, after := range []int64{0, 1, 3, 99} {
		if again := appendTo(t, s, "car/1", after, note("a"), note("b")); !same(again, first) {
			t.Errorf("sent again after %d: %+v, want %+v", after, again, first)
		}
	}
	later := note("a") // the same deed told by another clock or person is still the same entry
	later.At, later.By = noon.AddDate(0, 0, 1), "grace"
	if again := appendTo(t, s, "car/1", 0, later); !same(again, first[:1]) {
		t.Errorf("sent again with another time: %+v, want it as it stands, %+v", again, first[:1])
	}
	wantPlaces(t, "within one batch", appendTo(t, s, "car/2", 0, note("x"), note("x"), note("y")),
		"car/2 1 x", "car/2 1 x", "car/2 2 y")
	wantPlaces(t, "in the end", read(t, s, "car/1", 0), "car/1 1 a", "car/1 2 b", "car/1 3 theirs")
}

func resendWithNews(t *testing.T, s workshop.Storage) {
	appendTo(t, s, "car/1", 0, note("a"))
	// The answer to a was lost, so the writer still believes that the stream is empty.
	wantPlaces(t, "old and new", appendTo(t, s, "car/1", 0, note("a"), note("b")), "car/1 1 a", "car/1 2 b")
	_, err := s.Append(t.Context(), "car/1", 0, note("b"), note("c"))
	var conflict *workshop.Conflict
	if !errors.As(err, &conflict) {
		t.Fatalf("got %v, want a conflict for the entry that was not sent along", err)
	}
	wantPlaces(t, "theirs", conflict.Theirs, "car/1 1 a")
}

func idTaken(t *testing.T, s workshop.Storage) {
	appendTo(t, s, "car/1", 0, note("a"))
	body, kind := note("a"), note("a")
	body.Body = json.RawMessage(`{"text":"something else"}`)
	kind.Kind = "car-moved"
	for what, entry := range map[string]workshop.Entry{"body": body, "kind": kind} {
		for _, after := range []int64{0, 1} { // whatever the writer has seen
			if _, err := s.Append(t.Context(), "car/1", after, entry); !errors.Is(err, workshop.ErrIDTaken) {
				t.Errorf("another %s after %d: %v, want that the ID is taken", what, after, err)
			}
		}
	}
	if _, err := s.Append(t.Context(), "car/2", 0, note("a"), body); !errors.Is(err, workshop.ErrIDTaken) {
		t.Errorf("two bodies in one batch: %v, want that the ID is taken", err)
	}
	wantPlaces(t, "in the end", read(t, s, "car/1", 0), "car/1 1 a")
	wantPlaces(t, "other stream", read(t, s, "car/2", 0))
}

func idsPerStream(t *testing.T, s workshop.Storage) {
	appendTo(t, s, "car/1", 0, note("a"))
	other := note("a")
	other.Body = json.RawMessage(`{}`)
	wantPlaces(t, "same ID elsewhere", appendTo(t, s, "car/2", 0, other), "car/2 1 a")
}

func allOrNone(t *testing.T, s workshop.Storage) {
	appendTo(t, s, "car/1", 0, note("a"))
	taken := note("a")
	taken.Body = json.RawMessage(`{}`)
	for what, batch := range map[string][]workshop.Entry{
		"taken ID last":  {note("b"), note("c"), taken},
		"no ID last":     {note("b"), note("")},
		"taken ID first": {taken, note("b")},
	} {
		if _, err := s.Append(t.Context(), "car/1", 1, batch...); err == nil {
			t.Errorf("%s: added", what)
		}
	}
	wantPlaces(t, "in the end", read(t, s, "car/1", 0), "car/1 1 a")
}

func writerAhead(t *testing.T, s workshop.Storage) {
	appendTo(t, s, "car/1", 0, note("a"))
	if _, err := s.Append(t.Context(), "car/1", 2, note("b")); !errors.Is(err, workshop.ErrNotSaved) {
		t.Errorf("after number 2 of 1: %v, want not saved", err)
	}
	wantPlaces(t, "in the end", read(t, s, "car/1", 0), "car/1 1 a")
}

func incompleteEntries(t *testing.T, s workshop.Storage) {
	nameless, kindless, astray, garbled := note(""), note("a"), note("a"), note("a")
	kindless.Kind = ""
	astray.Stream = "car/2"
	garbled.Body = json.RawMessage(`{"text":`)
	for what, try := range map[string]struct {
		stream string
		after  int64
		entry  workshop.Entry
	}{
		"without ID":         {"car/1", 0, nameless},
		"without kind":       {"car/1", 0, kindless},
		"without stream":     {"", 0, note("a")},
		"for another stream": {"car/1", 0, astray},
		"with half a body":   {"car/1", 0, garbled},
		"after number -1":    {"car/1", -1, note("a")},
	} {
		if standing, err := s.Append(t.Context(), try.stream, try.after, try.entry); err == nil {
			t.Errorf("%s: added as %+v", what, standing)
		}
	}
	all, err := s.ReadAll(t.Context(), "")
	if err != nil {
		t.Fatal(err)
	}
	wantPlaces(t, "in the end", all)
}

func nothingSent(t *testing.T, s workshop.Storage) {
	appendTo(t, s, "car/1", 0, note("a"))
	wantPlaces(t, "nothing", appendTo(t, s, "car/1", 0))
	wantPlaces(t, "in the end", read(t, s, "car/1", 0), "car/1 1 a")
}

func cancelled(t *testing.T, s workshop.Storage) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := s.Append(ctx, "car/1", 0, note("a")); !errors.Is(err, workshop.ErrNotSaved) || !errors.Is(err, context.Canceled) {
		t.Errorf("append: %v, want not saved for having been given up", err)
	}
	if _, err := s.Put(ctx, []byte("layout")); !errors.Is(err, workshop.ErrNotSaved) {
		t.Errorf("put: %v, want not saved", err)
	}
	wantPlaces(t, "in the end", read(t, s, "car/1", 0))
}
