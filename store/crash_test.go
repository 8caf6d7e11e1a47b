package store

import (
	"bufio"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

func TestAKilledProgramLosesNothingItAnswered(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shop.db")
	for round := range 5 {
		answered := writeAndKill(t, path, 7+round) // at some point of the batch that follows
		s, err := Open(t.Context(), path)
		if err != nil {
			t.Fatalf("open after a kill: %v", err)
		}
		wantWholeBatches(t, s, answered)
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

// writeAndKill lets a copy of this program write, kills it after some answers, and returns the last number answered.
func writeAndKill(t *testing.T, path string, answers int) int {
	t.Helper()
	child := exec.CommandContext(t.Context(), os.Args[0])
	child.Env = append(os.Environ(), childVariable+"="+path)
	out, err := child.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := child.Start(); err != nil {
		t.Fatal(err)
	}
	answered, heard := 0, 0
	for lines := bufio.NewScanner(out); lines.Scan(); {
		number, err := strconv.Atoi(lines.Text())
		if err != nil {
			t.Errorf("the writer stopped by itself: %s", lines.Text())
			break
		}
		answered = number
		// Lines that were written before the kill are still read, for they are answers too.
		if heard++; heard == answers {
			if err := child.Process.Kill(); err != nil {
				t.Error(err)
			}
		}
	}
	if err := child.Wait(); err == nil {
		t.Error("the writer ended well, though it was killed")
	}
	return answered
}

// wantWholeBatches checks that the file is sound and that at least so many entries stand, in whole batches.
func wantWholeBatches(t *testing.T, s *SQLite, least int) (standing int) {
	t.Helper()
	if err := s.Check(t.Context()); err != nil {
		t.Error(err)
	}
	entries, err := s.Read(t.Context(), "car/1", 0)
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) < least || len(entries)%batch != 0 {
		t.Errorf("%d entries stand in batches of %d, %d were answered", len(entries), batch, least)
	}
	for i, e := range entries {
		if e.ID != fmt.Sprint(i+1) || string(e.Body) != string(note(e.ID).Body) {
			t.Fatalf("number %d is %s with %s", i+1, e.ID, e.Body)
		}
	}
	return len(entries)
}

// A power cut can leave any part of the log unwritten. Whatever is left, whole batches stand, from the first on, and
// more of the log never gives fewer of them.
func TestATornLogLosesWholeBatchesFromTheEndOnly(t *testing.T) {
	folder := t.TempDir()
	s := openAt(t, filepath.Join(folder, "shop.db"))
	const batches = 8
	for b := range batches {
		last := b * batch
		mustAppend(t, s, int64(last), fmt.Sprint(last+1), fmt.Sprint(last+2), fmt.Sprint(last+3))
	}
	file, log := readFile(t, s.path), readFile(t, s.path+"-wal")
	const cuts = 24
	before := 0
	for cut := range cuts + 1 {
		length := len(log) * cut / cuts
		standing := wantWholeBatches(t, openTorn(t, file, log[:length]), before)
		if cut == cuts && standing != batches*batch {
			t.Errorf("with the whole log %d entries stand", standing)
		}
		before = standing
	}
	// A sector that was written wrong ends the log there.
	garbled := append([]byte(nil), log...)
	garbled[len(garbled)/2] ^= 0xff
	if standing := wantWholeBatches(t, openTorn(t, file, garbled), 1); standing >= batches*batch {
		t.Error("a garbled log was believed")
	}
}

// Somebody moves the database after a crash and leaves the log where it was.
func TestALogWithoutItsDatabaseIsNotThrownAway(t *testing.T) {
	s := openAt(t, filepath.Join(t.TempDir(), "shop.db"))
	mustAppend(t, s, 0, "a")
	file, log := readFile(t, s.path), readFile(t, s.path+"-wal")
	path := filepath.Join(t.TempDir(), "shop.db")
	if err := os.WriteFile(path+"-wal", log, 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(t.Context(), path); err == nil || !strings.Contains(err.Error(), "put the database back beside it") {
		t.Errorf("open without the database: %v", err)
	}
	if err := os.WriteFile(path, file, 0o600); err != nil {
		t.Fatal(err)
	}
	wantIDs(t, openAt(t, path), "a")
}

func openTorn(t *testing.T, file, log []byte) *SQLite {
	t.Helper()
	path := filepath.Join(t.TempDir(), "torn.db")
	for name, data := range map[string][]byte{path: file, path + "-wal": log} {
		if err := os.WriteFile(name, data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return openAt(t, path)
}

func readFile(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}
