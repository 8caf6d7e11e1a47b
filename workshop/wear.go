package workshop

import "strings"

// WearAnswer is how a clutch stands while its facings wear, where its spring is known.
type WearAnswer struct {
	Clutch string      `json:"clutch"`
	States []WearState `json:"states"` // new, half worn, worn
}

// WearState is one state of wear. The clamp load decides what the clutch holds, the bearing load how heavy the pedal is.
type WearState struct {
	State      string `json:"state"`
	Wear       Figure `json:"wear_mm"` // of all faces together
	Clamp      Figure `json:"clamp_load_n"`
	PeakLoad   Figure `json:"peak_bearing_load_n"`
	PeakTravel Figure `json:"peak_at_finger_travel_mm"`
	EndLoad    Figure `json:"end_bearing_load_n"` // at the last finger travel of the load curve
	EndTravel  Figure `json:"end_finger_travel_mm"`
}

// wear is nil where the spring is not known.
func (c *Clutch) wear() (*WearAnswer, error) {
	if c.Spring == nil {
		return nil, nil
	}
	points, err := c.Spring.WorkingPoints(c.SpringTravel)
	if err != nil {
		return nil, &Fault{Key: "clutch." + c.Name + ".spring", Message: err.Error()}
	}
	answer := &WearAnswer{Clutch: c.Name}
	for _, p := range points {
		answer.States = append(answer.States, WearState{
			State: p.Name, Wear: millimetres(p.Wear), Clamp: Figure(p.Clamp),
			PeakLoad: Figure(p.PeakLoad), PeakTravel: millimetres(p.PeakTravel),
			EndLoad: Figure(p.EndLoad), EndTravel: millimetres(c.SpringTravel),
		})
	}
	return answer, nil
}

// addWear adds a clutch's wear to the answer, unless only another clutch is asked for.
func (r *ReleaseAnswer) addWear(clutch *Clutch, only string) error {
	if name, _, _ := strings.Cut(only, "/"); only != "" && name != clutch.Name {
		return nil
	}
	wear, err := clutch.wear()
	if wear != nil {
		r.Wear = append(r.Wear, *wear)
	}
	return err
}
