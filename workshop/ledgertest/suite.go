// Package ledgertest holds what every implementation of workshop.Storage owes, as tests that each of them runs, and the
// plainest implementation for tests of the domain.
package ledgertest

import (
	"encoding/json"
	"fmt"
	"reflect"
	"testing"
	"time"

	"layshaft/workshop"
)

// Run tests a storage; open gives an empty one, which the test that asked for it has to itself.
func Run(t *testing.T, open func(t *testing.T) workshop.Storage) {
	for _, part := range []struct {
		name string
		test func(*testing.T, workshop.Storage)
	}{
		{"entries read back as appended", entriesReadBack},
		{"a body is kept byte for byte", bodiesAreExact},
		{"times are kept to the microsecond in UTC", timesAreUTC},
		{"an unknown stream is empty", unknownStreamIsEmpty},
		{"reading on starts after the number given", readingOn},
		{"streams are read by prefix in order", streamsByPrefix},
		{"what a caller writes over afterwards stays as it was", callersKeepTheirBytes},
		{"somebody else's entry in between is a conflict", conflictHoldsTheirs},
		{"an entry sent twice stands once", sentTwiceStandsOnce},
		{"an old entry sent with a new one is no conflict", resendWithNews},
		{"an ID with other contents is refused", idTaken},
		{"an ID counts within its stream", idsPerStream},
		{"a batch with a fault adds nothing", allOrNone},
		{"a writer who has seen more than there is adds nothing", writerAhead},
		{"an entry that lacks something is refused", incompleteEntries},
		{"nothing sent is nothing added", nothingSent},
		{"a call given up adds nothing", cancelled},
		{"many writers lose nothing", manyWriters},
		{"any sequence of appends ends as in memory", agreesWithMemory},
		{"documents are found by their hash", documentsByHash},
	} {
		t.Run(part.name, func(t *testing.T) { part.test(t, open(t)) })
	}
}

// noon is some moment; entries in the tests are made at it.
var noon = time.Date(2026, 3, 4, 12, 30, 15, 123456000, time.UTC)

// note makes an entry with a body that names it.
func note(id string) workshop.Entry {
	return workshop.Entry{ID: id, At: noon, By: "ada", Kind: "note", Body: json.RawMessage(fmt.Sprintf(`{"text":"%s"}`, id))}
}

func appendTo(t *testing.T, s workshop.Storage, stream string, after int64, entries ...workshop.Entry) []workshop.Entry {
	t.Helper()
	standing, err := s.Append(t.Context(), stream, after, entries...)
	if err != nil {
		t.Fatalf("append to %s: %v", stream, err)
	}
	return standing
}

func read(t *testing.T, s workshop.Storage, stream string, after int64) []workshop.Entry {
	t.Helper()
	entries, err := s.Read(t.Context(), stream, after)
	if err != nil {
		t.Fatalf("read %s: %v", stream, err)
	}
	return entries
}

// places lists entries as "stream 3 id", which is all that most tests look at.
func places(entries []workshop.Entry) []string {
	list := []string{}
	for _, e := range entries {
		list = append(list, fmt.Sprintf("%s %d %s", e.Stream, e.Seq, e.ID))
	}
	return list
}

func wantPlaces(t *testing.T, what string, got []workshop.Entry, want ...string) {
	t.Helper()
	if !reflect.DeepEqual(places(got), append([]string{}, want...)) {
		t.Errorf("%s: got %q, want %q", what, places(got), want)
	}
}

// same compares entries, times by their moment and nil bodies with empty ones.
func same(a, b []workshop.Entry) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		x, y := a[i], b[i]
		if !x.At.Equal(y.At) || string(x.Body) != string(y.Body) {
			return false
		}
		x.At, y.At, x.Body, y.Body = time.Time{}, time.Time{}, nil, nil
		if !reflect.DeepEqual(x, y) {
			return false
		}
	}
	return true
}
