package driveline

// Gearing is the way from the clutch to the axles.
type Gearing struct {
	Gears         []float64 // turns in for one turn out of the gearbox, first gear first
	Final         float64   // turns out of the gearbox for one turn of the wheels
	RearAxle      float64   // turns of the propshaft for one turn of the rear wheels; 0 where it is Final
	FrontTorque   float64   // share of the torque that goes to the front axle: 1, 0 or the centre differential's
	HalfShaftPart float64   // share of an axle's torque that one half shaft may see: 0.5 open, up to 1 locked; 0 is 0.5
}

// AxleLoad is the torque at one driven axle in N m.
type AxleLoad struct {
	Propshaft   float64 // in the shaft to the rear axle; 0 at the front
	Case        float64 // at the differential's case
	HalfShaft   float64
	TyreLimited bool // the tyres pass no more than this; the engine could
}

// GearLoad is the torque at each element in one gear, in N m.
type GearLoad struct {
	Gear        int // 1 is first
	GearboxIn   float64
	GearboxOut  float64
	Front, Rear AxleLoad
}

// Loads returns what each element of the driveline sees in each gear when torque is put in at the clutch: the
// engine's peak, or the clutch's capacity for a clutch that is let in with a bang. Each axle is capped by its own
// tyres, and what the tyres do not take the gearbox does not carry. Losses are left out, which errs on the high side.
// The shock of slack taken up suddenly can be above all of this for an instant; no static reckoning sees it.
func Loads(torque float64, g Gearing, v Vehicle) []GearLoad {
	frontLimit, rearLimit := v.TyreLimits()
	rearAxle, part := g.RearAxle, g.HalfShaftPart
	if rearAxle == 0 {
		rearAxle = g.Final
	}
	if part == 0 {
		part = 0.5
	}
	loads := make([]GearLoad, len(g.Gears))
	for i, gear := range g.Gears {
		wheels := torque * gear * g.Final
		front := axleLoad(wheels*g.FrontTorque, frontLimit, part)
		rear := axleLoad(wheels*(1-g.FrontTorque), rearLimit, part)
		rear.Propshaft = rear.Case / rearAxle
		out := (front.Case + rear.Case) / g.Final
		loads[i] = GearLoad{Gear: i + 1, GearboxIn: out / gear, GearboxOut: out, Front: front, Rear: rear}
	}
	return loads
}

func axleLoad(torque, limit, part float64) AxleLoad {
	carried := min(torque, limit)
	return AxleLoad{Case: carried, HalfShaft: carried * part, TyreLimited: torque > limit}
}
