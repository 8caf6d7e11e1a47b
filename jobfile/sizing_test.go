package jobfile

import (
	"reflect"
	"testing"

	"layshaft/release"
	"layshaft/uncertain"
	"layshaft/workshop"
)

const sizingHead = "layshaft: 1\ncar: {name: Corrie}\n"

func TestSizingPart(t *testing.T) {
	job := mustParse(t, sizingHead+`sizing:
  effort_limit: 180 N
  frees: 98 %
  masters: [15.5 mm, 19.05 mm]
  slaves: [1 in]
  pedal_ratio_range: 5.0 .. 5.5
  hoses: {braided: 0.04 .. 0.06 cm3/m/MPa, steel: 0.01 cm3/m/MPa}
`, nil)
	want := &workshop.Sizing{EffortLimit: 180, Frees: 0.98, Masters: []float64{0.0155, 0.01905}, Slaves: []float64{0.0254},
		Ratios: []float64{5.0, 5 + 0.5/3, 5 + 1./3, 5.5},
		Hoses:  []release.Hose{{Name: "braided", Expansion: uncertain.Uniform(0.04e-12, 0.06e-12)}, {Name: "steel", Expansion: uncertain.Exact(0.01e-12)}}}
	if len(job.Sizing.Ratios) != 4 {
		t.Fatalf("ratios %v", job.Sizing.Ratios)
	}
	for i, r := range want.Ratios {
		near(t, "ratio", job.Sizing.Ratios[i], r, 1e-12)
	}
	for i, hose := range want.Hoses {
		near(t, hose.Name, job.Sizing.Hoses[i].Expansion.Mid(), hose.Expansion.Mid(), 1e-25)
	}
	want.Ratios, want.Hoses = job.Sizing.Ratios, job.Sizing.Hoses
	if !reflect.DeepEqual(job.Sizing, want) {
		t.Errorf("got %+v, want %+v", job.Sizing, want)
	}
	if mustParse(t, sizingHead, nil).Sizing != nil {
		t.Error("nothing to choose from was given, and something is there")
	}
}

func TestSizingPartIsRefused(t *testing.T) {
	for _, c := range []struct{ part, want string }{
		{"sizing: {masters: [19.05]}\n", `car.yaml:3:20: sizing.masters[0]: "19.05" has no unit; write for example 5/8 in`},
		{"sizing: {pedal_ratios: [5.6], pedal_ratio_range: 5 .. 6}\n", "car.yaml:3:50: sizing.pedal_ratio_range: the ratios are already listed; leave one of them out"},
		{"sizing: {pedal_ratio_range: 5.6}\n", "car.yaml:3:29: sizing.pedal_ratio_range: a range has two ends; write for example 5.0 .. 6.2"},
		{"sizing: {effort_limit: 0 N}\n", `car.yaml:3:24: sizing.effort_limit: "0 N" must be more than zero; write for example 180 N`},
		{"sizing: {frees: 120 %}\n", `car.yaml:3:17: sizing.frees: "120 %" must be at most 100 %; write for example 95 %`},
		{"sizing: {hoses: {braided: 0.05}}\n", `car.yaml:3:27: sizing.hoses.braided: "0.05" has no unit; write for example 0.04 .. 0.06 cm3/m/MPa`},
		{"sizing: {master: [5/8 in]}\n", "car.yaml:3:10: sizing.master: is not a known key; did you mean masters?"},
	} {
		if _, err := parsed(t, sizingHead+c.part, nil); err == nil || err.Error() != c.want {
			t.Errorf("got  %v\nwant %s", err, c.want)
		}
	}
}
