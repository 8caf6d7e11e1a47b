package diary

import "fmt"

// Wait is one link of the chain that made a car ready when it is: what started then, and what it waited for.
type Wait struct {
	Car, Task string
	From      int
	For       string
}

// chain goes back from the last task of a car: from each start to what ended last before it. A start that nothing
// but the beginning, the arrival or the parts held up ends the chain.
func (s *scheduler) chain(car int) (waits []Wait) {
	at := -1
	for i := range s.nodes {
		if s.nodes[i].car == car && (at < 0 || s.span[i].To > s.span[at].To) {
			at = i
		}
	}
	for range s.nodes {
		why, next := s.heldBy(at)
		x := &s.nodes[at]
		waits = append(waits, Wait{s.cars[x.car].Name, x.Name, s.span[at].From, why})
		if next < 0 {
			break
		}
		at = next
	}
	return waits
}

// heldBy finds what a task waited for last, and the task whose end that was, -1 if it was none.
func (s *scheduler) heldBy(m int) (why string, next int) {
	x := &s.nodes[m]
	start := s.span[m].From
	if x.Under != nil {
		return "is under way", -1
	}
	if x.Appointment != Never && start == x.Appointment {
		return "has its appointment", -1
	}
	latest := -1
	next = -1
	note := func(at, task int, text string) {
		if at <= start && at > latest {
			latest, next, why = at, task, text
		}
	}
	for _, p := range x.before {
		note(s.span[p].To, p, fmt.Sprintf("after %s", s.nodes[p].Name))
	}
	if arrives := s.cars[x.car].Arrives; arrives > 0 {
		note(arrives, -1, "the car comes")
	}
	if x.Parts > 0 {
		note(x.Parts, -1, "its parts come")
	}
	if x.earliest > max(x.Parts, s.cars[x.car].Arrives) {
		note(x.earliest, -1, "all parts for the time on the ramp come")
	}
	for i := range s.nodes {
		o := &s.nodes[i]
		if i == m || s.span[i].To > start || s.span[i].From < 0 {
			continue
		}
		name := fmt.Sprintf("%s of %s", o.Name, s.cars[o.car].Name)
		for _, p := range s.by[m].people {
			for _, q := range s.by[i].people {
				if p == q {
					note(s.span[i].To, i, fmt.Sprintf("%s was at %s", s.shop.People[p].Name, name))
				}
			}
		}
		if s.on[m] >= 0 && s.on[m] == s.on[i] && o.car != x.car {
			note(s.span[i].To, i, fmt.Sprintf("%s was taken until %s", s.shop.Ramps[s.on[m]].Name, name))
		}
		for _, t := range x.tools {
			for _, u := range o.tools {
				if t == u {
					note(s.span[i].To, i, fmt.Sprintf("%s was used for %s", s.shop.Tools[t].Name, name))
				}
			}
		}
	}
	if latest < 0 {
		return "is the first thing that can be done", -1
	}
	return why, next
}
