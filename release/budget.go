package release

// Share is a part of the pedal's travel and what takes it.
type Share struct {
	Name    string
	Pedal   float64 // m at the pad
	Percent float64 // of the travel spent, all shares together
}

// The names of the shares, in the order of the chain.
const (
	ShareFreePlay   = "free play"
	ShareDeadStroke = "dead stroke"
	ShareBoxFlex    = "pedal box flex"
	ShareHose       = "hose swelling"
	ShareFluid      = "fluid compression"
	ShareOther      = "other compliance"
	ShareAir        = "trapped air"
	ShareStandOff   = "bearing stand-off"
	ShareForkFlex   = "fork flex"
	ShareUseful     = "finger travel"
)

// TravelShares tells where the pedal's travel has gone when the fingers stand at travel xf: only the last share,
// finger travel, lifts the plate. Together the shares are PedalTravel(xf).
func (c *Chain) TravelShares(xf float64) []Share {
	pedal, master, line, slave := &c.System.Pedal, &c.System.Master, &c.System.Line, &c.System.Slave
	load, p := c.Clutch.Load(xf), c.Pressure(xf)
	bearing := slave.ForkRatio * slave.Area() / master.Area() // master stroke per bearing travel
	fluid := func(volume float64) float64 { return volume / master.Area() }

	rods := []struct {
		name string
		rod  float64
	}{
		{ShareDeadStroke, master.DeadStroke},
		{ShareBoxFlex, c.RodForce(xf) / pedal.Stiffness},
		{ShareHose, fluid(HoseSwelling(line.Expansion, line.Length, p))},
		{ShareFluid, fluid(FluidCompression(line.FluidVolume, p, line.BulkModulus))},
		{ShareOther, fluid(line.Compliance * p)},
		{ShareAir, fluid(AirShrinkage(line.TrappedAir, p))},
		{ShareStandOff, bearing * slave.StandOff},
		{ShareForkFlex, bearing * load / slave.ForkStiffness},
		{ShareUseful, bearing * xf},
	}
	shares := []Share{{Name: ShareFreePlay, Pedal: pedal.FreePlay}}
	rod, before := 0.0, pedal.padTravel(0)
	for _, part := range rods {
		rod += part.rod
		pad := pedal.padTravel(rod)
		shares = append(shares, Share{Name: part.name, Pedal: pad - before})
		before = pad
	}
	for i := range shares {
		shares[i].Percent = shares[i].Pedal / before * 100
	}
	return shares
}
