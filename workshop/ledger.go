package workshop

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"time"
)

// Entry is one thing that a person did, found or typed. Entries are only ever added: what was wrong is followed
// by a later entry that says so, and both stay readable.
type Entry struct {
	// ID is chosen by whoever makes the entry, before it is sent. The same entry sent twice (a lost answer, a
	// tablet that comes back) is recognised by it and stands once.
	ID string
	// Stream names what the entry is about, such as "car/7f3c…" or "shop".
	Stream string
	// Seq is the entry's place in its stream: 1, 2, 3 … without gaps. The ledger gives it.
	Seq int64
	// At is when the person did it, in UTC; By is that person's ID.
	At time.Time
	By string
	// Kind says how to read Body, such as "car-opened" or "inputs-changed".
	Kind string
	Body json.RawMessage
}

// Ledger is the shop's book of entries. Storage implements it; ledgertest holds what every implementation owes.
type Ledger interface {
	// Append adds entries to the end of a stream, all or none. after is the Seq of the last entry the writer
	// had seen (0 for a new stream); if somebody else has written since, nothing is added and the error is a
	// *Conflict holding what they wrote. Entries whose ID the stream already has with the same kind and body
	// are not added again and are returned as they stand, even if after is old; the same ID with another body is ErrIDTaken.
	// The entries come back with their Seq. When Append returns without error they are on the disk.
	Append(ctx context.Context, stream string, after int64, entries ...Entry) ([]Entry, error)
	// Read returns a stream's entries with Seq > after, in order. An unknown stream is empty, not an error.
	Read(ctx context.Context, stream string, after int64) ([]Entry, error)
	// ReadAll returns the entries of every stream whose name starts with prefix, stream by stream, in order.
	ReadAll(ctx context.Context, prefix string) ([]Entry, error)
}

// Shelf keeps documents that entries refer to by the hash of their bytes: the layout and prices that a job was
// made with, later photographs. What is on the shelf never changes.
type Shelf interface {
	// Put keeps data and returns its key, the lower-case hex SHA-256 of data. Putting it twice is no error.
	Put(ctx context.Context, data []byte) (key string, err error)
	// Get returns the bytes for a key, or ErrNotFound.
	Get(ctx context.Context, key string) ([]byte, error)
}

// Storage is all that the workshop asks of a database.
type Storage interface {
	Ledger
	Shelf
}

var (
	// ErrNotFound says that there is nothing by that name.
	ErrNotFound = errors.New("not found")
	// ErrIDTaken says that an entry with this ID exists with other contents.
	ErrIDTaken = errors.New("an entry with this ID exists with other contents")
	// ErrNotSaved says that storage failed and nothing of the request was kept; the cause is wrapped beside it.
	ErrNotSaved = errors.New("not saved")
)

// Conflict says that somebody else wrote to the stream first. Theirs are the entries the writer had not seen,
// so that both can be shown and nothing typed is lost.
type Conflict struct {
	Stream string
	After  int64
	Theirs []Entry
}

func (c *Conflict) Error() string {
	return fmt.Sprintf("%s has %d newer entries after number %d", c.Stream, len(c.Theirs), c.After)
}
