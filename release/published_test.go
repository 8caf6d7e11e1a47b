package release_test

import (
	"fmt"
	"math"
	"testing"

	"layshaft/release"
	"layshaft/spring"
)

const (
	inch = 25.4e-3
	psi  = 6894.757293168
	lbf  = 4.4482216152605
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s = %.6g, want %.6g within %.2g", what, got, want, tolerance)
	}
}

// A. Esposito, Fluid Power with Applications, ch. 2, Ex. 2.11, p. 57: 10 in³ of oil of bulk modulus 250 000 psi
// shrink by 0.076 in³ when the pressure rises from 100 to 2000 psi (seen in a companion of the book's examples).
func ExampleFluidCompression() {
	shrinks := release.FluidCompression(10*inch*inch*inch, 1900*psi, 250000*psi)
	fmt.Printf("%.3f in³\n", shrinks/(inch*inch*inch))
	// Output: 0.076 in³
}

// A. Esposito, ch. 2, Ex. 2.17: from 0.687 to 13.74 MPa at K = 1718 MPa oil shrinks by 0.76 % (seen likewise).
func TestFluidCompressionInSI(t *testing.T) {
	near(t, "percent", release.FluidCompression(100, 13.74e6-0.687e6, 1718e6), 0.76, 0.005)
}

// A. Esposito, ch. 3, Ex. 3.4, p. 85: 100 lbf on 2 in² moved 1 in lift 1000 lbf on 20 in² by 0.1 in; both works are
// 100 in lbf (seen likewise). Here the first piston is the master and the second the slave, with nothing lost.
func TestForceAndTravelFollowTheAreas(t *testing.T) {
	bore := func(area float64) float64 { return math.Sqrt(4 * area / math.Pi) }
	c := ideal(bore(2*inch*inch), release.Slave{Bore: bore(20 * inch * inch), ForkRatio: 1}, 1000*lbf)
	c.System.Pedal.Ratio = 1
	near(t, "force in", c.Effort(0.1*inch)/lbf, 100, 1e-9)
	near(t, "travel in", c.PedalTravel(0.1*inch)/inch, 1, 1e-12)
	near(t, "work in", c.Effort(0.1*inch)*c.PedalTravel(0.1*inch)/(lbf*inch), 100, 1e-9)
}

// ideal is a chain that loses nothing, with a bearing load that stays the same.
func ideal(masterBore float64, slave release.Slave, load float64) release.Chain {
	rigid := math.Inf(1)
	curve, err := spring.NewCurve([]float64{0, 30e-3}, []float64{load, load})
	if err != nil {
		panic(err)
	}
	slave.Efficiency, slave.ForkStiffness = 1, rigid
	return release.Chain{
		Clutch: release.Clutch{Faces: 2, LeverRatio: 4, Clearance: 0.5e-3, FingerTravelMax: math.Inf(1), BearingLoad: curve, LoadScale: 1},
		System: release.System{
			Pedal:  release.Pedal{Ratio: 4.6, Travel: 135e-3, Efficiency: 1, Stiffness: rigid},
			Master: release.Master{Bore: masterBore, Stroke: rigid, Efficiency: 1},
			Slave:  slave,
		},
	}
}

// Bearing travel and pedal effort for 135 mm of pedal, 8 mm of free play, ratio 4.6, a release load of 2000 N,
// 250 mm³ lost and an efficiency of 0.85, reckoned by hand in the trade's way: stroke x area less the loss, by slave
// area, by fork ratio. Common practice, no source; figures rounded to 0.1 mm and 1 N.
func TestMasterBoresComparedByHand(t *testing.T) {
	fork := release.Slave{Bore: 20.64e-3, ForkRatio: 1.5}
	concentric := release.Slave{Bore: math.Sqrt(4 * 1100e-6 / math.Pi), Sleeve: math.Sqrt(4 * 300e-6 / math.Pi), ForkRatio: 1} // 800 mm²
	for _, row := range []struct {
		master  float64 // mm
		slave   release.Slave
		bearing float64 // mm
		effort  float64 // N
	}{
		{15.87, fork, 10.4, 202},
		{17.46, fork, 12.7, 244},
		{17.78, fork, 13.2, 253},
		{19.05, fork, 15.2, 290},
		{20.64, fork, 17.9, 341},
		{17.46, concentric, 7.9, 153},
		{19.05, concentric, 9.5, 182},
		{20.64, concentric, 11.2, 214},
	} {
		c := ideal(row.master*1e-3, row.slave, 2000)
		c.System.Pedal.FreePlay, c.System.Pedal.Efficiency = 8e-3, 0.85
		c.System.Line.Compliance = 250e-9 / c.Pressure(0) // so that the loss is 250 mm³ at the pressure of the table
		a, err := release.Solve(c, nil, 0, 0)
		if err != nil {
			t.Fatal(err)
		}
		name := fmt.Sprintf("%g mm on %.0f mm²: ", row.master, c.System.Slave.Area()*1e6)
		near(t, name+"bearing mm", a.BearingTravel*1e3, row.bearing, 0.0505)
		near(t, name+"effort N", a.PeakEffort, row.effort, 0.501)
	}
}
