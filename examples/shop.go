package examples

import (
	"context"
	"fmt"
	"io/fs"
	"strings"

	"layshaft/workshop"
)

// car is one car of the invented shop: its job file, how far it is, where it stands, and what somebody noted.
type car struct {
	file, dyno  string
	stage       workshop.Stage
	place, note string
	chosen      []string
}

var people = []workshop.Person{
	{ID: "ida", Name: "Ida Marsh", Role: workshop.Owner},
	{ID: "tom", Name: "Tom Weir", Role: workshop.Manager},
	{ID: "noor", Name: "Noor Fenwick", Role: workshop.Technician},
	{ID: "sam", Name: "Sam Holt", Role: workshop.Technician},
}

var cars = []car{
	{file: "old-roadster", stage: workshop.Asked, note: "Owner rang: pedal goes nearly to the floor, sometimes drags when hot."},
	{file: "mid-engined", stage: workshop.Offered, place: "Unit 2, yard", note: "Owner wants to think about the ceramic disc until Friday."},
	{file: "long-project", stage: workshop.Agreed, place: "Unit 2, back wall", note: "Fills gaps; no date promised."},
	{file: "drag-estate", stage: workshop.Waiting, place: "Unit 2, ramp 4", note: "Cross pins are two weeks away; the car cannot roll until they are in."},
	{file: "track-coupe", dyno: "track-coupe-dyno.csv", stage: workshop.Stripped, place: "Unit 1, ramp 2", note: "Flywheel face has heat marks; sent a photograph.", chosen: []string{"inspect-cross-pins"}},
	{file: "town-hatch", stage: workshop.GoingOn, place: "Unit 1, ramp 1", note: "Concentric slave measured: gap within limits, both of us got the same."},
	{file: "hill-hatch", stage: workshop.Proving, place: "Unit 1, ramp 3", note: "Fingers touched the disc hub at full pedal with the large master; stop set for the road test."},
	{file: "street-saloon", stage: workshop.Offered, place: "Unit 1, yard", note: "Asks why the original master cannot stay."},
}

// Fill enters the invented shop, its people and its cars, into an empty workshop.
func Fill(ctx context.Context, shop *workshop.Shop) error {
	for _, person := range people {
		if err := shop.AddPerson(ctx, people[0], person); err != nil {
			return err
		}
	}
	for i, c := range cars {
		if err := c.enter(ctx, shop, i); err != nil {
			return fmt.Errorf("%s: %w", c.file, err)
		}
	}
	return nil
}

func (c car) enter(ctx context.Context, shop *workshop.Shop, number int) error {
	text, err := fs.ReadFile(Files, c.file+".yaml")
	if err != nil {
		return err
	}
	files := map[string][]byte{}
	if c.dyno != "" {
		if files[c.dyno], err = fs.ReadFile(Files, c.dyno); err != nil {
			return err
		}
	}
	manager, technician := people[1], people[2+number%2]
	deed := func(by workshop.Person, what string, seen int64) workshop.Deed {
		return workshop.Deed{By: by, ID: strings.Join([]string{c.file, what}, "-"), Seen: seen}
	}
	car, err := shop.OpenCar(ctx, deed(manager, "opened", 0), c.file, text, files)
	if err != nil {
		return err
	}
	if len(c.chosen) > 0 {
		if car, err = shop.ChooseOptions(ctx, deed(manager, "options", car.Seq), car, c.chosen); err != nil {
			return err
		}
	}
	if c.stage != workshop.Asked {
		if car, err = shop.MoveCar(ctx, deed(technician, "moved", car.Seq), car, c.stage, c.place); err != nil {
			return err
		}
	}
	_, err = shop.WriteNote(ctx, deed(technician, "note", car.Seq), car, c.note)
	return err
}
