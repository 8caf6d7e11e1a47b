package workshop_test

import (
	"math"
	"strings"
	"testing"

	"layshaft/jobfile"
	"layshaft/release"
	"layshaft/uncertain"
	"layshaft/workshop"
)

// toSet is a pair whose air, box and hose are only roughly known.
const toSet = `layshaft: 1
car: {name: Corrie}
clutch:
  two-disc:
    discs: 2
    facing: {outer: 200 mm, inner: 140 mm, friction: 0.33}
    clamp_load: 9.4 kN
    lever_ratio: 3.9
    cushion: 0.3 .. 0.4 mm
    finger_travel_max: 9.5 mm
    bearing_load: [[0 mm, 0 N], [1 mm, 900 N], [4 mm, 2100 N], [7 mm, 2350 N], [10 mm, 2050 N], [12 mm, 1950 N]]
release:
  metal-master:
    pedal: {ratio: 5.8, travel: 150 mm, free_play: 6 mm, efficiency: 95 %, stiffness: 600 .. 1600 N/mm, rod_pitch: 1.25 mm}
    master: {bore: 19.05 mm, stroke: 33 mm, dead_stroke: 0.9 .. 1.6 mm, efficiency: 95 %}
    line: {length: 1.8 m, expansion: 0.06 .. 0.14 cm3/m/MPa, fluid_volume: 30 cm3, bulk_modulus: 1.6 GPa, trapped_air: 0 .. 0.6 cm3}
    slave: {bore: 20.64 mm, fork_ratio: 1.6, efficiency: 92 %}
  concentric:
    pedal: {ratio: 5.8, travel: 150 mm, stiffness: 600 .. 1600 N/mm}
    master: {bore: 19.05 mm}
    slave: {bore: 46 mm, sleeve: 32 mm}
`

// trueCar is one of the cars that toSet may be, with its free play.
func trueCar(t *testing.T, play float64) release.Chain {
	t.Helper()
	job := readJob(t, toSet)
	chain, _ := workshop.Chain(job.Clutch("two-disc"), job.Release("metal-master"))
	chain.System.Pedal.FreePlay, chain.System.Pedal.Stiffness = play, 800e3
	chain.System.Line.TrappedAir, chain.System.Line.Expansion = 0.35e-6, 0.12e-12
	return chain
}

// readOff reads free play, bite and slave travel off a car without error.
func readOff(c *release.Chain, pad float64) workshop.SettingTaken {
	at := uncertain.Exact(pad)
	return workshop.SettingTaken{SettingReadings: release.SettingReadings{At: &at, Taken: map[release.SettingKind]uncertain.Value{
		release.FreePlayRead:    uncertain.Normal(c.System.Pedal.FreePlay, 0.4e-3),
		release.BiteRead:        uncertain.Normal(c.PedalTravel(c.Clutch.Cushion*c.Clutch.LeverRatio), 2e-3),
		release.SlaveTravelRead: uncertain.Normal(c.At(pad).Slave, 0.2e-3),
	}}}
}

func setUp(t *testing.T, car *workshop.CarSetting) *workshop.SetAnswer {
	t.Helper()
	answer, err := workshop.SetUp(readJob(t, toSet), car, workshop.Quick)
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

func TestACarIsSetUpFromItsReadings(t *testing.T) {
	truth := trueCar(t, 9e-3)
	a := setUp(t, &workshop.CarSetting{Pair: "two-disc/metal-master", Before: readOff(&truth, 0.14)})
	if a.Advice.Rod != "longer" || a.Advice.TurnsLonger != 0.75 || math.Abs(float64(a.Advice.RodLonger)-0.9375) > 1e-9 {
		t.Errorf("rod %s by %v turns, %v mm", a.Advice.Rod, a.Advice.TurnsLonger, a.Advice.RodLonger)
	}
	set := truth
	set.System.Pedal.FreePlay = 9e-3 - 5.8*0.9375e-3
	stop := float64(a.Advice.Stop) * 1e-3
	at := set.At(stop)
	if at.Finger < set.Clutch.FingerTravelNeeded() || at.Finger > set.Clutch.FingerTravelMax || a.Advice.PGood < 0.95 {
		t.Errorf("at the stop advised, %g m, the true car's fingers stand at %g m; said good with %v", stop, at.Finger, a.Advice.PGood)
	}
	for _, e := range a.Expected {
		truly := map[string]float64{"free_play": set.System.Pedal.FreePlay * 1e3, "bite": set.PedalTravel(0.35e-3*3.9) * 1e3,
			"slave_travel": at.Slave * 1e3, "bearing_travel": at.Bearing * 1e3, "effort": at.Effort, "pressure": at.Pressure / 1e6}[e.Reading]
		if truly < float64(e.P05) || truly > float64(e.P95) {
			t.Errorf("%s is expected at %v .. %v %s, the true car has %g", e.Reading, e.P05, e.P95, e.Unit, truly)
		}
	}
}

func TestReadingsAfterwardsCloseTheRecord(t *testing.T) {
	truth := trueCar(t, 9e-3)
	car := &workshop.CarSetting{Pair: "two-disc/metal-master", Before: readOff(&truth, 0.14)}
	first := setUp(t, car)
	stop := float64(first.Advice.Stop) * 1e-3
	set := truth
	set.System.Pedal.FreePlay = 9e-3 - 5.8*0.9375e-3

	after := readOff(&set, stop)
	car.After = &after
	good := setUp(t, car).After
	if good.Word != release.AsExpected || good.PGood < 0.95 || good.WhatNow != "lock rod and stop, have a second person check both, and enter the readings" || len(good.Readings) != 3 {
		t.Errorf("as advised: %+v", good)
	}

	air := set
	air.System.Line.TrappedAir = 4e-6
	after = readOff(&air, stop)
	bad := setUp(t, car).After
	if bad.Word != release.NotExpected || !strings.Contains(bad.WhatNow, "do not drive it") || !strings.Contains(bad.WhatNow, "diagnose") {
		t.Errorf("with air let in: %+v", bad)
	}

	// somebody turned the rod the other way, and says so: the readings are as they should be, the setting is not good
	wrong := truth
	wrong.System.Pedal.FreePlay = 9e-3 + 5.8*0.9375e-3
	after = readOff(&wrong, stop)
	turns := -0.75
	car.Done = workshop.SettingDone{Turns: &turns}
	shorter := setUp(t, car).After
	if shorter.Word != release.AsExpected || shorter.PGood > 0.01 || !strings.Contains(shorter.WhatNow, "set it anew") || math.Abs(float64(shorter.RodLonger)+0.9375) > 1e-9 {
		t.Errorf("turned the other way: %+v", shorter)
	}
}

func TestBiteMayBeToldByItsHeight(t *testing.T) {
	truth := trueCar(t, 8e-3)
	byTravel := &workshop.CarSetting{Pair: "two-disc/metal-master", Before: readOff(&truth, 0.14)}
	byHeight := &workshop.CarSetting{Pair: "two-disc/metal-master", Before: readOff(&truth, 0.14)}
	bite := byHeight.Before.Taken[release.BiteRead]
	delete(byHeight.Before.Taken, release.BiteRead)
	height := uncertain.Normal(0.150-bite.Mid(), bite.SD())
	byHeight.Before.BiteHeight = &height
	one, other := setUp(t, byTravel), setUp(t, byHeight)
	if one.Advice.Stop != other.Advice.Stop || len(other.Before) != 2 || math.Abs(float64(one.Before[0].Read-other.Before[0].Read)) > 1e-9 {
		t.Errorf("by travel %+v, by height %+v", one.Advice, other.Advice)
	}
}

func TestStepsCarryTheirCautions(t *testing.T) {
	truth := trueCar(t, 9e-3)
	steps := func(a *workshop.SetAnswer) string {
		var all []string
		for _, s := range a.Advice.Steps {
			all = append(append(all, s.Do), s.Cautions...)
		}
		return strings.Join(all, "\n")
	}
	fork := steps(setUp(t, &workshop.CarSetting{Pair: "two-disc/metal-master", Before: readOff(&truth, 0.14)}))
	for _, want := range []string{"make the rod longer by 0.75 turns (0.94 mm)", "press slave or fork fully back by hand", "Nobody is under the car",
		"holds the master's port shut", "A second person measures rest, free play and stop", "tighten the lock nut", "the maker's own figure comes first"} {
		if !strings.Contains(fork, want) {
			t.Errorf("the steps lack %q:\n%s", want, fork)
		}
	}
	play := workshop.SettingTaken{SettingReadings: release.SettingReadings{Taken: map[release.SettingKind]uncertain.Value{release.FreePlayRead: uncertain.Normal(3e-3, 0.2e-3)}}}
	concentric := steps(setUp(t, &workshop.CarSetting{Pair: "two-disc/concentric", Before: play, Wanted: &release.Wanted{FreePlayMin: 2e-3, FreePlayMax: 4e-3}}))
	for _, want := range []string{"Leave the rod as it is", "Fluid must well up in the reservoir", "Never stroke a concentric slave", "Wanted are 2 to 4 mm (the setting file)"} {
		if !strings.Contains(concentric, want) {
			t.Errorf("the steps lack %q:\n%s", want, concentric)
		}
	}
	far := readOff(&truth, 0.14)
	far.Taken[release.SlaveTravelRead] = uncertain.Normal(6e-3, 0.2e-3)
	if got := setUp(t, &workshop.CarSetting{Pair: "two-disc/metal-master", Before: far}); !strings.HasPrefix(got.Advice.Steps[0].Do, "Before anything is set, read again") || !strings.HasSuffix(got.Advice.Steps[0].Do, "slave_travel 6 mm.") {
		t.Errorf("the first step is %q", got.Advice.Steps[0].Do)
	}
}

func TestASettingThatCannotBeIsRefusedByItsKey(t *testing.T) {
	for _, c := range []struct{ file, want string }{
		{"pair: two-disc/cable\nsetting: {free_play: 9 mm}\n", `pair: there is no release system "cable" in this job; write for example two-disc/metal-master`},
		{"pair: two-disc/metal-master\nsetting: {slave_travel: 12 mm}\n", "setting.at: say at which pedal travel slave_travel was read"},
		{"pair: two-disc/metal-master\nsetting: {free_play: 9 mm}\nafter: {slave_travel: 12 mm}\n", "after.at: say at which pedal travel slave_travel was read"},
		{"pair: two-disc/metal-master\nsetting: {}\n", "setting: nothing was read; give two or three of free_play, bite, slave_travel, bearing_travel, effort, pressure"},
		{"pair: two-disc/concentric\nsetting: {free_play: 9 mm}\nafter: {free_play: 3 mm}\ndone: {turns_longer: 1}\n", "done.turns_longer: the pitch of the rod's thread is not known; write how much longer it is by rod_longer"},
	} {
		car, _, err := jobfile.ParseSetting("s.yaml", []byte("layshaft: 1\n"+c.file))
		if err != nil {
			t.Fatal(err)
		}
		if _, err := workshop.SetUp(readJob(t, toSet), car, workshop.Quick); err == nil || err.Error() != c.want {
			t.Errorf("got  %v\nwant %s", err, c.want)
		}
	}
}
