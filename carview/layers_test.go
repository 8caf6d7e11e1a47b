package carview

import (
	"context"
	"io/fs"
	"slices"
	"testing"

	"layshaft/examples"
	"layshaft/jobfile"
	"layshaft/library"
	"layshaft/workshop"
)

func strip(t *testing.T, example string) *workshop.StripAnswer {
	t.Helper()
	text, err := fs.ReadFile(examples.Files, example+".yaml")
	if err != nil {
		t.Fatal(err)
	}
	job, _, err := jobfile.Parse(example, text, nil)
	if err != nil {
		t.Fatal(err)
	}
	layout, err := workshop.LayoutFor(job, library.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	answer, err := workshop.Strip(context.Background(), job, layout, nil)
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

// Following a job's needs outwards through the picture must meet every operation that comes off for it, and no other.
func TestLayersLeadToAllThatComesOffForAJob(t *testing.T) {
	answer := strip(t, "street-saloon")
	layers := Layers(answer)
	needs := map[string][]string{}
	for _, op := range layers.Ops {
		needs[op.Key] = op.Needs
	}
	if len(layers.Jobs) != 2 || len(layers.Ops) != len(answer.Off) {
		t.Fatalf("%d jobs, %d operations for %d that come off", len(layers.Jobs), len(layers.Ops), len(answer.Off))
	}
	for _, job := range layers.Jobs {
		if len(job.Needs) == 0 {
			t.Fatalf("%s stands behind nothing", job.Key)
		}
		met := map[string]bool{}
		for next := job.Needs; len(next) > 0; next = next[1:] {
			if !met[next[0]] {
				met[next[0]] = true
				next = append(next, needs[next[0]]...)
			}
		}
		for _, step := range answer.Steps {
			if serves := slices.Contains(step.Jobs, job.Key); serves != met[step.Name] {
				t.Errorf("%s for %s: comes off %v, in the picture %v", step.Name, job.Key, serves, met[step.Name])
			}
		}
	}
}
