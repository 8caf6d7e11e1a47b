package diary

import (
	"fmt"
	"slices"
	"strings"
)

// sift parts the cars that can be planned from those that cannot, and says why of each.
func sift(shop *Shop, cars []Car) (fit []Car, faults []Fault) {
	names := map[string]bool{}
	for _, car := range cars {
		found := carFaults(shop, &car)
		if names[car.Name] {
			found = append(found, Fault{car.Name, "", "another car has this name", false})
		}
		names[car.Name] = true
		whole := true
		for _, f := range found {
			whole = whole && f.Planned
		}
		faults = append(faults, found...)
		if whole && len(car.Tasks) > 0 {
			fit = append(fit, car)
		}
	}
	return fit, faults
}

func carFaults(shop *Shop, car *Car) (faults []Fault) {
	say := func(task, format string, args ...any) {
		faults = append(faults, Fault{car.Name, task, fmt.Sprintf(format, args...), false})
	}
	if car.Promise < 0 {
		faults = append(faults, Fault{car.Name, "", "was promised for a time that has passed; it is planned as late", true})
	}
	seen := map[string]bool{}
	for i := range car.Tasks {
		t := &car.Tasks[i]
		if seen[t.Name] {
			say(t.Name, "another task of this car has this name")
		}
		seen[t.Name] = true
		if why := taskFault(shop, t); why != "" {
			say(t.Name, "%s", why)
		}
	}
	for i := range car.Tasks {
		for _, name := range car.Tasks[i].After {
			if !seen[name] {
				say(car.Tasks[i].Name, "waits for %q, which is no task of this car", name)
			}
		}
	}
	if len(faults) > 0 && slices.ContainsFunc(faults, func(f Fault) bool { return !f.Planned }) {
		return faults
	}
	if circle := circularWait(car); circle != "" {
		say("", "these wait for one another: %s", circle)
		return faults
	}
	for _, why := range stayFaults(shop, car) {
		say("", "%s", why)
	}
	return faults
}

func taskFault(shop *Shop, t *Task) string {
	if t.Minutes <= 0 {
		return fmt.Sprintf("a length of %d minutes is not possible", t.Minutes)
	}
	if t.People < 1 || t.People > 2 {
		return fmt.Sprintf("%d people: one or two can work at a task", t.People)
	}
	if t.Parts == Never {
		return "nobody has said when its part comes; get a date, or leave the task out"
	}
	able := shop.able(t.Skill)
	if len(able) < t.People {
		return fmt.Sprintf("needs %d with the skill %q; there %s", t.People, t.Skill, isAre(len(able)))
	}
	if !t.Pauses && !shop.fitsOneStretch(able, t) {
		return fmt.Sprintf("takes %d minutes at a stretch, and nobody able works that long without a break; say that it may pause, or part it", t.Minutes)
	}
	if t.Pauses && !shop.fitsAtAll(able, t) {
		return "nobody able works long enough in the days of this diary; make the diary longer"
	}
	if len(t.Ramps) > 0 && len(shop.rampsOf(t.Ramps)) == 0 {
		return fmt.Sprintf("needs a ramp of the kind %s; the shop has %s", strings.Join(t.Ramps, " or "), shop.kinds())
	}
	for _, tool := range t.Tools {
		if shop.toolCount(tool) == 0 {
			return fmt.Sprintf("needs the tool %q, which the shop does not have", tool)
		}
	}
	return underFault(shop, t)
}

func underFault(shop *Shop, t *Task) string {
	if t.Under == nil {
		return ""
	}
	if len(t.Under.People) != t.People {
		return fmt.Sprintf("is under way with %d people and needs %d", len(t.Under.People), t.People)
	}
	for _, name := range t.Under.People {
		if shop.person(name) < 0 {
			return fmt.Sprintf("is under way by %q, who is not of this shop", name)
		}
	}
	if len(t.Ramps) > 0 && shop.ramp(t.Under.Ramp) < 0 {
		return fmt.Sprintf("is under way on the ramp %q, which the shop does not have", t.Under.Ramp)
	}
	return ""
}

func isAre(n int) string {
	switch n {
	case 0:
		return "is nobody"
	case 1:
		return "is one"
	}
	return fmt.Sprintf("are %d", n)
}

// circularWait names tasks that wait for one another.
func circularWait(car *Car) string {
	at := map[string]int{}
	for i, t := range car.Tasks {
		at[t.Name] = i
	}
	const open, done = 1, 2
	state := make([]int, len(car.Tasks))
	var path []string
	var circle string
	var visit func(i int) bool
	visit = func(i int) bool {
		path = append(path, car.Tasks[i].Name)
		state[i] = open
		for _, name := range car.Tasks[i].After {
			j := at[name]
			if state[j] == open {
				circle = strings.Join(append(path[slices.Index(path, name):], name), ", which waits for ")
				return true
			}
			if state[j] != done && visit(j) {
				return true
			}
		}
		state[i] = done
		path = path[:len(path)-1]
		return false
	}
	for i := range car.Tasks {
		if state[i] == 0 && visit(i) {
			return circle
		}
	}
	return ""
}

// stayFaults looks at what strips and refits the car.
func stayFaults(shop *Shop, car *Car) (why []string) {
	strips, refits := map[string]int{}, map[string]int{}
	for _, t := range car.Tasks {
		if t.Strips != "" {
			strips[t.Strips]++
		}
		if t.Refits != "" {
			refits[t.Refits]++
		}
	}
	for _, t := range car.Tasks {
		switch {
		case t.Strips != "" && refits[t.Strips] == 0:
			why = append(why, fmt.Sprintf("%s strips %q, and no task refits it: the ramp would never be free again", t.Name, t.Strips))
		case t.Refits != "" && strips[t.Refits] == 0:
			why = append(why, fmt.Sprintf("%s refits %q, which no task strips", t.Name, t.Refits))
		case t.Strips != "" && strips[t.Strips] > 1, t.Refits != "" && refits[t.Refits] > 1:
			why = append(why, fmt.Sprintf("%s: each thing is stripped once and refitted once", t.Name))
		case (t.Strips != "" || t.Refits != "") && len(t.Ramps) == 0:
			why = append(why, fmt.Sprintf("%s leaves the car unable to roll and so needs a ramp", t.Name))
		}
	}
	if len(why) > 0 {
		return why
	}
	for _, b := range blocksOf(shop, car) {
		switch {
		case b.disordered:
			why = append(why, fmt.Sprintf("%s must come after what strips it", car.Tasks[b.tasks[len(b.tasks)-1]].Name))
		case b.onRamp && len(b.ramps) == 0:
			why = append(why, "no ramp of the shop serves all that is done while the car cannot roll: "+taskNames(car, b.tasks))
		}
	}
	return why
}

func taskNames(car *Car, tasks []int) string {
	names := make([]string, len(tasks))
	for k, i := range tasks {
		names[k] = car.Tasks[i].Name
	}
	return strings.Join(names, ", ")
}
