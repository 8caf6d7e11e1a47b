package ledgertest

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"layshaft/workshop"
)

// manyWriters has people write to one car at once, each looking at what the others wrote and trying again.
func manyWriters(t *testing.T, s workshop.Storage) {
	const writers, each = 6, 10
	var group sync.WaitGroup
	for w := range writers {
		group.Go(func() {
			var seen int64
			for i := range each {
				var err error
				if seen, err = addAfterOthers(t.Context(), s, seen, note(fmt.Sprintf("%d-%d", w, i))); err != nil {
					t.Errorf("writer %d: %v", w, err)
					return
				}
			}
		})
	}
	group.Wait()
	found := map[string]bool{}
	for i, e := range read(t, s, "car/1", 0) {
		found[e.ID] = true
		if e.Seq != int64(i+1) {
			t.Fatalf("number %d stands in place %d", e.Seq, i+1)
		}
	}
	if len(found) != writers*each {
		t.Errorf("%d entries stand, %d were written", len(found), writers*each)
	}
}

// addAfterOthers adds an entry and returns its number; on a conflict it takes note of theirs and tries again.
func addAfterOthers(ctx context.Context, s workshop.Storage, seen int64, e workshop.Entry) (int64, error) {
	for {
		standing, err := s.Append(ctx, "car/1", seen, e)
		var conflict *workshop.Conflict
		switch {
		case err == nil:
			return standing[0].Seq, nil
		case !errors.As(err, &conflict):
			return 0, err
		case len(conflict.Theirs) == 0:
			return 0, errors.New("a conflict with nobody")
		}
		seen = conflict.Theirs[len(conflict.Theirs)-1].Seq
	}
}

// agreesWithMemory sends the same random appends to the storage and to a Memory. Names, IDs and bodies are few, so
// that they meet often.
func agreesWithMemory(t *testing.T, s workshop.Storage) {
	run := 0
	rapid.Check(t, func(rt *rapid.T) {
		run++
		prefix := fmt.Sprintf("%d/", run) // streams of its own in the storage that all runs share
		model := new(Memory)
		for range rapid.IntRange(1, 12).Draw(rt, "appends") {
			stream := prefix + rapid.SampledFrom([]string{"a", "b"}).Draw(rt, "stream")
			after := rapid.Int64Range(0, 6).Draw(rt, "after")
			batch := rapid.SliceOfN(rapid.Custom(drawEntry), 1, 3).Draw(rt, "batch")
			want, wantErr := model.Append(t.Context(), stream, after, batch...)
			got, err := s.Append(t.Context(), stream, after, batch...)
			if !same(got, want) || outcome(err) != outcome(wantErr) {
				rt.Fatalf("append to %s after %d:\n got %+v, %v\nwant %+v, %v", stream, after, got, err, want, wantErr)
			}
		}
		want, _ := model.ReadAll(t.Context(), prefix)
		if got, err := s.ReadAll(t.Context(), prefix); err != nil || !same(got, want) {
			rt.Fatalf("in the end %v, %v; want %v", places(got), err, places(want))
		}
	})
}

func drawEntry(t *rapid.T) workshop.Entry {
	e := note(rapid.SampledFrom([]string{"p", "q", "r", "s", "u"}).Draw(t, "id"))
	if rapid.IntRange(0, 9).Draw(t, "other contents") == 0 {
		e.Body = json.RawMessage(`{}`)
	}
	return e
}

// outcome names the kind of an error, and of a conflict whose entries it holds.
func outcome(err error) string {
	var conflict *workshop.Conflict
	switch {
	case err == nil:
		return "added"
	case errors.As(err, &conflict):
		return fmt.Sprint("conflict ", places(conflict.Theirs))
	case errors.Is(err, workshop.ErrIDTaken):
		return "ID taken"
	case errors.Is(err, workshop.ErrNotSaved):
		return "not saved"
	}
	return "refused"
}
