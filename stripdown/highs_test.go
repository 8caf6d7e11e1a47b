package stripdown

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// solved is a line of testdata/highs.csv.
type solved struct {
	seed                      uint64
	operations, choices, jobs int
	hours                     float64
}

func (s solved) car() car { return rivals(s.seed, s.operations, s.choices, s.jobs) }

func readSolved(t *testing.T) []solved {
	t.Helper()
	f, err := os.Open("testdata/highs.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comment = '#'
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	number := func(text string) float64 {
		n, err := strconv.ParseFloat(text, 64)
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	var all []solved
	for _, row := range rows[1:] {
		all = append(all, solved{uint64(number(row[0])), int(number(row[1])), int(number(row[2])), int(number(row[3])), number(row[4])})
	}
	return all
}

// The hours in testdata/highs.csv were found by another solver, from the same cars written as integer programs.
func TestPlanAgreesWithHiGHS(t *testing.T) {
	cars := readSolved(t)
	if len(cars) != 60 {
		t.Fatalf("%d cars to compare, want 60", len(cars))
	}
	for _, s := range cars {
		c := s.car().oneJob()
		plan := mustPlan(t, c.graph(t), "all")
		if want := s.hours + c.work(); !near(plan.Together, want) || !plan.Proven {
			t.Errorf("seed %d of %d operations: %v h, proven %v; HiGHS found %v h", s.seed, s.operations, plan.Together, plan.Proven, want)
		}
	}
}

// oneJob makes one job of all, so that nothing else is computed beside what is compared.
func (c car) oneJob() car {
	all := Job{Name: "all"}
	for _, job := range c.jobs {
		all.Work += job.Work
		all.Needs = append(all.Needs, job.Needs...)
		all.AnyOf = append(all.AnyOf, job.AnyOf...)
	}
	return car{c.ops, []Job{all}}
}

// TestWriteLP writes the cars as CPLEX LP files, to be solved again by whatever reads those. The objective is in
// hundredths of an hour.
func TestWriteLP(t *testing.T) {
	folder := os.Getenv("STRIPDOWN_LP")
	if folder == "" {
		t.Skip("set STRIPDOWN_LP to a folder to write the cars of testdata/highs.csv there as LP files")
	}
	for _, s := range readSolved(t) {
		name := filepath.Join(folder, fmt.Sprintf("%d-%d.lp", s.operations, s.seed))
		if err := os.WriteFile(name, []byte(s.car().lp()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// lp writes a car as an integer program: a variable for each operation, a row for each need and group.
func (c car) lp() string {
	var b strings.Builder
	b.WriteString("Minimize\n hundredths:")
	for _, op := range c.ops {
		fmt.Fprintf(&b, " + %d %s\n", int(math.Round((op.Off+op.On)*100)), op.Name)
	}
	b.WriteString("Subject To\n")
	row := func(owner string, names ...string) {
		seen := map[string]bool{}
		for _, name := range names {
			if !seen[name] {
				fmt.Fprintf(&b, " + %s", name)
			}
			seen[name] = true
		}
		if owner == "" {
			b.WriteString(" >= 1\n")
		} else {
			fmt.Fprintf(&b, " - %s >= 0\n", owner)
		}
	}
	rows := func(owner string, needs []string, anyOf [][]string) {
		for _, need := range needs {
			row(owner, need)
		}
		for _, group := range anyOf {
			row(owner, group...)
		}
	}
	for _, op := range c.ops {
		rows(op.Name, op.Needs, op.AnyOf)
	}
	for _, job := range c.jobs {
		rows("", job.Needs, job.AnyOf)
	}
	b.WriteString("Binary\n")
	for _, op := range c.ops {
		fmt.Fprintf(&b, " %s\n", op.Name)
	}
	b.WriteString("End\n")
	return b.String()
}
