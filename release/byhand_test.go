package release

import (
	"math"
	"testing"
)

// The figures of docs/models.md, worked out there with a pocket calculator: tolerances are its last digits.
func TestWorkedChainOfTheDocument(t *testing.T) {
	c := Chain{
		Clutch: Clutch{Faces: 4, LeverRatio: 3.9, Cushion: 0.35e-3, Clearance: 0.25e-3, BearingLoad: curve(0, 0, 7, 2350), LoadScale: 1},
		System: System{
			Pedal:  Pedal{Ratio: 5.8, Travel: 150e-3, FreePlay: 6e-3, Efficiency: 0.95, Stiffness: 1500e3},
			Master: Master{Bore: 19.05e-3, DeadStroke: 1.2e-3, Efficiency: 0.95},
			Line:   Line{Length: 1.8, Expansion: 0.10e-12, FluidVolume: 30e-6, BulkModulus: 1.6e9},
			Slave:  Slave{Bore: 20.64e-3, ForkRatio: 1.6, ForkStiffness: math.Inf(1), Efficiency: 0.92},
		},
	}
	const xf = 7e-3
	near(t, "pressure", c.Pressure(xf), 4.771e6, 0.5e3)
	near(t, "rod force", c.RodForce(xf), 1432, 0.5)
	near(t, "swallowed", c.System.Line.VolumeAbsorbed(c.Pressure(xf)), 0.948e-6, 0.5e-9)
	near(t, "master stroke", c.MasterStroke(xf), 17.67e-3, 5e-6)
	near(t, "pedal travel", c.PedalTravel(xf), 114.0e-3, 50e-6)
	near(t, "effort", c.Effort(xf), 260, 0.5)
	near(t, "finger travel needed", c.Clutch.FingerTravelNeeded(), 5.27e-3, 5e-6)
}
