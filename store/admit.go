package store

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"layshaft/workshop"
)

// tail is what an append has to know of a stream.
type tail struct {
	last  int64            // number of its last entry, 0 for none
	newer []workshop.Entry // those that the writer has not seen, in order
	known []workshop.Entry // those that bear an ID that the writer sends
}

// admit decides what becomes of entries sent to a stream, by the rules of workshop.Ledger. It returns the entries as they
// will stand, and those among them that are still to be written.
//
// Entries that the writer sends again do not count as somebody else's, so a writer whose answer was lost can send the
// old and the new together.
func (t tail) admit(stream string, after int64, entries []workshop.Entry) (standing, fresh []workshop.Entry, err error) {
	byID := map[string]workshop.Entry{}
	for _, e := range t.known {
		byID[e.ID] = e
	}
	next := t.last + 1
	sent := map[string]bool{}
	for _, e := range entries {
		sent[e.ID] = true
		known, ok := byID[e.ID]
		switch {
		case !ok:
			e.Stream, e.Seq, e.At = stream, next, e.At.UTC()
			e.Body = bytes.Clone(e.Body) // the caller may write over its own
			byID[e.ID], next = e, next+1
			fresh, known = append(fresh, e), e
		case known.Kind != e.Kind || !bytes.Equal(known.Body, e.Body):
			return nil, nil, fmt.Errorf("%s in %s: %w", e.ID, stream, workshop.ErrIDTaken)
		}
		standing = append(standing, known)
	}
	if len(fresh) == 0 {
		return standing, nil, nil
	}
	if after > t.last {
		return nil, nil, fmt.Errorf("%w: %s ends at number %d but the writer has seen number %d; an older backup may have been restored",
			workshop.ErrNotSaved, stream, t.last, after)
	}
	var theirs []workshop.Entry
	for _, e := range t.newer {
		if !sent[e.ID] {
			theirs = append(theirs, e)
		}
	}
	if len(theirs) > 0 {
		return nil, nil, &workshop.Conflict{Stream: stream, After: after, Theirs: theirs}
	}
	return standing, fresh, nil
}

// checkEntries refuses what no ledger can keep.
func checkEntries(stream string, after int64, entries []workshop.Entry) error {
	if stream == "" || !plain(stream) {
		return fmt.Errorf("%q cannot name a stream", stream)
	}
	if after < 0 {
		return fmt.Errorf("append to %s after number %d: numbers start at 1", stream, after)
	}
	for i, e := range entries {
		if err := checkEntry(stream, e); err != nil {
			return fmt.Errorf("entry %d of %d for %s: %w", i+1, len(entries), stream, err)
		}
	}
	return nil
}

func checkEntry(stream string, e workshop.Entry) error {
	switch {
	case e.ID == "":
		return errors.New("it has no ID")
	case e.Kind == "":
		return errors.New("it has no kind")
	case !plain(e.ID) || !plain(e.Kind) || !plain(e.By):
		return errors.New("its ID, kind or person holds characters that cannot be printed")
	case e.Stream != "" && e.Stream != stream:
		return fmt.Errorf("it is made for %s", e.Stream)
	case len(e.Body) > 0 && !json.Valid(e.Body):
		return errors.New("its body is not JSON")
	case e.At.UTC().Year() < 0 || e.At.UTC().Year() > 9999:
		return fmt.Errorf("its year %d has no place in a calendar of four digits", e.At.UTC().Year())
	}
	return nil
}

// plain reports whether a name is text that every database keeps as it is.
func plain(name string) bool {
	return utf8.ValidString(name) && !strings.ContainsFunc(name, func(r rune) bool { return r < ' ' || r == 0x7f })
}
