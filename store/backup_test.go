package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestABackupIsRestoredAndGoesOn(t *testing.T) {
	folder := t.TempDir()
	s := openAt(t, filepath.Join(folder, "shop.db"))
	mustAppend(t, s, 0, "a", "b")
	key, err := s.Put(t.Context(), []byte("layout"))
	if err != nil {
		t.Fatal(err)
	}
	backup := filepath.Join(folder, "backup.db")
	if err := s.Backup(t.Context(), backup); err != nil {
		t.Fatal(err)
	}
	mustAppend(t, s, 2, "after the backup")

	restored := filepath.Join(t.TempDir(), "restored.db")
	if err := Restore(t.Context(), backup, restored); err != nil {
		t.Fatal(err)
	}
	again := openAt(t, restored)
	wantIDs(t, again, "a", "b")
	if data, err := again.Get(t.Context(), key); err != nil || string(data) != "layout" {
		t.Errorf("the shelf holds %q, %v", data, err)
	}
	mustAppend(t, again, 2, "c")
	// The backup itself is still what it was, and the next one takes its place.
	wantOnly(t, folder, "backup.db", "shop.db", "shop.db-shm", "shop.db-wal")
	if err := s.Backup(t.Context(), backup); err != nil {
		t.Fatal(err)
	}
	wantIDs(t, openAt(t, backup), "a", "b", "after the backup")
}

func wantOnly(t *testing.T, folder string, names ...string) {
	t.Helper()
	var got []string
	files, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		got = append(got, f.Name())
	}
	if fmt.Sprint(got) != fmt.Sprint(names) {
		t.Errorf("the folder holds %v, want %v", got, names)
	}
}

func TestABackupIsOfOneMomentWhileWorkGoesOn(t *testing.T) {
	folder := t.TempDir()
	s := openAt(t, filepath.Join(folder, "shop.db"))
	mustAppend(t, s, 0, "1", "2", "3")
	ctx, stop := context.WithCancel(t.Context())
	done := make(chan int)
	go func() { // until the backups are made
		last := batch
		for ctx.Err() == nil {
			_, err := s.Append(ctx, "car/1", int64(last), note(fmt.Sprint(last+1)), note(fmt.Sprint(last+2)), note(fmt.Sprint(last+3)))
			if err == nil {
				last += batch
			} else if !errors.Is(err, context.Canceled) {
				t.Error(err)
				break
			}
		}
		done <- last
	}()
	before := batch
	for i := range 3 {
		path := filepath.Join(folder, fmt.Sprintf("backup-%d.db", i))
		if err := s.Backup(t.Context(), path); err != nil {
			t.Error(err)
			continue
		}
		before = wantWholeBatches(t, openAt(t, path), before)
	}
	stop()
	wantWholeBatches(t, s, <-done)
}

func TestABackupNeverTakesThePlaceOfTheDatabase(t *testing.T) {
	s := openAt(t, copyOf(t, fixture(1)))
	link := filepath.Join(t.TempDir(), "link.db")
	if err := os.Symlink(s.path, link); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{s.path, link} {
		if err := s.Backup(t.Context(), path); err == nil || !strings.Contains(err.Error(), "is the database itself") {
			t.Errorf("backup to %s: %v", path, err)
		}
	}
	if err := s.Backup(t.Context(), filepath.Join(t.TempDir(), "none", "backup.db")); err == nil {
		t.Error("a backup was written to a folder that is not there")
	}
	wantIDs(t, s, fixtureIDs...)
}

func TestRestoringNeverReplacesADatabase(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "shop.db")
	for _, inTheWay := range []string{path, path + "-wal"} {
		if err := os.WriteFile(inTheWay, []byte("typed since"), 0o600); err != nil {
			t.Fatal(err)
		}
		if err := Restore(t.Context(), fixture(1), path); err == nil || !strings.Contains(err.Error(), inTheWay+" is in the way") {
			t.Errorf("with %s there: %v", filepath.Base(inTheWay), err)
		}
		if got := readFile(t, inTheWay); string(got) != "typed since" {
			t.Errorf("%s was changed to %q", filepath.Base(inTheWay), got)
		}
		if err := os.Remove(inTheWay); err != nil {
			t.Fatal(err)
		}
	}
}

func TestADamagedBackupIsNotRestored(t *testing.T) {
	folder := t.TempDir()
	cut := copyOf(t, fixture(1))
	if err := os.Truncate(cut, 3*pageSize(t, fixture(1))); err != nil {
		t.Fatal(err)
	}
	for name, backup := range map[string]string{
		"cut short":     cut,
		"no database":   overwritten(t, 0, "SQLITE FORMAT 9"),
		"not there":     filepath.Join(folder, "none.db"),
		"other program": "backup_test.go",
	} {
		if err := Restore(t.Context(), backup, filepath.Join(folder, "shop.db")); err == nil {
			t.Errorf("%s: restored", name)
		}
		wantOnly(t, folder)
	}
}
