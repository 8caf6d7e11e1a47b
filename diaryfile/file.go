// Package diaryfile reads the diary file, the written form of a workshop and the work in it, for package diary.
// docs/diary.md describes the format to people.
package diaryfile

import (
	"fmt"
	"math"
	"time"

	"layshaft/diary"
	"layshaft/yamlfile"
)

// Version is the number that a diary file carries in its first key.
const Version = 1

// file is the diary file as it is written.
type file struct {
	Version int                      `key:"layshaft" need:"yes"`
	Diary   diaryPart                `key:"diary" need:"yes"`
	People  yamlfile.Map[personPart] `key:"people" need:"yes"`
	Ramps   yamlfile.Map[string]     `key:"ramps"`
	Tools   yamlfile.Map[int]        `key:"tools"`
	Cars    yamlfile.Map[carPart]    `key:"cars" need:"yes"`
	Notes   string                   `key:"notes"`
}

type diaryPart struct {
	Start    moment   `key:"start" need:"yes" like:"2027-03-01 08:00"`
	Days     int      `key:"days"`
	Holidays []moment `key:"holidays" like:"2027-03-05"`
	Spread   *float64 `key:"spread" of:"number" like:"25 %" check:">=0,<=2"`
}

type personPart struct {
	Skills []string `key:"skills"`
	Hours  []hours  `key:"hours" need:"yes" like:"mon-fri 08:00-12:00 12:30-16:30"`
	Off    []moment `key:"off" like:"2027-03-05"`
}

type carPart struct {
	Arrives    *moment                `key:"arrives" like:"2027-03-01 08:00"`
	Promise    *moment                `key:"promise" like:"2027-03-04 16:00"`
	Weight     *float64               `key:"weight" of:"number" like:"1" check:">=0,<=1000000"`
	StripEarly bool                   `key:"strip_early"`
	Tasks      yamlfile.Map[taskPart] `key:"tasks" need:"yes"`
}

type taskPart struct {
	Time        float64    `key:"time" of:"time" need:"yes" like:"1.5 h"`
	Spread      *float64   `key:"spread" of:"number" like:"25 %" check:">=0,<=2"`
	Skill       string     `key:"skill"`
	People      *int       `key:"people"`
	Ramp        []string   `key:"ramp"`
	Tools       []string   `key:"tools"`
	After       []string   `key:"after"`
	Parts       *moment    `key:"parts" like:"2027-03-03 10:00"`
	Pauses      bool       `key:"pauses"`
	Strips      string     `key:"strips"`
	Refits      string     `key:"refits"`
	Appointment *moment    `key:"appointment" like:"2027-03-03 10:00"`
	UnderWay    *underPart `key:"under_way"`
}

type underPart struct {
	People []string `key:"people" need:"yes"`
	Ramp   string   `key:"ramp"`
}

// Diary is a file that has been read.
type Diary struct {
	Shop  *diary.Shop
	Cars  []diary.Car
	Start time.Time // wall clock; the zone has no meaning
}

const (
	usualDays   = 60
	mostDays    = 1000
	usualSpread = 0.25 // common practice, no source
	mostMinutes = 1_000_000
)

// Parse reads a diary file; the name stands in messages.
func Parse(name string, text []byte) (*Diary, error) {
	doc, err := yamlfile.Parse(name, text)
	if err != nil {
		return nil, err
	}
	var f file
	if err := doc.Decode(&f); err != nil {
		return nil, err
	}
	r := &reader{doc: doc, file: &f}
	d := r.diary()
	if len(r.problems) > 0 {
		return nil, r.problems
	}
	return d, nil
}

type reader struct {
	doc      *yamlfile.Document
	file     *file
	problems yamlfile.Problems
	spread   float64
}

func (r *reader) fault(key, format string, args ...any) {
	r.problems = append(r.problems, r.doc.Fault(key, format, args...))
}

func (r *reader) diary() *Diary {
	f := r.file
	if f.Version != Version {
		r.fault("layshaft", "is %d; this program reads diary files of version %d", f.Version, Version)
	}
	if f.Diary.Days == 0 {
		f.Diary.Days = usualDays
	}
	if f.Diary.Days < 1 || f.Diary.Days > mostDays {
		r.fault("diary.days", "is %d; 1 to %d are possible", f.Diary.Days, mostDays)
		return nil
	}
	r.spread = given(f.Diary.Spread, usualSpread)
	d := &Diary{Shop: &diary.Shop{}, Start: f.Diary.Start.time}
	for _, p := range f.People {
		d.Shop.People = append(d.Shop.People, diary.Person{Name: p.Name, Skills: p.Value.Skills, Hours: r.hours(&p.Value)})
	}
	for _, x := range f.Ramps {
		d.Shop.Ramps = append(d.Shop.Ramps, diary.Ramp{Name: x.Name, Kind: x.Value})
	}
	for _, x := range f.Tools {
		if x.Value < 0 || x.Value > 100 {
			r.fault("tools."+x.Name, "is %d; how many there are, 0 to 100", x.Value)
		}
		d.Shop.Tools = append(d.Shop.Tools, diary.Tool{Name: x.Name, Count: x.Value})
	}
	for _, c := range f.Cars {
		d.Cars = append(d.Cars, r.car(c.Name, &c.Value))
	}
	return d
}

// hours lays a person's week over the days of the diary.
func (r *reader) hours(p *personPart) (spans []diary.Span) {
	start := r.file.Diary.Start.time
	off := map[time.Time]bool{}
	for _, m := range append(append([]moment{}, r.file.Diary.Holidays...), p.Off...) {
		off[day(m.time)] = true
	}
	for k := range r.file.Diary.Days {
		date := day(start).AddDate(0, 0, k)
		if off[date] {
			continue
		}
		for _, h := range p.Hours {
			if !h.days[date.Weekday()] {
				continue
			}
			for _, s := range h.spans {
				from := minutesTo(start, date) + s.From
				to := minutesTo(start, date) + s.To
				if to > 0 {
					spans = append(spans, diary.Span{From: max(from, 0), To: to})
				}
			}
		}
	}
	return tidy(spans)
}

func (r *reader) car(name string, c *carPart) diary.Car {
	car := diary.Car{Name: name, Arrives: r.minute(c.Arrives, false, 0), Promise: r.minute(c.Promise, true, diary.Never),
		Weight: given(c.Weight, 1), StripEarly: c.StripEarly}
	for _, t := range c.Tasks {
		key := fmt.Sprintf("cars.%s.tasks.%s", name, t.Name)
		car.Tasks = append(car.Tasks, r.task(key, t.Name, &t.Value))
	}
	return car
}

func (r *reader) task(key, name string, t *taskPart) diary.Task {
	minutes := math.Round(t.Time / 60)
	if minutes < 1 || minutes > mostMinutes {
		r.fault(key+".time", "is %g minutes; 1 to %d are possible", t.Time/60, mostMinutes)
		minutes = 1
	}
	task := diary.Task{Name: name, Minutes: int(minutes), Spread: given(t.Spread, r.spread), Skill: t.Skill, People: given(t.People, 1),
		Ramps: t.Ramp, Tools: t.Tools, After: t.After, Parts: r.minute(t.Parts, false, 0), Pauses: t.Pauses, Strips: t.Strips, Refits: t.Refits,
		Appointment: r.minute(t.Appointment, false, diary.Never)}
	if t.UnderWay != nil {
		task.Under = &diary.Under{People: t.UnderWay.People, Ramp: t.UnderWay.Ramp}
	}
	if t.Appointment != nil && task.Appointment < 0 {
		r.fault(key+".appointment", "lies before the diary's start; say under_way if the work has begun")
	}
	return task
}

func (r *reader) minute(m *moment, endOfDay bool, absent int) int {
	switch {
	case m == nil:
		return absent
	case m.never:
		return diary.Never
	case m.wholeDay && endOfDay:
		return minutesTo(r.file.Diary.Start.time, m.time.AddDate(0, 0, 1))
	}
	return minutesTo(r.file.Diary.Start.time, m.time)
}

func given[T any](value *T, otherwise T) T {
	if value == nil {
		return otherwise
	}
	return *value
}
