package jobfile

import "testing"

func fieldNamed(t *testing.T, groups []Group, key string) Field {
	t.Helper()
	for _, g := range groups {
		for _, f := range g.Fields {
			if f.Key == key {
				return f
			}
		}
	}
	t.Fatalf("no field %s", key)
	return Field{}
}

func TestFormShowsWhatIsWrittenAndWhatCouldBe(t *testing.T) {
	groups := Form([]byte(small + "engine: {power: 380 bhp, at: 6200 rpm}\n"))
	bore := fieldNamed(t, groups, "release.metal-master.slave.bore")
	if bore.Value != "20.64 mm" || bore.Label != "Slave bore" || !bore.Needed {
		t.Errorf("slave bore: %+v", bore)
	}
	play := fieldNamed(t, groups, "release.metal-master.pedal.free_play")
	if play.Value != "" || play.Example != "6 mm" || play.Needed {
		t.Errorf("free play that is not in the file: %+v", play)
	}
	if power := fieldNamed(t, groups, "engine.power"); power.Value != "380 bhp" {
		t.Errorf("power: %+v", power)
	}
}

func TestFormWritesTablesOnOneLine(t *testing.T) {
	groups := Form([]byte("clutch:\n  a:\n    bearing_load:\n      - [0 mm, 0 N]\n      - [4 mm, 2100 N]\n"))
	if got := fieldNamed(t, groups, "clutch.a.bearing_load").Value; got != "[[0 mm, 0 N], [4 mm, 2100 N]]" {
		t.Errorf("got %q", got)
	}
}
