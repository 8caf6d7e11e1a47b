package driveline

import "math"

// contact is how two rubbing bodies stand to each other: stuck, or slipping forwards or backwards.
type contact float64

const stuck contact = 0

// mode says which equations hold.
type mode struct {
	clutch  contact // forwards: engine faster than gearbox
	tyre    contact // forwards: wheel faster than road
	held    bool    // the limiter holds the engine's speed
	resting bool    // the car does not roll yet
}

// state is what is integrated: speeds, then energies.
type state [8]float64

const (
	engine = iota // rad/s
	input         // gearbox input, rad/s
	road          // m/s
	engineWork
	clutchHeat
	tyreHeat
	gearLoss
	resistanceWork
)

// motion is the accelerations and torques that go with a state and a mode.
type motion struct {
	engine, input, road float64 // accelerations, rad/s² and m/s²
	drive, carried      float64 // engine torque, clutch torque, N m
	traction            float64 // at the tyres, N
}

// motion solves the equations of motion
//
//	I1·ω1' = Te − Tc
//	(I2 + Iw/(G²·η))·ω2' = Tc − F·r/(G·η)
//	m·v' = F − R
//
// where a stuck clutch makes ω1' = ω2', stuck tyres make v' = ω2'·r/G, and the limiter makes ω1' = 0.
func (s *simulation) motion(t float64, y state, m mode) motion {
	l, v := s.launch, &s.launch.Vehicle
	G, η, r := l.Ratio, l.Efficiency, v.TyreRadius
	J2 := l.InputInertia + v.WheelInertia/(G*G*η)
	R := s.resistance(y[road])
	load := R // what resists at the tyres, N
	var a motion
	switch {
	case m.resting && m.tyre == stuck:
		J2 = math.Inf(1)
	case m.tyre == stuck:
		J2 += v.Mass * r * r / (G * G * η)
	default:
		a.road = s.slidingAcceleration(m, R)
		a.traction = v.Mass*a.road + R
		if m.resting {
			a.road, a.traction = 0, v.Grip*v.Mass*Gravity*s.share
		}
		load = a.traction
	}
	TL := load * r / (G * η)
	a.drive = l.Engine(y[engine])
	switch {
	case m.clutch != stuck:
		a.carried = float64(m.clutch) * s.capacity(t)
		a.engine = (a.drive - a.carried) / l.EngineInertia
		if m.held {
			a.engine, a.drive = 0, a.carried
		}
		a.input = (a.carried - TL) / J2
	case m.held:
		a.drive, a.carried = TL, TL
	default:
		a.engine = (a.drive - TL) / (l.EngineInertia + J2)
		a.input = a.engine
		a.carried = a.drive - l.EngineInertia*a.engine
	}
	if m.tyre == stuck {
		a.road = a.input * r / G
		a.traction = v.Mass*a.road + R
		if m.resting {
			a.traction = a.carried * G * η / r
		}
	}
	return a
}

// slidingAcceleration is that of the car while its driven tyres slide, with the load that it moves.
func (s *simulation) slidingAcceleration(m mode, R float64) float64 {
	v := &s.launch.Vehicle
	μ := float64(m.tyre) * v.Grip
	return (μ*Gravity*s.share - R/v.Mass) / (1 - μ*s.transfer)
}

// grip is the traction at which stuck tyres break loose at an acceleration, N.
func (s *simulation) grip(acceleration float64) float64 {
	v := &s.launch.Vehicle
	return v.Grip * v.Mass * math.Max(Gravity*s.share+acceleration*s.transfer, 0)
}

// rates are the derivatives of the state.
func (s *simulation) rates(t float64, y state, m mode) state {
	l, a := s.launch, s.motion(t, y, m)
	throughGears := (a.carried - l.InputInertia*a.input) * y[input]
	var atClutch, atTyres float64
	if m.clutch != stuck {
		atClutch = a.carried * (y[engine] - y[input])
	}
	if m.tyre != stuck {
		atTyres = a.traction * s.wheelSlip(y)
	}
	return state{
		engine:         a.engine,
		input:          a.input,
		road:           a.road,
		engineWork:     a.drive * y[engine],
		clutchHeat:     atClutch,
		tyreHeat:       atTyres,
		gearLoss:       (1 - l.Efficiency) * throughGears,
		resistanceWork: s.resistance(y[road]) * y[road],
	}
}

// wheelSlip is by how much the tread is faster than the road, m/s.
func (s *simulation) wheelSlip(y state) float64 {
	return y[input]*s.launch.Vehicle.TyreRadius/s.launch.Ratio - y[road]
}

// rungeKutta takes one step of the classical fourth order.
func (s *simulation) rungeKutta(t float64, y state, m mode, h float64) state {
	at := func(k state, part float64) state {
		for i := range k {
			k[i] = y[i] + part*h*k[i]
		}
		return k
	}
	k1 := s.rates(t, y, m)
	k2 := s.rates(t+h/2, at(k1, 0.5), m)
	k3 := s.rates(t+h/2, at(k2, 0.5), m)
	k4 := s.rates(t+h, at(k3, 1), m)
	next := y
	for i := range next {
		next[i] += h / 6 * (k1[i] + 2*k2[i] + 2*k3[i] + k4[i])
	}
	return next
}
