package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
)

func runShim(args ...string) (out, messages string, status int) {
	var o, e bytes.Buffer
	status = run(append([]string{"shim", "--housing-depth", "62.5 mm, 62.3 mm, 62.4 mm", "--bearing-height", "54.1 mm", "--target", "5 mm"}, args...), console{&o, &e})
	return o.String(), e.String(), status
}

func TestShimPrintsTheWorkedExampleWithItsCautions(t *testing.T) {
	out, messages, status := runShim("--wear", "0.75 mm", "--lever-ratio", "4")
	if status != exitComputed {
		t.Fatalf("status %d: %s", status, messages)
	}
	for _, want := range []string{"fit the shim: 3.30 mm behind the bearing", "8.30 +- 0.21 mm", "gap left with worn facings", "2.00 mm",
		"not checked: the stroke at full pedal", "! The shim goes behind the bearing, never under the clutch cover."} {
		if !strings.Contains(out, want) {
			t.Errorf("the answer lacks %q:\n%s", want, out)
		}
	}
}

func TestShimAsJSON(t *testing.T) {
	out, _, status := runShim("--json", "--second-housing-depth", "62.4 mm, 62.4 mm, 62.4 mm", "--second-bearing-height", "2.13 in")
	var answer map[string]any
	if err := json.Unmarshal([]byte(out), &answer); err != nil || status != exitComputed {
		t.Fatalf("status %d, %v", status, err)
	}
	if answer["shim_mm"] != 3.3 || answer["second_agrees"] != true || answer["gap_when_worn_mm"] != nil {
		t.Errorf("%s", out)
	}
}

func TestShimRefusesAndSaysNo(t *testing.T) {
	for _, c := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"--wear", "0.75"}, exitBadInput, `--wear "0.75": "0.75" is no length above nought; write for example 62.4 mm`},
		{[]string{"--stroke", "9 mm, 10 mm"}, exitBadInput, `--stroke "9 mm, 10 mm": one length is wanted`},
		{[]string{"--second-housing-depth", "62 mm, 62 mm, 62 mm"}, exitBadInput, "--second-housing-depth and --second-bearing-height belong together"},
		{[]string{"--lever-ratio=-4"}, exitBadInput, "--lever-ratio -4 must be more than nought"},
		{[]string{"--wear", "2 mm", "--lever-ratio", "4", "--check"}, exitNo, "gap gone before the facings are: the fingers come 8.00 mm nearer"},
	} {
		_, messages, status := runShim(c.args...)
		if status != c.status || !strings.HasPrefix(messages, c.want) {
			t.Errorf("%v: status %d, %q; want %d, %q", c.args, status, messages, c.status, c.want)
		}
	}
	var o, e bytes.Buffer
	if status := run([]string{"shim", "--housing-depth", "62.5 mm, 62.3 mm", "--bearing-height", "54.1 mm", "--target", "5 mm"}, console{&o, &e}); status != exitBadInput ||
		e.String() != "--housing-depth: 2 readings are too few; take three, 120 degrees apart\n" {
		t.Errorf("status %d: %s", status, e.String())
	}
}
