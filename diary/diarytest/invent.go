// Package diarytest invents workshops and their work, of any size, for tests and for measuring the planner.
package diarytest

import (
	"fmt"
	"math/rand/v2"

	"layshaft/diary"
)

// Size says how large a workshop to invent.
type Size struct {
	Cars, People, Ramps, Days int
	Tasks                     int  // about so many a car
	Hard                      bool // appointments and work under way as well
}

// Busy is a full month of a large shop: 30 cars, 600 tasks.
var Busy = Size{Cars: 30, People: 8, Ramps: 6, Days: 120, Tasks: 20}

// Small is a size at which every order can be tried.
var Small = Size{Cars: 3, People: 2, Ramps: 2, Days: 20, Tasks: 2}

var skills = []string{"mechanic", "gearbox", "electric", "fabricator"}

const day = 24 * 60

// Hours are a person's working hours over the days: 8 to 12 and 13 to 17 from Monday to Friday, the diary beginning
// on a Monday at 8; a day off is left out.
func Hours(days int, off func(day int) bool) (hours []diary.Span) {
	for d := range days {
		if d%7 >= 5 || (off != nil && off(d)) {
			continue
		}
		hours = append(hours, diary.Span{From: d * day, To: d*day + 240}, diary.Span{From: d*day + 300, To: d*day + 540})
	}
	return hours
}

// Invent makes a shop and its cars; the same seed makes the same ones.
func Invent(size Size, seed uint64) (*diary.Shop, []diary.Car) {
	rng := rand.New(rand.NewPCG(seed, 77))
	shop := &diary.Shop{Tools: []diary.Tool{{Name: "gearbox jack", Count: 1}, {Name: "press", Count: 1}}}
	for p := range size.People {
		off := rng.IntN(size.Days)
		person := diary.Person{Name: fmt.Sprintf("P%d", p+1), Skills: []string{"mechanic"},
			Hours: Hours(size.Days, func(d int) bool { return d == off })}
		for k, s := range skills[1:] {
			if p%3 == k || rng.IntN(4) == 0 {
				person.Skills = append(person.Skills, s)
			}
		}
		shop.People = append(shop.People, person)
	}
	kinds := []string{"two-post", "two-post", "four-post"}
	for r := range size.Ramps {
		shop.Ramps = append(shop.Ramps, diary.Ramp{Name: fmt.Sprintf("R%d", r+1), Kind: kinds[r%len(kinds)]})
	}
	var cars []diary.Car
	for c := range size.Cars {
		cars = append(cars, inventCar(shop, size, c, rng))
	}
	return shop, cars
}

func inventCar(shop *diary.Shop, size Size, number int, rng *rand.Rand) diary.Car {
	car := diary.Car{Name: fmt.Sprintf("car %d", number+1), Weight: 1 + float64(rng.IntN(4)), Arrives: rng.IntN(1+size.Cars/6) * day, Promise: diary.Never}
	n := max(1, size.Tasks/2+rng.IntN(size.Tasks+1))
	able := func() string {
		for {
			s := skills[rng.IntN(len(skills))]
			count := 0
			for _, p := range shop.People {
				for _, x := range p.Skills {
					if x == s {
						count++
					}
				}
			}
			if count > 1 {
				return s
			}
			if rng.IntN(3) == 0 {
				return "mechanic"
			}
		}
	}
	work := 0
	for i := range n {
		t := diary.Task{Name: fmt.Sprintf("task %d", i+1), Minutes: 15 * (1 + rng.IntN(10)), Spread: 0.25, Skill: able(), People: 1,
			Pauses: rng.IntN(3) > 0, Appointment: diary.Never}
		if rng.IntN(8) == 0 && size.People > 1 {
			t.People, t.Skill, t.Minutes = 2, "mechanic", 15*(1+rng.IntN(3))
		}
		if rng.IntN(10) == 0 {
			t.Tools = []string{shop.Tools[rng.IntN(len(shop.Tools))].Name}
		}
		if rng.IntN(10) == 0 {
			t.Parts = rng.IntN(5 * day)
		}
		if rng.IntN(4) == 0 {
			t.Ramps = []string{"two-post", "four-post"}
		}
		if i > 0 {
			t.After = []string{fmt.Sprintf("task %d", 1+rng.IntN(i))}
			if rng.IntN(3) > 0 {
				t.After = []string{fmt.Sprintf("task %d", i)}
			}
		}
		work += t.Minutes
		car.Tasks = append(car.Tasks, t)
	}
	if n >= 2 && rng.IntN(4) > 0 {
		strip(&car, rng)
	}
	if rng.IntN(5) > 0 {
		car.Promise = car.Arrives + (work/480+2+rng.IntN(size.Cars/2+2))*day
	} else {
		car.Weight = 0.1 // a long project
	}
	return car
}

// strip makes a stretch of the car's tasks a stay in which it cannot roll.
func strip(car *diary.Car, rng *rand.Rand) {
	n := len(car.Tasks)
	a := rng.IntN(n - 1)
	b := a + 1 + rng.IntN(n-a-1)
	for i := a; i <= b; i++ {
		if i > a {
			car.Tasks[i].After = []string{car.Tasks[i-1].Name}
		}
	}
	car.Tasks[a].Ramps, car.Tasks[b].Ramps = []string{"two-post"}, []string{"two-post"}
	for i := a; i <= b; i++ {
		if len(car.Tasks[i].Ramps) > 0 {
			car.Tasks[i].Ramps = []string{"two-post"}
		}
	}
	car.Tasks[a].Strips, car.Tasks[b].Refits = "gearbox", "gearbox"
}
