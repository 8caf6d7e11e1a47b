package store

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"

	"layshaft/workshop"
)

// Put keeps data and returns its key. What is there already is not written again.
func (s *SQLite) Put(ctx context.Context, data []byte) (string, error) {
	key := keyOf(data)
	if data == nil {
		data = []byte{} // nil would be NULL
	}
	_, err := s.writer.ExecContext(ctx, `
		INSERT INTO document (key, data)
		SELECT ?1, ?2 WHERE NOT EXISTS (SELECT 1 FROM document WHERE key = ?1)`, key, data)
	if err != nil {
		return "", notSaved(ctx, err)
	}
	return key, nil
}

// Get returns the bytes for a key, or workshop.ErrNotFound. Bytes that no longer give their key are ErrDamaged.
func (s *SQLite) Get(ctx context.Context, key string) ([]byte, error) {
	var data []byte
	err := s.reader.QueryRowContext(ctx, `SELECT data FROM document WHERE key = ?`, key).Scan(&data)
	switch {
	case errors.Is(err, sql.ErrNoRows):
		return nil, fmt.Errorf("document %q: %w", key, workshop.ErrNotFound)
	case err != nil:
		return nil, fmt.Errorf("document %q: %w", key, explain(err))
	case keyOf(data) != key:
		return nil, fmt.Errorf("document %q: %w", key, ErrDamaged)
	}
	return data, nil
}

func keyOf(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}
