package diary

import (
	"math"
	"slices"
)

// bounds are proven: they hold for every plan of these cars in this shop.
type bounds struct {
	ready []int // by car: it cannot be ready sooner, even if it had all hands and places to itself
	end   int
	late  float64
}

func (s *scheduler) bounds() bounds {
	b := bounds{ready: make([]int, len(s.cars))}
	start := s.alone(b.ready)
	for c, at := range b.ready {
		b.end = max(b.end, at)
		if promise := s.cars[c].Promise; promise < at {
			b.late += s.cars[c].Weight * float64(at-promise)
		}
	}
	b.end = max(b.end, s.handsBound(start))
	return b
}

// alone goes forward through each car's tasks, each done by whoever is able and at work at the moment, as if nobody
// had anything else to do. It gives the earliest start of each task.
func (s *scheduler) alone(ready []int) (start []int) {
	start = make([]int, len(s.nodes))
	end := make([]int, len(s.nodes))
	order := s.orderBy(make([]float64, len(s.blocks)), nil)
	for _, b := range order {
		for _, m := range s.members[b] {
			x := &s.nodes[m]
			if x.Under != nil {
				start[m], end[m] = 0, s.underEnd(m)
			} else {
				from := x.earliest
				for _, p := range x.before {
					from = max(from, end[p])
				}
				if x.Appointment != Never {
					from = max(from, x.Appointment)
				}
				start[m] = from
				at, ok := work(s.anyone(x), nil, from, x.Minutes, x.Pauses)
				if end[m] = at.To; !ok {
					end[m] = from + x.Minutes
				}
			}
			ready[x.car] = max(ready[x.car], end[m])
		}
	}
	return start
}

func (s *scheduler) underEnd(m int) int {
	var people []int
	for _, name := range s.nodes[m].Under.People {
		people = append(people, s.shop.person(name))
	}
	hours := s.shop.together(people)
	end, ok := run(hours[timeline(hours).after(0):], 0, s.nodes[m].Minutes)
	if !ok {
		return s.nodes[m].Minutes
	}
	return end
}

// anyone is when some team that can do the task is at work.
func (s *scheduler) anyone(x *node) []Span {
	var all []Span
	for _, t := range x.teams {
		all = append(all, t.hours...)
	}
	return union(all)
}

func union(spans []Span) (joined []Span) {
	slices.SortFunc(spans, func(a, b Span) int { return a.From - b.From })
	for _, s := range spans {
		if k := len(joined) - 1; k >= 0 && s.From <= joined[k].To {
			joined[k].To = max(joined[k].To, s.To)
			continue
		}
		joined = append(joined, s)
	}
	return joined
}

// handsBound is for sets of skills: what needs one of them is done by those who have one of them, and there are only
// so many hands. It counts from every time before which some of the work cannot start.
func (s *scheduler) handsBound(start []int) (best int) {
	var skills []string
	for i := range s.nodes {
		if !slices.Contains(skills, s.nodes[i].Skill) {
			skills = append(skills, s.nodes[i].Skill)
		}
	}
	if len(skills) > 10 {
		skills = skills[:10]
	}
	for set := 1; set < 1<<len(skills); set++ {
		has := func(skill string) bool {
			k := slices.Index(skills, skill)
			return k >= 0 && set>>k&1 != 0
		}
		best = max(best, s.setBound(has, start))
	}
	return best
}

func (s *scheduler) setBound(has func(skill string) bool, start []int) (best int) {
	able := make([]bool, len(s.shop.People))
	var times []int
	for i := range s.nodes {
		if !has(s.nodes[i].Skill) {
			continue
		}
		if !slices.Contains(times, start[i]) {
			times = append(times, start[i])
		}
		for _, p := range s.shop.able(s.nodes[i].Skill) {
			able[p] = true
		}
	}
	slices.Sort(times)
	if len(times) > 24 { // every one counts, but a few tell nearly all
		times = times[:24]
	}
	for _, from := range times {
		minutes := 0
		for i := range s.nodes {
			if has(s.nodes[i].Skill) && start[i] >= from {
				minutes += s.nodes[i].Minutes * s.nodes[i].People
			}
		}
		best = max(best, s.handsDone(able, from, minutes))
	}
	return best
}

// handsDone is when so many minutes of work are done if all those able do nothing else from the time on.
func (s *scheduler) handsDone(able []bool, from, minutes int) int {
	type change struct{ at, by int }
	var changes []change
	for p, yes := range able {
		if !yes {
			continue
		}
		for _, h := range s.shop.People[p].Hours {
			if h.To > from {
				changes = append(changes, change{max(h.From, from), 1}, change{h.To, -1})
			}
		}
	}
	slices.SortFunc(changes, func(a, b change) int { return a.at - b.at })
	at, hands := from, 0
	for _, c := range changes {
		if done := (c.at - at) * hands; done >= minutes && hands > 0 {
			return at + int(math.Ceil(float64(minutes)/float64(hands)))
		} else {
			minutes -= done
		}
		at, hands = c.at, hands+c.by
	}
	return at
}
