package release

// FreePlayAfter is the free play at the pad once the rod has been made longer by d (shorter where d is negative).
//
//	s0' = s0 - ip·d
//
// A negative free play means that the rod holds the master's port shut: the pedal pumps up and the clutch slips.
func (p *Pedal) FreePlayAfter(d float64) float64 { return p.padTravel(-d) }

// RodChange is how much longer the rod has to be for the free play to become freePlay.
func (p *Pedal) RodChange(freePlay float64) float64 { return -p.rodTravel(freePlay) }

// RodTurns is the number of turns that change the rod's length by d; +Inf where the rod cannot be adjusted.
//
//	turns = d/pitch
func (p *Pedal) RodTurns(d float64) float64 { return d / p.RodPitch }
