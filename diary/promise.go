package diary

import (
	"math"
	"math/rand/v2"
	"slices"
)

// Chance is how sure a car's day is: when it is ready, sorted over many draws.
type Chance struct {
	Car   string
	Ready []int
}

// By is the time by which the car is ready with the probability.
func (c *Chance) By(probability float64) int {
	k := int(math.Ceil(probability*float64(len(c.Ready)))) - 1
	return c.Ready[min(max(k, 0), len(c.Ready)-1)]
}

// InTime is the chance that the car is ready by the time.
func (c *Chance) InTime(by int) float64 {
	k, _ := slices.BinarySearch(c.Ready, by+1)
	return float64(k) / float64(len(c.Ready))
}

// Promise draws the lengths of all tasks anew, log-normal about the likely one (which is the median), and goes
// through the plan in its own order: each task by the same people on the same ramp, after the same tasks, as soon as
// they are free. It tells when each car is ready, draw by draw. That durations of work are about log-normal is common
// practice, no source; parts are taken to come when they were said to.
func Promise(shop *Shop, cars []Car, plan *Plan, draws int, seed uint64) []Chance {
	r := newReplay(shop, cars, plan)
	rng := rand.New(rand.NewPCG(seed, 0xd1a))
	chances := make([]Chance, len(plan.Cars))
	at := map[string]int{}
	for k, c := range plan.Cars {
		chances[k] = Chance{c.Name, make([]int, draws)}
		at[c.Name] = k
	}
	for d := range draws {
		for i := range r.steps {
			t := r.steps[i].task
			r.length[i] = max(1, int(math.Round(float64(t.Minutes)*math.Exp(t.Spread*rng.NormFloat64()))))
		}
		r.run()
		for i, p := range plan.Tasks {
			if k, there := at[p.Car]; there {
				chances[k].Ready[d] = max(chances[k].Ready[d], r.end[i])
			}
		}
	}
	for k := range chances {
		slices.Sort(chances[k].Ready)
	}
	return chances
}

// replay is a plan as an order: which steps each step waits for.
type replay struct {
	steps  []step
	length []int
	start  []int
	end    []int
}

type step struct {
	task  *Task
	hours []Span
	after []int // steps that must have ended
	from  int
}

func newReplay(shop *Shop, cars []Car, plan *Plan) *replay {
	n := len(plan.Tasks)
	r := &replay{steps: make([]step, n), length: make([]int, n), start: make([]int, n), end: make([]int, n)}
	byCar := map[string]*Car{}
	for c := range cars {
		byCar[cars[c].Name] = &cars[c]
	}
	for i, p := range plan.Tasks {
		car := byCar[p.Car]
		t := &car.Tasks[slices.IndexFunc(car.Tasks, func(t Task) bool { return t.Name == p.Task })]
		var team []int
		for _, name := range p.People {
			team = append(team, shop.person(name))
		}
		s := step{task: t, hours: shop.together(team), from: max(0, car.Arrives, t.Parts)}
		if t.Appointment != Never {
			s.from = max(s.from, p.From)
		}
		for k, o := range plan.Tasks[:i] {
			if waitsFor(t, &p, &o, plan) {
				s.after = append(s.after, k)
			}
		}
		r.steps[i] = s
	}
	return r
}

// waitsFor tells whether the later task waits for the earlier one: by its links, for the people, for the ramp until
// the other's stay is over, or for a tool.
func waitsFor(t *Task, p, o *Placed, plan *Plan) bool {
	if p.Car == o.Car && slices.Contains(t.After, o.Task) {
		return true
	}
	if o.To > p.From {
		return false
	}
	for _, name := range p.People {
		if slices.Contains(o.People, name) {
			return true
		}
	}
	if p.Ramp != "" && p.Ramp == o.Ramp && p.Car != o.Car {
		return true
	}
	return o.Car == p.Car && o.Ramp != "" && p.Ramp != "" && o.Ramp != p.Ramp
}

func (r *replay) run() {
	for i := range r.steps {
		s := &r.steps[i]
		from := s.from
		for _, k := range s.after {
			from = max(from, r.end[k])
		}
		at, ok := work(s.hours, nil, from, r.length[i], s.task.Pauses)
		if !ok { // longer than any stretch of work: it pauses all the same
			at, ok = work(s.hours, nil, from, r.length[i], true)
		}
		if !ok { // past the end of the diary: day and night from there on
			at = Span{from, max(from, r.lastHour(s)) + r.length[i]}
		}
		r.start[i], r.end[i] = at.From, at.To
	}
}

func (r *replay) lastHour(s *step) int {
	if len(s.hours) == 0 {
		return 0
	}
	return s.hours[len(s.hours)-1].To
}
