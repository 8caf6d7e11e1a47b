package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Faults that a second program, written from the commands' description alone, brought to light.

func changedJob(t *testing.T, from, to string) string {
	t.Helper()
	file := writePlainJob(t)
	text, err := os.ReadFile(file)
	if err != nil || !strings.Contains(string(text), from) {
		t.Fatalf("no %q in the job (%v)", from, err)
	}
	if err := os.WriteFile(file, []byte(strings.Replace(string(text), from, to, 1)), 0o644); err != nil {
		t.Fatal(err)
	}
	return file
}

func TestALineGivenInPartSaysWhatIsTaken(t *testing.T) {
	for from, key := range map[string]string{"length: 1.8 m, ": "line.length", "expansion: 0.10 cm3/m/MPa, ": "line.expansion", ", bulk_modulus: 1.6 GPa": "line.bulk_modulus"} {
		_, out, _ := call(t, "release", changedJob(t, from, ""))
		if !strings.Contains(out, key) {
			t.Errorf("without %q nothing is said of %s:\n%s", from, key, out)
		}
	}
}

func TestAnOptionThatIsInTheWorkAddsNothing(t *testing.T) {
	got := answer[struct {
		Options map[string]struct{ Gross string }
	}](t, "price", changedJob(t, "options: [seal]", "options: [clutch]"))
	if got.Options["clutch"].Gross != "0.00" {
		t.Errorf("it adds %s", got.Options["clutch"].Gross)
	}
}

func TestThePaperDoesNotOverwriteTheJobFile(t *testing.T) {
	file := writePlainJob(t)
	before, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	status, _, refusal := call(t, "workup", file, "--pdf", file)
	after, err := os.ReadFile(file)
	if err != nil || string(after) != string(before) || status != exitBadInput || !strings.Contains(refusal, "is no PDF") {
		t.Errorf("status %d, %q, unchanged %v (%v)", status, refusal, string(after) == string(before), err)
	}
	paper := filepath.Join(t.TempDir(), "paper.pdf")
	for range 2 { // a paper may follow a paper
		if status, _, refusal := call(t, "workup", file, "--pdf", paper); status != exitComputed {
			t.Errorf("status %d: %s", status, refusal)
		}
	}
}
