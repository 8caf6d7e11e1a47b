package store

import (
	"database/sql"
	"net/url"
	"path/filepath"
	"slices"
	"strings"
)

// Every setting of a connection stands here with its reason. The driver applies those without _pragma first.

// looking is what every connection has, and all that one has which looks at a file that may not be ours.
var looking = []string{
	"_busy_timeout=5000", // ms to wait for another program's write before failing; a write takes some milliseconds
	"_defensive=1",       // no SQL can damage the file on purpose
	"_dqs=0",             // a misspelt column name is an error, not a text
	"_error_rc=1",        // no message of an earlier fault on a later one
	"_pragma=trusted_schema(0)",
}

// writing is what the one connection has that writes.
var writing = slices.Concat(looking, []string{
	"_txlock=immediate",             // a writer takes its turn at BEGIN, so that it never finds itself behind at COMMIT
	"_pragma=journal_mode(WAL)",     // readers read on while a writer writes
	"_pragma=synchronous(FULL)",     // every commit reaches the disk before it is answered: nothing typed is lost to a power cut
	"_pragma=fullfsync(1)",          // the same on macOS, whose plain sync stops at the drive's cache
	"_pragma=foreign_keys(1)",       // SQLite leaves them off
	"_pragma=recursive_triggers(1)", // INSERT OR REPLACE fires the triggers that forbid removing
})

// reading is what the connections have that read.
var reading = slices.Concat(looking, []string{
	"_query_only=1", // a statement that writes on the wrong connection fails instead of waiting for the writer
})

// openPool names the file so that no character of its path is taken for a setting.
func openPool(path string, settings []string) *sql.DB {
	if absolute, err := filepath.Abs(path); err == nil {
		path = absolute
	}
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path // a drive letter
	}
	name := url.URL{Scheme: "file", Path: path, RawQuery: strings.Join(settings, "&")}
	db, err := sql.Open("sqlite", name.String())
	if err != nil {
		panic("store: " + err.Error()) // the driver is linked in, and the name is not looked at before it is used
	}
	return db
}
