package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"fmt"
	"time"

	"layshaft/workshop"
)

const entryColumns = `stream, seq, id, at, "by", kind, body`

// Append adds entries as workshop.Ledger says. When it fails, nothing of them is kept; should the disk have lied about
// a failure, sending them again finds them by their IDs.
func (s *SQLite) Append(ctx context.Context, stream string, after int64, entries ...workshop.Entry) ([]workshop.Entry, error) {
	if err := checkEntries(stream, after, entries); err != nil || len(entries) == 0 {
		return nil, err
	}
	tx, err := s.writer.BeginTx(ctx, nil)
	if err != nil {
		return nil, notSaved(ctx, err)
	}
	defer tx.Rollback()
	tail, err := readTail(ctx, tx, stream, after, entries)
	if err != nil {
		return nil, notSaved(ctx, err)
	}
	standing, fresh, err := tail.admit(stream, after, entries)
	if err != nil || len(fresh) == 0 {
		return standing, err
	}
	if err := insert(ctx, tx, fresh); err != nil {
		return nil, notSaved(ctx, err)
	}
	if err := tx.Commit(); err != nil {
		return nil, notSaved(ctx, err)
	}
	return standing, nil
}

func readTail(ctx context.Context, tx *sql.Tx, stream string, after int64, sent []workshop.Entry) (t tail, err error) {
	var ids []string
	for _, e := range sent {
		ids = append(ids, e.ID)
	}
	list, err := json.Marshal(ids)
	if err != nil {
		return t, err
	}
	err = tx.QueryRowContext(ctx, `SELECT coalesce(max(seq), 0) FROM entry WHERE stream = ?`, stream).Scan(&t.last)
	if err != nil {
		return t, err
	}
	if t.newer, err = entriesAfter(ctx, tx, stream, after); err != nil {
		return t, err
	}
	t.known, err = query(ctx, tx, `
		SELECT `+entryColumns+` FROM entry
		WHERE stream = ? AND id IN (SELECT value FROM json_each(?))`, stream, string(list))
	return t, err
}

func insert(ctx context.Context, tx *sql.Tx, entries []workshop.Entry) error {
	statement, err := tx.PrepareContext(ctx, `INSERT INTO entry (`+entryColumns+`) VALUES (?, ?, ?, ?, ?, ?, ?)`)
	if err != nil {
		return err
	}
	defer statement.Close()
	for _, e := range entries {
		at := e.At.Format(time.RFC3339Nano)
		if _, err := statement.ExecContext(ctx, e.Stream, e.Seq, e.ID, at, e.By, e.Kind, string(e.Body)); err != nil {
			return err
		}
	}
	return nil
}

// Read returns a stream's entries with Seq > after, in order.
func (s *SQLite) Read(ctx context.Context, stream string, after int64) ([]workshop.Entry, error) {
	entries, err := entriesAfter(ctx, s.reader, stream, after)
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", stream, explain(err))
	}
	return entries, nil
}

func entriesAfter(ctx context.Context, from querier, stream string, after int64) ([]workshop.Entry, error) {
	return query(ctx, from, `
		SELECT `+entryColumns+` FROM entry
		WHERE stream = ? AND seq > ?
		ORDER BY seq`, stream, after)
}

// ReadAll returns the entries of every stream whose name starts with prefix, stream by stream in the order of their
// bytes.
func (s *SQLite) ReadAll(ctx context.Context, prefix string) ([]workshop.Entry, error) {
	// The last code point bounds the names that start with prefix from above, and lets the index find them.
	entries, err := query(ctx, s.reader, `
		SELECT `+entryColumns+` FROM entry
		WHERE stream >= ?1 AND stream < ?1 || char(0x10ffff)
		ORDER BY stream, seq`, prefix)
	if err != nil {
		return nil, fmt.Errorf("read %s…: %w", prefix, explain(err))
	}
	return entries, nil
}

// querier is a pool of readers or a writer's transaction.
type querier interface {
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
}

func query(ctx context.Context, from querier, text string, args ...any) ([]workshop.Entry, error) {
	rows, err := from.QueryContext(ctx, text, args...)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var entries []workshop.Entry
	for rows.Next() {
		var e workshop.Entry
		var at string
		if err := rows.Scan(&e.Stream, &e.Seq, &e.ID, &at, &e.By, &e.Kind, (*[]byte)(&e.Body)); err != nil {
			return nil, err
		}
		if e.At, err = time.Parse(time.RFC3339Nano, at); err != nil {
			return nil, fmt.Errorf("%w: %s number %d has the time %q", ErrDamaged, e.Stream, e.Seq, at)
		}
		entries = append(entries, e)
	}
	return entries, rows.Err()
}
