package dyno

import (
	"fmt"
	"math"

	"layshaft/quantity"
)

// agreement is how far torque times speed may be from power, beside the rounding of the figures as written.
const agreement = 0.02

// checkAgreement holds torque times speed against power on every row. Where they part, the worst row is the fault;
// where they part by the same ratio on all rows, the fault says what that usually means.
func checkAgreement(cols *columns) (note string, err *Error) {
	omega, power, torque := cols.speed.si(), cols.power.si(), cols.torque.si()
	worst, worstExcess := 0, math.Inf(-1)
	for i := range omega {
		rounding := rounding(cols.power.cells[i]) + rounding(cols.torque.cells[i])
		if excess := apart(torque[i]*omega[i], power[i]) - rounding; excess > worstExcess {
			worst, worstExcess = i, excess
		}
	}
	line, reckoned := cols.torque.cells[worst].line, torque[worst]*omega[worst]
	off := 100 * apart(reckoned, power[worst])
	if worstExcess <= agreement {
		return fmt.Sprintf("power agrees with torque times speed, at worst to %.2f %% (line %d)", off, line), nil
	}
	return "", fault(line, cols.torque.name, "%s at %s is %s, but the %s column says %s (%.0f %% apart): %s",
		quantity.Format(torque[worst], "N m", 0), quantity.Format(omega[worst], "rpm", 0),
		quantity.Format(reckoned, "kW", 1), cols.power.name, quantity.Format(power[worst], "kW", 1), off,
		meaning(omega, power, torque))
}

// apart is the difference of two figures over the larger one.
func apart(a, b float64) float64 {
	if a == b {
		return 0
	}
	return math.Abs(a-b) / math.Max(a, b)
}

// rounding is half the last written digit over the figure.
func rounding(c cell) float64 { return c.step / 2 / math.Max(c.value, c.step) }

// meaning says what a disagreement points to. A ratio is constant where every row lies within 2 % of the overall one.
func meaning(omega, power, torque []float64) string {
	var powers, reckoned float64
	for i := range omega {
		powers += power[i]
		reckoned += torque[i] * omega[i]
	}
	ratio := reckoned / powers
	for i := range omega {
		if apart(torque[i]*omega[i], ratio*power[i]) > agreement {
			return "one of the two columns is wrong; take it out"
		}
	}
	return fmt.Sprintf("torque times speed is %.3g times the power on every line; %s", ratio, constantRatio(ratio))
}

func constantRatio(ratio float64) string {
	// N m for a lbf ft is 1.356, horsepower for a kW 1.341: too near each other to be told apart here.
	const unitSlip = 1.35
	switch {
	case apart(ratio, unitSlip) <= agreement || apart(ratio, 1/unitSlip) <= agreement:
		return "it looks like N m and lbf ft, or kW and horsepower, taken for each other"
	case ratio > 1.5:
		return "it looks like wheel torque not referred to the engine: divide it by gear and axle ratio, or take the column out"
	}
	return "it looks like one measured at the wheels and the other at the crank; take one out"
}
