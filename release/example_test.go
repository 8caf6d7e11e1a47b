package release_test

import (
	"fmt"
	"math"

	"layshaft/release"
	"layshaft/spring"
	"layshaft/uncertain"
)

// The pedal of a car with a twin-plate clutch and a 3/4 in master: does it free, and where does the stop belong?
func ExampleSolve() {
	travel := []float64{0, 1e-3, 4e-3, 7e-3, 10e-3, 12e-3}
	load, err := spring.NewCurve(travel, []float64{0, 900, 2100, 2350, 2050, 1950})
	if err != nil {
		fmt.Println(err)
		return
	}
	chain := release.Chain{
		Clutch: release.Clutch{Faces: 4, LeverRatio: 3.9, Cushion: 0.35e-3, Clearance: 0.25e-3, FingerTravelMax: 11.5e-3,
			Capacity: 720, BearingLoad: load, LoadScale: 1},
		System: release.System{
			Pedal:  release.Pedal{Ratio: 5.8, Travel: 150e-3, FreePlay: 6e-3, Efficiency: 0.95, Stiffness: 1500e3},
			Master: release.Master{Bore: 19.05e-3, Stroke: 33e-3, DeadStroke: 1.2e-3, Efficiency: 0.95},
			Line:   release.Line{Length: 1.8, Expansion: 0.10e-12, FluidVolume: 30e-6, BulkModulus: 1.6e9},
			Slave:  release.Slave{Bore: 20.64e-3, ForkRatio: 1.6, ForkStiffness: math.Inf(1), Efficiency: 0.92},
		},
	}
	answer, err := release.Solve(chain, []release.Known{
		{Name: "trapped air", Value: uncertain.Uniform(0, 0.5e-6), Set: func(c *release.Chain, v float64) { c.System.Line.TrappedAir = v }},
	}, 4096, 1)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: free at %.0f mm of %.0f mm, stop at %.0f mm, peak effort %.0f N\n",
		answer.Verdict, answer.StopMin*1e3, chain.System.Pedal.Travel*1e3, answer.StopRecommended*1e3, answer.PeakEffort)
	for _, share := range chain.TravelShares(chain.Clutch.FingerTravelNeeded()) {
		if share.Percent >= 5 {
			fmt.Printf("%s %.0f %%\n", share.Name, share.Percent)
		}
	}
	// Output:
	// frees: free at 99 mm of 150 mm, stop at 127 mm, peak effort 260 N
	// free play 6 %
	// dead stroke 7 %
	// pedal box flex 6 %
	// hose swelling 18 %
	// finger travel 61 %
}
