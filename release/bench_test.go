package release

import (
	"testing"

	"layshaft/uncertain"
)

func BenchmarkMap200(b *testing.B) {
	c := example()
	for b.Loop() {
		c.Map(200)
	}
}

func BenchmarkSolve100000With20Knowns(b *testing.B) {
	c, knowns := example(), twentyKnowns()
	for b.Loop() {
		if _, err := Solve(c, knowns, 100000, 1); err != nil {
			b.Fatal(err)
		}
	}
}

// twentyKnowns are the example's figures as a garage knows them: most as a range, some with a scatter.
func twentyKnowns() []Known {
	n, u := uncertain.Normal, uncertain.Uniform
	return []Known{
		{"pedal ratio", n(5.8, 0.05), func(c *Chain, v float64) { c.System.Pedal.Ratio = v }},
		{"pedal travel", n(150e-3, 1e-3), func(c *Chain, v float64) { c.System.Pedal.Travel = v }},
		{"free play", u(4e-3, 8e-3), func(c *Chain, v float64) { c.System.Pedal.FreePlay = v }},
		{"pedal efficiency", u(0.9, 1), func(c *Chain, v float64) { c.System.Pedal.Efficiency = v }},
		{"box stiffness", u(800e3, 2200e3), func(c *Chain, v float64) { c.System.Pedal.Stiffness = v }},
		{"dead stroke", u(0.8e-3, 1.6e-3), func(c *Chain, v float64) { c.System.Master.DeadStroke = v }},
		{"master efficiency", u(0.92, 0.98), func(c *Chain, v float64) { c.System.Master.Efficiency = v }},
		{"hose length", n(1.8, 0.02), func(c *Chain, v float64) { c.System.Line.Length = v }},
		{"hose expansion", u(0.05e-12, 0.15e-12), func(c *Chain, v float64) { c.System.Line.Expansion = v }},
		{"fluid volume", u(25e-6, 35e-6), func(c *Chain, v float64) { c.System.Line.FluidVolume = v }},
		{"bulk modulus", u(1.2e9, 2.0e9), func(c *Chain, v float64) { c.System.Line.BulkModulus = v }},
		{"trapped air", u(0, 0.6e-6), func(c *Chain, v float64) { c.System.Line.TrappedAir = v }},
		{"fork ratio", n(1.6, 0.03), func(c *Chain, v float64) { c.System.Slave.ForkRatio = v }},
		{"fork stiffness", u(1800e3, 3200e3), func(c *Chain, v float64) { c.System.Slave.ForkStiffness = v }},
		{"stand-off", u(0, 1e-3), func(c *Chain, v float64) { c.System.Slave.StandOff = v }},
		{"slave efficiency", u(0.88, 0.96), func(c *Chain, v float64) { c.System.Slave.Efficiency = v }},
		{"lever ratio", n(3.9, 0.08), func(c *Chain, v float64) { c.Clutch.LeverRatio = v }},
		{"cushion", u(0.25e-3, 0.45e-3), func(c *Chain, v float64) { c.Clutch.Cushion = v }},
		{"clearance", u(0.2e-3, 0.3e-3), func(c *Chain, v float64) { c.Clutch.Clearance = v }},
		{"bearing load", n(1, 0.05), func(c *Chain, v float64) { c.Clutch.LoadScale = v }},
	}
}
