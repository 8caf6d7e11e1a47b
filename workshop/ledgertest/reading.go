package ledgertest

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"strings"
	"testing"
	"time"

	"layshaft/workshop"
)

func entriesReadBack(t *testing.T, s workshop.Storage) {
	standing := appendTo(t, s, "car/1", 0, note("a"), note("b"))
	want := []workshop.Entry{note("a"), note("b")}
	for i := range want {
		want[i].Stream, want[i].Seq = "car/1", int64(i+1)
	}
	if !same(standing, want) {
		t.Errorf("append answered %+v, want %+v", standing, want)
	}
	if got := read(t, s, "car/1", 0); !same(got, want) {
		t.Errorf("read %+v, want %+v", got, want)
	}
}

func bodiesAreExact(t *testing.T, s workshop.Storage) {
	long := `"` + strings.Repeat("Ø19,05 mm – 5/8″ ", 60_000) + `"` // about a megabyte and a half
	bodies := []string{`{"b": 1,  "a":2}`, "[1.0, 1e2]\n", `"<&>\u2028"`, `{"x":1,"x":2}`, "null", long, ""}
	for i, body := range bodies {
		e := note(string(rune('a' + i)))
		e.Body = json.RawMessage(body)
		appendTo(t, s, "car/1", int64(i), e)
	}
	for i, e := range read(t, s, "car/1", 0) {
		if string(e.Body) != bodies[i] {
			t.Errorf("body %d is %.60q, want %.60q", i, e.Body, bodies[i])
		}
	}
}

func timesAreUTC(t *testing.T, s workshop.Storage) {
	for i, at := range []time.Time{
		noon,
		noon.In(time.FixedZone("", 2*60*60)),
		time.Date(1969, 12, 31, 23, 59, 59, 999999000, time.UTC),
		time.Date(9999, 12, 31, 23, 59, 59, 0, time.UTC),
		{},
	} {
		e := note(at.String())
		e.At = at
		appendTo(t, s, "car/1", int64(i), e)
		got := read(t, s, "car/1", int64(i))[0].At
		if !got.Equal(at) || got.Location() != time.UTC {
			t.Errorf("%s was read back as %s", at, got)
		}
	}
}

func unknownStreamIsEmpty(t *testing.T, s workshop.Storage) {
	wantPlaces(t, "unknown stream", read(t, s, "car/unknown", 0))
	all, err := s.ReadAll(t.Context(), "")
	if err != nil {
		t.Fatal(err)
	}
	wantPlaces(t, "empty storage", all)
}

func readingOn(t *testing.T, s workshop.Storage) {
	appendTo(t, s, "car/1", 0, note("a"), note("b"), note("c"))
	wantPlaces(t, "after 1", read(t, s, "car/1", 1), "car/1 2 b", "car/1 3 c")
	wantPlaces(t, "after the last", read(t, s, "car/1", 3))
	wantPlaces(t, "after more than there is", read(t, s, "car/1", 9))
}

func streamsByPrefix(t *testing.T, s workshop.Storage) {
	for _, stream := range []string{"shop", "car/2", "car/10", "Car/3", "cart", "car%", "car_1", "car/é", "car"} {
		appendTo(t, s, stream, 0, note("a"))
	}
	appendTo(t, s, "car/2", 1, note("b"))
	for prefix, want := range map[string][]string{
		"car/":  {"car/10 1 a", "car/2 1 a", "car/2 2 b", "car/é 1 a"},
		"car_":  {"car_1 1 a"},
		"car%":  {"car% 1 a"},
		"car/é": {"car/é 1 a"},
		"C":     {"Car/3 1 a"},
		"x":     {},
		"": {"Car/3 1 a", "car 1 a", "car% 1 a", "car/10 1 a", "car/2 1 a", "car/2 2 b", "car/é 1 a", "car_1 1 a",
			"cart 1 a", "shop 1 a"},
	} {
		got, err := s.ReadAll(t.Context(), prefix)
		if err != nil {
			t.Fatal(err)
		}
		wantPlaces(t, "prefix "+prefix, got, want...)
	}
}

func callersKeepTheirBytes(t *testing.T, s workshop.Storage) {
	sent := note("a")
	want := string(sent.Body)
	standing := appendTo(t, s, "car/1", 0, sent)
	clear(sent.Body)
	if string(standing[0].Body) != want {
		t.Errorf("the answer changed with the caller's bytes to %q", standing[0].Body)
	}
	clear(read(t, s, "car/1", 0)[0].Body)
	if got := read(t, s, "car/1", 0)[0].Body; string(got) != want {
		t.Errorf("the entry changed with a reader's bytes to %q", got)
	}
}

func documentsByHash(t *testing.T, s workshop.Storage) {
	for _, data := range [][]byte{[]byte("layout: rwd-longitudinal\n"), {}, nil, {0, 0xff, 0, '\n'}, bytes.Repeat([]byte{7, 0}, 1<<20)} {
		sum := sha256.Sum256(data)
		want := hex.EncodeToString(sum[:])
		for range 2 { // the second time is no error
			key, err := s.Put(t.Context(), data)
			if err != nil || key != want {
				t.Fatalf("put %d bytes: key %q, %v; want %q", len(data), key, err, want)
			}
		}
		got, err := s.Get(t.Context(), want)
		if err != nil || !bytes.Equal(got, data) {
			t.Errorf("get %d bytes: %d bytes, %v", len(data), len(got), err)
		}
		clear(got)
		if again, err := s.Get(t.Context(), want); err != nil || !bytes.Equal(again, data) {
			t.Errorf("a reader's bytes changed the shelf (%v)", err)
		}
	}
	for _, key := range []string{strings.Repeat("0", 64), "", "layout"} {
		if got, err := s.Get(t.Context(), key); !errors.Is(err, workshop.ErrNotFound) {
			t.Errorf("get %q: %q, %v; want not found", key, got, err)
		}
	}
}
