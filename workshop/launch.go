package workshop

import (
	"fmt"
	"math"
	"strings"

	"layshaft/driveline"
)

// Launch is what moving off hard in first gear does to a clutch, and how many times it takes that close together.
type Launch struct {
	Gear       int    `json:"gear"`
	StartSpeed Figure `json:"launch_speed_rpm"`
	BiteTime   Figure `json:"bite_time_s"` // that the pedal takes from where the clutch begins to carry to where it carries all
	LetInBy    string `json:"let_in_by"`   // release system whose pedal map the torque goes by; empty: an even ramp

	Energy    Figure `json:"energy_kj"` // heat in the clutch
	SlipTime  Figure `json:"slip_time_s"`
	PeakPower Figure `json:"peak_power_kw"`
	Rise      Figure `json:"surface_rise_k"` // of the hottest face
	Hottest   string `json:"hottest"`
	TyreSpin  Figure `json:"tyre_spin_s"`
	Stalls    bool   `json:"stalls"`

	SlipsFirst string   `json:"slips_first"` // with the pedal up: tyres, clutch, or empty where the grip is not known
	Row        InARow   `json:"in_a_row"`
	Family     string   `json:"facing_family"`
	OverTime   []Bite   `json:"over_time"`
	Assumed    []string `json:"assumed"`
}

// InARow is one launch after another.
type InARow struct {
	Interval Figure `json:"interval_s"`
	Held     int    `json:"held"`
	More     bool   `json:"more"`        // it held them all; nobody tried further
	Hottest  Figure `json:"hottest_c"`   // face in the last one
	Capacity Figure `json:"capacity_nm"` // at the lowest friction in the last one
	Limit    Figure `json:"limit_c"`     // usual working limit of such facings
	Within   int    `json:"within_limit"`
}

// Bite is one instant of a launch from cold.
type Bite struct {
	Time     Figure `json:"time_s"`
	CanCarry Figure `json:"can_carry_nm"`
	Carries  Figure `json:"carries_nm"`
	Engine   Figure `json:"engine_rpm"`
	Gearbox  Figure `json:"gearbox_in_rpm"`
	Power    Figure `json:"power_kw"`
}

// What is taken for a launch where nobody says otherwise: common practice, no source.
const (
	usualBiteTime  = 0.8  // s
	launchInterval = 30.0 // s, from the end of one launch to the start of the next
	stallSpeed     = 63.0 // rad/s, 600 rpm
	discsInertia   = 0.01 // of discs and gearbox input shaft, kg m²
	slipsNoLonger  = 5.0  // s after the pedal is up; a clutch that still slips then does not hold
)

// launcher is what the launches of all of a job's clutches have in common.
type launcher struct {
	job     *Job
	launch  driveline.Launch // without its clutch
	demand  float64          // the engine's peak, N m
	limit   float64          // torque at the clutch that the tyres pass, N m
	most    int
	assumed []string
}

// launch adds a launch of every clutch, or the reason why there is none.
func (h *HoldAnswer) launch(job *Job, demand driveline.Demand, effort Effort) {
	if effort.Launches == 0 {
		return
	}
	l, err := newLauncher(job, demand, effort)
	if err != nil {
		h.NotComputed = append(h.NotComputed, Assumption{"launch", err.Error()})
		return
	}
	for i := range job.Clutches {
		name := job.Clutches[i].Name
		hold := h.Clutches[name]
		if hold.Launch, err = l.of(&job.Clutches[i]); err != nil {
			h.NotComputed = append(h.NotComputed, Assumption{"launch of " + name, err.Error()})
		}
		h.Clutches[name] = hold
	}
}

// newLauncher returns the launcher, or what the job does not say.
func newLauncher(job *Job, demand driveline.Demand, effort Effort) (*launcher, error) {
	if missing := job.missingForLaunch(); len(missing) > 0 {
		return nil, fmt.Errorf("needs %s", strings.Join(missing, " and "))
	}
	d := job.Drive
	if d.LaunchSpeed <= stallSpeed {
		return nil, fmt.Errorf("needs a driveline.launch_speed above 600 rpm, where the engine is taken to stall")
	}
	vehicle := d.vehicle(job)
	l := &launcher{job: job, demand: demand.Mid(), most: effort.Launches}
	torque, words := job.Engine.fullLoad(l.demand)
	loss := job.Engine.lossTo(vehicle.Driven)
	bite := d.biteTime()
	l.launch = driveline.Launch{
		Engine: torque, EngineInertia: d.EngineSpin, StartSpeed: d.LaunchSpeed, Limiter: d.LaunchSpeed, Stall: stallSpeed,
		InputInertia: discsInertia, Ratio: d.Gears[0] * d.Final, Efficiency: 1 - loss, Vehicle: vehicle,
		Step: math.Max(2e-3, math.Min(bite/100, 10e-3)), Duration: bite + slipsNoLonger, AllIn: bite,
	}
	front, rear := vehicle.TyreLimits()
	l.limit = (front + rear) / l.launch.Ratio
	l.assumed = []string{
		words,
		"the driver or a limiter holds the engine at the launch speed with full load until the clutch has caught up",
		fmt.Sprintf("%.0f %% of the torque is lost between crank and road; level road, no wind; discs and input shaft %.2f kg m2", loss*100, discsInertia),
	}
	if d.BiteTime == 0 {
		l.assume("the pedal goes through its bite band in %.1f s: common practice, no source", bite)
	}
	if math.IsInf(vehicle.Grip, 1) {
		l.assume("the tyres are taken never to slip, which errs on the hot side")
	}
	return l, nil
}

func (l *launcher) assume(format string, args ...any) {
	l.assumed = append(l.assumed, fmt.Sprintf(format, args...))
}

// missingForLaunch names the keys without which no launch can be computed.
func (j *Job) missingForLaunch() []string {
	d := j.Drive
	if d == nil {
		return []string{"driveline"}
	}
	var missing []string
	if len(d.Gears) == 0 {
		missing = append(missing, "driveline.gears")
	}
	for _, f := range []struct {
		key   string
		value float64
	}{
		{"car.mass", j.Car.Mass}, {"driveline.final_drive", d.Final}, {"driveline.tyre_radius", d.TyreRadius},
		{"driveline.engine_inertia", d.EngineSpin}, {"driveline.launch_speed", d.LaunchSpeed},
	} {
		if f.value == 0 {
			missing = append(missing, f.key)
		}
	}
	return missing
}

func (d *Drive) biteTime() float64 {
	if d.BiteTime == 0 {
		return usualBiteTime
	}
	return d.BiteTime
}

// fullLoad is the crank's torque over speed, with in words what it rests on. Of an engine of which only the power is
// known it is the peak at low speed, and falls so that the power is never above the one that is known.
func (e *Engine) fullLoad(peak float64) (torque func(omega float64) float64, words string) {
	if e.Run == nil {
		power := e.Power.Mid()
		return func(omega float64) float64 { return math.Min(peak, power/omega) },
			"only the power is known: the engine gives its peak torque at every speed, as far as that is no more than this power"
	}
	curve, err := e.Run.Curve()
	if err != nil {
		panic("workshop: " + err.Error()) // demand has already made this curve
	}
	_, measured := curve.Peak()
	at := curve.Extended()
	return func(omega float64) float64 { return at(omega) * peak / measured },
		"outside the dyno run the torque is taken as at its nearest end"
}

// lossTo is the share of the crank's torque that does not reach the road.
func (e *Engine) lossTo(wheels driveline.DrivenWheels) float64 {
	if e.AtWheels {
		return e.Loss.Mid()
	}
	return driveline.WheelLoss(wheels).Mid()
}

// of launches one clutch until it slips.
func (l *launcher) of(c *Clutch) (*Launch, error) {
	capacity, bite := c.capacity(), l.launch.AllIn
	in, by := l.job.letIn(c)
	family, fade, words := c.fade()
	launch := l.launch
	launch.Clutch = in.over(bite)
	row, err := driveline.Repeat{
		Launch: launch, Heat: c.heat(family), Fade: fade,
		Full: capacity, Demand: l.demand, Pause: launchInterval,
	}.Run(l.most)
	if err != nil {
		return nil, err
	}
	first := row[0]
	out := &Launch{
		Gear: 1, StartSpeed: rpm(launch.StartSpeed), BiteTime: Figure(bite), LetInBy: by,
		Energy: Figure(first.Clutch / 1e3), SlipTime: Figure(first.SlipTime), PeakPower: Figure(first.PeakPower / 1e3),
		Rise: Figure(first.Hottest - bellhousing), Hottest: first.Part, TyreSpin: Figure(first.SpinTime), Stalls: first.Stalled,
		SlipsFirst: l.slipsFirst(capacity), Row: inARow(row, family.To), Family: family.Name,
		OverTime: overTime(first.Moments, launch.Clutch),
		Assumed:  append(append([]string{}, l.assumed...), words...),
	}
	if by == "" {
		out.Assumed = append(out.Assumed, "the bite band is not known: the torque rises evenly in that time")
	}
	return out, nil
}

// slipsFirst says what lets go first when more torque is put in with the pedal up than either can pass.
func (l *launcher) slipsFirst(capacity float64) string {
	switch {
	case math.IsInf(l.limit, 1):
		return ""
	case l.limit < capacity:
		return "tyres"
	}
	return "clutch"
}

// inARow counts the launches that the clutch held, and those that left its faces below their working limit in K.
func inARow(row []driveline.HeatedLaunch, limit float64) InARow {
	last := row[len(row)-1]
	out := InARow{
		Interval: launchInterval, Held: len(row), More: !last.Slips,
		Hottest: Figure(last.Hottest - zeroCelsius), Capacity: Figure(last.Capacity), Limit: Figure(limit - zeroCelsius),
	}
	if last.Slips {
		out.Held--
	}
	for out.Within < out.Held && row[out.Within].Hottest < limit {
		out.Within++
	}
	return out
}

// overTime is a launch in about sixty instants.
func overTime(moments []driveline.Moment, canCarry func(t float64) float64) []Bite {
	const points = 60
	every := (len(moments) + points - 1) / points
	var all []Bite
	for i := 0; i < len(moments); i += every {
		m := moments[i]
		all = append(all, Bite{Time: Figure(m.Time), CanCarry: Figure(canCarry(m.Time)), Carries: Figure(m.Clutch),
			Engine: rpm(m.Engine), Gearbox: rpm(m.Input), Power: Figure(m.Power / 1e3)})
	}
	return all
}

func rpm(omega float64) Figure { return Figure(omega * 30 / math.Pi) }
