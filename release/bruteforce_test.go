package release

import (
	"math"
	"testing"
)

// longHand writes the chain out term by term, with nothing shared with the package but the load curve, and walks
// the fingers forward in small steps to see which of them the pedal gets to.
type longHand struct{ c Chain }

func (l longHand) at(xf float64) (pedal, effort, pressure, stroke float64) {
	p, m, ln, sl := l.c.System.Pedal, l.c.System.Master, l.c.System.Line, l.c.System.Slave
	Am := math.Pi * m.Bore * m.Bore / 4
	As := math.Pi * (sl.Bore*sl.Bore - sl.Sleeve*sl.Sleeve) / 4
	Fb := l.c.Clutch.LoadScale * l.c.Clutch.BearingLoad.At(xf)
	pressure = Fb / (sl.ForkRatio * As * sl.Efficiency)
	Fr := pressure * Am / m.Efficiency
	Vc := (ln.Expansion*ln.Length+ln.FluidVolume/ln.BulkModulus+ln.Compliance)*pressure +
		ln.TrappedAir*(1-101325/(101325+pressure))
	stroke = m.DeadStroke + (Vc+As*sl.ForkRatio*(xf+sl.StandOff+Fb/sl.ForkStiffness))/Am
	pedal = p.FreePlay + p.Ratio*(stroke+Fr/p.Stiffness)
	return pedal, Fr / (p.Ratio * p.Efficiency), pressure, stroke
}

// pressed walks to the last finger travel that the pedal reaches at full travel: the fingers move on while the next
// step needs no more pedal than there is, and jump over what needs less.
func (l longHand) pressed(travel float64, steps int) (finger, peakEffort float64) {
	_, end := l.c.Clutch.BearingLoad.Domain()
	reached := math.Inf(-1)
	for i := 0; i <= steps; i++ {
		xf := end * float64(i) / float64(steps)
		pedal, effort, _, _ := l.at(xf)
		if pedal > travel {
			break
		}
		if pedal >= reached {
			reached, finger, peakEffort = pedal, xf, max(peakEffort, effort)
		}
	}
	return finger, peakEffort
}

func TestAnswerAgreesWithChainWrittenOutByHand(t *testing.T) {
	air := example()
	air.System.Line.TrappedAir = 0.6e-6
	concentric := example()
	concentric.System.Slave = Slave{Bore: 46e-3, Sleeve: 32e-3, ForkRatio: 1, ForkStiffness: math.Inf(1), StandOff: 1.5e-3, Efficiency: 0.93}
	for name, c := range map[string]Chain{"example": example(), "air": air, "concentric": concentric, "snap": snapping()} {
		t.Run(name, func(t *testing.T) {
			const steps = 400000 // 0.03 µm of finger travel
			l := longHand{c}
			a := solve(t, c)
			finger, effort := l.pressed(c.System.Pedal.Travel, steps)
			near(t, "finger travel", a.FingerTravel, finger, 1e-7)
			near(t, "peak effort", a.PeakEffort, effort, 1e-3)
			free, _, _, _ := l.at(c.Clutch.FingerTravelNeeded())
			limit, _, _, _ := l.at(c.Clutch.FingerTravelMax)
			if !a.SnapThrough { // else the least pedal is not that at the point itself
				near(t, "stop, least", a.StopMin, free, 1e-12)
				near(t, "stop, most", a.StopMax, limit, 1e-12)
			}
			_, _, _, stroke := l.at(a.FingerTravel)
			near(t, "master stroke", a.MasterStroke, stroke, 1e-12)
			for _, p := range c.Map(77) {
				finger, _ := l.pressed(p.Pedal, 40000)
				near(t, "finger travel on the map", p.Finger, finger, 4e-7)
			}
		})
	}
}
