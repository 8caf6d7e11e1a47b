package workshop_test

import (
	"math"
	"strings"
	"testing"

	"layshaft/jobfile"
	"layshaft/workshop"
)

const withSpring = `layshaft: 1
car: {name: Corrie}
clutch:
  plain:
    fitted: true
    discs: 1
    facing: {outer: 240 mm, inner: 155 mm, friction: 0.28}
    clamp_load: 6 kN
    lever_ratio: 3.8
    bearing_load: [[0 mm, 0 N], [4 mm, 1300 N], [12 mm, 1200 N]]
  sprung:
    discs: 1
    facing: {outer: 240 mm, inner: 155 mm, friction: 0.28}
    clamp_load: 4.7 kN
    cushion: 0.7 mm
    finger_travel_max: 10 mm
    spring: {outer: 226 mm, inner: 180 mm, thickness: 2.5 mm, cone_height: 4.2 mm, plate_contact: 220 mm, fulcrum: 186 mm, fingertip: 56 mm, set: 2.8 mm, wear: 1.4 mm}
release:
  metal-master:
    pedal: {ratio: 5.8, travel: 150 mm, free_play: 6 mm}
    master: {bore: 19.05 mm}
    slave: {bore: 20.64 mm, fork_ratio: 1.6}
`

func readJob(t *testing.T, text string) *workshop.Job {
	t.Helper()
	job, _, err := jobfile.Parse("car.yaml", []byte(text), nil)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

func TestWearIsToldOfClutchesWhoseSpringIsKnown(t *testing.T) {
	job := readJob(t, withSpring)
	answer, err := workshop.LetGo(job, "", workshop.Quick)
	if err != nil {
		t.Fatal(err)
	}
	if len(answer.Pairs) != 2 || len(answer.Wear) != 1 || answer.Wear[0].Clutch != "sprung" {
		t.Fatalf("%d pairs, wear %+v", len(answer.Pairs), answer.Wear)
	}
	cover := job.Clutch("sprung").Spring
	for i, state := range []struct {
		name string
		wear float64
	}{{"new", 0}, {"half worn", 0.7e-3}, {"worn", 1.4e-3}} {
		got := answer.Wear[0].States[i]
		clamp := cover.Diaphragm.ClampLoad(2.8e-3 - state.wear)
		// once the cushion has let go the bearing carries the spring by its lever
		end := cover.Diaphragm.BearingLoad(2.8e-3 - state.wear + 10e-3/cover.Diaphragm.LeverRatio())
		if got.State != state.name || math.Abs(float64(got.Clamp)-clamp) > 1e-6 || math.Abs(float64(got.EndLoad)-end) > 1e-6 || got.EndTravel != 10 {
			t.Errorf("%+v, want %s with %g N and %g N", got, state.name, clamp, end)
		}
	}
	only, err := workshop.LetGo(job, "plain/metal-master", workshop.Quick)
	if err != nil || len(only.Wear) != 0 {
		t.Errorf("a clutch that was not asked for wears: %+v, %v", only, err)
	}
}

func TestFingersPastTheEndOfACurveAtTheirLimitOverTravel(t *testing.T) {
	answer, err := workshop.LetGo(readJob(t, withSpring), "sprung/metal-master", workshop.Quick)
	if err != nil {
		t.Fatal(err)
	}
	pair := answer.Pairs[0]
	if pair.Verdict != "over-travels" || !strings.HasPrefix(pair.Why, "full pedal pushes the fingers past their limit of 10.0 mm; with the stop at ") {
		t.Errorf("%s: %s", pair.Verdict, pair.Why)
	}
}
