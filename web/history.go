package web

import (
	"cmp"
	"encoding/json"
	"strings"
	"time"

	"layshaft/carview"
	"layshaft/workshop"
)

// entryLine is one entry of a car as people read it.
type entryLine struct {
	Seq     int64
	Who     string
	At      time.Time
	What    string
	Changes []changeLine
	Note    string
}

// changeLine is one figure that an entry changed.
type changeLine struct{ Name, From, To string }

// historyLines tells a car's entries in words, the first one first. Titles are the options' names in words.
func historyLines(entries []workshop.Entry, people []workshop.Person, title func(option string) string) []entryLine {
	var lines []entryLine
	h := historian{title: title}
	for _, e := range entries {
		line := entryLine{Seq: e.Seq, Who: nameOf(people, e.By), At: e.At}
		h.tell(&line, e)
		lines = append(lines, line)
	}
	return lines
}

// historian remembers what stood before, so that an entry can say what it changed.
type historian struct {
	title  func(string) string
	chosen []string
	moved  workshop.Moved
}

func (h *historian) tell(line *entryLine, e workshop.Entry) {
	var err error
	switch e.Kind {
	case workshop.KindOpened:
		line.What = "opened the car"
		h.moved.Stage = workshop.Asked
	case workshop.KindFigures:
		var body workshop.Figures
		err = json.Unmarshal(e.Body, &body)
		line.What = "changed figures"
		for _, c := range body.Changes {
			line.Changes = append(line.Changes, changeLine{carview.KeyWords(c.Key), orNothing(c.From), orNothing(c.To)})
		}
	case workshop.KindOptions:
		var body workshop.Options
		err = json.Unmarshal(e.Body, &body)
		line.What = "recorded which options are wanted"
		line.Changes = []changeLine{{"options", h.titles(h.chosen), h.titles(body.Chosen)}}
		h.chosen = body.Chosen
	case workshop.KindMoved:
		var body workshop.Moved
		err = json.Unmarshal(e.Body, &body)
		line.What = "said how far the car is"
		line.Changes = movedLines(h.moved, body)
		h.moved = body
	case workshop.KindNote:
		var body workshop.Note
		err = json.Unmarshal(e.Body, &body)
		line.What, line.Note = "noted", body.Text
	case workshop.KindLayout:
		line.What = "took the layout's present version"
	default:
		line.What = "entered something that this version of the program does not know (" + e.Kind + ")"
	}
	if err != nil {
		line.What = "entered something that cannot be read"
	}
}

func movedLines(from, to workshop.Moved) []changeLine {
	var lines []changeLine
	if from.Stage != to.Stage {
		lines = append(lines, changeLine{"stage", orNothing(string(from.Stage)), string(to.Stage)})
	}
	if from.Place != to.Place {
		lines = append(lines, changeLine{"place", cmp.Or(from.Place, "not here"), cmp.Or(to.Place, "not here")})
	}
	return lines
}

func (h *historian) titles(options []string) string {
	var all []string
	for _, option := range options {
		all = append(all, h.title(option))
	}
	return orNothing(strings.Join(all, ", "))
}

func orNothing(text string) string {
	if text == "" {
		return "nothing"
	}
	return text
}

// figureChange is one figure that somebody changed.
type figureChange struct {
	workshop.Change
	by string
}

func figureChanges(entries []workshop.Entry) []figureChange {
	var all []figureChange
	for _, e := range entries {
		var body workshop.Figures
		if e.Kind != workshop.KindFigures || json.Unmarshal(e.Body, &body) != nil {
			continue
		}
		for _, c := range body.Changes {
			all = append(all, figureChange{c, e.By})
		}
	}
	return all
}
