package library_test

import (
	"fmt"

	"layshaft/library"
)

func Example() {
	layout, err := library.Builtin().Layout("4wd-transverse")
	if err != nil {
		panic(err)
	}
	plan, err := layout.Graph.Plan([]string{"gear-oil-change"})
	if err != nil {
		panic(err)
	}
	for _, line := range layout.Sheet(plan)[:3] {
		fmt.Printf("%s, %s: %s\n", line.Act, line.Place, line.Text)
	}
	// Output:
	// take off, on the road: Drive the car before the strip; note clutch, gear and axle noises, and take the pedal map
	// take off, around the car: Set the car on the ramp, pads at the maker's lifting points, raise, shake-test and lock it
	// take off, under the car: Take off the engine undertray and side shields
}
