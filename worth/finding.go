package worth

import (
	"fmt"
	"math"
)

// Finding is what one look, or one failure, tells of a part's life: it was still sound at one distance, and worn by
// another. Both equal is a life known exactly.
type Finding struct {
	After float64 // still sound here; 0 where nobody had looked
	By    float64 // worn here; +Inf where it is still sound
}

// FailedAt is a life known exactly.
func FailedAt(t float64) Finding { return Finding{t, t} }

// WornBy is a part that was worn when first looked at (left-censored).
func WornBy(t float64) Finding { return Finding{0, t} }

// SoundAt is a part that was still sound when last looked at (right-censored).
func SoundAt(t float64) Finding { return Finding{t, math.Inf(1)} }

// WornBetween is a part that was sound at one look and worn at a later one (interval-censored).
func WornBetween(sound, worn float64) Finding { return Finding{sound, worn} }

// Worn reports whether the part was found worn at all.
func (f Finding) Worn() bool { return !math.IsInf(f.By, 1) }

func (f Finding) exact() bool { return f.After == f.By }

// check refuses distances that are none.
func (f Finding) check() error {
	switch {
	case math.IsNaN(f.After) || math.IsNaN(f.By) || f.After < 0 || f.By <= 0 || math.IsInf(f.After, 1):
		return fmt.Errorf("a part cannot be sound at %g and worn by %g: distances are more than nothing", f.After, f.By)
	case f.By < f.After:
		return fmt.Errorf("a part cannot be worn by %g and still sound at %g", f.By, f.After)
	case f.After == 0 && !f.Worn():
		return fmt.Errorf("a part that was new when last looked at tells nothing of its life")
	}
	return nil
}
