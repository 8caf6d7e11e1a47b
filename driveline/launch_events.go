package driveline

import (
	"fmt"
	"math"
)

// simulation is a launch under way.
type simulation struct {
	launch          *Launch
	share, transfer float64 // of the weight on the driven wheels, see Vehicle
	friction        float64 // now, as a share of the cold one
	t               float64
	y               state
	mode            mode
	out             Launched
}

func newSimulation(l *Launch) *simulation {
	s := &simulation{launch: l, friction: 1}
	s.share, s.transfer = l.Vehicle.drivenLoad()
	s.y[engine] = l.StartSpeed
	s.mode = mode{clutch: 1, resting: s.resistance(0) > 0}
	s.out.LockedAt = math.NaN()
	if l.Fade != nil {
		s.friction = l.Fade(0, 0)
	}
	return s
}

func (s *simulation) done() bool {
	allIn := s.launch.AllIn > 0 && s.t >= s.launch.AllIn && s.mode.clutch == stuck
	return s.out.Stalled || allIn || s.t >= s.launch.Duration*(1-1e-12)
}

func (s *simulation) resistance(speed float64) float64 {
	if s.launch.Resistance == nil {
		return 0
	}
	return s.launch.Resistance(speed)
}

func (s *simulation) capacity(t float64) float64 { return s.launch.Clutch(t) * s.friction }

func (s *simulation) kinetic() float64 {
	l, v := s.launch, &s.launch.Vehicle
	wheel := s.y[input] / l.Ratio
	return (l.EngineInertia*s.y[engine]*s.y[engine] + l.InputInertia*s.y[input]*s.y[input] +
		v.WheelInertia*wheel*wheel + v.Mass*s.y[road]*s.y[road]) / 2
}

// Slack in the conditions below, far under anything that matters, so that one which has just been met does not fire
// again by rounding.
const (
	speedSlack  = 1e-9 // rad/s, m/s
	torqueSlack = 1e-9 // N m, N
)

// event is a condition on the mode: it holds while its margin is not negative.
type event struct {
	margin float64
	settle func(s *simulation)
}

// events are the conditions of a state and mode.
func (s *simulation) events(t float64, y state, m mode) [5]event {
	a := s.motion(t, y, m)
	clutch := event{s.capacity(t) - math.Abs(a.carried) + torqueSlack, (*simulation).clutchBreaksLoose}
	if m.clutch != stuck {
		clutch = event{float64(m.clutch)*(y[engine]-y[input]) + speedSlack, (*simulation).clutchMeets}
	}
	tyre := event{s.grip(a.road) - math.Abs(a.traction) + torqueSlack, (*simulation).tyreBreaksLoose}
	if m.tyre != stuck {
		tyre = event{float64(m.tyre)*s.wheelSlip(y) + speedSlack, (*simulation).tyreMeets}
	}
	limiter := event{math.Inf(1), nil}
	if m.held {
		limiter = event{s.launch.Engine(y[engine]) - a.drive + torqueSlack, (*simulation).limiterLetsGo}
	} else if s.launch.Limiter > 0 {
		limiter = event{s.launch.Limiter - y[engine] + speedSlack, (*simulation).limiterHolds}
	}
	rolling := event{y[road] + speedSlack, (*simulation).carStops}
	if m.resting {
		rolling = event{s.resistance(0) - a.traction + torqueSlack, (*simulation).carRolls}
	}
	stall := event{y[engine] - s.launch.Stall, (*simulation).engineStalls}
	return [5]event{clutch, tyre, limiter, rolling, stall}
}

// fired returns what settles the first broken condition, or nil.
func (s *simulation) fired(t float64, y state, m mode) (settle func(*simulation)) {
	for _, e := range s.events(t, y, m) {
		if e.margin < 0 {
			return e.settle
		}
	}
	return nil
}

// advance takes one step, or less up to the first event in it.
func (s *simulation) advance() error {
	if err := s.settle(); err != nil || s.out.Stalled {
		return err
	}
	h := math.Min(s.launch.Step, s.launch.Duration-s.t)
	next := s.rungeKutta(s.t, s.y, s.mode, h)
	if !finite(next[:]...) {
		return fmt.Errorf("launch: the torques are not known at %.3f s (engine at %.1f rad/s)", s.t, s.y[engine])
	}
	if s.fired(s.t+h, next, s.mode) != nil {
		h, next = s.locate(h)
	}
	s.record(h, next)
	s.t, s.y = s.t+h, next
	return nil
}

// locate halves a step in which an event fires down to the instant at which it does.
func (s *simulation) locate(h float64) (float64, state) {
	before, after := 0.0, h
	for range 48 {
		middle := (before + after) / 2
		if y := s.rungeKutta(s.t, s.y, s.mode, middle); s.fired(s.t+middle, y, s.mode) != nil {
			after = middle
		} else {
			before = middle
		}
	}
	return after, s.rungeKutta(s.t, s.y, s.mode, after)
}

// settle changes the mode until all its conditions hold.
func (s *simulation) settle() error {
	for range 20 {
		settle := s.fired(s.t, s.y, s.mode)
		if settle == nil {
			return nil
		}
		settle(s)
		if s.out.Stalled {
			return nil
		}
	}
	return fmt.Errorf("launch: at %.4f s clutch and tyres neither stick nor slip; is the grip or the clutch torque near nought?", s.t)
}

// clutchMeets locks the clutch where it can carry the torque, and lets it slip the other way where not.
func (s *simulation) clutchMeets() {
	slipping := s.mode.clutch
	s.mode.clutch = stuck
	s.y[input] = s.y[engine]
	a := s.motion(s.t, s.y, s.mode)
	if math.Abs(a.carried) > s.capacity(s.t)+torqueSlack {
		s.mode.clutch = -slipping
		return
	}
	s.out.LockedAt = s.t
}

func (s *simulation) clutchBreaksLoose() {
	s.mode.clutch = contact(math.Copysign(1, s.motion(s.t, s.y, s.mode).carried))
}

// tyreMeets lets the tyres stick where they can pass the force, and slip the other way where not.
func (s *simulation) tyreMeets() {
	slipping := s.mode.tyre
	s.mode.tyre = stuck
	s.y[road] += s.wheelSlip(s.y) // what is left of it would count as meeting again once they break loose
	a := s.motion(s.t, s.y, s.mode)
	if math.Abs(a.traction) > s.grip(a.road)+torqueSlack {
		s.mode.tyre = -slipping
	}
}

func (s *simulation) tyreBreaksLoose() {
	s.mode.tyre = contact(math.Copysign(1, s.motion(s.t, s.y, s.mode).traction))
}

func (s *simulation) limiterHolds() {
	s.mode.held, s.y[engine] = true, s.launch.Limiter
	if s.mode.clutch == stuck {
		s.y[input] = s.y[engine]
	}
}

func (s *simulation) limiterLetsGo() { s.mode.held = false }

func (s *simulation) carStops() { s.mode.resting, s.y[road] = true, 0 }

func (s *simulation) carRolls() { s.mode.resting = false }

func (s *simulation) engineStalls() { s.out.Stalled = true }

// record keeps the accounts of a step that has been taken.
func (s *simulation) record(h float64, next state) {
	heat := next[clutchHeat] - s.y[clutchHeat]
	if s.mode.clutch != stuck {
		s.out.SlipTime += h
	}
	if s.mode.tyre != stuck {
		s.out.SpinTime += h
	}
	if s.launch.Fade != nil && h > 0 {
		s.friction = s.launch.Fade(heat/h, h)
	}
	a := s.motion(s.t+h, next, s.mode)
	moment := Moment{
		Time: s.t + h, Engine: next[engine], Input: next[input], Speed: next[road],
		Clutch: a.carried, Power: a.carried * (next[engine] - next[input]),
	}
	s.out.PeakPower = math.Max(s.out.PeakPower, moment.Power)
	s.out.Moments = append(s.out.Moments, moment)
	s.out.Locked = s.mode.clutch == stuck
	s.out.Energies = Energies{
		Engine: next[engineWork], Clutch: next[clutchHeat], Tyres: next[tyreHeat],
		Gears: next[gearLoss], Resistance: next[resistanceWork],
	}
}
