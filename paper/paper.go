// Package paper writes one car's work-up as a PDF of A4 pages: what holds and what frees, how the pedal is set, what
// comes off, what it costs. It holds no arithmetic: figures come from workshop, pictures and their words from carview.
//
// The pages are first composed of blocks and only then drawn, so that the size of the lists can be chosen to fill no
// more pages than need be. The same sheet comes out as the same bytes.
package paper

import (
	"io"
	"time"

	"layshaft/picture"
	"layshaft/workshop"
)

// Sheet is what is written of a car.
type Sheet struct {
	ShopName     string
	Job          *workshop.Job
	Answer       *workshop.Workup
	Stage, Place string // how far the car is and where it stands; may be empty
	By           string // who worked it up; may be empty
	At           time.Time
}

// mostPages is how many pages a work-up may fill where the type can still be made smaller.
const mostPages = 4

// setting is how tightly lists are set.
type setting struct {
	size float64 // of the type, in points
	tightness
}

// tightness is how much white is left out.
type tightness int

const (
	airy   tightness = iota // every note stands on lines of its own
	runIn                   // a step's notes follow it in the same paragraph
	closer                  // and lines stand closer
	dense                   // and the shop's reasons follow one another
)

// settings are tried from the airiest; nothing is smaller than what is read at arm's length.
var settings = []setting{{8.5, airy}, {8.25, airy}, {8, airy}, {7.75, airy}, {7.5, airy},
	{8, runIn}, {7.75, runIn}, {7.5, runIn}, {7.5, closer}, {7.5, dense}}

// Write writes the paper.
func Write(w io.Writer, sheet Sheet) error {
	b := newBook(&sheet)
	for _, set := range settings {
		if b.compose(set); len(b.pages) <= mostPages {
			break
		}
	}
	return b.write(w)
}

// ForCar returns what writes the paper of a car of the shop.
func ForCar(shopName string) func(w io.Writer, car *workshop.Car, job *workshop.Job, answer *workshop.Workup, by string, at time.Time) error {
	return func(w io.Writer, car *workshop.Car, job *workshop.Job, answer *workshop.Workup, by string, at time.Time) error {
		return Write(w, Sheet{ShopName: shopName, Job: job, Answer: answer, Stage: string(car.Stage), Place: car.Place, By: by, At: at})
	}
}

func newBook(sheet *Sheet) *book {
	return &book{ruler: newRuler(), Sheet: sheet, scenes: map[string]*picture.Scene{}}
}

// compose fills the pages anew.
func (b *book) compose(set setting) {
	b.setting, b.pages = set, nil
	b.answerPage()
	b.letGoPage()
	b.stripPage()
	b.pricePage()
}
