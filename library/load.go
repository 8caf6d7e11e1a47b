package library

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"

	"layshaft/stripdown"
	"layshaft/yamlfile"
)

// Load reads a layout. name stands for the file in messages. Every refusal is yamlfile.Problems: what is wrong,
// where, and what would be right.
func Load(name string, data []byte) (*Layout, error) {
	doc, err := yamlfile.Parse(name, data)
	if err != nil {
		return nil, err
	}
	var f file
	if err := doc.Decode(&f); err != nil {
		return nil, err
	}
	if problems := check(doc, &f); len(problems) > 0 {
		return nil, problems
	}
	sum := sha256.Sum256(data)
	l := &Layout{
		Name: f.Layout, Title: f.Title, Basis: f.Basis, About: f.About,
		File: name, Hash: hex.EncodeToString(sum[:]), bytes: slices.Clone(data),
	}
	for _, entry := range f.Operations {
		l.Operations = append(l.Operations, entry.Value.operation(entry.Name))
	}
	for _, entry := range f.Jobs {
		l.Jobs = append(l.Jobs, entry.Value.job(entry.Name))
	}
	l.Graph, err = stripdown.New(plain(l.Operations, l.Jobs))
	if err != nil {
		return nil, problemsOf(doc, &f, err)
	}
	return l, nil
}

const secondsPerHour = 3600

func (e *operationEntry) operation(name string) Operation {
	return Operation{
		Operation: stripdown.Operation{
			Name: name, Condition: e.Condition, Off: e.Off / secondsPerHour, On: e.On / secondsPerHour,
			Needs: e.Needs, AnyOf: e.AnyOf, Place: e.Place, People: e.People,
			SingleUse: e.SingleUse, Fluids: e.Fluids, Tighten: e.Tighten, Cautions: e.Caution,
		},
		TakeOff: e.TakeOff, PutBack: e.PutBack, Tools: e.Tools, WhichWay: e.WhichWay, Checks: e.Checks,
	}
}

func (e *jobEntry) job(name string) Job {
	job := Job{
		Job:   stripdown.Job{Name: name, Work: e.Work / secondsPerHour, Needs: e.Needs, AnyOf: e.AnyOf},
		Title: e.Title, Place: e.Place, Insist: advice(e.Insist), Advise: advice(e.Advise),
		Tighten: e.Tighten, WhichWay: e.WhichWay, Cautions: e.Caution, Checks: e.Checks,
	}
	for _, p := range e.Parts {
		quantity := 1.0
		if p.Quantity != nil {
			quantity = *p.Quantity
		}
		job.Parts = append(job.Parts, Part{p.Name, p.Price, quantity})
	}
	return job
}

func advice(entries []adviceEntry) []Advice {
	var all []Advice
	for _, e := range entries {
		all = append(all, Advice(e))
	}
	return all
}

// plain strips operations and jobs down to what the graph is made of.
func plain(ops []Operation, jobs []Job) ([]stripdown.Operation, []stripdown.Job) {
	bareOps, bareJobs := make([]stripdown.Operation, len(ops)), make([]stripdown.Job, len(jobs))
	for i, op := range ops {
		bareOps[i] = op.Operation
	}
	for i, job := range jobs {
		bareJobs[i] = job.Job
	}
	return bareOps, bareJobs
}
