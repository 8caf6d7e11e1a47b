package picture

import (
	"math"
	"strings"
)

// Strip shows the car coming apart: what has to come off to reach the wanted work, from the outside on the left to
// the work on the right, and which work shares it.
type Strip struct {
	Title, Desc string
	Ops         []StripOp
	Jobs        []StripJob
}

// StripOp is one operation of stripping and refitting.
type StripOp struct {
	Key   string // names it in Needs and in the data attributes; without spaces
	Name  string
	Hours float64  // off and on together
	Needs []string // keys of what has to come off before
}

// StripJob is wanted work.
type StripJob struct {
	Key, Name string
	Work      float64 // hours at the work itself
	Adds      float64 // hours that it adds to the rest
	Alone     float64 // hours if it were the only work
	Needs     []string
}

// Scene draws the layers.
func (s Strip) Scene(size Size) *Scene {
	p := s.plan()
	if size == Narrow {
		return p.narrow()
	}
	return p.wide()
}

// jobKeys are the keys of the jobs that an operation serves.
func (p *stripPlan) jobKeys(op int) string {
	var keys []string
	for _, j := range p.serves[op] {
		keys = append(keys, p.Jobs[j].Key)
	}
	return strings.Join(keys, " ")
}

// opGroup opens the group of an operation, ready to be picked out by a page.
func (p *stripPlan) opGroup(g *Group, op int) *Group {
	class := "op"
	if len(p.serves[op]) > 1 {
		class = "op shared"
	}
	o := p.Ops[op]
	return g.Group(class, o.Name+": "+number(o.Hours, 1)+" h off and on", Datum{"op", o.Key}, Datum{"jobs", p.jobKeys(op)})
}

func (p *stripPlan) jobGroup(g *Group, job int) *Group {
	j := p.Jobs[job]
	return g.Group("job", j.Name, Datum{"job", j.Key})
}

const opBar = 11.0 // height

// opBar draws an operation's hours as a bar with its left end at x; shared access is tinted and hatched.
func (p *stripPlan) bar(g *Group, op int, x, y, perHour float64) {
	long := math.Max(2, length(p.Ops[op].Hours)*perHour)
	area := rect(x, y-opBar/2, long, opBar)
	p.fill(g, area, len(p.serves[op]))
	words := number(p.Ops[op].Hours, 1) + " h"
	g.writeOver(Text{X: x + long + 6, Y: y + 4, Size: stripText - 0.5, Role: Ink, Words: words})
}

func (p *stripPlan) fill(g *Group, area Path, jobs int) {
	if jobs > 1 {
		g.filled(area, hatch{angle: -45, spacing: 3.4}, Band, Proposed)
		return
	}
	g.Draw(area, Style{Fill: Metal, Stroke: Ink, Width: thin})
}

const stripText = 11.5

// key explains the bars.
func (p *stripPlan) key(g *Group, x, y float64) {
	for _, k := range []struct {
		jobs  int
		words string
	}{{2, "serves several jobs"}, {1, "serves one"}} {
		p.fill(g, rect(x, y-9, 26, opBar), k.jobs)
		g.Write(Text{X: x + 33, Y: y, Size: stripText - 0.5, Role: Quiet, Words: k.words})
		x += 33 + TextWidth(k.words, stripText-0.5, false) + 18
	}
}

// jobHours says what a job costs in time.
func jobHours(j StripJob) string {
	return "adds " + number(j.Adds, 1) + " h, alone " + number(j.Alone, 1) + " h"
}
