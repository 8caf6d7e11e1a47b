package picture_test

import (
	"fmt"

	"layshaft/picture"
)

// A pointer that rests on the finger panel is turned into pedal travel and finger travel.
func ExamplePedalMap_Panels() {
	m := picture.PedalMap{
		Curves: []picture.MapCurve{{Name: "metal master", Points: []picture.MapPoint{
			{Pedal: 20, Finger: 0, Effort: 0, Torque: 933},
			{Pedal: 150, Finger: 9.6, Effort: 206, Torque: 0},
		}}},
		FullPedal: 150,
	}
	finger := m.Panels(picture.Wide)[0]
	x, y := finger.Box.X+finger.Box.W/2, finger.Box.Y+finger.Box.H/4
	pedal := finger.XMin + (x-finger.Box.X)/finger.Box.W*(finger.XMax-finger.XMin)
	travel := finger.YMax - (y-finger.Box.Y)/finger.Box.H*(finger.YMax-finger.YMin)
	fmt.Printf("pedal %.0f mm, fingers %.1f %s\n", pedal, travel, finger.Unit)
	// Output: pedal 80 mm, fingers 7.5 mm
}

// The same scene goes to a page and, by way of package picture/pdf, to paper.
func ExampleScene_Inline() {
	scene := picture.Sensitivity{
		Title: "Measure this first",
		Rows:  []picture.SensitivityRow{{Name: "Cushion of the discs", Now: "0.25 to 0.45 mm", First: 0.41, Total: 0.46}},
	}.Scene(picture.Narrow)
	fmt.Printf("%.97s\n", scene.Inline())
	// Output: <svg xmlns="http://www.w3.org/2000/svg" class="picture" role="img" width="380" height="146" viewB
}
