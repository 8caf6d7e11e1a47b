package release

import (
	"math"

	"layshaft/spring"
)

// bearingLoad is the load curve with what is worked out of it once and used in every draw.
type bearingLoad struct {
	spring.Curve
	travels, loads []float64
	end            float64 // last finger travel of the curve

	steepestFall float64 // least slope anywhere, N/m; 0 where the load never falls
	leastFalling float64 // least load on any falling stretch
}

func newBearingLoad(curve spring.Curve) *bearingLoad {
	b := &bearingLoad{Curve: curve, leastFalling: math.Inf(1)}
	b.travels, b.loads = curve.Points()
	_, b.end = curve.Domain()
	for i := 1; i < len(b.travels); i++ {
		if b.loads[i] >= b.loads[i-1] {
			continue
		}
		b.steepestFall = min(b.steepestFall, leastSlope(curve, b.travels[i-1], b.travels[i]))
		b.leastFalling = min(b.leastFalling, b.loads[i])
	}
	if b.steepestFall == 0 {
		b.leastFalling = 0
	}
	return b
}

// leastSlope is the least slope of a cubic between two of the curve's points. The slope is a parabola there, which
// three values fix.
func leastSlope(curve spring.Curve, a, b float64) float64 {
	m := (a + b) / 2
	first, middle, last := curve.Slope(a), curve.Slope(m), curve.Slope(b)
	least := min(first, middle, last)
	bend := first - 2*middle + last
	if bend > 0 {
		if at := m - (last-first)/(4*bend)*(b-a); at > a && at < b {
			least = min(least, curve.Slope(at))
		}
	}
	return least
}
