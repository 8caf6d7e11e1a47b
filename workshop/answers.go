package workshop

import (
	"encoding/json"
	"math"
)

// Figure is a number of an answer. JSON has no word for "there is none" but null, which is what a NaN or an
// infinity becomes.
type Figure float64

// Known reports whether there is a number at all.
func (f Figure) Known() bool { return !math.IsNaN(float64(f)) && !math.IsInf(float64(f), 0) }

// MarshalJSON writes the number, or null where there is none. Figures are rounded to nine significant places:
// what lies beyond is the machine's, not the car's.
func (f Figure) MarshalJSON() ([]byte, error) {
	if !f.Known() {
		return []byte("null"), nil
	}
	return json.Marshal(significant(float64(f), 9))
}

func significant(v float64, places int) float64 {
	if v == 0 {
		return 0
	}
	scale := math.Pow(10, float64(places)-math.Ceil(math.Log10(math.Abs(v))))
	if math.IsInf(scale, 0) || scale == 0 {
		return v
	}
	return math.Round(v*scale) / scale
}

// Workup is every answer for one car. The screen, the paper and the commands show these same figures. Parts that
// the job file does not say enough for are nil, and NotComputed says what they lack.
type Workup struct {
	Car         string         `json:"car"`
	Hold        *HoldAnswer    `json:"hold,omitempty"`
	Release     *ReleaseAnswer `json:"release,omitempty"`
	Strip       *StripAnswer   `json:"strip,omitempty"`
	Price       *PriceAnswer   `json:"price,omitempty"`
	Worth       *WorthAnswer   `json:"worth,omitempty"`
	Advice      []Advice       `json:"advice"`
	NotComputed []Assumption   `json:"not_computed"`
	Assumptions []Assumption   `json:"assumptions"`
}

// HoldAnswer says whether each candidate clutch carries the engine's torque.
type HoldAnswer struct {
	Demand        Figure                `json:"demand_torque_nm"`
	DemandP05     Figure                `json:"demand_p05_nm"`
	DemandP95     Figure                `json:"demand_p95_nm"`
	DemandFrom    string                `json:"demand_from"`
	Use           string                `json:"use"`
	ServiceFactor Figure                `json:"service_factor"`
	Wanted        Figure                `json:"wanted_torque_nm"` // demand times service factor
	Clutches      map[string]ClutchHold `json:"clutches"`
	Drive         *DriveAnswer          `json:"driveline,omitempty"`
	NotComputed   []Assumption          `json:"not_computed,omitempty"`
	order         []string
}

// Order lists the candidates as the job file has them.
func (h *HoldAnswer) Order() []string { return h.order }

// ClutchHold is one candidate's capacity against the demand.
type ClutchHold struct {
	Fitted      bool    `json:"fitted"`
	Capacity    Figure  `json:"capacity_nm"`
	CapacityP05 Figure  `json:"capacity_p05_nm"`
	CapacityP95 Figure  `json:"capacity_p95_nm"`
	CapacityNew Figure  `json:"capacity_uniform_pressure_nm"`
	Margin      Figure  `json:"margin"`
	MarginP05   Figure  `json:"margin_p05"`
	MarginP95   Figure  `json:"margin_p95"`
	Hot         *Hot    `json:"hot,omitempty"`
	Launch      *Launch `json:"launch,omitempty"`
	Verdict     string  `json:"verdict"`
}

// Hot is the same margin with the hot friction value.
type Hot struct {
	Capacity    Figure `json:"capacity_nm"`
	CapacityP05 Figure `json:"capacity_p05_nm"`
	CapacityP95 Figure `json:"capacity_p95_nm"`
	Margin      Figure `json:"margin"`
	MarginP05   Figure `json:"margin_p05"`
	MarginP95   Figure `json:"margin_p95"`
	Verdict     string `json:"verdict"`
}

// ReleaseAnswer says for every clutch with every release system whether it frees.
type ReleaseAnswer struct {
	Pairs       []PairAnswer `json:"pairs"`
	Wear        []WearAnswer `json:"wear,omitempty"` // of the clutches whose spring is known
	NotComputed []Assumption `json:"not_computed,omitempty"`
}

// Pair finds a pair, or nil.
func (r *ReleaseAnswer) Pair(clutch, release string) *PairAnswer {
	if r == nil {
		return nil
	}
	for i := range r.Pairs {
		if r.Pairs[i].Clutch == clutch && r.Pairs[i].Release == release {
			return &r.Pairs[i]
		}
	}
	return nil
}

// PairAnswer is one clutch with one release system.
type PairAnswer struct {
	Clutch  string `json:"clutch"`
	Release string `json:"release"`

	FingerTravel    Figure `json:"finger_travel_at_full_pedal_mm"`
	PlateLift       Figure `json:"plate_lift_mm"`
	LiftNeeded      Figure `json:"lift_needed_mm"`
	SlaveTravel     Figure `json:"slave_travel_mm"`
	BearingTravel   Figure `json:"bearing_travel_mm"`
	PedalTravel     Figure `json:"pedal_travel_mm"`
	PeakEffort      Figure `json:"peak_effort_n"`
	EffortAtStop    Figure `json:"effort_at_stop_n"`
	PeakPressure    Figure `json:"peak_pressure_mpa"`
	MasterStroke    Figure `json:"master_stroke_used_mm"`
	MasterHas       Figure `json:"master_stroke_mm"`
	BiteStart       Figure `json:"bite_start_mm"`
	BiteEnd         Figure `json:"bite_end_mm"`
	StopMin         Figure `json:"stop_min_mm"`
	StopMax         Figure `json:"stop_max_mm"`
	StopRecommended Figure `json:"stop_recommended_mm"`
	FreedFinger     Figure `json:"finger_travel_needed_mm"`
	FingerLimit     Figure `json:"finger_travel_max_mm"`
	Left            Figure `json:"pedal_left_after_freed_mm"`
	PFrees          Figure `json:"p_frees"`
	POverTravels    Figure `json:"p_over_travels"`
	PBoth           Figure `json:"p_good_at_stop"`

	SnapThrough bool       `json:"snap_through"`
	BeyondCurve bool       `json:"beyond_curve,omitempty"`
	Verdict     string     `json:"verdict"`
	NoWindow    string     `json:"no_window,omitempty"`
	Why         string     `json:"why"`
	Notes       []string   `json:"notes,omitempty"`
	Travel      []Share    `json:"travel_shares"`
	Sure        *Sureness  `json:"sureness,omitempty"`
	Map         []MapPoint `json:"map"`
}

// Share is one use that the pedal's travel goes to, up to the point where the clutch is freed.
type Share struct {
	Name   string `json:"name"`
	Pedal  Figure `json:"pedal_mm"`
	Useful bool   `json:"useful,omitempty"` // moves the fingers, rather than being lost
}

// MapPoint is one point of the pedal map.
type MapPoint struct {
	Pedal    Figure `json:"pedal_mm"`
	Finger   Figure `json:"finger_mm"`
	Effort   Figure `json:"effort_n"`
	Pressure Figure `json:"pressure_mpa"`
	Torque   Figure `json:"torque_nm"`
	Jump     bool   `json:"jump,omitempty"` // the pedal snaps through to here from the point before
}

// Advice is a job that the shop insists on or advises, with the computed reason.
type Advice struct {
	Job     string `json:"job"`
	Title   string `json:"title"`
	Weight  string `json:"weight"` // insisted, advised, optional
	Because string `json:"because"`
	In      bool   `json:"included"` // already part of the work
}
