// Package store keeps the workshop's ledger and shelf in a database. SQLite, in one file beside the program, is the
// default: one writer and many readers, every append on the disk before it is answered, and nothing in the file ever
// changed or removed.
package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"

	_ "modernc.org/sqlite" // the driver named "sqlite"

	"layshaft/workshop"
)

// SQLite is a shop's database in one file. It is safe for concurrent use, also by several programs on one computer.
type SQLite struct {
	path   string
	writer *sql.DB // a single connection, so that writers queue here instead of meeting in the file
	reader *sql.DB
}

var _ workshop.Storage = (*SQLite)(nil)

// Open opens the database in the file at path, makes it where there is none, and brings its schema up to date. The
// folder must exist, allow writing and be on this computer: SQLite's log needs shared memory, which network drives
// do not give.
//
// A file of another kind is left as it is and is ErrNotOurs, one of a newer program ErrNewer, a damaged one ErrDamaged.
func Open(ctx context.Context, path string) (*SQLite, error) {
	if err := prepareFile(path); err != nil {
		return nil, fmt.Errorf("open database: %w", err)
	}
	if err := refuseForeign(ctx, path); err != nil {
		return nil, fmt.Errorf("open database %s: %w", path, explain(err))
	}
	s := &SQLite{path: path, writer: openPool(path, writing), reader: openPool(path, reading)}
	s.writer.SetMaxOpenConns(1)
	if err := migrate(ctx, s.writer, released()); err != nil {
		return nil, errors.Join(fmt.Errorf("open database %s: %w", path, explain(err)), s.Close())
	}
	return s, nil
}

// Close waits for what is being written and closes the file. The log is folded into the file when the last program
// closes it.
func (s *SQLite) Close() error {
	return errors.Join(s.reader.Close(), s.writer.Close())
}

// prepareFile makes an empty file that only its owner can read, for it will hold customers' names; SQLite gives the
// files beside it the same rights. An existing file must allow writing. A log without its database is refused: SQLite
// would throw it away with the last entries before a crash.
func prepareFile(path string) error {
	if size(path) == 0 && size(path+"-wal") > 0 {
		return fmt.Errorf("%s is missing or empty, but its log %s-wal is there and may hold entries; put the database back beside it, or move the log away", path, path)
	}
	file, err := os.OpenFile(path, os.O_RDWR|os.O_CREATE, 0o600)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s cannot be made: its folder does not exist; make the folder first (%w)", path, err)
	case err != nil:
		return fmt.Errorf("%s cannot be written to; check the rights to the file and its folder, and that it is a file (%w)", path, err)
	}
	return file.Close()
}

// size is 0 for a file that is not there.
func size(path string) int64 {
	info, err := os.Stat(path)
	if err != nil {
		return 0
	}
	return info.Size()
}

// refuseForeign looks whose file it is before any setting of ours touches it.
func refuseForeign(ctx context.Context, path string) error {
	db := openPool(path, looking)
	defer db.Close()
	var owner, tables int
	err := db.QueryRowContext(ctx, `SELECT application_id, (SELECT count(*) FROM sqlite_schema) FROM pragma_application_id`).
		Scan(&owner, &tables)
	if err != nil {
		return err
	}
	if owner != applicationID && (owner != 0 || tables != 0) {
		return fmt.Errorf("%w: it is a database of another program; name another file", ErrNotOurs)
	}
	return nil
}
