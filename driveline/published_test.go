package driveline

import (
	"encoding/csv"
	"maps"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"layshaft/quantity"
)

// published is one worked example from a book or page, from testdata/published.csv. The file says for each where it
// stands and whether the figure was seen there ("seen"), partly seen ("part") or recalled ("memory").
type published struct {
	*testing.T
	id              string
	inputs, outputs map[string]figure
	tolerances      map[string]string
	answered        map[string]bool
}

type figure struct {
	values []float64
	unit   string
}

// inSI converts a figure by its unit; units of products that quantity has no dimension for are SI already.
func (f figure) inSI(i int) float64 {
	switch f.unit {
	case "degF apart":
		return f.values[i] * 5 / 9
	case "ft lbf/lb/degF":
		return f.values[i] * quantity.From(1, "lbf ft") / quantity.From(1, "lb") * 9 / 5
	case "", "J/kg/K", "W/m/K", "W/m2/K", "m2/s", "J/m2", "J/m", "1/s", "kg m2", "kg/m3":
		return f.values[i]
	}
	return quantity.From(f.values[i], f.unit)
}

// in returns an input in SI units.
func (p *published) in(name string) float64 { return p.nth(name, 0) }

// nth returns one of several values of an input in SI units.
func (p *published) nth(name string, i int) float64 {
	p.Helper()
	f, ok := p.inputs[name]
	if !ok {
		p.Fatalf("%s has no input %q", p.id, name)
	}
	return f.inSI(i)
}

// answer returns a published output in SI units, for an inverse problem that is checked by putting the answer back.
// It counts as checked.
func (p *published) answer(name string) float64 {
	p.Helper()
	p.answered[name] = true
	f, ok := p.outputs[name]
	if !ok {
		p.Fatalf("%s has no output %q", p.id, name)
	}
	return f.inSI(0)
}

// check compares a computed figure in SI units with the published output, in its unit and by its tolerance.
func (p *published) check(name string, si float64) {
	p.Helper()
	want := p.answer(name)
	kind, text, _ := strings.Cut(p.tolerances[name], ":")
	tolerance, _ := strconv.ParseFloat(text, 64)
	unit := 1.0 // a kelvin for temperatures
	if f := p.outputs[name]; f.values[0] != 0 && f.unit != "degC" {
		unit = want / f.values[0]
	}
	off := math.Abs(si - want)
	allowed := tolerance * unit
	if kind == "rel" {
		allowed = tolerance * math.Abs(want)
	}
	if !(off <= allowed) {
		p.Errorf("%s: %s = %.9g, published %.9g (SI), off by %.3g, allowed %.3g", p.id, name, si, want, off, allowed)
	}
}

// near compares two figures by a relative tolerance.
func near(t testing.TB, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance*math.Abs(want)) {
		t.Errorf("%s = %.12g, want %.12g within %g of it", what, got, want, tolerance)
	}
}

func TestPublishedExamplesComeOut(t *testing.T) {
	checks := map[string]func(*published){}
	for _, topic := range []map[string]func(*published){
		capacityExamples, engagementExamples, vehicleExamples, partExamples, heatExamples,
	} {
		maps.Copy(checks, topic)
	}
	for _, p := range readPublished(t) {
		t.Run(p.id, func(t *testing.T) {
			check, ok := checks[p.id]
			if !ok {
				t.Fatal("no check for this example")
			}
			p.T = t
			check(p)
			for name := range p.outputs {
				if !p.answered[name] {
					t.Errorf("output %s is not checked", name)
				}
			}
		})
		delete(checks, p.id)
	}
	for id := range checks {
		t.Errorf("%s is checked but not in the file", id)
	}
}

func readPublished(t *testing.T) []*published {
	file, err := os.Open("testdata/published.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	records, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var all []*published
	for _, r := range records[1:] {
		all = append(all, &published{
			T: t, id: r[0], inputs: figures(t, r[2]), outputs: figures(t, r[3]), tolerances: pairs(r[4]),
			answered: map[string]bool{},
		})
	}
	return all
}

// figures reads "name[unit]=value;..."; several values of a name are parted by bars.
func figures(t *testing.T, text string) map[string]figure {
	all := map[string]figure{}
	for key, value := range pairs(text) {
		name, unit, _ := strings.Cut(strings.TrimSuffix(key, "]"), "[")
		f := figure{unit: unit}
		for part := range strings.SplitSeq(value, "|") {
			v, err := strconv.ParseFloat(part, 64)
			if err != nil {
				t.Fatalf("%s: %v", key, err)
			}
			f.values = append(f.values, v)
		}
		all[name] = f
	}
	return all
}

func pairs(text string) map[string]string {
	all := map[string]string{}
	for part := range strings.SplitSeq(text, ";") {
		key, value, _ := strings.Cut(part, "=")
		all[key] = value
	}
	return all
}
