package diary

import (
	"slices"
	"strings"
)

// able lists those who have the skill; no skill is what everybody has.
func (s *Shop) able(skill string) (people []int) {
	for i, p := range s.People {
		if skill == "" || slices.Contains(p.Skills, skill) {
			people = append(people, i)
		}
	}
	return people
}

func (s *Shop) person(name string) int {
	return slices.IndexFunc(s.People, func(p Person) bool { return p.Name == name })
}

func (s *Shop) ramp(name string) int {
	return slices.IndexFunc(s.Ramps, func(r Ramp) bool { return r.Name == name })
}

func (s *Shop) rampsOf(kinds []string) (ramps []int) {
	for i, r := range s.Ramps {
		if slices.Contains(kinds, r.Kind) {
			ramps = append(ramps, i)
		}
	}
	return ramps
}

func (s *Shop) kinds() string {
	var kinds []string
	for _, r := range s.Ramps {
		if !slices.Contains(kinds, r.Kind) {
			kinds = append(kinds, r.Kind)
		}
	}
	if len(kinds) == 0 {
		return "no ramps"
	}
	return strings.Join(kinds, ", ")
}

func (s *Shop) toolCount(name string) int {
	for _, t := range s.Tools {
		if t.Name == name {
			return t.Count
		}
	}
	return 0
}

func (s *Shop) tool(name string) int {
	return slices.IndexFunc(s.Tools, func(t Tool) bool { return t.Name == name })
}

// teams lists whom a task can be given to: each one able, or each pair.
func (s *Shop) teams(t *Task) (teams [][]int) {
	able := s.able(t.Skill)
	for a, i := range able {
		if t.People == 1 {
			teams = append(teams, []int{i})
			continue
		}
		for _, j := range able[a+1:] {
			teams = append(teams, []int{i, j})
		}
	}
	return teams
}

// fitsOneStretch tells whether some team has the time at one stretch, on some day.
func (s *Shop) fitsOneStretch(able []int, t *Task) bool {
	for _, team := range s.teams(t) {
		for _, h := range s.together(team) {
			if h.minutes() >= t.Minutes {
				return true
			}
		}
	}
	return false
}

func (s *Shop) fitsAtAll(able []int, t *Task) bool {
	for _, team := range s.teams(t) {
		sum := 0
		for _, h := range s.together(team) {
			sum += h.minutes()
		}
		if sum >= t.Minutes {
			return true
		}
	}
	return false
}

// together is when all of the team work.
func (s *Shop) together(team []int) []Span {
	hours := s.People[team[0]].Hours
	for _, i := range team[1:] {
		hours = intersect(hours, s.People[i].Hours)
	}
	return hours
}

func intersect(a, b []Span) (both []Span) {
	for i, j := 0, 0; i < len(a) && j < len(b); {
		if s := (Span{max(a[i].From, b[j].From), min(a[i].To, b[j].To)}); s.From < s.To {
			both = append(both, s)
		}
		if a[i].To < b[j].To {
			i++
		} else {
			j++
		}
	}
	return both
}
