package library

import (
	"errors"
	"fmt"
	"io/fs"
	"path"
	"slices"

	"layshaft/worth"
	"layshaft/yamlfile"
)

// findingsFile is the name of the file with the shop's findings in one of its folders. It is no layout.
const findingsFile = "findings.yaml"

// Findings are the shop's own records of what it found when it looked: how often a part was worn, and at which
// distance. None are built in: nobody else's records tell what this shop sees.
type Findings struct {
	File    string
	Basis   string  // where the records come from
	Horizon float64 // how far ahead one asks whether a part will be needed, m; 0 where the shop has not said
	Jobs    yamlfile.Map[JobFindings]
}

// JobFindings are the findings on what one job renews.
type JobFindings struct {
	Means      string  // what counts as worn
	Collateral float64 // damage that comes with waiting until it is needed, as a part of the job's price by itself
	Look       *Look   // nil where the shop has not said how it looks
	Looked     int
	Found      int             // of them worn
	Lives      []worth.Finding // those with the distance known, m since the part was new
}

// Look is the job by which one sees whether another is needed.
type Look struct {
	Job        string  `key:"job" need:"yes" like:"inspect-cross-pins"`
	Detects    float64 `key:"detects" of:"percent" need:"yes" like:"90 %" check:">=0,<=1"`
	FalseAlarm float64 `key:"false_alarm" of:"percent" like:"5 %" check:">=0,<=1"`
}

// writtenFindings is the file as it is written.
type writtenFindings struct {
	Basis   string                       `key:"basis" need:"yes" like:"our job cards since 2019"`
	Horizon float64                      `key:"horizon" of:"length" like:"40000 km" check:">0"`
	Jobs    yamlfile.Map[findingsOfAJob] `key:"jobs" need:"yes"`
}

type findingsOfAJob struct {
	Means      string        `key:"means"`
	Collateral float64       `key:"collateral" of:"percent" like:"25 %" check:">=0"`
	Look       *Look         `key:"look"`
	Looked     int           `key:"looked" like:"10" check:">=0"`
	Found      int           `key:"found" like:"7" check:">=0"`
	Looks      []writtenLook `key:"looks"`
}

type writtenLook struct {
	Odometer float64  `key:"odometer" of:"length" need:"yes" like:"81000 mi" check:">0"`
	Found    bool     `key:"found" need:"yes" like:"yes"`
	Since    *float64 `key:"since" of:"length" like:"60000 mi" check:">=0"`
	Fitted   float64  `key:"fitted" of:"length" like:"40000 mi" check:">=0"`
	Failed   bool     `key:"failed"`
}

// Findings are the shop's, or nil where its folders have none.
func (l *Library) Findings() *Findings { return l.findings }

// On are the findings on what a job renews; empty where there are none. f may be nil.
func (f *Findings) On(job string) JobFindings {
	if f == nil {
		return JobFindings{}
	}
	found, _ := f.Jobs.Get(job)
	return found
}

// SeenBy is the job of a layout whose need is seen by doing another one, the look; false where that is no look.
func (f *Findings) SeenBy(look string, layout *Layout) (job string, isLook bool) {
	if f == nil {
		return "", false
	}
	for _, entry := range f.Jobs {
		_, known := layout.Job(entry.Name)
		if known && entry.Value.Look != nil && entry.Value.Look.Job == look {
			return entry.Name, true
		}
	}
	return "", false
}

// findingsIn reads the findings of the folders. There may be one file of them; the jobs it names must be in some
// layout, so that a slip of the pen does not leave records unused.
func findingsIn(folders []Folder, layouts *Library) (*Findings, error) {
	var found *Findings
	for _, folder := range folders {
		file := path.Join(folder.Name, findingsFile)
		data, err := fs.ReadFile(folder.Files, findingsFile)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			continue
		case err != nil:
			return nil, fmt.Errorf("%s: %w", file, err)
		case found != nil:
			return nil, fmt.Errorf("%s: there are findings in %s already; keep all of them in one file", file, found.File)
		}
		if found, err = loadFindings(file, data, layouts.jobNames()); err != nil {
			return nil, err
		}
	}
	return found, nil
}

// jobNames are those of all layouts, each once.
func (l *Library) jobNames() []string {
	var names []string
	for _, layout := range l.Layouts() {
		names = append(names, layout.JobNames()...)
	}
	slices.Sort(names)
	return slices.Compact(names)
}

func loadFindings(name string, data []byte, jobs []string) (*Findings, error) {
	doc, err := yamlfile.Parse(name, data)
	if err != nil {
		return nil, err
	}
	var f writtenFindings
	if err := doc.Decode(&f); err != nil {
		return nil, err
	}
	if problems := checkFindings(doc, &f, jobs); len(problems) > 0 {
		return nil, problems
	}
	findings := &Findings{File: name, Basis: f.Basis, Horizon: f.Horizon}
	for _, entry := range f.Jobs {
		findings.Jobs = append(findings.Jobs, yamlfile.Named[JobFindings]{Name: entry.Name, Value: entry.Value.findings()})
	}
	return findings, nil
}

// findings adds the looks of the list to those that were only counted.
func (e *findingsOfAJob) findings() JobFindings {
	j := JobFindings{
		Means: e.Means, Collateral: e.Collateral, Look: e.Look,
		Looked: e.Looked + len(e.Looks), Found: e.Found,
	}
	for _, look := range e.Looks {
		if look.Found {
			j.Found++
		}
		j.Lives = append(j.Lives, look.life())
	}
	return j
}

// life counts the distance from where the part went in.
func (l *writtenLook) life() worth.Finding {
	lived := l.Odometer - l.Fitted
	switch {
	case !l.Found:
		return worth.SoundAt(lived)
	case l.Failed:
		return worth.FailedAt(lived)
	case l.Since != nil:
		return worth.WornBetween(*l.Since-l.Fitted, lived)
	}
	return worth.WornBy(lived)
}

func checkFindings(doc *yamlfile.Document, f *writtenFindings, jobs []string) yamlfile.Problems {
	c := &checker{doc: doc}
	for _, entry := range f.Jobs {
		key, e := "jobs."+entry.Name, entry.Value
		c.knownJob(key, entry.Name, jobs)
		if e.Look != nil {
			c.knownJob(key+".look.job", e.Look.Job, jobs)
			if e.Look.Job == entry.Name {
				c.refuse(key+".look.job", "job %q is not a look at itself; name the job by which one sees whether it is needed", entry.Name)
			}
			if e.Look.FalseAlarm >= e.Look.Detects {
				c.refuse(key+".look.false_alarm", "a look that raises false alarms as often as it detects wear tells nothing; leave the look out")
			}
		}
		if e.Found > e.Looked {
			c.refuse(key+".found", "found %d times of %d looked: looked is how often one looked at all", e.Found, e.Looked)
		}
		for i := range e.Looks {
			c.writtenLook(fmt.Sprintf("%s.looks[%d]", key, i), &e.Looks[i])
		}
	}
	return firstOf(c.problems)
}

func (c *checker) knownJob(key, job string, jobs []string) {
	if slices.Contains(jobs, job) {
		return
	}
	if near := yamlfile.Nearest(job, jobs); near != "" {
		c.refuse(key, "no layout has a job called %q; did you mean %q?", job, near)
		return
	}
	c.refuse(key, "no layout has a job called %q", job)
}

func (c *checker) writtenLook(key string, l *writtenLook) {
	if l.Fitted >= l.Odometer {
		c.refuse(key+".fitted", "the part cannot have been fitted at or after the odometer at which it was looked at")
	}
	if l.Failed && !l.Found {
		c.refuse(key+".failed", "a part that failed was found worn; write found: yes")
	}
	if l.Since == nil {
		return
	}
	switch {
	case !l.Found:
		c.refuse(key+".since", "a part found sound was last seen sound at this odometer; leave since out")
	case l.Failed:
		c.refuse(key+".since", "where it failed is known; leave since out")
	case *l.Since >= l.Odometer || *l.Since < l.Fitted:
		c.refuse(key+".since", "since is where it was last seen sound, between where it was fitted and this look")
	}
}
