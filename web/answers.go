package web

import (
	"context"
	"sync"

	"layshaft/workshop"
)

// answers keeps the last work-up of each car, so that the list of cars and a car's page need not reckon again what
// nobody has changed. A work-up belongs to the car's last entry; a newer entry makes it anew.
type answers struct {
	mu    sync.Mutex
	byCar map[string]answered
}

type answered struct {
	seq    int64
	job    *workshop.Job
	answer *workshop.Workup
}

func (a *answers) of(ctx context.Context, shop *workshop.Shop, car *workshop.Car) (*workshop.Job, *workshop.Workup, error) {
	a.mu.Lock()
	kept, there := a.byCar[car.ID]
	a.mu.Unlock()
	if there && kept.seq == car.Seq {
		return kept.job, kept.answer, nil
	}
	job, answer, err := shop.WorkUp(ctx, car, workshop.Quick)
	if err != nil {
		return nil, nil, err
	}
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.byCar == nil {
		a.byCar = map[string]answered{}
	}
	if a.byCar[car.ID].seq <= car.Seq {
		a.byCar[car.ID] = answered{car.Seq, job, answer}
	}
	return job, answer, nil
}
