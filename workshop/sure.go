package workshop

import "layshaft/release"

// Sureness is how sure the pedal's answer is, and which figure to measure first to make it surer.
type Sureness struct {
	Left       Figure      `json:"pedal_left_mm"`     // mean of the pedal travel left after the discs are free
	LeftSD     Figure      `json:"pedal_left_sd_mm"`  // its standard deviation by sampling
	LinearSD   Figure      `json:"linearised_sd_mm"`  // the same by the plain propagation of standard deviations (GUM)
	Agree      bool        `json:"linearised_agrees"` // whether the plain reckoning may stand
	Warning    string      `json:"warning,omitempty"`
	Influences []Influence `json:"influences"`
	Band       []BandPoint `json:"band"`
}

// Influence is one roughly known figure's part in the doubt, the one that matters most first.
type Influence struct {
	Key   string `json:"key"`
	First Figure `json:"first_order"`
	Total Figure `json:"total"`
	Swing Figure `json:"swing_mm"`
}

// BandPoint is one pedal position with the 5 and 95 % figures there.
type BandPoint struct {
	Pedal  Figure    `json:"pedal_mm"`
	Finger [2]Figure `json:"finger_mm"`
	Effort [2]Figure `json:"effort_n"`
	Torque [2]Figure `json:"torque_nm"`
}

// howSure is nil where every figure is known exactly: then there is no doubt to share out.
func howSure(chain release.Chain, knowns []release.Known, effort Effort) (*Sureness, error) {
	if len(knowns) == 0 || effort.Doubt == 0 {
		return nil, nil
	}
	spread, err := release.Margin(chain, knowns, effort.Doubt, effort.Seed)
	if err != nil {
		return nil, err
	}
	band, err := release.Band(chain, knowns, effort.BandPoints, effort.BandDraws, effort.Seed)
	if err != nil {
		return nil, err
	}
	sure := &Sureness{
		Left: millimetres(spread.Both.Mean), LeftSD: millimetres(spread.Both.SD),
		LinearSD: millimetres(spread.Both.Linear.SD), Agree: spread.Both.Agrees, Warning: spread.Both.Warning,
	}
	for _, in := range spread.Influences {
		sure.Influences = append(sure.Influences, Influence{in.Name, Figure(in.First), Figure(in.Total), millimetres(in.Swing)})
	}
	for _, p := range band {
		sure.Band = append(sure.Band, BandPoint{millimetres(p.Pedal),
			[2]Figure{millimetres(p.Finger.P05), millimetres(p.Finger.P95)},
			[2]Figure{Figure(p.Effort.P05), Figure(p.Effort.P95)}, [2]Figure{Figure(p.Torque.P05), Figure(p.Torque.P95)}})
	}
	return sure, nil
}
