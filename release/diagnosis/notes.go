package diagnosis

import "fmt"

const (
	fewDraws   = 50   // effective draws below which a cause's figures are not to be relied on
	matters    = 0.02 // probability from which that is worth saying
	ill        = 3.0  // spreads from which a reading does not fit
	undecided  = 0.5  // probability below which no cause stands out
	littleLeft = 0.3  // bits
)

// notes say what the answer rests on and where it is weak.
func (a *Answer) notes(r *Readings, concentric bool) []string {
	var notes []string
	note := func(format string, args ...any) { notes = append(notes, fmt.Sprintf(format, args...)) }
	if r.Drags == NotLookedAt {
		note("taken as given that the clutch drags with the pedal fully down; if it does not, say so with drags: no")
	}
	if len(r.Taken) == 0 && r.HoldsPressure == NotLookedAt {
		note("no reading is given: these are only the odds that the causes start with, as far as they make this clutch drag")
	}
	for _, s := range a.Suspects {
		if s.Probability >= matters && s.Effective < fewDraws {
			note("the figures for %s rest on only %.0f effective draws; ask for more", s.Cause, s.Effective)
		}
	}
	for _, h := range a.Held {
		if h.Off > ill || h.Off < -ill {
			note("%s does not fit: %s was read and %s explains only %s; read it again, and look at the job file's figures; if it stays, two things may be wrong at once",
				h.Kind.Key(), h.Kind.show(h.Measured), a.Suspects[0].Cause, h.Kind.show(h.Explained))
		}
	}
	first, second := a.Suspects[0], a.Suspects[1]
	if first.Probability < undecided {
		note("no cause stands out; %s and %s come first", first.Cause, second.Cause)
	}
	switch {
	case len(a.Next) == 0:
		note("every reading that can be had with the gearbox in has been taken")
	case a.Doubt > littleLeft && a.Next[0].Part < 0.1:
		note("no further reading is expected to help much; what is left is to be looked at in its place")
	}
	if a.Suspects[0].Cause == DiscFault {
		note("%s stands for all that drags although the fingers move as they should: look also for dry splines, a seized spigot bearing and thick cold gear oil", DiscFault)
	}
	if concentric {
		note("the slave sits inside the bellhousing, so a wrong slave counts as gearbox out; there is no fork to wear, and a leak inside the bell shows as fluid at its bottom")
	}
	return notes
}
