package store

import (
	"context"
	"sync/atomic"

	"layshaft/workshop"
)

// alternating hands every call to the other of two handles on one file, as two programs would.
type alternating struct {
	handles [2]*SQLite
	calls   atomic.Int64
}

func (a *alternating) next() *SQLite { return a.handles[a.calls.Add(1)%2] }

func (a *alternating) Append(ctx context.Context, stream string, after int64, entries ...workshop.Entry) ([]workshop.Entry, error) {
	return a.next().Append(ctx, stream, after, entries...)
}

func (a *alternating) Read(ctx context.Context, stream string, after int64) ([]workshop.Entry, error) {
	return a.next().Read(ctx, stream, after)
}

func (a *alternating) ReadAll(ctx context.Context, prefix string) ([]workshop.Entry, error) {
	return a.next().ReadAll(ctx, prefix)
}

func (a *alternating) Put(ctx context.Context, data []byte) (string, error) {
	return a.next().Put(ctx, data)
}

func (a *alternating) Get(ctx context.Context, key string) ([]byte, error) {
	return a.next().Get(ctx, key)
}
