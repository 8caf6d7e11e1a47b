package driveline

import (
	"fmt"
	"testing"
)

// trafficLights launches the hatchback again and again on a twin-plate clutch that fades.
func trafficLights() Repeat {
	return Repeat{
		Launch: hotHatch(),
		Heat:   twinPlate(),
		Fade:   Fade{Cold: 0.28, Hot: 0.18, From: 473, To: 573},
		Full:   650, Demand: 420, Pause: 30,
	}
}

func mustRepeat(t testing.TB, r Repeat, most int) []HeatedLaunch {
	t.Helper()
	row, err := r.Run(most)
	if err != nil {
		t.Fatal(err)
	}
	return row
}

func TestClutchGetsHotterUntilItSlips(t *testing.T) {
	row := mustRepeat(t, trafficLights(), 50)
	if len(row) < 2 || len(row) == 50 {
		t.Fatalf("%d launches", len(row))
	}
	for i, l := range row {
		if last := i == len(row)-1; l.Slips != last {
			t.Errorf("launch %d of %d: slips %t", i+1, len(row), l.Slips)
		}
		if i > 0 && l.Hottest <= row[i-1].Hottest {
			t.Errorf("launch %d is no hotter than the one before: %g, %g K", i+1, l.Hottest, row[i-1].Hottest)
		}
		near(t, "capacity", l.Capacity, 650*l.Friction/0.28, 1e-12)
	}
}

func TestLongerPausesAllowMoreLaunches(t *testing.T) {
	short, long := trafficLights(), trafficLights()
	short.Pause, long.Pause = 5, 300
	if a, b := len(mustRepeat(t, short, 30)), len(mustRepeat(t, long, 30)); b <= a {
		t.Errorf("%d launches with short pauses, %d with long ones", a, b)
	}
}

func TestFrictionThatRisesNeverSlips(t *testing.T) {
	r := trafficLights()
	r.Fade = Fade{Cold: 0.30, Hot: 0.45, From: 373, To: 873}
	if row := mustRepeat(t, r, 8); len(row) != 8 || row[7].Slips {
		t.Errorf("it slipped at launch %d", len(row))
	}
}

func TestClutchThatIsTooWeakColdSlipsAtOnce(t *testing.T) {
	r := trafficLights()
	r.Full, r.Launch.Clutch = 300, Ramp(300, 0.5)
	if row := mustRepeat(t, r, 8); len(row) != 1 || !row[0].Slips {
		t.Errorf("%d launches", len(row))
	}
}

// What a page that follows typing can afford must tell the same as what is exact.
func TestCoarseStepsAndCellsTellTheSameLaunches(t *testing.T) {
	coarse := trafficLights()
	coarse.Launch.Step, coarse.Launch.AllIn, coarse.Heat.Cells = 5e-3, 0.5, 24
	fine, quick := mustRepeat(t, trafficLights(), 20), mustRepeat(t, coarse, 20)
	if len(fine) != len(quick) {
		t.Fatalf("%d launches, coarsely %d", len(fine), len(quick))
	}
	for i := range fine {
		// The friction follows the heat one step late, which tells most where it falls steeply, in the last launches.
		near(t, "heat", quick[i].Clutch, fine[i].Clutch, 0.02)
		near(t, "rise of the hottest face", quick[i].Hottest-300, fine[i].Hottest-300, 0.02)
	}
}

func TestRepeatRefusesAFadeThatIsNone(t *testing.T) {
	r := trafficLights()
	r.Fade.To = r.Fade.From
	if _, err := r.Run(1); err == nil {
		t.Error("taken")
	}
	r = trafficLights()
	r.Heat.Flywheel = 0
	if _, err := r.Run(1); err == nil {
		t.Error("taken")
	}
}

func BenchmarkHeatedLaunch(b *testing.B) {
	r := trafficLights()
	for b.Loop() {
		mustRepeat(b, r, 1)
	}
}

func BenchmarkTenCoarseLaunches(b *testing.B) {
	r := trafficLights()
	r.Launch.Step, r.Launch.AllIn, r.Heat.Cells = 5e-3, 0.5, 24
	r.Demand = 0
	for b.Loop() {
		if row := mustRepeat(b, r, 10); len(row) != 10 {
			b.Fatal("it slipped")
		}
	}
}

func ExampleRepeat() {
	row, err := trafficLights().Run(10)
	if err != nil {
		panic(err)
	}
	for i, l := range row {
		fmt.Printf("%d: %.0f °C at the %s, carries %.0f N m\n", i+1, l.Hottest-273.15, l.Part, l.Capacity)
	}
	// Output:
	// 1: 146 °C at the intermediate plate, carries 650 N m
	// 2: 190 °C at the intermediate plate, carries 650 N m
	// 3: 232 °C at the intermediate plate, carries 645 N m
	// 4: 273 °C at the intermediate plate, carries 577 N m
	// 5: 320 °C at the intermediate plate, carries 500 N m
	// 6: 379 °C at the intermediate plate, carries 418 N m
}
