package store

import (
	"context"
	"errors"
	"fmt"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"layshaft/workshop"
)

var (
	// ErrNotOurs says that a file is no database of this program; it has been left as it was.
	ErrNotOurs = errors.New("not a Layshaft database")
	// ErrNewer says that a newer program has changed the file's schema.
	ErrNewer = errors.New("the database belongs to a newer Layshaft")
	// ErrDamaged says that what the file holds does not fit together any more.
	ErrDamaged = errors.New("the database is damaged; keep the file, and restore the latest backup under another name")
)

// reasons say in the shop's words what SQLite's result codes mean and what to do.
var reasons = map[int]error{
	sqlite3.SQLITE_NOTADB:   fmt.Errorf("%w: name another file", ErrNotOurs),
	sqlite3.SQLITE_CORRUPT:  ErrDamaged,
	sqlite3.SQLITE_FULL:     errors.New("the disk is full; make room and try again"),
	sqlite3.SQLITE_READONLY: errors.New("the database or its folder is read-only; allow this program to write there"),
	sqlite3.SQLITE_PERM:     errors.New("the database or its folder may not be used; allow this program to write there"),
	sqlite3.SQLITE_CANTOPEN: errors.New("the database cannot be opened; check that its folder exists and allows writing"),
	sqlite3.SQLITE_BUSY:     errors.New("another program kept the database busy; try again, and close other programs that use it"),
	sqlite3.SQLITE_IOERR:    errors.New("the disk failed or is full; check it before going on"),
}

// explain puts the reason before the driver's fault, by code, and leaves other errors alone.
func explain(err error) error {
	var fault *sqlite.Error
	if !errors.As(err, &fault) {
		return err
	}
	reason, ok := reasons[fault.Code()&0xff] // without the finer part of an extended code
	if !ok {
		return err
	}
	return fmt.Errorf("%w (%w)", reason, err)
}

// notSaved is the domain's word for a write that failed as a whole. A write that was given up says so first, because the
// driver then fails at whatever it had come to.
func notSaved(ctx context.Context, err error) error {
	if given := ctx.Err(); given != nil && !errors.Is(err, given) {
		err = fmt.Errorf("%w (%w)", given, err)
	}
	return fmt.Errorf("%w: %w", workshop.ErrNotSaved, explain(err))
}
