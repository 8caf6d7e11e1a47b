package main

import (
	"bytes"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the expected refusals")

// call runs the program as a person would and returns its exit status and what it printed.
func call(t *testing.T, args ...string) (status int, out, err string) {
	t.Helper()
	var o, e bytes.Buffer
	status = run(args, console{&o, &e})
	return status, o.String(), e.String()
}

// asked is the command that must refuse a bad file; workup unless another one is the first to need what is wrong.
var asked = map[string]string{"29-no-work": "strip"}

func TestBadFilesAreRefusedWordForWord(t *testing.T) {
	files, err := filepath.Glob("testdata/bad/*.yaml")
	if err != nil || len(files) < 40 {
		t.Fatalf("%d bad files (%v)", len(files), err)
	}
	var got strings.Builder
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".yaml")
		command := asked[name]
		if command == "" {
			command = "workup"
		}
		status, out, refusal := call(t, command, file)
		if status != exitBadInput {
			t.Errorf("%s %s: status %d, want %d; it printed %q", command, name, status, exitBadInput, out)
		}
		if strings.Contains(refusal, "goroutine") || strings.Contains(refusal, "panic") {
			t.Errorf("%s: a trace reached the person:\n%s", name, refusal)
		}
		fmt.Fprintf(&got, "%s\n", strings.TrimSpace(refusal))
	}
	const expected = "testdata/bad/refusals.txt"
	if *update {
		if err := os.WriteFile(expected, []byte(got.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(expected)
	if err != nil {
		t.Fatal(err)
	}
	if got.String() != string(want) {
		g, w := strings.Split(got.String(), "\n"), strings.Split(string(want), "\n")
		for i := range min(len(g), len(w)) {
			if g[i] != w[i] {
				t.Errorf("got  %s\nwant %s", g[i], w[i])
			}
		}
		if len(g) != len(w) {
			t.Errorf("%d lines of refusals, want %d", len(g), len(w))
		}
	}
}

func TestHugeFilesAreRefusedUnread(t *testing.T) {
	file := filepath.Join(t.TempDir(), "huge.yaml")
	if err := os.WriteFile(file, bytes.Repeat([]byte("# nothing\n"), 1<<20), 0o644); err != nil {
		t.Fatal(err)
	}
	status, _, refusal := call(t, "workup", file)
	if status != exitBadInput || !strings.Contains(refusal, "larger than 8 MiB") {
		t.Errorf("status %d: %s", status, refusal)
	}
}

func TestWrongCallsAreRefusedWithWhatWouldBeRight(t *testing.T) {
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{"hold"}, "expected \"<file>\""},
		{[]string{"hld", "x.yaml"}, "did you mean \"hold\""},
		{[]string{"hold", "nowhere.yaml"}, "nowhere.yaml: there is no such file"},
		{[]string{"hold", "."}, ".: "},
		{[]string{"release", street, "--pair", "two-disc"}, "is not a pair; write for example original/original"},
		{[]string{"release", street, "--pair", "nothing/original"}, "there is no clutch \"nothing\""},
		{[]string{"hold", street, "--samples", "3"}, "between 100 and"},
		{[]string{"price", street, "--with", "gold-plating"}, "\"gold-plating\" is not offered"},
	} {
		status, _, refusal := call(t, c.args...)
		if status != exitBadInput || !strings.Contains(refusal, c.want) {
			t.Errorf("%v: status %d, %q; want %d with %q", c.args, status, refusal, exitBadInput, c.want)
		}
	}
}
