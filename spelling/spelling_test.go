package spelling

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestNearestFindsTheSlip(t *testing.T) {
	known := []string{"bore", "stroke", "dead_stroke", "efficiency", "clamp_load", "kN", "mm"}
	for word, want := range map[string]string{
		"bor":         "bore",
		"broe":        "bore",
		"storke":      "stroke",
		"dead-stroke": "dead_stroke",
		"clampload":   "clamp_load",
		"effciency":   "efficiency",
		"KN":          "kN",
		"MM":          "mm",
		"x":           "",
		"gearbox":     "",
		"":            "",
	} {
		if got := Nearest(word, known); got != want {
			t.Errorf("Nearest(%q) = %q, want %q", word, got, want)
		}
	}
}

func TestNearestPrefersTheEarlierOfTwo(t *testing.T) {
	if got := Nearest("cat", []string{"bat", "hat"}); got != "bat" {
		t.Errorf("got %q, want the earlier word", got)
	}
}

// Kukich's and Damerau's classes of single errors: insertion, deletion, substitution, transposition.
func TestDistanceCountsEachSlipOnce(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"clutch", "clutch", 0}, {"cluch", "clutch", 1}, {"cluttch", "clutch", 1}, {"clotch", "clutch", 1},
		{"cultch", "clutch", 1}, {"kitten", "sitting", 3}, {"", "abc", 3},
	} {
		if got := distance(c.a, c.b, 10); got != c.want {
			t.Errorf("distance(%q, %q) = %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

func TestDistanceIsSymmetricAndBounded(t *testing.T) {
	word := rapid.StringMatching(`[a-d]{0,12}`)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		d := distance(a, b, 100)
		if d != distance(b, a, 100) {
			t.Fatalf("distance depends on the order for %q, %q", a, b)
		}
		if (d == 0) != (a == b) || d > max(len(a), len(b)) {
			t.Fatalf("distance(%q, %q) = %d", a, b, d)
		}
	})
}

func TestNearestLeavesEndlessWordsAlone(t *testing.T) {
	if got := Nearest(strings.Repeat("a", 1<<20), []string{"bore"}); got != "" {
		t.Errorf("got %q for an endless word", got)
	}
}
