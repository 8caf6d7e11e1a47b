package release

import (
	"math"
	"testing"

	"layshaft/spring"
)

// upratedTwin is a clutch with two discs whose load rises to a peak and falls again.
func upratedTwin() Clutch {
	return Clutch{
		Faces: 4, LeverRatio: 3.9, Cushion: 0.35e-3, Clearance: 0.25e-3, FingerTravelMax: 11.5e-3, Capacity: 720,
		BearingLoad: curve(0, 0, 1, 900, 4, 2100, 7, 2350, 10, 2050, 12, 1950), LoadScale: 1,
	}
}

// metalMaster is a release system with nothing left to guess.
func metalMaster() System {
	return System{
		Pedal:  Pedal{Ratio: 5.8, Travel: 150e-3, FreePlay: 6e-3, Efficiency: 0.95, Stiffness: 1500e3, RodPitch: 1.25e-3},
		Master: Master{Bore: 19.05e-3, Stroke: 33e-3, DeadStroke: 1.2e-3, Efficiency: 0.95},
		Line:   Line{Length: 1.8, Expansion: 0.10e-12, FluidVolume: 30e-6, BulkModulus: 1.6e9},
		Slave:  Slave{Bore: 20.64e-3, ForkRatio: 1.6, ForkStiffness: 2500e3, Efficiency: 0.92},
	}
}

func example() Chain { return Chain{upratedTwin(), metalMaster()} }

// curve takes pairs of finger travel in mm and load in N.
func curve(pairs ...float64) spring.Curve {
	var x, y []float64
	for i := 0; i < len(pairs); i += 2 {
		x, y = append(x, pairs[i]*1e-3), append(y, pairs[i+1])
	}
	c, err := spring.NewCurve(x, y)
	if err != nil {
		panic(err)
	}
	return c
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.6g, want %.6g within %.2g", what, got, want, tolerance)
	}
}

func solve(t *testing.T, c Chain, knowns ...Known) Answer {
	t.Helper()
	a, err := Solve(c, knowns, 20000, 1)
	if err != nil {
		t.Fatal(err)
	}
	return a
}
