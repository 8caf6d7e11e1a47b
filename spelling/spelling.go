// Package spelling finds the word that somebody probably meant.
package spelling

import (
	"strings"
	"unicode/utf8"
)

// Nearest returns the known word nearest to word, or "" when none is near. Letter case does not count as a
// difference; a letter missing, added, changed or swapped with its neighbour counts one. Short words must fit
// better than long ones, and of two equally near words the earlier wins.
func Nearest(word string, known []string) string {
	best, least := "", allowance(word)+1
	for _, candidate := range known {
		if d := distance(strings.ToLower(word), strings.ToLower(candidate), least); d < least {
			best, least = candidate, d
		}
	}
	return best
}

// longest is the longest word worth comparing; a longer one is no slip of the pen.
const longest = 64

// allowance is the number of slips that still make a word recognisable.
func allowance(word string) int {
	switch n := utf8.RuneCountInString(word); {
	case n <= 1:
		return 0
	case n <= 5:
		return 1
	case n <= 8:
		return 2
	default:
		return 3
	}
}

// distance counts the slips between two words (optimal string alignment, Damerau 1964); it gives up and
// returns limit as soon as their lengths alone differ by that much.
func distance(a, b string, limit int) int {
	s, t := []rune(a), []rune(b)
	if len(s) > longest || len(t) > longest || max(len(s)-len(t), len(t)-len(s)) >= limit {
		return limit
	}
	before, last, row := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(s); i++ {
		row[0] = i
		for j := 1; j <= len(t); j++ {
			changed := last[j-1]
			if s[i-1] != t[j-1] {
				changed++
			}
			row[j] = min(changed, last[j]+1, row[j-1]+1)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last, row = last, row, before
	}
	return last[len(t)]
}
