package store

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"layshaft/workshop"
)

// Every released schema has a file that the program of that time wrote; each must still open and read.
// It holds the entries of fixtureIDs for car/1 and the document fixtureDocument.
var (
	fixtureIDs      = []string{"a", "b", "c"}
	fixtureDocument = []byte("layout: an invented one\n")
)

func fixture(schema int) string { return fmt.Sprintf("testdata/schema-%d.db", schema) }

func TestFilesOfEveryReleasedSchemaOpen(t *testing.T) {
	if *writeFixture {
		writeNewestFixture(t)
	}
	for schema := 1; schema <= len(released()); schema++ {
		s := openAt(t, copyOf(t, fixture(schema)))
		wantIDs(t, s, fixtureIDs...)
		if data, err := s.Get(t.Context(), keyOf(fixtureDocument)); err != nil || !bytes.Equal(data, fixtureDocument) {
			t.Errorf("schema %d: the shelf holds %q, %v", schema, data, err)
		}
		if err := s.Check(t.Context()); err != nil {
			t.Errorf("schema %d: %v", schema, err)
		}
		mustAppend(t, s, int64(len(fixtureIDs)), "d")
	}
}

func writeNewestFixture(t *testing.T) {
	s := openAt(t, filepath.Join(t.TempDir(), "shop.db"))
	mustAppend(t, s, 0, fixtureIDs...)
	if _, err := s.Put(t.Context(), fixtureDocument); err != nil {
		t.Fatal(err)
	}
	if err := s.Backup(t.Context(), fixture(len(released()))); err != nil {
		t.Fatal(err)
	}
}

// copyOf copies a file into a folder of the test's own.
func copyOf(t *testing.T, name string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "shop.db")
	if err := os.WriteFile(path, readFile(t, name), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestFilesThatAreNotOursAreLeftAsTheyAre(t *testing.T) {
	foreign := filepath.Join(t.TempDir(), "foreign.db")
	db, err := sql.Open("sqlite", foreign)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec(`CREATE TABLE recipe (name TEXT)`); err != nil {
		t.Fatal(err)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
	text := filepath.Join(t.TempDir(), "notes.txt")
	if err := os.WriteFile(text, []byte(strings.Repeat("not a database\n", 500)), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{foreign, text, overwritten(t, 0, "SQLITE FORMAT 9")} {
		before := readFile(t, path)
		if _, err := Open(t.Context(), path); !errors.Is(err, ErrNotOurs) {
			t.Errorf("open %s: %v, want that it is not ours", filepath.Base(path), err)
		}
		if !bytes.Equal(readFile(t, path), before) {
			t.Errorf("%s was changed", filepath.Base(path))
		}
	}
}

func TestAFileOfANewerProgramIsLeftToIt(t *testing.T) {
	path := copyOf(t, fixture(1))
	tamper(t, path, fmt.Sprintf(`PRAGMA user_version = %d`, len(released())+1))
	_, err := Open(t.Context(), path)
	if !errors.Is(err, ErrNewer) || !strings.Contains(err.Error(), "install the newer program") {
		t.Errorf("got %v, want that the file is newer", err)
	}
}

func TestPlacesWhereNoDatabaseCanBe(t *testing.T) {
	folder := t.TempDir()
	for path, want := range map[string]string{
		filepath.Join(folder, "none", "shop.db"): "its folder does not exist; make the folder first",
		folder:                                   "cannot be written to; check the rights to the file and its folder, and that it is a file",
	} {
		if _, err := Open(t.Context(), path); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("open %s: %v, want %q", path, err, want)
		}
	}
}

// overwritten is a copy of the first fixture with bytes written over it.
func overwritten(t *testing.T, at int, with string) string {
	t.Helper()
	path := copyOf(t, fixture(1))
	data := readFile(t, path)
	copy(data[at:], with)
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// tamper changes a file as no program of ours would.
func tamper(t *testing.T, path, statements string) {
	t.Helper()
	db, err := sql.Open("sqlite", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec(statements); err != nil {
		t.Fatal(err)
	}
}

func TestDamageIsFoundAndNotReadAsTruth(t *testing.T) {
	data := readFile(t, fixture(1))
	page := int(pageSize(t, fixture(1)))
	entries := rootPage(t, fixture(1), "entry")
	cut := copyOf(t, fixture(1))
	if err := os.Truncate(cut, int64(len(data)-2*page)); err != nil {
		t.Fatal(err)
	}
	gap := copyOf(t, fixture(1))
	tamper(t, gap, `DROP TRIGGER entry_is_not_removed; DELETE FROM entry WHERE seq = 2`)
	time := copyOf(t, fixture(1))
	tamper(t, time, `DROP TRIGGER entry_is_not_changed; UPDATE entry SET at = 'yesterday' WHERE seq = 2`)

	for name, c := range map[string]struct {
		path  string
		reads bool // whether entries and documents can still be read; Check must find the damage all the same
	}{
		"entries overwritten": {overwritten(t, (entries-1)*page, strings.Repeat("\xaa", page)), false},
		"file cut short":      {cut, false},
		"document changed":    {overwritten(t, bytes.Index(data, fixtureDocument), "LAYOUT"), false},
		"entry removed":       {gap, true},
		"time unreadable":     {time, false},
	} {
		t.Run(name, func(t *testing.T) {
			err := readThrough(t.Context(), c.path)
			if (err == nil) != c.reads || err != nil && !errors.Is(err, ErrDamaged) {
				t.Errorf("reading: %v", err)
			}
		})
	}
	for _, path := range []string{gap, cut} {
		s, err := Open(t.Context(), path)
		if err == nil {
			err = errors.Join(s.Check(t.Context()), s.Close())
		}
		if !errors.Is(err, ErrDamaged) {
			t.Errorf("check: %v, want that it is damaged", err)
		}
	}
}

// readThrough reads all that the fixture holds.
func readThrough(ctx context.Context, path string) (err error) {
	s, err := Open(ctx, path)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	if _, err := s.Read(ctx, "car/1", 0); err != nil {
		return err
	}
	_, err = s.Get(ctx, keyOf(fixtureDocument))
	return err
}

func pageSize(t *testing.T, path string) (size int64) { return number(t, path, `PRAGMA page_size`) }

func rootPage(t *testing.T, path, table string) int {
	return int(number(t, path, `SELECT rootpage FROM sqlite_schema WHERE name = '`+table+`'`))
}

func number(t *testing.T, path, query string) (n int64) {
	t.Helper()
	db, err := sql.Open("sqlite", copyOf(t, path))
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if err := db.QueryRow(query).Scan(&n); err != nil {
		t.Fatal(err)
	}
	return n
}

// The same on a computer where no small disk can be mounted: SQLite itself is told that the file may not grow.
func TestAFileThatCannotGrowSaysThatNothingWasSaved(t *testing.T) {
	s := openAt(t, copyOf(t, fixture(1)))
	if _, err := s.writer.Exec(`PRAGMA max_page_count = 1`); err != nil { // that is, no more than there are
		t.Fatal(err)
	}
	large := note("large")
	large.Body = []byte(`"` + strings.Repeat("x", 100_000) + `"`)
	_, err := s.Append(t.Context(), "car/1", 3, note("small"), large)
	if !errors.Is(err, workshop.ErrNotSaved) || !strings.Contains(err.Error(), "not saved: the disk is full; make room") {
		t.Errorf("got %v, want that nothing was saved because the disk is full", err)
	}
	wantIDs(t, s, fixtureIDs...)
}

func TestADatabaseThatIsBusyTooLongSaysSo(t *testing.T) {
	s := openAt(t, copyOf(t, fixture(1)))
	other, err := openAt(t, s.path).writer.BeginTx(t.Context(), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Rollback()
	if _, err := s.writer.Exec(`PRAGMA busy_timeout = 1`); err != nil {
		t.Fatal(err)
	}
	_, err = s.Append(t.Context(), "car/1", 3, note("d"))
	if !errors.Is(err, workshop.ErrNotSaved) || !strings.Contains(err.Error(), "another program kept the database busy") {
		t.Errorf("got %v, want that another program is busy", err)
	}
	wantIDs(t, s, fixtureIDs...) // readers are not kept waiting
}

func TestAFaultIsExplainedByTheFirstPartOfItsCode(t *testing.T) {
	s := openAt(t, copyOf(t, fixture(1)))
	behind := openPool(s.path, looking)
	defer behind.Close()
	tx, err := behind.BeginTx(t.Context(), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer tx.Rollback()
	if err := tx.QueryRow(`SELECT max(seq) FROM entry`).Scan(new(int)); err != nil {
		t.Fatal(err)
	}
	mustAppend(t, s, 3, "d")
	_, err = tx.Exec(`INSERT INTO document VALUES ('', x'')`) // fails with SQLITE_BUSY_SNAPSHOT, a kind of SQLITE_BUSY
	if got := explain(err); got == nil || !strings.HasPrefix(got.Error(), "another program kept the database busy") {
		t.Errorf("explained as %v", got)
	}
}
