package store

import (
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"layshaft/workshop"
	"layshaft/workshop/ledgertest"
)

func TestStorage(t *testing.T) {
	ledgertest.Run(t, func(t *testing.T) workshop.Storage { return openAt(t, filepath.Join(t.TempDir(), "shop.db")) })
}

// openAt opens a database for the length of a test.
func openAt(t testing.TB, path string) *SQLite {
	t.Helper()
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

func note(id string) workshop.Entry {
	at := time.Date(2026, 3, 4, 12, 30, 0, 0, time.UTC)
	return workshop.Entry{ID: id, At: at, By: "ada", Kind: "note", Body: json.RawMessage(`{"text":"` + id + `"}`)}
}

func mustAppend(t testing.TB, s *SQLite, after int64, ids ...string) {
	t.Helper()
	var entries []workshop.Entry
	for _, id := range ids {
		entries = append(entries, note(id))
	}
	if _, err := s.Append(t.Context(), "car/1", after, entries...); err != nil {
		t.Fatal(err)
	}
}

// wantIDs says which entries of the only car must stand.
func wantIDs(t testing.TB, s *SQLite, want ...string) {
	t.Helper()
	entries, err := s.Read(t.Context(), "car/1", 0)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, e := range entries {
		got = append(got, e.ID)
	}
	if fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("entries %v stand, want %v", got, want)
	}
}

func TestWhatWasAppendedIsThereAfterReopening(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	mustAppend(t, s, 0, "a", "b")
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	again := openAt(t, path)
	wantIDs(t, again, "a", "b")
	mustAppend(t, again, 2, "c")
}

func TestAnyPathNamesItsOwnFile(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "a folder? with #1 100%41 ü&_query_only=1")
	if err := os.Mkdir(folder, 0o755); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(folder, "shop?mode=memory.db")
	mustAppend(t, openAt(t, path), 0, "a")
	if _, err := os.Stat(path); err != nil {
		t.Errorf("the file is not where it was named: %v", err)
	}
	t.Chdir(folder)
	wantIDs(t, openAt(t, "shop?mode=memory.db"), "a")
}

func TestOnlyTheOwnerCanReadCustomersData(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	mustAppend(t, openAt(t, path), 0, "a")
	for _, file := range []string{path, path + "-wal", path + "-shm"} {
		info, err := os.Stat(file)
		if err != nil || info.Mode().Perm() != 0o600 {
			t.Errorf("%s has the rights %v, %v", filepath.Base(file), info.Mode(), err)
		}
	}
}

func TestEverySettingIsInForce(t *testing.T) {
	s := openAt(t, filepath.Join(t.TempDir(), "shop.db"))
	for pool, want := range map[*sql.DB]map[string]string{
		s.writer: {"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "5000",
			"recursive_triggers": "1", "trusted_schema": "0", "fullfsync": "1", "query_only": "0"},
		s.reader: {"journal_mode": "wal", "busy_timeout": "5000", "query_only": "1", "trusted_schema": "0"},
	} {
		for pragma, value := range want {
			var got string
			if err := pool.QueryRow(`PRAGMA ` + pragma).Scan(&got); err != nil || got != value {
				t.Errorf("%s is %s, %v; want %s", pragma, got, err, value)
			}
		}
	}
	if _, err := s.reader.Exec(`CREATE TABLE t (x)`); err == nil {
		t.Error("a reader wrote")
	}
	var writable int
	if err := s.writer.QueryRow(`PRAGMA writable_schema = ON; PRAGMA writable_schema`).Scan(&writable); err != nil || writable != 0 {
		t.Errorf("the schema could be overwritten: %d, %v", writable, err)
	}
	if _, err := s.writer.Exec(`SELECT "misspelt" FROM entry`); err == nil {
		t.Error("a misspelt column was taken for a text")
	}
}

// Another program with the file open, or a later careless version of this one, must not change what was written.
func TestTheDatabaseItselfRefusesToForget(t *testing.T) {
	s := openAt(t, filepath.Join(t.TempDir(), "shop.db"))
	mustAppend(t, s, 0, "a", "b")
	key, err := s.Put(t.Context(), []byte("layout"))
	if err != nil {
		t.Fatal(err)
	}
	plain, err := sql.Open("sqlite", s.path) // without any of our settings
	if err != nil {
		t.Fatal(err)
	}
	defer plain.Close()
	entry := func(verb, stream string, seq int, id string) string {
		return fmt.Sprintf(`%s INTO entry VALUES ('%s', %d, '%s', '2026-03-04T12:30:00Z', 'eve', 'note', '{}')`, verb, stream, seq, id)
	}
	for statement, refusal := range map[string]string{
		`UPDATE entry SET body = '{}' WHERE seq = 1`:                                             "never changed",
		`DELETE FROM entry`:                                                                      "never removed",
		entry("INSERT OR REPLACE", "car/1", 1, "a"):                                              "follows the last",
		entry("INSERT OR REPLACE", "car/1", 3, "a"):                                              "an ID of its own",
		entry("INSERT OR IGNORE", "car/1", 2, "c"):                                               "follows the last",
		entry("INSERT", "car/1", 4, "c"):                                                         "follows the last",
		entry("INSERT", "car/2", 2, "c"):                                                         "follows the last",
		`UPDATE document SET data = x'00'`:                                                       "never changes",
		`DELETE FROM document`:                                                                   "stays there",
		`INSERT OR REPLACE INTO document VALUES ('` + key + `', x'00')`:                          "never changes",
		`INSERT INTO document VALUES ('key', x'00')`:                                             "CHECK constraint",
		entry("INSERT", "", 1, "c"):                                                              "CHECK constraint",
		`UPDATE OR REPLACE entry SET seq = 1 WHERE seq = 2`:                                      "never changed",
		`INSERT INTO entry SELECT * FROM entry WHERE true ON CONFLICT DO UPDATE SET body = '{}'`: "follows the last",
	} {
		if _, err := plain.Exec(statement); err == nil || !strings.Contains(err.Error(), refusal) {
			t.Errorf("%s: %v, want a refusal with %q", statement, err, refusal)
		}
	}
	wantIDs(t, s, "a", "b")
	if data, err := s.Get(t.Context(), key); err != nil || string(data) != "layout" {
		t.Errorf("the shelf holds %q, %v", data, err)
	}
}

func TestTwoProgramsWriteToOneFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	ledgertest.Run(t, func(t *testing.T) workshop.Storage {
		path := filepath.Join(t.TempDir(), "shop.db")
		return &alternating{handles: [2]*SQLite{openAt(t, path), openAt(t, path)}}
	})
	// One of them has not seen what the other wrote.
	first, second := openAt(t, path), openAt(t, path)
	mustAppend(t, first, 0, "a")
	_, err := second.Append(t.Context(), "car/1", 0, note("b"))
	var conflict *workshop.Conflict
	if !errors.As(err, &conflict) || len(conflict.Theirs) != 1 || conflict.Theirs[0].ID != "a" {
		t.Errorf("the second writer got %v, want a conflict with a", err)
	}
	wantIDs(t, second, "a")
}
