package workshop

import (
	"fmt"

	"layshaft/driveline"
)

const zeroCelsius = 273.15

// What heats up, where nobody measured it: common practice, no source.
const (
	facingThickness    = 3.2e-3 // m
	flywheelThickness  = 20e-3
	pressurePlate      = 15e-3
	intermediatePlate  = 10e-3
	filmInBellhousing  = 40.0             // W/(m² K)
	bellhousing        = zeroCelsius + 60 // K, of a car that has been driven
	cellsForALaunchRow = 20
)

func (c *Clutch) heat(family driveline.FacingFamily) driveline.ClutchHeat {
	return driveline.ClutchHeat{
		Discs: c.Discs, Facing: c.facing(), FacingMaterial: family.Facing, FacingThickness: facingThickness, Metal: family.Against,
		Flywheel: flywheelThickness, PressurePlate: pressurePlate, Intermediate: intermediatePlate,
		Film: filmInBellhousing, Ambient: bellhousing, Cells: cellsForALaunchRow,
	}
}

// fade is how the clutch's friction changes with heat, and in words what is taken for that.
func (c *Clutch) fade() (driveline.FacingFamily, driveline.Fade, []string) {
	family, words := c.family()
	cold := c.Friction.Mid()
	fade := driveline.Fade{Cold: cold, Hot: cold * family.HotFriction.Mid() / family.Friction.Mid(), From: family.From, To: family.To}
	if c.HotFriction != nil {
		fade.Hot = c.HotFriction.Mid()
	} else {
		words = append(words, fmt.Sprintf("hot friction not given: %.2f, as %s facings change", fade.Hot, family.Name))
	}
	return family, fade, append(words,
		fmt.Sprintf("friction %.2f up to %.0f degC, evenly to %.2f at %.0f degC: common practice, no source", fade.Cold, fade.From-zeroCelsius, fade.Hot, fade.To-zeroCelsius),
		fmt.Sprintf("facings %.1f mm, flywheel %.0f mm, pressure plate %.0f mm, plates between discs %.0f mm thick, %.0f degC in the bellhousing: common practice, no source",
			facingThickness*1e3, flywheelThickness*1e3, pressurePlate*1e3, intermediatePlate*1e3, bellhousing-zeroCelsius))
}

// family is the facing's; where it is not given, the mildest one that has its friction.
func (c *Clutch) family() (driveline.FacingFamily, []string) {
	families := driveline.FacingFamilies()
	for _, f := range families {
		if f.Name == c.Family {
			return f, nil
		}
	}
	friction := c.Friction.Mid()
	mildest := families[0]
	for _, f := range families {
		lo, hi := f.Friction.Bounds()
		if lo <= friction && friction <= hi {
			mildest = f
			break
		}
	}
	return mildest, []string{fmt.Sprintf("facing family not given: taken as %s from its friction", mildest.Name)}
}
