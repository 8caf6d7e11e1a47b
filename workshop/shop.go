package workshop

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"layshaft/library"
)

// Shop is the workshop's front door: everything that a person does goes through it, is checked against what that
// person may do, and is entered in the ledger with who and when.
type Shop struct {
	storage Storage
	reader  JobReader
	layouts *library.Library
	now     func() time.Time
	kept    sync.Map // layouts read from the shelf, by key; what is on the shelf never changes
}

// JobReader reads the written form of a job. open fetches the files that it names.
type JobReader interface {
	Read(name string, text []byte, open func(name string) ([]byte, error)) (*Job, error)
	// Change sets single values (dotted keys) in the text and returns the new text.
	Change(text []byte, changes []Change) ([]byte, error)
}

// NewShop puts a shop together. now is the clock; it is asked once for each thing done.
func NewShop(storage Storage, reader JobReader, layouts *library.Library, now func() time.Time) *Shop {
	return &Shop{storage: storage, reader: reader, layouts: layouts, now: now}
}

// Cars returns every car of the shop, the one touched last first.
func (s *Shop) Cars(ctx context.Context) ([]*Car, error) {
	entries, err := s.storage.ReadAll(ctx, carPrefix)
	if err != nil {
		return nil, err
	}
	var cars []*Car
	byID := map[string]*Car{}
	for _, e := range entries {
		id := strings.TrimPrefix(e.Stream, carPrefix)
		car := byID[id]
		if car == nil {
			car = &Car{ID: id}
			byID[id] = car
			cars = append(cars, car)
		}
		if err := car.take(e); err != nil {
			return nil, err
		}
	}
	slices.SortStableFunc(cars, func(a, b *Car) int { return b.TouchedAt.Compare(a.TouchedAt) })
	return cars, nil
}

// Car returns one car, or ErrNotFound.
func (s *Shop) Car(ctx context.Context, id string) (*Car, error) {
	entries, err := s.storage.Read(ctx, CarStream(id), 0)
	if err != nil {
		return nil, err
	}
	if len(entries) == 0 {
		return nil, fmt.Errorf("car %q: %w", id, ErrNotFound)
	}
	car := &Car{ID: id}
	for _, e := range entries {
		if err := car.take(e); err != nil {
			return nil, err
		}
	}
	return car, nil
}

// Deed is who does something, under which entry ID, and which entry of the car's they had seen last. The ID is made
// before the form is shown, so that a form sent twice is one deed.
type Deed struct {
	By   Person
	ID   string
	Seen int64
}

// OpenCar enters a new car from its job file and the files that it names.
func (s *Shop) OpenCar(ctx context.Context, d Deed, id string, text []byte, files map[string][]byte) (*Car, error) {
	if err := allow(d.By, OpenCar); err != nil {
		return nil, err
	}
	job, err := s.reader.Read("job file", text, func(name string) ([]byte, error) { return fromMap(files, name) })
	if err != nil {
		return nil, err
	}
	opened := Opened{Text: string(text), Files: map[string]string{}}
	for name, data := range files {
		if opened.Files[name], err = s.storage.Put(ctx, data); err != nil {
			return nil, err
		}
	}
	if job.Car.Layout != "" {
		if opened.Layout, err = s.keepLayout(ctx, job.Car.Layout); err != nil {
			return nil, err
		}
	}
	d.Seen = 0
	return s.enter(ctx, id, d, KindOpened, opened)
}

func fromMap(files map[string][]byte, name string) ([]byte, error) {
	if data, there := files[name]; there {
		return data, nil
	}
	return nil, fmt.Errorf("no file %q came with the job", name)
}

// keepLayout puts the current version of a layout on the shelf, so that the job keeps what it was made with.
func (s *Shop) keepLayout(ctx context.Context, name string) (LayoutRef, error) {
	layout, err := s.layouts.Layout(name)
	if err != nil {
		return LayoutRef{}, err
	}
	key, err := s.storage.Put(ctx, layout.Export())
	return LayoutRef{Name: name, Key: key}, err
}

// ChangeFigures sets single values of the car's job file. The whole new text is checked before anything is entered.
func (s *Shop) ChangeFigures(ctx context.Context, d Deed, car *Car, changes []Change) (*Car, error) {
	if err := allow(d.By, ChangeFigures); err != nil {
		return nil, err
	}
	for _, change := range changes {
		if strings.HasPrefix(change.Key, "shop.") {
			if err := allow(d.By, ChangePrices); err != nil {
				return nil, err
			}
		}
	}
	text, err := s.reader.Change([]byte(car.Text), changes)
	if err != nil {
		return nil, err
	}
	job, err := s.read(ctx, car, text)
	if err != nil {
		return nil, err
	}
	if job.Car.Layout != car.Layout.Name {
		return nil, &Fault{Key: "car.layout", Message: fmt.Sprintf("this car was opened as %s; another layout is another job, so open it anew", car.Layout.Name)}
	}
	return s.enter(ctx, car.ID, d, KindFigures, Figures{Changes: changes, Text: string(text)})
}

// ChooseOptions enters which of the offered options are wanted.
func (s *Shop) ChooseOptions(ctx context.Context, d Deed, car *Car, chosen []string) (*Car, error) {
	if err := allow(d.By, ChooseOptions); err != nil {
		return nil, err
	}
	job, err := s.read(ctx, car, []byte(car.Text))
	if err != nil {
		return nil, err
	}
	if err := CheckChosen(job, chosen); err != nil {
		return nil, err
	}
	return s.enter(ctx, car.ID, d, KindOptions, Options{Chosen: chosen})
}

// MoveCar enters how far the car is and where it stands.
func (s *Shop) MoveCar(ctx context.Context, d Deed, car *Car, stage Stage, place string) (*Car, error) {
	if err := allow(d.By, MoveCar); err != nil {
		return nil, err
	}
	if !slices.Contains(Stages(), stage) {
		return nil, &Fault{Key: "stage", Message: fmt.Sprintf("%q is not one of the shop's stages", stage)}
	}
	if place != car.Place && !car.Stage.Rolls() && !stage.Rolls() {
		return nil, &Fault{Key: "place", Message: fmt.Sprintf("a car that is %s does not roll: it holds its place (%s) until it is on its wheels", car.Stage, car.Place)}
	}
	return s.enter(ctx, car.ID, d, KindMoved, Moved{Stage: stage, Place: place})
}

// WriteNote enters plain words.
func (s *Shop) WriteNote(ctx context.Context, d Deed, car *Car, text string) (*Car, error) {
	if err := allow(d.By, WriteNote); err != nil {
		return nil, err
	}
	if strings.TrimSpace(text) == "" {
		return nil, &Fault{Key: "note", Message: "the note is empty"}
	}
	return s.enter(ctx, car.ID, d, KindNote, Note{Text: text})
}

// RenewLayout moves the car to the layout's present version.
func (s *Shop) RenewLayout(ctx context.Context, d Deed, car *Car) (*Car, error) {
	if err := allow(d.By, RenewLayout); err != nil {
		return nil, err
	}
	ref, err := s.keepLayout(ctx, car.Layout.Name)
	if err != nil {
		return nil, err
	}
	return s.enter(ctx, car.ID, d, KindLayout, ref)
}

func allow(p Person, act Act) error {
	if !p.May(act) {
		return &NotAllowed{Person: p, Act: act}
	}
	return nil
}

func (s *Shop) enter(ctx context.Context, carID string, d Deed, kind string, body any) (*Car, error) {
	data, err := json.Marshal(body)
	if err != nil {
		return nil, err
	}
	stream := CarStream(carID)
	_, err = s.storage.Append(ctx, stream, d.Seen, Entry{
		ID: d.ID, Stream: stream, At: s.now().UTC(), By: d.By.ID, Kind: kind, Body: data,
	})
	if err != nil {
		return nil, err
	}
	return s.Car(ctx, carID)
}

// read reads a job text with the files that were kept with the car.
func (s *Shop) read(ctx context.Context, car *Car, text []byte) (*Job, error) {
	return s.reader.Read("job file", text, func(name string) ([]byte, error) {
		key, there := car.Files[name]
		if !there {
			return nil, fmt.Errorf("no file %q was kept with this car", name)
		}
		return s.storage.Get(ctx, key)
	})
}
