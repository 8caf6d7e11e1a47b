package workshop

import (
	"math"

	"layshaft/driveline"
)

// DriveAnswer is what the parts behind the clutch see, gear by gear, with the engine's peak torque put in and the
// tyres as the limit.
type DriveAnswer struct {
	Torque    Figure      `json:"torque_in_nm"`
	Grip      Figure      `json:"tyre_grip"`
	Gears     []GearLoads `json:"gears"`
	Pin       *PinLoads   `json:"cross_pin,omitempty"`
	HalfShaft *ShaftLoads `json:"half_shaft,omitempty"`
	Notes     []string    `json:"notes"`
}

// GearLoads is the torque at each element in one gear.
type GearLoads struct {
	Gear        int    `json:"gear"`
	GearboxOut  Figure `json:"gearbox_out_nm"`
	Propshaft   Figure `json:"propshaft_nm"`
	Case        Figure `json:"differential_case_nm"` // of the axle that sees more
	HalfShaft   Figure `json:"half_shaft_nm"`
	TyreLimited bool   `json:"tyre_limited"`
}

// PinLoads is what a differential's cross pin sees in the gear that loads it most.
type PinLoads struct {
	Gear           int    `json:"gear"`
	PinionForce    Figure `json:"pinion_force_kn"`
	PinionPressure Figure `json:"pinion_pressure_mpa"`
	CasePressure   Figure `json:"case_pressure_mpa"` // null where the seat in the case is not known
	Shear          Figure `json:"shear_mpa"`
}

// ShaftLoads is what a half shaft sees in the gear that loads it most.
type ShaftLoads struct {
	Gear   int    `json:"gear"`
	Torque Figure `json:"torque_nm"`
	Stress Figure `json:"stress_mpa"`
	Twist  Figure `json:"twist_deg"`
}

// driveLoads is nil where the job says too little of the driveline.
func driveLoads(job *Job, torque float64) *DriveAnswer {
	d := job.Drive
	if d == nil || len(d.Gears) == 0 || d.Final == 0 || d.TyreRadius == 0 {
		return nil
	}
	vehicle := d.vehicle(job)
	gearing := driveline.Gearing{Gears: d.Gears, Final: d.Final, FrontTorque: frontTorque(vehicle.Driven)}
	answer := &DriveAnswer{Torque: Figure(torque), Grip: Figure(vehicle.Grip)}
	worst, worstGear := 0.0, 0
	half := 0.0
	for _, load := range driveline.Loads(torque, gearing, vehicle) {
		axle := load.Rear
		if load.Front.Case > axle.Case {
			axle = load.Front
		}
		answer.Gears = append(answer.Gears, GearLoads{
			Gear: load.Gear, GearboxOut: Figure(load.GearboxOut), Propshaft: Figure(load.Rear.Propshaft),
			Case: Figure(axle.Case), HalfShaft: Figure(axle.HalfShaft), TyreLimited: axle.TyreLimited,
		})
		if axle.Case > worst {
			worst, worstGear, half = axle.Case, load.Gear, axle.HalfShaft
		}
	}
	if d.CrossPin != nil {
		answer.Pin = d.CrossPin.loads(worst, worstGear)
	}
	if d.HalfShaft != nil {
		shaft := driveline.Shaft{Diameter: d.HalfShaft.Diameter, Bore: d.HalfShaft.Bore, Length: d.HalfShaft.Length, ShearModulus: driveline.SteelShearModulus}
		answer.HalfShaft = &ShaftLoads{Gear: worstGear, Torque: Figure(half), Stress: Figure(shaft.Stress(half) / 1e6), Twist: Figure(shaft.Twist(half) * 180 / math.Pi)}
	}
	answer.Notes = d.notes(vehicle)
	return answer
}

func (p *CrossPin) loads(torque float64, gear int) *PinLoads {
	pin := driveline.CrossPin{Pinions: p.Pinions, Diameter: p.Diameter, PinionRadius: p.PinionRadius, PinionLength: p.PinionLength,
		CaseRadius: p.CaseRadius, CaseLength: p.CaseLength}
	load := pin.Load(torque)
	return &PinLoads{Gear: gear, PinionForce: Figure(load.PinionForce / 1e3), PinionPressure: Figure(load.PinionPressure / 1e6),
		CasePressure: Figure(load.CasePressure / 1e6), Shear: Figure(load.Shear / 1e6)}
}

// vehicle is the car as the tyres see it. Without a grip the tyres never slip, which errs on the high side.
func (d *Drive) vehicle(job *Job) driveline.Vehicle {
	driven, _ := DrivenWheels(job.Car.Layout)
	v := driveline.Vehicle{
		Mass: job.Car.Mass, FrontShare: d.FrontShare, Wheelbase: d.Wheelbase, CentreHeight: d.CentreHigh,
		TyreRadius: d.TyreRadius, WheelInertia: d.WheelSpin, Driven: driven, Grip: d.TyreGrip.Mid(),
	}
	if v.Grip == 0 || v.Mass == 0 || v.FrontShare == 0 || v.Wheelbase == 0 {
		v.Grip = math.Inf(1)
	}
	return v
}

// frontTorque is the front axle's share; four driven wheels are taken with an even centre differential.
func frontTorque(driven driveline.DrivenWheels) float64 {
	switch driven {
	case driveline.FrontWheels:
		return 1
	case driveline.RearWheels:
		return 0
	}
	return 0.5
}

func (d *Drive) notes(v driveline.Vehicle) []string {
	notes := []string{"losses are left out, which errs on the high side; the shock of slack taken up suddenly can be above all of this"}
	if math.IsInf(v.Grip, 1) {
		notes = append(notes, "the tyres are taken never to slip: give mass, tyre_grip, front_share and wheelbase")
	}
	if v.Driven == driveline.FourWheels {
		notes = append(notes, "four driven wheels: the torque is taken as shared evenly between the axles; a centre differential carries both")
	}
	return notes
}
