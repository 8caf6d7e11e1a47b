package workshop

import (
	"context"
	"fmt"

	"layshaft/library"
)

// Job reads a car's job as it stands.
func (s *Shop) Job(ctx context.Context, car *Car) (*Job, error) {
	return s.read(ctx, car, []byte(car.Text))
}

// WorkUp answers everything for a car, with the version of the layout that the car was opened with.
func (s *Shop) WorkUp(ctx context.Context, car *Car, effort Effort) (*Job, *Workup, error) {
	return s.workUpText(ctx, car, []byte(car.Text), car.Chosen, effort)
}

// Try answers what would be if the changes were made and the options chosen. Nothing is entered.
func (s *Shop) Try(ctx context.Context, car *Car, changes []Change, chosen []string, effort Effort) (*Job, *Workup, error) {
	text, err := s.reader.Change([]byte(car.Text), changes)
	if err != nil {
		return nil, nil, err
	}
	return s.workUpText(ctx, car, text, chosen, effort)
}

func (s *Shop) workUpText(ctx context.Context, car *Car, text []byte, chosen []string, effort Effort) (*Job, *Workup, error) {
	job, err := s.read(ctx, car, text)
	if err != nil {
		return nil, nil, err
	}
	if err := CheckChosen(job, chosen); err != nil {
		return nil, nil, err
	}
	layout, err := s.layoutOf(ctx, car)
	if err != nil {
		return nil, nil, err
	}
	w, err := WorkUp(ctx, job, layout, chosen, effort)
	if err != nil {
		return nil, nil, err
	}
	w.Worth, err = Worth(ctx, job, layout, w, chosen, s.layouts.Findings())
	return job, w, err
}

// layoutOf is the layout in the version that the car keeps; nil where it has none.
func (s *Shop) layoutOf(ctx context.Context, car *Car) (*library.Layout, error) {
	if car.Layout.Key == "" {
		return nil, nil
	}
	if layout, there := s.kept.Load(car.Layout.Key); there {
		return layout.(*library.Layout), nil
	}
	data, err := s.storage.Get(ctx, car.Layout.Key)
	if err != nil {
		return nil, fmt.Errorf("layout %s of this car: %w", car.Layout.Name, err)
	}
	layout, err := library.Load(car.Layout.Name, data)
	if err != nil {
		return nil, err
	}
	s.kept.Store(car.Layout.Key, layout)
	return layout, nil
}

// NewerLayout reports whether the library holds another version of the car's layout than the car keeps.
func (s *Shop) NewerLayout(car *Car) bool {
	layout, err := s.layouts.Layout(car.Layout.Name)
	return err == nil && layout.Hash != car.Layout.Key
}

// Layouts is the library that new cars are opened with.
func (s *Shop) Layouts() *library.Library { return s.layouts }
