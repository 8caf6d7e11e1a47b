package release

import (
	"math"
	"testing"
)

// snapping is a chain so soft that it cannot follow the fall of a steep load: at the peak the fingers jump.
func snapping() Chain {
	c := example()
	c.Clutch.BearingLoad = curve(0, 0, 2, 2600, 4, 3000, 6, 1100, 9, 900, 12, 1600)
	c.System.Pedal.Stiffness = 250e3
	return c
}

func TestPedalSnapsThroughWhereGiveOutrunsLoad(t *testing.T) {
	c := snapping()
	a := solve(t, c)
	if !a.SnapThrough || len(a.Snaps) != 2 {
		t.Fatalf("snaps %+v, want one down and one back", a.Snaps)
	}
	down, back := a.Snaps[0], a.Snaps[1]
	if down.LetUp || !back.LetUp {
		t.Fatalf("first snap must be on the way down, second on the way back: %+v", a.Snaps)
	}
	if !(down.From > 4e-3 && down.To > 6e-3 && back.To < 4e-3 && back.From > down.From && back.Pedal < down.Pedal) {
		t.Errorf("down %+v back %+v: the way back must snap later and return before the peak", down, back)
	}
	for _, s := range a.Snaps { // both ends stand on the curve at the same pedal
		near(t, "pedal before the jump", c.PedalTravel(s.From), s.Pedal, 1e-9)
		near(t, "pedal after the jump", c.PedalTravel(s.To), s.Pedal, 1e-9)
	}
}

func TestMapNeverShowsFingersInsideTheJump(t *testing.T) {
	c := snapping()
	a := solve(t, c)
	inside := func(x float64, s Snap) bool {
		return x > min(s.From, s.To)+1e-9 && x < max(s.From, s.To)-1e-9
	}
	for _, p := range c.Map(2000) {
		if inside(p.Finger, a.Snaps[0]) {
			t.Fatalf("at %.2f mm of pedal the map shows %.3f mm, inside the jump %+v", p.Pedal*1e3, p.Finger*1e3, a.Snaps[0])
		}
	}
	back := c.MapBack(2000)
	for _, p := range back {
		if inside(p.Finger, a.Snaps[1]) {
			t.Fatalf("on the way back %.3f mm lies inside the jump %+v", p.Finger*1e3, a.Snaps[1])
		}
	}
	// between the two snaps the fingers stand further in on the way back
	mid := (a.Snaps[0].Pedal + a.Snaps[1].Pedal) / 2
	i := int(mid / c.System.Pedal.Travel * 1999)
	if down := c.Map(2000)[i]; !(back[i].Finger > down.Finger+1e-3) {
		t.Errorf("at %.1f mm of pedal fingers stand at %.2f mm down and %.2f mm back", mid*1e3, down.Finger*1e3, back[i].Finger*1e3)
	}
}

func TestFingersThatJumpOffTheCurveAreHeldAtItsEnd(t *testing.T) {
	c := snapping()
	c.Clutch.BearingLoad = curve(0, 0, 2, 2600, 4, 3000, 6, 1100, 6.5, 1000)
	a := solve(t, c)
	if end := c.Clutch.lastFinger(); !a.BeyondCurve || a.FingerTravel != end {
		t.Errorf("beyond %v, finger travel %g, want held at 6.5 mm", a.BeyondCurve, a.FingerTravel)
	}
	if len(a.Snaps) == 0 || !math.IsNaN(a.Snaps[0].To) {
		t.Errorf("snaps %+v, want one that leaves the curve", a.Snaps)
	}
}

func TestWayBackFromTheVeryEndOfAJump(t *testing.T) {
	c := snapping()
	a := solve(t, c)
	s := c.statics()
	up := s.lettingUp(a.Snaps[0].To)
	near(t, "where the way back begins", up.cells[len(up.cells)-1].high, c.System.Pedal.rodTravel(a.Snaps[0].Pedal), 1e-9)
}

func TestSnapBeyondFullPedalIsNone(t *testing.T) {
	c := snapping()
	c.System.Pedal.Travel = 60e-3
	if a := solve(t, c); a.SnapThrough {
		t.Errorf("snaps %+v with the pedal stopped before them", a.Snaps)
	}
}
