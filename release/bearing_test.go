package release_test

import (
	"errors"
	"fmt"
	"testing"

	"layshaft/release"
)

// A worked case of setting a retracting bearing: finger tips at 62.5, 62.3 and 62.4 mm, bearing face at 54.1 mm,
// 5.0 mm wanted (common practice of bearing suppliers, no source).
func ExampleShimBehindBearing() {
	shim, err := release.ShimBehindBearing(release.ShimReadings{
		Fingers: []float64{62.5e-3, 62.3e-3, 62.4e-3},
		Bearing: []float64{54.1e-3},
		Target:  5.0e-3,
	})
	fmt.Printf("gap %.1f mm +- %.1f mm, shim %.1f mm, %v\n", shim.Gap*1e3, shim.Error*1e3, shim.Thickness*1e3, err)
	// Output: gap 8.3 mm +- 0.2 mm, shim 3.3 mm, <nil>
}

func TestShimIsRefusedOnReadingsThatShowAFault(t *testing.T) {
	right := release.ShimReadings{Fingers: []float64{62.5e-3, 62.3e-3, 62.4e-3}, Bearing: []float64{54.1e-3}, Target: 5e-3}
	for name, wrong := range map[string]struct {
		key  string
		make func(*release.ShimReadings)
	}{
		"uneven tips":  {"fingers", func(r *release.ShimReadings) { r.Fingers = []float64{62.5e-3, 61.9e-3, 62.4e-3} }},
		"two readings": {"fingers", func(r *release.ShimReadings) { r.Fingers = r.Fingers[:2] }},
		"no bearing":   {"bearing", func(r *release.ShimReadings) { r.Bearing = nil }},
		"no target":    {"target", func(r *release.ShimReadings) { r.Target = 0 }},
	} {
		r := right
		wrong.make(&r)
		_, err := release.ShimBehindBearing(r)
		var fault *release.Fault
		if !errors.As(err, &fault) || fault.Key != wrong.key {
			t.Errorf("%s: %v, want a fault of %q", name, err, wrong.key)
		}
	}
}

func TestBearingTooNearAsksForLessNotForPacking(t *testing.T) {
	shim, err := release.ShimBehindBearing(release.ShimReadings{
		Fingers: []float64{57.5e-3, 57.5e-3, 57.5e-3}, Bearing: []float64{54.1e-3}, Target: 5e-3})
	if err != nil {
		t.Fatal(err)
	}
	near(t, "shim", shim.Thickness, -1.6e-3, 1e-12)
	if len(shim.Cautions) == 0 || shim.Cautions[0][:25] != "The bearing stands too ne" {
		t.Errorf("cautions %q", shim.Cautions)
	}
}

// 0.75 mm of wear at lever ratios from 3.5 to 4.5 brings the tips 2.6 to 3.4 mm nearer: a gap of 3 mm can be used up
// (reckoned by hand; common practice, no source).
func TestWearEatsTheGap(t *testing.T) {
	near(t, "growth at 3.5", release.FingerGrowth(3.5, 0.75e-3), 2.6e-3, 0.05e-3)
	near(t, "growth at 4.5", release.FingerGrowth(4.5, 0.75e-3), 3.4e-3, 0.05e-3)
	if release.CheckStandOff(3e-3, 4.5, 0.75e-3, 10e-3, 20e-3).OK() {
		t.Error("a gap of 3 mm passes with 3.4 mm of growth")
	}
	if !release.CheckStandOff(3.8e-3, 4.5, 0.75e-3, 10e-3, 20e-3).OK() {
		t.Error("a gap of 3.8 mm is refused with 3.4 mm of growth and 6.2 mm of seal reserve")
	}
	if release.CheckStandOff(5e-3, 4, 0.5e-3, 15.1e-3, 20e-3).OK() {
		t.Error("a bearing passes that comes off its sleeve")
	}
}

// A constant-contact bearing of 25.4 mm travel, compressed by 15 to 18 mm when fitted, leaves 7.6 to 10 mm for wear
// (as a supplier's page has it; common practice).
func TestContactBearingKeepsReserves(t *testing.T) {
	near(t, "reserve at 15.4 mm", release.CheckContact(25.4e-3, 15.4e-3, 4, 0, 10e-3).Wear, 10e-3, 1e-12)
	near(t, "reserve at 17.8 mm", release.CheckContact(25.4e-3, 17.8e-3, 4, 0, 10e-3).Wear, 7.6e-3, 1e-12)
	if release.CheckContact(25.4e-3, 24e-3, 4, 0.75e-3, 10e-3).OK() {
		t.Error("1.4 mm pass for 3 mm of growth")
	}
	if release.CheckContact(25.4e-3, 9e-3, 4, 0.75e-3, 10e-3).OK() {
		t.Error("9 mm pass for a stroke of 10 mm")
	}
}

func TestSecondReadingMustAgree(t *testing.T) {
	if !release.SecondReadingAgrees(8.3e-3, 8.1e-3) || release.SecondReadingAgrees(8.3e-3, 7.9e-3) {
		t.Error("0.2 mm apart must pass and 0.4 mm must not")
	}
}
