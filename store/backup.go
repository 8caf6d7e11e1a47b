package store

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
)

// Backup writes a copy of the database to the file at path while work goes on: everything that was appended before
// it started is in it. The copy is written beside, checked by opening it as a database, synced and only then given
// its name, so that no half backup ever bears it. An older backup of that name is replaced.
func (s *SQLite) Backup(ctx context.Context, path string) error {
	if sameFile(path, s.path) {
		return fmt.Errorf("back up to %s: that is the database itself; name another file", path)
	}
	err := writeBeside(path, func(beside string) error {
		if err := s.vacuumInto(ctx, beside); err != nil {
			return err
		}
		return checkFile(ctx, beside)
	})
	if err != nil {
		return fmt.Errorf("back up to %s: %w", path, explain(err))
	}
	return nil
}

// vacuumInto has SQLite write what the database holds at one moment into an empty file. It has a connection of its own,
// since readers may write nowhere and the writer shall not be kept waiting.
func (s *SQLite) vacuumInto(ctx context.Context, path string) error {
	db := openPool(s.path, looking)
	defer db.Close()
	_, err := db.ExecContext(ctx, `VACUUM INTO ?`, path)
	return err
}

// Restore makes a database at path of a backup, after checking it. It never replaces a database, for what was typed
// since the backup may only be there: move that one away first.
func Restore(ctx context.Context, backup, path string) error {
	for _, old := range []string{path, path + "-wal"} {
		if _, err := os.Lstat(old); !errors.Is(err, fs.ErrNotExist) {
			return fmt.Errorf("restore to %s: %s is in the way; move it, and the files beside it, to another folder first", path, old)
		}
	}
	err := writeBeside(path, func(beside string) error {
		if err := copyFile(backup, beside); err != nil {
			return err
		}
		return checkFile(ctx, beside)
	})
	if err != nil {
		return fmt.Errorf("restore %s to %s: %w", backup, path, explain(err))
	}
	return nil
}

// checkFile opens a copy as a database of its own and reads it through.
func checkFile(ctx context.Context, path string) (err error) {
	s, err := Open(ctx, path)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, s.Close()) }()
	return s.Check(ctx)
}

// writeBeside has write fill an empty file in the folder of path, syncs it and renames it to path. When anything
// fails, path is as it was.
func writeBeside(path string, write func(beside string) error) (err error) {
	folder := filepath.Dir(path)
	file, err := os.CreateTemp(folder, filepath.Base(path)+".partial-")
	if err != nil {
		return err
	}
	beside := file.Name()
	defer func() {
		if err != nil {
			err = errors.Join(err, os.Remove(beside))
		}
	}()
	if err := file.Close(); err != nil {
		return err
	}
	if err := write(beside); err != nil {
		return err
	}
	if err := sync(beside); err != nil {
		return err
	}
	if err := os.Rename(beside, path); err != nil {
		return err
	}
	if runtime.GOOS == "windows" {
		return nil // folders cannot be synced there
	}
	return sync(folder)
}

func sync(path string) error {
	file, err := os.OpenFile(path, os.O_RDONLY, 0)
	if err != nil {
		return err
	}
	return errors.Join(file.Sync(), file.Close())
}

func copyFile(from, to string) error {
	source, err := os.Open(from)
	if err != nil {
		return err
	}
	defer source.Close()
	target, err := os.OpenFile(to, os.O_WRONLY|os.O_TRUNC, 0)
	if err != nil {
		return err
	}
	_, err = io.Copy(target, source)
	return errors.Join(err, target.Close())
}

func sameFile(a, b string) bool {
	infoA, errA := os.Stat(a)
	infoB, errB := os.Stat(b)
	return errA == nil && errB == nil && os.SameFile(infoA, infoB)
}
