package store

import (
	"context"
	"fmt"
	"strings"
)

// Check reads the whole file and says what does not fit together: SQLite's own structure, numbers missing from a stream,
// and documents that no longer give their key. It takes as long as reading the file does. A fault is ErrDamaged.
func (s *SQLite) Check(ctx context.Context) error {
	for _, check := range []struct{ what, query string }{
		{"", `SELECT integrity_check FROM pragma_integrity_check WHERE integrity_check <> 'ok'`},
		{"numbers are missing from stream ", `
			SELECT stream FROM entry GROUP BY stream HAVING min(seq) <> 1 OR max(seq) <> count(*)`},
	} {
		found, err := s.column(ctx, check.query)
		if err != nil {
			return fmt.Errorf("check database: %w", explain(err))
		}
		if len(found) > 0 {
			return fmt.Errorf("check database: %w: %s%s", ErrDamaged, check.what, strings.Join(found, "; "))
		}
	}
	keys, err := s.column(ctx, `SELECT key FROM document`)
	if err != nil {
		return fmt.Errorf("check database: %w", explain(err))
	}
	for _, key := range keys {
		if _, err := s.Get(ctx, key); err != nil {
			return fmt.Errorf("check database: %w", err)
		}
	}
	return nil
}

// column reads a query's only column as text.
func (s *SQLite) column(ctx context.Context, query string) ([]string, error) {
	rows, err := s.reader.QueryContext(ctx, query)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var found []string
	for rows.Next() {
		var text string
		if err := rows.Scan(&text); err != nil {
			return nil, err
		}
		found = append(found, text)
	}
	return found, rows.Err()
}
