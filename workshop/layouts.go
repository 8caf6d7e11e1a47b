package workshop

import (
	"strings"

	"layshaft/driveline"
)

// DrivenWheels tells from a layout's name which wheels the engine turns, and says it in words. A name that does not
// begin with fwd, rwd or mid is taken to drive all four, which is the widest assumption.
func DrivenWheels(layout string) (driven driveline.DrivenWheels, words string) {
	switch {
	case strings.HasPrefix(layout, "fwd"):
		return driveline.FrontWheels, "front-wheel"
	case strings.HasPrefix(layout, "rwd"), strings.HasPrefix(layout, "mid"):
		return driveline.RearWheels, "rear-wheel"
	}
	return driveline.FourWheels, "four-wheel"
}
