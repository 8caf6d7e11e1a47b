package workshop

import (
	"errors"
	"fmt"
	"math"

	"layshaft/release"
)

// ShimWanted are the depths measured for a hydraulic release bearing that draws back from the fingers, all in m. What
// is not known is nought.
type ShimWanted struct {
	Readings release.ShimReadings
	Second   *release.ShimReadings // taken by a second person, without seeing the first ones

	Wear       float64 // of all facings together, over their life
	LeverRatio float64 // finger travel / plate lift
	Stroke     float64 // finger travel at full pedal
	Travel     float64 // the bearing's own, as its maker gives it
}

// ShimAnswer is what goes behind the bearing, and whether it lasts.
type ShimAnswer struct {
	Gap        Figure   `json:"gap_mm"`
	GapError   Figure   `json:"gap_error_mm"`
	Spread     Figure   `json:"finger_spread_mm"`
	Target     Figure   `json:"target_mm"`
	Shim       Figure   `json:"shim_mm"` // negative: the bearing stands too far forward by that much
	SecondGap  Figure   `json:"second_gap_mm"`
	Agrees     *bool    `json:"second_agrees,omitempty"`
	Growth     Figure   `json:"finger_growth_mm"` // towards the bearing, until the facings are worn out
	WhenWorn   Figure   `json:"gap_when_worn_mm"` // at nought the bearing carries load all the time and the clutch slips
	AtFull     Figure   `json:"seal_reserve_mm"`  // left of the bearing's travel at full pedal; at nought it leaves its seal
	Verdict    string   `json:"verdict"`          // shim, as it is, too near, repeat, worn out too soon, leaves its seal
	Why        string   `json:"why"`
	Cautions   []string `json:"cautions"`
	NotChecked []string `json:"not_checked,omitempty"`
}

// The verdicts on a bearing's stand-off, the first that holds is told.
const (
	ShimRepeat    = "measure again"
	ShimTooNear   = "too near"
	ShimWornSoon  = "gap gone before the facings are"
	ShimSealLeft  = "leaves its seal"
	ShimFit       = "fit the shim"
	ShimNotNeeded = "as it is"
)

// Shim works out what goes behind a retracting release bearing.
func Shim(w ShimWanted) (*ShimAnswer, error) {
	shim, err := release.ShimBehindBearing(w.Readings)
	if err != nil {
		return nil, shimFault(err)
	}
	nan := Figure(math.NaN())
	a := &ShimAnswer{
		Gap: millimetres(shim.Gap), GapError: millimetres(shim.Error), Spread: millimetres(shim.Spread), Target: millimetres(w.Readings.Target),
		Shim: millimetres(shim.Thickness), SecondGap: nan, Growth: nan, WhenWorn: nan, AtFull: nan, Cautions: shim.Cautions,
	}
	if err := a.second(&w, shim.Gap); err != nil {
		return nil, err
	}
	a.lasts(&w, w.Readings.Target+min(shim.Thickness, 0))
	a.judge(shim.Thickness)
	return a, nil
}

// second holds the readings of a second person against the first.
func (a *ShimAnswer) second(w *ShimWanted, first float64) error {
	if w.Second == nil {
		a.NotChecked = append(a.NotChecked, "no second person's readings are given")
		return nil
	}
	w.Second.Target = w.Readings.Target
	other, err := release.ShimBehindBearing(*w.Second)
	if err != nil {
		return shimFault(err)
	}
	agrees := release.SecondReadingAgrees(first, other.Gap)
	a.SecondGap, a.Agrees = millimetres(other.Gap), &agrees
	return nil
}

// lasts looks at the gap when the facings are worn and at the bearing's travel at full pedal, as far as they are known.
func (a *ShimAnswer) lasts(w *ShimWanted, gap float64) {
	check := release.CheckStandOff(gap, w.LeverRatio, w.Wear, w.Stroke, w.Travel)
	if w.LeverRatio > 0 && w.Wear > 0 {
		a.Growth, a.WhenWorn = millimetres(release.FingerGrowth(w.LeverRatio, w.Wear)), millimetres(check.GapWhenWorn)
	} else {
		a.NotChecked = append(a.NotChecked, "wear and lever ratio are needed to tell whether the gap lasts as long as the facings")
	}
	if w.Stroke > 0 && w.Travel > 0 {
		a.AtFull = millimetres(check.SealReserve)
	} else {
		a.NotChecked = append(a.NotChecked, "the stroke at full pedal and the bearing's own travel are needed to tell whether it stays on its seal: many have no stop inside")
	}
}

func (a *ShimAnswer) judge(thickness float64) {
	least := float64(a.GapError) // a shim thinner than the gap is known to is none
	switch {
	case a.Agrees != nil && !*a.Agrees:
		a.Verdict, a.Why = ShimRepeat, fmt.Sprintf("the two gaps, %.2f and %.2f mm, differ by more than %.1f mm", a.Gap, a.SecondGap, release.SecondReadingLimit*1e3)
	case float64(a.Shim) < -least:
		a.Verdict, a.Why = ShimTooNear, fmt.Sprintf("the gap of %.2f mm is %.2f mm short of the %.2f mm wanted", a.Gap, -thickness*1e3, a.Target)
	case a.WhenWorn <= 0:
		a.Verdict, a.Why = ShimWornSoon, fmt.Sprintf("the fingers come %.2f mm nearer while the facings wear, more than the gap: the bearing would then carry load all the time and the clutch slip", a.Growth)
	case a.AtFull <= 0:
		a.Verdict, a.Why = ShimSealLeft, fmt.Sprintf("at full pedal the bearing would be %.2f mm past its own travel", -a.AtFull)
	case float64(a.Shim) > least:
		a.Verdict, a.Why = ShimFit, fmt.Sprintf("%.2f mm behind the bearing make the gap of %.2f mm into %.2f mm", a.Shim, a.Gap, a.Target)
	default:
		a.Verdict, a.Why = ShimNotNeeded, fmt.Sprintf("the gap of %.2f mm is the %.2f mm wanted, as near as it can be measured", a.Gap, a.Target)
	}
}

// shimFault names the depths as those who measure them do.
func shimFault(err error) error {
	var one *release.Fault
	if !errors.As(err, &one) {
		return err
	}
	keys := map[string]string{"fingers": "housing-depth", "bearing": "bearing-height", "target": "target"}
	return &Fault{Key: keys[one.Key], Message: one.Message}
}
