package workshop_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"layshaft/library"
	"layshaft/release"
	"layshaft/workshop"
)

const toSize = `layshaft: 1
car: {name: Corrie}
clutch:
  original:
    fitted: true
    discs: 1
    facing: {outer: 240 mm, inner: 155 mm, friction: 0.28}
    clamp_load: 6 kN
  two-disc:
    discs: 2
    facing: {outer: 200 mm, inner: 140 mm, friction: 0.30 .. 0.36}
    clamp_load: 9.4 kN
    lever_ratio: 3.9
    cushion: 0.35 mm
    finger_travel_max: 11.5 mm
    bearing_load: [[0 mm, 0 N], [1 mm, 900 N], [4 mm, 2100 N], [7 mm, 2350 N], [10 mm, 2050 N], [12 mm, 1950 N]]
release:
  original:
    fitted: true
    pedal: {ratio: 5.6, travel: 142 mm, free_play: 6 mm, efficiency: 95 %, stiffness: 140 .. 240 N/mm}
    master: {bore: 15.87 mm, dead_stroke: 1.4 mm, efficiency: 93 %}
    line: {length: 0.9 m, expansion: 0.10 .. 0.16 cm3/m/MPa, trapped_air: 0 .. 0.2 cm3}
    slave: {bore: 19.05 mm, fork_ratio: 1.6, efficiency: 92 %}
  metal-master:
    pedal: {ratio: 5.6, travel: 142 mm, free_play: 6 mm, efficiency: 95 %, stiffness: 1100 .. 1700 N/mm}
    master: {bore: 17.78 mm, dead_stroke: 1.2 mm, efficiency: 95 %}
    line: {length: 0.9 m, expansion: 0.05 .. 0.08 cm3/m/MPa, trapped_air: 0 .. 0.15 cm3}
    slave: {bore: 19.05 mm, fork_ratio: 1.6, efficiency: 92 %}
  concentric:
    pedal: {ratio: 5.0, travel: 142 mm}
    master: {bore: 19.05 mm}
    slave: {bore: 46 mm, sleeve: 32 mm}
`

const listed = `sizing:
  effort_limit: 230 N
  masters: [5/8 in, 17.78 mm, 3/4 in, 20.5 mm]
  slaves: [3/4 in, 7/8 in, 1 in]
  pedal_ratio_range: 5.4 .. 6.0
  hoses: {rubber: 0.30 cm3/m/MPa, braided: 0.05 .. 0.08 cm3/m/MPa}
`

func size(t *testing.T, text string, wanted workshop.SizeWanted) (*workshop.SizeAnswer, error) {
	t.Helper()
	reference, err := library.OpenReference()
	if err != nil {
		t.Fatal(err)
	}
	return workshop.Size(context.Background(), readJob(t, text), wanted, reference, workshop.Quick, nil)
}

func TestSizingTriesWhatTheJobFileListsAndElseTheReferenceTable(t *testing.T) {
	answer, err := size(t, toSize+listed, workshop.SizeWanted{Release: "metal-master"})
	if err != nil {
		t.Fatal(err)
	}
	if answer.Clutch != "two-disc" || answer.Tried != 4*3*4*2 || answer.EffortLimit != 230 || answer.FreesAtLeast != 0.95 {
		t.Errorf("%s with %s: %d tried within %v N", answer.Clutch, answer.Release, answer.Tried, answer.EffortLimit)
	}
	out := 0
	for _, o := range answer.Out {
		out += o.Choices
	}
	if out+answer.Good != answer.Tried || answer.Good < len(answer.Front) || len(answer.Front) == 0 {
		t.Errorf("%d out and %d good of %d, %d on the front", out, answer.Good, answer.Tried, len(answer.Front))
	}
	for i, c := range answer.Front {
		if c.Number != i+1 || c.PeakEffort > 230 || c.PFrees < 0.95 || !c.Stop.Known() || c.Out != "" {
			t.Errorf("on the front: %+v", c)
		}
		if i > 0 && c.PeakEffort < answer.Front[i-1].PeakEffort {
			t.Errorf("choice %d is lighter than the one before it", i+1)
		}
		if math.Abs(float64(142-c.BiteStart-c.BiteHeight)) > 1e-9 {
			t.Errorf("bite at %v mm of 142 mm stands %v mm high", c.BiteStart, c.BiteHeight)
		}
	}
	if present := answer.Present; present.Master != "0.700 in" || len(present.Changes) != 0 || present.Out == "" {
		t.Errorf("present parts: %+v", present)
	}

	all, err := size(t, toSize, workshop.SizeWanted{EffortLimit: 260})
	if err != nil {
		t.Fatal(err)
	}
	if all.Release != "original" || all.Tried != 22*22 || !strings.Contains(strings.Join(all.Notes, "\n"), "all 22 bores of the reference table are tried as slaves") {
		t.Errorf("%s: %d tried, notes %q", all.Release, all.Tried, all.Notes)
	}
}

// What a choice says of itself is what letting go says of a job with those parts.
func TestAChoiceOnTheFrontDoesWhatItSays(t *testing.T) {
	answer, err := size(t, toSize+listed, workshop.SizeWanted{Release: "metal-master"})
	if err != nil {
		t.Fatal(err)
	}
	c := answer.Front[len(answer.Front)-1]
	if c.Hose != "braided" || c.Master != "20.50 mm" {
		t.Fatalf("the heaviest choice is %+v, not the one that this test is about", c)
	}
	job := readJob(t, toSize)
	system := job.Release("metal-master")
	mm := func(f workshop.Figure) float64 { return float64(f) * 1e-3 }
	chain, knowns := workshop.Chain(job.Clutch("two-disc"), system)
	chain.System.Master.Bore, chain.System.Slave.Bore, chain.System.Pedal.Ratio = mm(c.MasterBore), mm(c.SlaveBore), float64(c.Ratio)
	a, err := release.Solve(chain, knowns, 4096, 1)
	if err != nil {
		t.Fatal(err)
	}
	// the braided hose is the present one's range, so that only its place among the draws differs
	if math.Abs(a.PeakEffort-float64(c.PeakEffort)) > 1e-9 || math.Abs(a.BiteStart-mm(c.BiteStart)) > 1e-12 || math.Abs(a.PBoth-float64(c.PGood)) > 0.01 {
		t.Errorf("said %+v, letting go says %+v", c, a)
	}
}

func TestHosesThatDoAreNamed(t *testing.T) {
	answer, err := size(t, toSize+listed, workshop.SizeWanted{Release: "metal-master", Dominated: true})
	if err != nil {
		t.Fatal(err)
	}
	both := 0
	for _, c := range answer.Front {
		if slices.Equal(c.HosesToo, []string{"rubber"}) {
			both++
			if !slices.ContainsFunc(answer.Dominated, func(d workshop.SizeChoice) bool {
				return d.Hose == "rubber" && d.Master == c.Master && d.Slave == c.Slave && d.Ratio == c.Ratio
			}) {
				t.Errorf("rubber is said to do with %+v, but is not among the good choices", c)
			}
		}
	}
	if both == 0 || len(answer.Dominated) != answer.Good-len(answer.Front) {
		t.Errorf("%d choices do with rubber; %d dominated of %d good", both, len(answer.Dominated), answer.Good)
	}
}

func TestWhereNothingIsGoodTheNearestIsNamed(t *testing.T) {
	heavy, err := size(t, toSize, workshop.SizeWanted{EffortLimit: 100})
	if err != nil {
		t.Fatal(err)
	}
	if heavy.Good != 0 || !strings.HasPrefix(heavy.Nearest, "the lightest that frees is master ") {
		t.Errorf("nearest: %q", heavy.Nearest)
	}
	short := strings.ReplaceAll(toSize, "travel: 142 mm", "travel: 60 mm")
	none, err := size(t, short+"sizing: {masters: [5/8 in], slaves: [1 in]}\n", workshop.SizeWanted{})
	if err != nil {
		t.Fatal(err)
	}
	if !strings.HasPrefix(none.Nearest, "none of these frees the clutch with any effort") {
		t.Errorf("nearest: %q", none.Nearest)
	}
}

func TestAConcentricSlaveKeepsItsSize(t *testing.T) {
	answer, err := size(t, toSize, workshop.SizeWanted{Release: "concentric"})
	if err != nil {
		t.Fatal(err)
	}
	if answer.Tried != 22 || answer.Present.Slave != "46.0 mm on 32.0 mm" || !strings.Contains(strings.Join(answer.Notes, "\n"), "the concentric slave stays as it is") {
		t.Errorf("%d tried, %+v, notes %q", answer.Tried, answer.Present, answer.Notes)
	}
}

func TestSizingSaysWhatItLacks(t *testing.T) {
	for _, c := range []struct {
		text   string
		wanted workshop.SizeWanted
		want   string
	}{
		{toSize, workshop.SizeWanted{Clutch: "three-disc"}, `pair: there is no clutch "three-disc" in this job; write for example original/original`},
		{toSize, workshop.SizeWanted{Release: "cable"}, `pair: there is no release system "cable" in this job; write for example original/original`},
		{toSize, workshop.SizeWanted{Clutch: "original"}, "clutch.original.lever_ratio: is needed to tell whether the clutch is let go"},
		{"layshaft: 1\ncar: {name: Corrie}\n", workshop.SizeWanted{}, "clutch: a clutch and the release system as it is are needed to look for bores"},
	} {
		if _, err := size(t, c.text, c.wanted); err == nil || err.Error() != c.want {
			t.Errorf("got  %v\nwant %s", err, c.want)
		}
	}
}

func TestSizingCanBeStopped(t *testing.T) {
	reference, err := library.OpenReference()
	if err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithCancel(context.Background())
	_, err = workshop.Size(ctx, readJob(t, toSize), workshop.SizeWanted{}, reference, workshop.Quick, func(done, total int) {
		if done == 10 {
			stop()
		}
	})
	if !errors.Is(err, context.Canceled) || !strings.HasPrefix(err.Error(), "stopped after ") {
		t.Errorf("got %v", err)
	}
}
