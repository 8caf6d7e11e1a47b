package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"layshaft/workshop"
)

// smallDisk is a file system of its own, so that it can really be full or read-only.
func smallDisk(t *testing.T, size string) (folder string) {
	t.Helper()
	folder = t.TempDir()
	if err := syscall.Mount("tmpfs", folder, "tmpfs", 0, "size="+size); err != nil {
		t.Skipf("a small disk cannot be mounted (%v); run the tests as root to test a full and a read-only disk", err)
	}
	t.Cleanup(func() {
		if err := syscall.Unmount(folder, 0); err != nil {
			t.Errorf("unmount the small disk: %v", err)
		}
	})
	return folder
}

func TestAFullDiskSaysThatNothingWasSaved(t *testing.T) {
	folder := smallDisk(t, "512k")
	s := openAt(t, filepath.Join(folder, "shop.db"))
	ballast := filepath.Join(folder, "ballast")
	if err := os.WriteFile(ballast, make([]byte, 64<<10), 0o600); err != nil {
		t.Fatal(err)
	}
	added, err := appendUntilRefused(t, s)
	if !errors.Is(err, workshop.ErrNotSaved) || !strings.Contains(err.Error(), "full") {
		t.Errorf("got %v, want that nothing was saved because the disk is full", err)
	}
	wantIDs(t, s, added...)
	if _, err := s.Put(t.Context(), make([]byte, 1<<20)); !errors.Is(err, workshop.ErrNotSaved) {
		t.Errorf("put: %v, want not saved", err)
	}
	// With room again the writer goes on where it was.
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	mustAppend(t, s, int64(len(added)), "with room again")
	wantIDs(t, s, append(added, "with room again")...)
	if err := s.Check(t.Context()); err != nil {
		t.Error(err)
	}
	if err := s.Backup(t.Context(), filepath.Join(folder, "backup.db")); err == nil {
		t.Error("a backup fitted on a full disk")
	}
	if left, _ := filepath.Glob(filepath.Join(folder, "backup*")); left != nil {
		t.Errorf("a failed backup left %v", left)
	}
}

func TestAReadOnlyDiskIsSaidOnOpening(t *testing.T) {
	folder := smallDisk(t, "1m")
	path := filepath.Join(folder, "shop.db")
	s, err := Open(t.Context(), path)
	if err != nil {
		t.Fatal(err)
	}
	mustAppend(t, s, 0, "a")
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mount("", folder, "", syscall.MS_REMOUNT|syscall.MS_RDONLY, ""); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{path, filepath.Join(folder, "new.db")} {
		_, err := Open(t.Context(), name)
		if err == nil || !strings.Contains(err.Error(), name+" cannot be written to; check the rights") {
			t.Errorf("open %s on a read-only disk: %v", filepath.Base(name), err)
		}
	}
}

// appendUntilRefused adds entries of some kilobytes and returns the IDs of those that were answered.
func appendUntilRefused(t *testing.T, s *SQLite) (added []string, refusal error) {
	t.Helper()
	for i := range 10_000 {
		e := note(fmt.Sprint(i))
		e.Body = []byte(`"` + strings.Repeat("x", 4000) + `"`)
		if _, err := s.Append(t.Context(), "car/1", int64(i), e); err != nil {
			return added, err
		}
		added = append(added, e.ID)
	}
	t.Fatal("the disk never filled")
	return nil, nil
}
