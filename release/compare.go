package release

// Comparison sets two chains side by side, such as the original release system and the proposed one with the same
// clutch, and tells what makes the difference.
type Comparison struct {
	Before, After Answer
	Shares        []ShareChange // of the pedal travel at which the discs are free
	Parts         []PartGain
}

// ShareChange is one share of the pedal's travel before and after.
type ShareChange struct {
	Name          string
	Before, After float64 // m at the pad
}

// PartGain is what it does to replace one part alone and keep the rest as it was.
type PartGain struct {
	Part    string  // "pedal", "master", "line", "slave" or "clutch"
	Margin  float64 // pedal travel left after the discs are free, m
	Gain    float64 // against Before
	Effort  float64 // peak, N
	Verdict string
}

// Compare works out both chains as they stand, without sampling, and each part's own doing.
func Compare(before, after Chain) (Comparison, error) {
	old, err := Solve(before, nil, 0, 0)
	if err != nil {
		return Comparison{}, err
	}
	changed, err := Solve(after, nil, 0, 0)
	if err != nil {
		return Comparison{}, err
	}
	both := Comparison{Before: old, After: changed}
	then, now := before.sharesAtFreed(), after.sharesAtFreed()
	for i := range then {
		both.Shares = append(both.Shares, ShareChange{then[i].Name, then[i].Pedal, now[i].Pedal})
	}
	for _, swap := range []struct {
		part string
		set  func(*Chain)
	}{
		{"pedal", func(c *Chain) { c.System.Pedal = after.System.Pedal }},
		{"master", func(c *Chain) { c.System.Master = after.System.Master }},
		{"line", func(c *Chain) { c.System.Line = after.System.Line }},
		{"slave", func(c *Chain) { c.System.Slave = after.System.Slave }},
		{"clutch", func(c *Chain) { c.Clutch = after.Clutch }},
	} {
		c := before
		swap.set(&c)
		if c == before {
			continue
		}
		if a, err := Solve(c, nil, 0, 0); err == nil { // a mixture may be impossible where neither whole is
			both.Parts = append(both.Parts, PartGain{swap.part, a.Margin, a.Margin - old.Margin, a.PeakEffort, a.Verdict})
		}
	}
	return both, nil
}

func (c *Chain) sharesAtFreed() []Share { return c.TravelShares(c.Clutch.FingerTravelNeeded()) }
