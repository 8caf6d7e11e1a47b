package diagnosis

import (
	"fmt"
	"math"

	"layshaft/release"
)

// check refuses readings that no car can show, whatever is at fault. Keys are those of a readings file.
func (r *Readings) check(c *release.Chain) error {
	var faults release.Faults
	refuse := func(key, format string, args ...any) {
		faults = append(faults, &release.Fault{Key: "readings." + key, Message: fmt.Sprintf(format, args...)})
	}
	pedal := c.System.Pedal.Travel
	held := pedal
	if r.PedalTravel != nil {
		held = r.PedalTravel.Mid()
		const overrun = 1.05 // a carpet or a stop may have gone
		if !(held > 0) {
			refuse("pedal_travel", "%.4g mm is no travel; readings are taken with the pedal pressed", held*1e3)
		} else if held > overrun*pedal {
			refuse("pedal_travel", "%.4g mm is more than the pedal has: %.4g mm", held*1e3, pedal*1e3)
		}
	}
	most := limits(c, max(held, 0))
	for _, o := range r.observations() {
		key := o.kind.Key()
		switch {
		case math.IsNaN(o.value) || math.IsInf(o.value, 0):
			refuse(key, "%g is no figure", o.value)
		case o.value < 0:
			refuse(key, "%s is negative, which no car can show", o.kind.show(o.value))
		case o.value-3*o.uncertainty > most[o.kind]:
			refuse(key, "%s is more than %s, the most that a pedal of %.4g mm could give", o.kind.show(o.value),
				o.kind.show(most[o.kind]), held*1e3)
		}
	}
	if len(faults) > 0 {
		return faults
	}
	return nil
}

// limits are the most that each reading could come to with the pedal pressed by held, with rigid parts, no play, and
// the largest master and the smallest slave that could be there by mistake.
func limits(c *release.Chain, held float64) [kinds]float64 {
	sys := &c.System
	rod := held / sys.Pedal.RatioAt(held)
	master, slave := sys.Master.Area(), sys.Slave.Area()
	for _, b := range otherBores(sys.Master.Bore) {
		master = max(master, release.PistonArea(b.bore))
	}
	for _, b := range otherSlaves(&sys.Slave) {
		slave = min(slave, release.AnnulusArea(b.bore, sys.Slave.Sleeve))
	}
	travel := rod * master / slave
	if stroke := sys.Slave.Stroke; stroke > 0 {
		travel = min(travel, stroke)
	}
	return [kinds]float64{
		SlaveTravel: travel, SlaveTravelAfterPumping: travel, BearingTravel: travel / sys.Slave.ForkRatio,
		BoxMovement: rod, FreePlay: held, LoadFeltAt: held, Effort: mostEffort, Pressure: mostPressure,
	}
}

// What lies beyond is a slip of the unit: nobody holds such an effort, no clutch line such a pressure. Common
// practice, no source.
const (
	mostEffort   = 1500 // N
	mostPressure = 20e6 // Pa
)

// show prints a reading for a message.
func (k Kind) show(v float64) string {
	switch k {
	case Effort:
		return fmt.Sprintf("%.4g N", v)
	case Pressure:
		return fmt.Sprintf("%.4g MPa", v/1e6)
	}
	return fmt.Sprintf("%.4g mm", v*1e3)
}
