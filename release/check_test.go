package release

import (
	"errors"
	"math"
	"strings"
	"testing"
)

func TestCheckNamesTheFigureToLookAt(t *testing.T) {
	for _, wrong := range []struct {
		key  string
		make func(*Chain)
	}{
		{"clutch.discs", func(c *Chain) { c.Clutch.Faces = 0 }},
		{"clutch.lever_ratio", func(c *Chain) { c.Clutch.LeverRatio = 0 }},
		{"clutch.lever_ratio", func(c *Chain) { c.Clutch.LeverRatio = math.NaN() }},
		{"clutch.cushion", func(c *Chain) { c.Clutch.Cushion = -1e-4 }},
		{"clutch.clearance", func(c *Chain) { c.Clutch.Clearance = -1e-4 }},
		{"clutch.finger_travel_max", func(c *Chain) { c.Clutch.FingerTravelMax = 0 }},
		{"clutch.bearing_load", func(c *Chain) { c.Clutch.BearingLoad = curve(1, 0, 12, 2000) }},
		{"clutch.bearing_load", func(c *Chain) { c.Clutch.BearingLoad = curve(0, 0, 6, 2000, 12, -10) }},
		{"clutch.bearing_load", func(c *Chain) { c.Clutch.BearingLoad = curve(0, 0, 5, 2000) }}, // 5.265 mm needed
		{"clutch.bearing_load", func(c *Chain) { c.Clutch.BearingLoad = Clutch{}.BearingLoad }},
		{"clutch.bearing_load", func(c *Chain) { c.Clutch.LoadScale = 0 }},
		{"clutch.cushion", func(c *Chain) { c.Clutch.CushionCurve = curve(0, 1, 0.2, 0.4) }},
		{"release.pedal.ratio", func(c *Chain) { c.System.Pedal.Ratio = -5 }},
		{"release.pedal.travel", func(c *Chain) { c.System.Pedal.Travel = math.Inf(1) }},
		{"release.pedal.free_play", func(c *Chain) { c.System.Pedal.FreePlay = 160e-3 }},
		{"release.pedal.efficiency", func(c *Chain) { c.System.Pedal.Efficiency = 1.01 }},
		{"release.pedal.stiffness", func(c *Chain) { c.System.Pedal.Stiffness = 0 }},
		{"release.pedal.assist", func(c *Chain) { c.System.Pedal.Assist = curve(0, 0, 100, 40) }},
		{"release.pedal.linkage", func(c *Chain) {
			c.System.Pedal.Linkage = Linkage{Pad: XY{0, -0.08}, RodEnd: XY{0, -0.06}, Seat: XY{0.12, -0.06}, Axis: XY{1, 0}}
		}},
		{"release.master.bore", func(c *Chain) { c.System.Master.Bore = 0 }},
		{"release.master.stroke", func(c *Chain) { c.System.Master.Stroke = math.NaN() }},
		{"release.master.efficiency", func(c *Chain) { c.System.Master.Efficiency = 0 }},
		{"release.line.bulk_modulus", func(c *Chain) { c.System.Line.BulkModulus = -1 }},
		{"release.line.trapped_air", func(c *Chain) { c.System.Line.TrappedAir = math.NaN() }},
		{"release.slave.bore", func(c *Chain) { c.System.Slave.Bore = -1e-3 }},
		{"release.slave.sleeve", func(c *Chain) { c.System.Slave.Sleeve, c.System.Slave.ForkRatio = 25e-3, 1 }},
		{"release.slave.fork_ratio", func(c *Chain) { c.System.Slave.ForkRatio = 0 }},
		{"release.slave.fork_ratio", func(c *Chain) { c.System.Slave.Sleeve = 15e-3 }},
		{"release.slave.stroke", func(c *Chain) { c.System.Slave.Stroke = 8e-3 }},
		{"release.slave.efficiency", func(c *Chain) { c.System.Slave.Efficiency = math.NaN() }},
	} {
		c := example()
		wrong.make(&c)
		_, err := Solve(c, nil, 0, 0)
		var faults Faults
		if !errors.As(err, &faults) {
			t.Errorf("%s: Solve gives %v, want Faults", wrong.key, err)
			continue
		}
		if len(faults) != 1 || faults[0].Key != wrong.key {
			t.Errorf("%s: found %v", wrong.key, faults)
		}
	}
}

func TestCheckTellsAllFaultsAtOnce(t *testing.T) {
	c := example()
	c.Clutch.LeverRatio, c.System.Master.Bore = -1, 0
	err := c.Check()
	if err == nil || !strings.Contains(err.Error(), "clutch.lever_ratio") || !strings.Contains(err.Error(), "release.master.bore") {
		t.Errorf("got %v", err)
	}
}

func TestRigidAndUnknownFiguresAreAllowed(t *testing.T) {
	c := example()
	c.System.Pedal.Stiffness, c.System.Slave.ForkStiffness = math.Inf(1), math.Inf(1)
	c.System.Master.Stroke, c.Clutch.FingerTravelMax, c.System.Slave.Stroke = math.Inf(1), math.Inf(1), math.Inf(1)
	for _, bulk := range []float64{0, math.Inf(1)} {
		c.System.Line.BulkModulus = bulk
		a := solve(t, c)
		want := 6e-3 + 5.8*(1.2e-3+
			(0.18e-12*c.Pressure(a.FingerTravel)+c.System.Slave.Area()*1.6*a.FingerTravel)/c.System.Master.Area())
		near(t, "pedal", want, c.System.Pedal.Travel, 1e-12)
		if len(a.Notes) != 1 || !strings.Contains(a.Notes[0], "limit of finger travel is not known") {
			t.Errorf("notes %q", a.Notes)
		}
	}
}
