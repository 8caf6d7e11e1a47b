package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
	"io/fs"
	"path"
)

// applicationID marks the file as ours in SQLite's header: "LYSH".
const applicationID = 0x4c595348

//go:embed migrations/*.sql
var migrationFiles embed.FS

// migration is one step of the schema. Steps are only ever appended: a released file is never edited.
type migration struct{ name, sql string }

// released are the steps that this program knows; step n takes a file from schema n-1 to n.
func released() []migration {
	steps, err := readMigrations(migrationFiles)
	if err != nil {
		panic("store: " + err.Error())
	}
	return steps
}

func readMigrations(files fs.FS) ([]migration, error) {
	names, err := fs.Glob(files, "migrations/*.sql") // sorted
	if err != nil {
		return nil, err
	}
	var steps []migration
	for i, name := range names {
		var number int
		if _, err := fmt.Sscanf(path.Base(name), "%04d_", &number); err != nil || number != i+1 {
			return nil, fmt.Errorf("migration %s should be numbered %04d", name, i+1)
		}
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		steps = append(steps, migration{name, string(text)})
	}
	return steps, nil
}

// migrate takes the steps that the file has not had yet, each in a transaction of its own together with its number.
func migrate(ctx context.Context, db *sql.DB, steps []migration) error {
	for {
		done, err := migrateOnce(ctx, db, steps)
		if done || err != nil {
			return err
		}
	}
}

func migrateOnce(ctx context.Context, db *sql.DB, steps []migration) (done bool, err error) {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return false, err
	}
	defer tx.Rollback()
	// Read inside the transaction: another program may have taken the step meanwhile.
	var version int
	if err := tx.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&version); err != nil {
		return false, err
	}
	switch {
	case version == len(steps):
		return true, nil
	case version > len(steps):
		return false, fmt.Errorf("%w: it has schema %d and this program knows %d; install the newer program", ErrNewer, version, len(steps))
	}
	step := steps[version]
	mark := fmt.Sprintf("; PRAGMA application_id = %d; PRAGMA user_version = %d", applicationID, version+1)
	if _, err := tx.ExecContext(ctx, step.sql+mark); err != nil {
		return false, fmt.Errorf("%s: %w", step.name, err)
	}
	return false, tx.Commit()
}
