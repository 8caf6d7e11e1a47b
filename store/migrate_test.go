package store

import (
	"crypto/sha256"
	"database/sql"
	"encoding/hex"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"
)

// A released migration has run in other people's files; what is wrong with it is put right by a later one.
func TestReleasedMigrationsAreNeverEdited(t *testing.T) {
	want := map[string]string{
		"migrations/0001_ledger.sql": "240037355fac3f57fffd6364edc66881d6a9cfa80cd367b269cf60e1b4870084",
	}
	steps := released()
	if len(steps) != len(want) {
		t.Errorf("%d migrations are released, %d are listed here", len(steps), len(want))
	}
	for _, step := range steps {
		sum := sha256.Sum256([]byte(step.sql))
		if got := hex.EncodeToString(sum[:]); got != want[step.name] {
			t.Errorf("%s has the hash %s, released was %s", step.name, got, want[step.name])
		}
	}
}

func TestMigrationsAreNumberedWithoutGaps(t *testing.T) {
	for name, files := range map[string]fstest.MapFS{
		"gap":       {"migrations/0001_a.sql": {}, "migrations/0003_b.sql": {}},
		"no number": {"migrations/first.sql": {}},
		"twice":     {"migrations/0001_a.sql": {}, "migrations/0001_b.sql": {}},
	} {
		if steps, err := readMigrations(files); err == nil {
			t.Errorf("%s: read as %v", name, steps)
		}
	}
}

func TestAFailedMigrationLeavesTheSchemaBeforeIt(t *testing.T) {
	db := openPool(filepath.Join(t.TempDir(), "shop.db"), writing)
	defer db.Close()
	steps := []migration{
		{"0001", `CREATE TABLE a (x)`},
		{"0002", `CREATE TABLE b (x); CREATE TABLE a (x)`}, // a is there already
		{"0003", `CREATE TABLE c (x)`},
	}
	if err := migrate(t.Context(), db, steps); err == nil || !strings.Contains(err.Error(), "0002") {
		t.Errorf("got %v, want that 0002 failed", err)
	}
	wantSchema(t, db, 1, "a")
	steps[1].sql = `CREATE TABLE b (x)`
	for range 2 { // the second time there is nothing left to do
		if err := migrate(t.Context(), db, steps); err != nil {
			t.Fatal(err)
		}
		wantSchema(t, db, 3, "a b c")
	}
}

func wantSchema(t *testing.T, db *sql.DB, version int, tables string) {
	t.Helper()
	var gotVersion, owner int
	var gotTables string
	err := db.QueryRow(`
		SELECT user_version, application_id, (SELECT group_concat(name, ' ' ORDER BY name) FROM sqlite_schema)
		FROM pragma_user_version, pragma_application_id`).Scan(&gotVersion, &owner, &gotTables)
	if err != nil || gotVersion != version || owner != applicationID || gotTables != tables {
		t.Errorf("schema %d of %#x has %q, %v; want %d of %#x with %q", gotVersion, owner, gotTables, err, version, applicationID, tables)
	}
}
