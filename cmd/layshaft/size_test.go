package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
)

func runSize(t *testing.T, args ...string) (out, messages string, status int) {
	t.Helper()
	var o, e bytes.Buffer
	status = run(append([]string{"size", "../../examples/street-saloon.yaml"}, args...), console{&o, &e})
	return o.String(), e.String(), status
}

func TestSizePrintsTheFrontAndHowFarItHasCome(t *testing.T) {
	out, messages, status := runSize(t, "--release", "metal-master", "--effort-limit", "230 N", "--samples", "4096")
	if status != exitComputed {
		t.Fatalf("status %d: %s", status, messages)
	}
	for _, want := range []string{"two-disc, starting from metal-master: 484 choices tried, at most 230 N at the pad", "good at stop", "Bite height: how far above the pedal's fully-down end", "as it is now: heavier than the limit"} {
		if !strings.Contains(out, want) {
			t.Errorf("the answer lacks %q:\n%s", want, out)
		}
	}
	lines := strings.Split(strings.TrimSpace(messages), "\n")
	if len(lines) != 10 || lines[0] != "49 of 484 choices" || lines[9] != "484 of 484 choices" {
		t.Errorf("it says of its way: %q", lines)
	}
}

func TestSizeAsJSON(t *testing.T) {
	out, _, status := runSize(t, "--release", "metal-master", "--effort-limit", "50 lbf", "--json", "--all", "--samples", "4096")
	var answer struct {
		Limit       float64 `json:"effort_limit_n"`
		Tried, Good int
		Front       []map[string]any  `json:"front"`
		Dominated   []json.RawMessage `json:"dominated"`
	}
	if err := json.Unmarshal([]byte(out), &answer); err != nil || status != exitComputed {
		t.Fatalf("status %d: %v", status, err)
	}
	if answer.Limit < 222.4 || answer.Limit > 222.5 || answer.Tried != 484 || len(answer.Front) == 0 || len(answer.Front)+len(answer.Dominated) != answer.Good {
		t.Errorf("%+v", answer)
	}
	for _, key := range []string{"master", "master_bore_mm", "slave_bore_mm", "pedal_ratio", "peak_effort_n", "p_frees", "p_good_at_stop", "bite_start_mm", "bite_height_mm", "stop_recommended_mm", "changes"} {
		if _, there := answer.Front[0][key]; !there {
			t.Errorf("a choice lacks %s: %v", key, answer.Front[0])
		}
	}
}

func TestSizeRefusesAndSaysNo(t *testing.T) {
	for _, c := range []struct {
		args   []string
		status int
		want   string
	}{
		{[]string{"--effort-limit", "180"}, exitBadInput, `--effort-limit "180" is no force above nought; write for example "180 N"`},
		{[]string{"--effort-limit=-5 N"}, exitBadInput, `--effort-limit "-5 N" is no force above nought`},
		{[]string{"--clutch", "paddle"}, exitBadInput, `there is no clutch "paddle" in this job`},
		{[]string{"--effort-limit", "100 N", "--check"}, exitNo, "nothing frees two-disc within the limits: the lightest that frees is master"},
	} {
		_, messages, status := runSize(t, c.args...)
		if status != c.status || !strings.Contains(messages, c.want) {
			t.Errorf("%v: status %d, %q; want %d, %q", c.args, status, messages, c.status, c.want)
		}
	}
}
