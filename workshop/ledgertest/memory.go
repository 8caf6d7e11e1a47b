package ledgertest

import (
	"bytes"
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"

	"layshaft/workshop"
)

// Memory is a workshop.Storage that forgets. It is the plainest reading of the interface: tests of the domain can use
// it, and the suite compares real storage with it. The zero Memory is empty and ready.
type Memory struct {
	mu        sync.Mutex
	streams   map[string][]workshop.Entry
	documents map[string][]byte
}

var _ workshop.Storage = (*Memory)(nil)

// Append adds entries as workshop.Ledger says.
func (m *Memory) Append(ctx context.Context, stream string, after int64, entries ...workshop.Entry) ([]workshop.Entry, error) {
	if err := ctx.Err(); err != nil {
		return nil, fmt.Errorf("%w: %w", workshop.ErrNotSaved, err)
	}
	if stream == "" || after < 0 || slices.ContainsFunc(entries, incomplete) {
		return nil, errors.New("an entry needs a stream, an ID, a kind and a body in JSON, and numbers start at 1")
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	grown := slices.Clone(m.streams[stream]) // becomes the stream only when all has gone well
	var standing []workshop.Entry
	for _, e := range entries {
		if e.Stream != "" && e.Stream != stream {
			return nil, fmt.Errorf("an entry for %s was sent to %s", e.Stream, stream)
		}
		at := slices.IndexFunc(grown, func(have workshop.Entry) bool { return have.ID == e.ID })
		if at < 0 {
			at, grown = len(grown), append(grown, seal(e, stream, len(grown)+1))
		} else if grown[at].Kind != e.Kind || !bytes.Equal(grown[at].Body, e.Body) {
			return nil, fmt.Errorf("%s: %w", e.ID, workshop.ErrIDTaken)
		}
		standing = append(standing, copied(grown[at]))
	}
	if err := m.refuseStale(stream, after, entries, len(grown)); err != nil {
		return nil, err
	}
	if m.streams == nil {
		m.streams = map[string][]workshop.Entry{}
	}
	m.streams[stream] = grown
	return standing, nil
}

func incomplete(e workshop.Entry) bool {
	return e.ID == "" || e.Kind == "" || len(e.Body) > 0 && !json.Valid(e.Body)
}

// refuseStale says why a stream that would grow may not, as far as the writer's knowledge of it goes.
func (m *Memory) refuseStale(stream string, after int64, sent []workshop.Entry, length int) error {
	have := m.streams[stream]
	if length == len(have) {
		return nil
	}
	if after > int64(len(have)) {
		return fmt.Errorf("%w: %s has only %d entries", workshop.ErrNotSaved, stream, len(have))
	}
	var theirs []workshop.Entry
	for _, e := range have[after:] {
		if !slices.ContainsFunc(sent, func(s workshop.Entry) bool { return s.ID == e.ID }) {
			theirs = append(theirs, copied(e))
		}
	}
	if len(theirs) > 0 {
		return &workshop.Conflict{Stream: stream, After: after, Theirs: theirs}
	}
	return nil
}

func seal(e workshop.Entry, stream string, seq int) workshop.Entry {
	e = copied(e)
	e.Stream, e.Seq, e.At = stream, int64(seq), e.At.UTC()
	return e
}

// copied keeps what stands apart from what a caller may write over.
func copied(e workshop.Entry) workshop.Entry {
	e.Body = bytes.Clone(e.Body)
	return e
}

// Read returns a stream's entries with Seq > after, in order.
func (m *Memory) Read(ctx context.Context, stream string, after int64) ([]workshop.Entry, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	var entries []workshop.Entry
	for _, e := range m.streams[stream] {
		if e.Seq > after {
			entries = append(entries, copied(e))
		}
	}
	return entries, ctx.Err()
}

// ReadAll returns the entries of every stream whose name starts with prefix, stream by stream, in order.
func (m *Memory) ReadAll(ctx context.Context, prefix string) ([]workshop.Entry, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	var entries []workshop.Entry
	for stream, all := range m.streams {
		if strings.HasPrefix(stream, prefix) {
			entries = append(entries, all...)
		}
	}
	for i, e := range entries {
		entries[i] = copied(e)
	}
	slices.SortFunc(entries, func(a, b workshop.Entry) int {
		return cmp.Or(strings.Compare(a.Stream, b.Stream), int(a.Seq-b.Seq))
	})
	return entries, ctx.Err()
}

// Put keeps data and returns its key.
func (m *Memory) Put(ctx context.Context, data []byte) (string, error) {
	if err := ctx.Err(); err != nil {
		return "", fmt.Errorf("%w: %w", workshop.ErrNotSaved, err)
	}
	sum := sha256.Sum256(data)
	key := hex.EncodeToString(sum[:])
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.documents == nil {
		m.documents = map[string][]byte{}
	}
	m.documents[key] = bytes.Clone(data)
	return key, nil
}

// Get returns the bytes for a key, or workshop.ErrNotFound.
func (m *Memory) Get(ctx context.Context, key string) ([]byte, error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	data, ok := m.documents[key]
	if !ok {
		return nil, fmt.Errorf("document %q: %w", key, workshop.ErrNotFound)
	}
	return bytes.Clone(data), ctx.Err()
}
