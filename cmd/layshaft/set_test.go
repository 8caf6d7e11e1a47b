package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func runSet(t *testing.T, readings string, args ...string) (out, messages string, status int) {
	t.Helper()
	file := filepath.Join(t.TempDir(), "s.yaml")
	if err := os.WriteFile(file, []byte(readings), 0o600); err != nil {
		t.Fatal(err)
	}
	var o, e bytes.Buffer
	status = run(append([]string{"set", "../../examples/street-saloon.yaml", "--readings", file, "--samples", "4096"}, args...), console{&o, &e})
	return o.String(), strings.ReplaceAll(e.String(), file, "s.yaml"), status
}

const readBefore = "layshaft: 1\npair: two-disc/metal-master\nsetting: {free_play: 9 +- 0.5 mm, bite: 46 +- 2 mm, slave_travel: 16.2 +- 0.3 mm, at: 140 mm}\n"

func TestSetSaysWhatToTurnAndWhatToRead(t *testing.T) {
	out, messages, status := runSet(t, readBefore)
	if status != exitComputed {
		t.Fatalf("status %d: %s", status, messages)
	}
	for _, want := range []string{"make the rod longer by 1 turn (1.25 mm)", "! If it does not, the rod holds the master's port shut", "Set the pedal's stop at ",
		"effective draws of", "slave_travel at the stop", "Good with 99 %"} {
		if !strings.Contains(out, want) {
			t.Errorf("the answer lacks %q:\n%s", want, out)
		}
	}
}

func TestSetAsJSONClosesTheRecord(t *testing.T) {
	out, messages, status := runSet(t, readBefore+"done: {turns_longer: 1, stop: 119 mm}\nafter: {free_play: 2.8 +- 0.5 mm, slave_travel: 13.7 +- 0.3 mm, at: 119 mm}\n", "--json")
	if status != exitComputed {
		t.Fatalf("status %d: %s", status, messages)
	}
	var answer struct {
		Before, Expected []map[string]any
		Advice           map[string]any
		After            map[string]any
	}
	if err := json.Unmarshal([]byte(out), &answer); err != nil {
		t.Fatal(err)
	}
	if len(answer.Before) != 2 || len(answer.Expected) != 6 || answer.Advice["turns_longer"] != 1.0 || answer.After["word"] != "as expected" {
		t.Errorf("%s", out)
	}
}

func TestSetRefusesAndSaysNo(t *testing.T) {
	for _, c := range []struct {
		readings string
		args     []string
		status   int
		want     string
	}{
		{"layshaft: 1\npair: two-disc/metal-master\nsetting: {slave_travel: 12 mm}\n", nil, exitBadInput, "s.yaml:3:1: setting.at: say at which pedal travel slave_travel was read\n"},
		{"layshaft: 1\npair: two-disc/cable\nsetting: {free_play: 9 mm}\n", nil, exitBadInput, `s.yaml:2:7: pair: there is no release system "cable" in this job; write for example original/original` + "\n"},
		{readBefore + "after: {free_play: 7 +- 0.2 mm}\n", []string{"--check"}, exitNo, "something is not as it was when the first readings were taken"},
		{readBefore, []string{"--check"}, exitComputed, ""},
	} {
		_, messages, status := runSet(t, c.readings, c.args...)
		if status != c.status || !strings.HasPrefix(messages, c.want) {
			t.Errorf("status %d, %q; want %d, %q", status, messages, c.status, c.want)
		}
	}
}
