package release

import "math"

// Snap is a jump of the fingers while the pedal stands still.
type Snap struct {
	Pedal    float64 // travel at the pad
	From, To float64 // finger travel before and after; To is NaN where the jump goes past the last load point
	LetUp    bool    // on the way back
}

// snaps lists the jumps that the fingers make before the pedal is at full travel, and those on the way back.
func (c *Chain) snaps(down *path, full state) []Snap {
	pedal := &c.System.Pedal
	var found []Snap
	stands := 0.0
	for _, cell := range down.cells {
		if cell.from > full.finger {
			break
		}
		if cell.from != stands {
			found = append(found, Snap{Pedal: pedal.padTravel(cell.low), From: stands, To: cell.from})
		}
		stands = cell.to
	}
	if full.beyond && stands != down.bearing.end {
		last := down.contact
		if n := len(down.cells); n > 0 {
			last = down.cells[n-1].high
		}
		found = append(found, Snap{Pedal: pedal.padTravel(last), From: stands, To: math.NaN()})
	}
	if len(found) == 0 {
		return nil
	}
	up := down.lettingUp(full.finger)
	stands = full.finger
	for i := len(up.cells) - 1; i >= 0; i-- {
		cell := up.cells[i]
		if cell.to != stands {
			found = append(found, Snap{Pedal: pedal.padTravel(cell.high), From: stands, To: cell.to, LetUp: true})
		}
		stands = cell.from
	}
	if stands != 0 {
		found = append(found, Snap{Pedal: pedal.padTravel(up.cells[0].low), From: stands, To: 0, LetUp: true})
	}
	return found
}
