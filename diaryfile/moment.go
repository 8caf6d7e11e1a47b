package diaryfile

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"layshaft/diary"
)

// moment is a time on the wall clock: "2027-03-01 08:00", a whole day "2027-03-01", or "never".
type moment struct {
	time     time.Time
	wholeDay bool
	never    bool
}

func (m *moment) UnmarshalText(text []byte) (err error) {
	s := strings.TrimSpace(string(text))
	if s == "never" {
		m.never = true
		return nil
	}
	if m.time, err = time.Parse("2006-01-02 15:04", s); err == nil {
		return nil
	}
	if m.time, err = time.Parse("2006-01-02", s); err != nil {
		return fmt.Errorf("%q is not a time such as 2027-03-01 08:00 or a day such as 2027-03-01", s)
	}
	m.wholeDay = true
	return nil
}

func day(t time.Time) time.Time { return t.Truncate(24 * time.Hour) }

func minutesTo(from, to time.Time) int { return int(to.Sub(from) / time.Minute) }

// At is the wall-clock time of a minute of the diary.
func (d *Diary) At(minute int) time.Time { return d.Start.Add(time.Duration(minute) * time.Minute) }

// hours is a rule such as "mon-fri 08:00-12:00 12:30-16:30": minutes of the day on some days of the week.
type hours struct {
	days  [7]bool
	spans []diary.Span
}

var weekdays = []string{"sun", "mon", "tue", "wed", "thu", "fri", "sat"}

func (h *hours) UnmarshalText(text []byte) error {
	words := strings.Fields(strings.ToLower(string(text)))
	if len(words) < 2 {
		return fmt.Errorf("%q is not of the form: mon-fri 08:00-12:00 12:30-16:30", text)
	}
	if err := h.setDays(words[0]); err != nil {
		return err
	}
	for _, w := range words[1:] {
		from, to, found := strings.Cut(w, "-")
		a, err1 := minuteOfDay(from)
		b, err2 := minuteOfDay(to)
		if !found || err1 != nil || err2 != nil || a >= b {
			return fmt.Errorf("%q is not a stretch of the day such as 08:00-12:00", w)
		}
		h.spans = append(h.spans, diary.Span{From: a, To: b})
	}
	return nil
}

// setDays reads "mon-fri", "sat" or "mon,wed,fri".
func (h *hours) setDays(word string) error {
	for _, part := range strings.Split(word, ",") {
		first, last, isRange := strings.Cut(part, "-")
		if !isRange {
			last = first
		}
		a, b := slices.Index(weekdays, first), slices.Index(weekdays, last)
		if a < 0 || b < 0 {
			return fmt.Errorf("%q is not a day or days such as mon, mon-fri or mon,wed", part)
		}
		for d := a; ; d = (d + 1) % 7 {
			h.days[d] = true
			if d == b {
				break
			}
		}
	}
	return nil
}

func minuteOfDay(s string) (int, error) {
	if s == "24:00" {
		return 24 * 60, nil
	}
	t, err := time.Parse("15:04", s)
	return t.Hour()*60 + t.Minute(), err
}

// tidy puts spans in order and joins those that meet.
func tidy(spans []diary.Span) (tidied []diary.Span) {
	slices.SortFunc(spans, func(a, b diary.Span) int { return a.From - b.From })
	for _, s := range spans {
		if k := len(tidied) - 1; k >= 0 && s.From <= tidied[k].To {
			tidied[k].To = max(tidied[k].To, s.To)
			continue
		}
		tidied = append(tidied, s)
	}
	return tidied
}
