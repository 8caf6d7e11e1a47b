package diary

import "slices"

// timeline is what something is taken for, in order and apart.
type timeline []Span

// free tells whether nothing is in the way of the span, and if so until when not to ask again.
func (t timeline) free(s Span) (until int, ok bool) {
	for k := t.after(s.From); k < len(t) && t[k].From < s.To; k++ {
		return t[k].To, false
	}
	return 0, true
}

// after is the first entry that ends after the time.
func (t timeline) after(time int) int {
	low, high := 0, len(t)
	for low < high {
		mid := (low + high) / 2
		if t[mid].To <= time {
			low = mid + 1
		} else {
			high = mid
		}
	}
	return low
}

func (t *timeline) take(s Span) {
	at := t.after(s.From)
	*t = slices.Insert(*t, at, s)
}

func (t *timeline) giveBack(s Span) {
	for k := t.after(s.From); k < len(*t); k++ {
		if (*t)[k] == s {
			*t = slices.Delete(*t, k, k+1)
			return
		}
	}
	panic("diary: what is given back was not taken")
}

// work finds the first span from the time on in which a team gets so many minutes done. Hours are when the team works;
// a task that may not pause needs them at one stretch. Nobody of the team does anything else between its ends.
func work(hours []Span, busy []timeline, from, minutes int, pauses bool) (Span, bool) {
	k := timeline(hours).after(from)
	for k < len(hours) {
		start := max(from, hours[k].From)
		if !pauses && hours[k].To-start < minutes {
			k++
			continue
		}
		end, fits := run(hours[k:], start, minutes)
		if !fits {
			return Span{}, false
		}
		s := Span{start, end}
		if from = clash(busy, s); from < 0 {
			return s, true
		}
		for k < len(hours) && hours[k].To <= from {
			k++
		}
	}
	return Span{}, false
}

// run tells when the minutes are done, working the hours from start on.
func run(hours []Span, start, minutes int) (end int, fits bool) {
	for _, h := range hours {
		from := max(start, h.From)
		if h.To-from >= minutes {
			return from + minutes, true
		}
		minutes -= h.To - from
	}
	return 0, false
}

// clash is the end of what is in the way of the span, -1 if nothing is.
func clash(busy []timeline, s Span) int {
	latest := -1
	for _, b := range busy {
		if until, ok := b.free(s); !ok {
			latest = max(latest, until)
		}
	}
	return latest
}
