package check

import (
	"fmt"
	"slices"

	"layshaft/diary"
)

// Diary lists all that is wrong with a plan of a workshop, going by the definition minute by minute of each task.
func Diary(shop *diary.Shop, cars []diary.Car, plan *diary.Plan) (wrong []string) {
	c := &diaryCheck{shop: shop, plan: plan, cars: map[string]*diary.Car{}, at: map[[2]string]*diary.Placed{}}
	for i := range cars {
		c.cars[cars[i].Name] = &cars[i]
	}
	for i := range plan.Tasks {
		t := &plan.Tasks[i]
		if c.at[[2]string{t.Car, t.Task}] != nil {
			c.say("%s, %s: stands in the plan twice", t.Car, t.Task)
		}
		c.at[[2]string{t.Car, t.Task}] = t
	}
	for i := range plan.Tasks {
		c.task(&plan.Tasks[i])
	}
	c.twoThingsAtOnce()
	c.ramps()
	c.tools()
	for _, o := range plan.Cars {
		c.car(&o)
	}
	return c.wrong
}

type diaryCheck struct {
	shop  *diary.Shop
	plan  *diary.Plan
	cars  map[string]*diary.Car
	at    map[[2]string]*diary.Placed
	wrong []string
}

func (c *diaryCheck) say(format string, args ...any) {
	c.wrong = append(c.wrong, fmt.Sprintf(format, args...))
}

func (c *diaryCheck) taskOf(p *diary.Placed) *diary.Task {
	car := c.cars[p.Car]
	for i := range car.Tasks {
		if car.Tasks[i].Name == p.Task {
			return &car.Tasks[i]
		}
	}
	panic("check: a task that no car has: " + p.Task)
}

func (c *diaryCheck) task(p *diary.Placed) {
	t, car := c.taskOf(p), c.cars[p.Car]
	if t.Under == nil && (p.From < 0 || p.From < car.Arrives || p.From < t.Parts) {
		c.say("%s, %s: starts at %d, before now, the car or its parts", p.Car, p.Task, p.From)
	}
	if t.Under != nil && (p.From != 0 || !slices.Equal(p.People, t.Under.People)) {
		c.say("%s, %s: is under way and was moved", p.Car, p.Task)
	}
	for _, name := range t.After {
		if b := c.at[[2]string{p.Car, name}]; b == nil || b.To > p.From {
			c.say("%s, %s: starts before %s has ended", p.Car, p.Task, name)
		}
	}
	if len(p.People) != t.People {
		c.say("%s, %s: %d people instead of %d", p.Car, p.Task, len(p.People), t.People)
	}
	c.hours(p, t)
	if len(t.Ramps) > 0 {
		ok := false
		for _, r := range c.shop.Ramps {
			ok = ok || (r.Name == p.Ramp && (slices.Contains(t.Ramps, r.Kind) || t.Under != nil))
		}
		if !ok {
			c.say("%s, %s: is on %q, which does not serve", p.Car, p.Task, p.Ramp)
		}
	}
}

// hours counts, minute by minute, when all of the team are at work.
func (c *diaryCheck) hours(p *diary.Placed, t *diary.Task) {
	worked := 0
	for now := p.From; now < p.To; now++ {
		all := true
		for _, name := range p.People {
			all = all && c.atWork(name, now)
		}
		if all {
			worked++
		} else if !t.Pauses && t.Under == nil {
			c.say("%s, %s: may not pause, and somebody is away at %d", p.Car, p.Task, now)
			return
		}
	}
	if worked != t.Minutes {
		c.say("%s, %s: %d minutes of work instead of %d", p.Car, p.Task, worked, t.Minutes)
	}
	for _, name := range p.People {
		for _, q := range c.shop.People {
			if q.Name == name && t.Skill != "" && t.Under == nil && !slices.Contains(q.Skills, t.Skill) {
				c.say("%s, %s: %s cannot do it", p.Car, p.Task, name)
			}
		}
	}
}

func (c *diaryCheck) atWork(name string, now int) bool {
	for _, q := range c.shop.People {
		if q.Name == name {
			for _, h := range q.Hours {
				if h.From <= now && now < h.To {
					return true
				}
			}
		}
	}
	return false
}

func meet(a, b diary.Span) bool { return a.From < b.To && b.From < a.To }

func (c *diaryCheck) twoThingsAtOnce() {
	for i, a := range c.plan.Tasks {
		for _, b := range c.plan.Tasks[i+1:] {
			if !meet(a.Span, b.Span) {
				continue
			}
			for _, name := range a.People {
				if slices.Contains(b.People, name) {
					c.say("%s is at %s of %s and at %s of %s at once", name, a.Task, a.Car, b.Task, b.Car)
				}
			}
			if a.Car == b.Car && a.Ramp != "" && b.Ramp != "" && a.Ramp != b.Ramp {
				c.say("%s is on %s and on %s at once", a.Car, a.Ramp, b.Ramp)
			}
		}
	}
}

// ramps looks at each stretch in which a car cannot roll, from the tasks alone: it is on one ramp, which no other car
// uses, and so is every task on a ramp for its own time.
func (c *diaryCheck) ramps() {
	type held struct {
		diary.Span
		car, ramp string
	}
	var all []held
	for _, a := range c.plan.Tasks {
		if a.Ramp == "" {
			continue
		}
		all = append(all, held{a.Span, a.Car, a.Ramp})
		word := c.taskOf(&a).Strips
		if word == "" {
			continue
		}
		for _, b := range c.plan.Tasks {
			if b.Car == a.Car && c.taskOf(&b).Refits == word {
				all = append(all, held{diary.Span{From: a.From, To: b.To}, a.Car, a.Ramp})
				if a.Ramp != b.Ramp || b.From < a.To && a.Task != b.Task {
					c.say("%s: stripped on %s at %d and refitted on %s at %d", a.Car, a.Ramp, a.From, b.Ramp, b.From)
				}
			}
		}
	}
	for i, a := range all {
		for _, b := range all[i+1:] {
			if !meet(a.Span, b.Span) {
				continue
			}
			if a.car != b.car && a.ramp == b.ramp {
				c.say("%s and %s are both on %s", a.car, b.car, a.ramp)
			}
			if a.car == b.car && a.ramp != b.ramp {
				c.say("%s is moved from %s to %s while it cannot roll", a.car, a.ramp, b.ramp)
			}
		}
	}
}

func (c *diaryCheck) tools() {
	for _, tool := range c.shop.Tools {
		var uses []diary.Span
		for i := range c.plan.Tasks {
			if slices.Contains(c.taskOf(&c.plan.Tasks[i]).Tools, tool.Name) {
				uses = append(uses, c.plan.Tasks[i].Span)
			}
		}
		for _, a := range uses {
			n := 0
			for _, b := range uses {
				if b.From <= a.From && a.From < b.To {
					n++
				}
			}
			if n > tool.Count {
				c.say("%d of %s are used at %d and there are %d", n, tool.Name, a.From, tool.Count)
			}
		}
	}
}

func (c *diaryCheck) car(o *diary.Outcome) {
	car := c.cars[o.Name]
	end := 0
	for _, t := range car.Tasks {
		p := c.at[[2]string{o.Name, t.Name}]
		if p == nil {
			c.say("%s, %s: is not in the plan", o.Name, t.Name)
			continue
		}
		end = max(end, p.To)
	}
	if end != o.To || o.Late != max(0, end-car.Promise) {
		c.say("%s: ready at %d by its tasks, %d by the plan, late by %d", o.Name, end, o.To, o.Late)
	}
	if end < o.Bound {
		c.say("%s: ready at %d, sooner than its bound %d", o.Name, end, o.Bound)
	}
}
