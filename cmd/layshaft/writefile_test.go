package main

import (
	"bytes"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestWorkupWritesThePaper(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "out.pdf")
	status, out, refusal := call(t, "workup", street, "--shop", "Quarry Lane Driveline", "--pdf", path)
	if status != exitComputed || !strings.Contains(out, "2143.67") {
		t.Fatalf("status %d: %s%s", status, out, refusal)
	}
	if pdf, err := os.ReadFile(path); err != nil || !bytes.HasPrefix(pdf, []byte("%PDF-")) || !bytes.HasSuffix(bytes.TrimSpace(pdf), []byte("%%EOF")) {
		t.Errorf("no whole PDF: %v", err)
	}
	holds(t, folder, "out.pdf")
}

func TestThePaperIsRefusedWhereItCannotBeWritten(t *testing.T) {
	folder := t.TempDir()
	for path, why := range map[string]string{
		filepath.Join(folder, "none", "out.pdf"): "there is no folder " + filepath.Join(folder, "none"),
		folder:                                   "is a folder; name a file in it",
	} {
		status, _, refusal := call(t, "workup", street, "--pdf", path)
		if status != exitBadInput || !strings.Contains(refusal, why) {
			t.Errorf("%s: status %d, said %q, not %q", path, status, refusal, why)
		}
	}
	holds(t, folder)
}

func TestAFullDiskIsSaidInPlainWords(t *testing.T) {
	const full = "/dev/full" // takes nothing, as a full disk does
	before, err := os.Stat(full)
	if err != nil {
		t.Skip("this system has no " + full)
	}
	status, _, refusal := call(t, "workup", street, "--pdf", full)
	if status == exitComputed || !strings.Contains(refusal, "the disk is full") {
		t.Errorf("status %d, said %q", status, refusal)
	}
	if after, err := os.Stat(full); err != nil || after.Mode() != before.Mode() {
		t.Errorf("%s was replaced: %v", full, err)
	}
}

func TestAWriteThatFailsLeavesTheOldFile(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "out.pdf")
	if err := os.WriteFile(path, []byte("%PDF- the old paper"), 0o644); err != nil {
		t.Fatal(err)
	}
	broken := errors.New("broken off")
	err := writeFile(path, func(w io.Writer) error {
		_, err := io.WriteString(w, "half a pa")
		return errors.Join(err, broken)
	})
	if !errors.Is(err, broken) {
		t.Errorf("the cause is lost: %v", err)
	}
	if text, err := os.ReadFile(path); err != nil || string(text) != "%PDF- the old paper" {
		t.Errorf("the file holds %q: %v", text, err)
	}
	holds(t, folder, "out.pdf")
	if err := writeFile(path, func(w io.Writer) error { _, err := io.WriteString(w, "%PDF- the new paper"); return err }); err != nil {
		t.Fatal(err)
	}
	if text, err := os.ReadFile(path); err != nil || string(text) != "%PDF- the new paper" {
		t.Errorf("the file holds %q: %v", text, err)
	}
}

// holds sees to it that a folder holds these files and none besides.
func holds(t *testing.T, folder string, names ...string) {
	t.Helper()
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	var found []string
	for _, entry := range entries {
		found = append(found, entry.Name())
	}
	if strings.Join(found, " ") != strings.Join(names, " ") {
		t.Errorf("the folder holds %q, not %q", found, names)
	}
}
