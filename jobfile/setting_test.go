package jobfile

import (
	"testing"

	"layshaft/release"
)

func TestSettingFile(t *testing.T) {
	car, _, err := ParseSetting("s.yaml", []byte(`layshaft: 1
pair: uprated/metal-master
setting: {free_play: 9 +- 0.5 mm, bite: 62 +- 2 mm, slave_travel: 11.9 +- 0.3 mm, effort: 205 N, at: 140 mm}
wanted: {free_play: 2 .. 4 mm}
done: {turns_longer: -0.5, stop: 131 mm}
after: {free_play: 3 mm, bite_height: 90 +- 2 mm, pressure: 4.1 MPa, at: 131 +- 1 mm}
`))
	if err != nil {
		t.Fatal(err)
	}
	near(t, "free play", car.Before.Taken[release.FreePlayRead].Mid(), 9e-3, 1e-12)
	near(t, "its uncertainty", car.Before.Taken[release.FreePlayRead].SD(), 0.5e-3, 1e-12)
	near(t, "bite", car.Before.Taken[release.BiteRead].Mid(), 62e-3, 1e-12)
	near(t, "slave travel", car.Before.Taken[release.SlaveTravelRead].Mid(), 11.9e-3, 1e-12)
	near(t, "effort", car.Before.Taken[release.EffortRead].Mid(), 205, 1e-12)
	near(t, "at", car.Before.At.Mid(), 0.14, 1e-12)
	near(t, "wanted", car.Wanted.FreePlayMax, 4e-3, 1e-12)
	near(t, "turns", *car.Done.Turns, -0.5, 0)
	near(t, "stop", *car.Done.Stop, 0.131, 1e-12)
	near(t, "bite height", car.After.BiteHeight.Mid(), 0.09, 1e-12)
	near(t, "pressure", car.After.Taken[release.PressureRead].Mid(), 4.1e6, 1e-6)
	if len(car.Before.Taken) != 4 || len(car.After.Taken) != 2 || car.Done.Rod != nil || car.Pair != "uprated/metal-master" {
		t.Errorf("%+v", car)
	}
}

func TestSettingFileIsRefused(t *testing.T) {
	const head = "layshaft: 1\npair: a/b\n"
	for _, c := range []struct{ text, want string }{
		{"layshaft: 2\npair: a/b\nsetting: {bite: 60 mm}\n", "s.yaml:1:11: layshaft: this program reads setting files of version 1, not 2"},
		{head, "s.yaml:1:1: setting: is missing"},
		{head + "setting: {free_play: 9}\n", `s.yaml:3:22: setting.free_play: "9" has no unit; write for example 9 +- 0.5 mm`},
		{head + "setting: {bite: 60 mm, bite_height: 90 mm}\n", "s.yaml:3:37: setting.bite_height: the bite is already given by its travel; leave one of them out"},
		{head + "setting: {bite: 60 mm}\nwanted: {free_play: 3 mm}\n", "s.yaml:4:21: wanted.free_play: a range has two ends; write for example 1 .. 5 mm"},
		{head + "setting: {bite: 60 mm}\ndone: {stop: 131 mm}\n", "s.yaml:4:1: done: what was done is of use once it was read again; add an after part, or leave this out"},
		{head + "setting: {bite: 60 mm}\nafter: {bite: 60 mm}\ndone: {rod_longer: 1 mm, turns_longer: 1}\n", "s.yaml:5:40: done.turns_longer: the rod's change is already given by rod_longer; leave one of them out"},
		{head + "setting: {slave_travl: 12 mm}\n", "s.yaml:3:11: setting.slave_travl: is not a known key; did you mean slave_travel?"},
	} {
		if _, _, err := ParseSetting("s.yaml", []byte(c.text)); err == nil || err.Error() != c.want {
			t.Errorf("got  %v\nwant %s", err, c.want)
		}
	}
}
