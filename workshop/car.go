package workshop

import (
	"encoding/json"
	"fmt"
	"time"
)

// Stage is how far a car has come, in the shop's words. Only some stages leave the car on its wheels.
type Stage string

// The stages of a job, in the order in which most cars pass them.
const (
	Asked    Stage = "asked"
	Offered  Stage = "offered"
	Agreed   Stage = "agreed"
	Stripped Stage = "stripped on the ramp"
	Waiting  Stage = "waiting for parts"
	GoingOn  Stage = "going back together"
	Proving  Stage = "being proved"
	Ready    Stage = "ready"
	Gone     Stage = "gone"
)

// Stages lists the stages in order.
func Stages() []Stage {
	return []Stage{Asked, Offered, Agreed, Stripped, Waiting, GoingOn, Proving, Ready, Gone}
}

// Rolls reports whether the car can be moved on its wheels in this stage; a stripped car holds its ramp.
func (s Stage) Rolls() bool { return s != Stripped && s != GoingOn && s != Waiting }

// The kinds of entry in a car's stream.
const (
	KindOpened  = "car-opened"
	KindFigures = "figures-changed"
	KindOptions = "options-chosen"
	KindMoved   = "car-moved"
	KindNote    = "note"
	KindLayout  = "layout-renewed"
)

// LayoutRef names the version of a layout that a job was made with; Key finds its bytes on the shelf.
type LayoutRef struct {
	Name string `json:"name"`
	Key  string `json:"key"`
}

// Opened is the body of a car's first entry.
type Opened struct {
	Text   string            `json:"text"`            // the job file
	Files  map[string]string `json:"files,omitempty"` // files it names, by their keys on the shelf
	Layout LayoutRef         `json:"layout"`
}

// Change is one value of the job file that somebody changed.
type Change struct {
	Key  string `json:"key"`
	From string `json:"from"`
	To   string `json:"to"`
}

// Figures is the body of an entry that changes the job file: what changed, and the whole text after it.
type Figures struct {
	Changes []Change `json:"changes"`
	Text    string   `json:"text"`
}

// Options is the body of an entry that says which offered options are wanted.
type Options struct {
	Chosen []string `json:"chosen"`
}

// Moved is the body of an entry that says how far a car is and where it stands.
type Moved struct {
	Stage Stage  `json:"stage"`
	Place string `json:"place"`
}

// Note is the body of an entry in plain words.
type Note struct {
	Text string `json:"text"`
}

// Car is one car as its entries leave it.
type Car struct {
	ID        string
	Seq       int64 // of the last entry taken in
	Text      string
	Files     map[string]string
	Layout    LayoutRef
	Chosen    []string
	Stage     Stage
	Place     string
	OpenedAt  time.Time
	TouchedAt time.Time
	History   []Entry
}

// Stream is the name of the car's stream in the ledger.
func (c *Car) Stream() string { return CarStream(c.ID) }

// CarStream names the stream of the car with this ID.
func CarStream(id string) string { return carPrefix + id }

const carPrefix = "car/"

// take folds one entry into the car. An entry of an unknown kind, written by a newer program, is kept in the
// history and otherwise left alone.
func (c *Car) take(e Entry) error {
	c.Seq, c.TouchedAt = e.Seq, e.At
	c.History = append(c.History, e)
	var err error
	switch e.Kind {
	case KindOpened:
		var body Opened
		err = json.Unmarshal(e.Body, &body)
		c.Text, c.Files, c.Layout = body.Text, body.Files, body.Layout
		c.Stage, c.OpenedAt = Asked, e.At
	case KindFigures:
		var body Figures
		err = json.Unmarshal(e.Body, &body)
		c.Text = body.Text
	case KindOptions:
		var body Options
		err = json.Unmarshal(e.Body, &body)
		c.Chosen = body.Chosen
	case KindMoved:
		var body Moved
		err = json.Unmarshal(e.Body, &body)
		c.Stage, c.Place = body.Stage, body.Place
	case KindLayout:
		err = json.Unmarshal(e.Body, &c.Layout)
	}
	if err != nil {
		return fmt.Errorf("entry %d of %s (%s) cannot be read: %w", e.Seq, e.Stream, e.Kind, err)
	}
	return nil
}
