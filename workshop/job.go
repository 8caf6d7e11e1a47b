package workshop

import (
	"slices"
	"strings"

	"layshaft/dyno"
	"layshaft/pricing"
	"layshaft/release"
	"layshaft/spring"
	"layshaft/uncertain"
)

// Job is all that is known and wanted of one car: the one model that hold, let go, strip and price are computed
// from. It is written as a job file; package jobfile reads that.
type Job struct {
	Shop     *pricing.Terms // nil where the file says nothing of prices
	Car      CarFacts
	Engine   *Engine // nil where nothing is known of it
	Drive    *Drive  // nil where nothing is known of the driveline
	Clutches []Clutch
	Releases []Release
	Sizing   *Sizing  // nil where the file says nothing of what to choose from
	Proposed string   // "clutch/release" that the shop proposes; empty: the first not fitted of each
	Work     []string // jobs of the layout that are to be done
	Options  []string // jobs that are offered and priced, not included
	Folders  []string // extra library folders, as written in the file
	Notes    string
	// Assumed lists what the file leaves open and what was taken instead.
	Assumed []Assumption
}

// Assumption is a figure that nobody gave: where it belongs, and what was taken.
type Assumption struct {
	Key  string `json:"key"`
	Text string `json:"text"`
}

// CarFacts say which car it is.
type CarFacts struct {
	Name         string
	Registration string
	VIN          string
	Layout       string
	Mass         float64 // kg, 0 unknown
	Odometer     float64 // m, 0 unknown
}

// Engine says what turns the clutch and how the car is used. Either Run or Power is given.
type Engine struct {
	Run           *dyno.Run
	AtWheels      bool
	Loss          uncertain.Value // fraction lost between crank and wheels, where AtWheels
	Repeatability uncertain.Value // factor on the measured peak
	Power         uncertain.Value // W
	PowerSpeed    uncertain.Value // rad/s
	Use           string
	ServiceFactor float64
}

// Drive is what stands behind the clutch, for driveline loads and the launch.
type Drive struct {
	Gears       []float64
	Final       float64
	TyreRadius  float64
	TyreGrip    uncertain.Value
	FrontShare  float64 // of the weight, standing
	Wheelbase   float64
	CentreHigh  float64 // height of the centre of mass
	EngineSpin  float64 // inertia of engine, flywheel and clutch cover, kg m²
	WheelSpin   float64 // inertia of all wheels and shafts, kg m²
	LaunchSpeed float64 // engine speed at launch, rad/s
	BiteTime    float64 // that the pedal takes through its bite band at launch, s
	CrossPin    *CrossPin
	HalfShaft   *Shaft
}

// CrossPin is the pin that carries a differential's pinions. Its seat in the case is 0 where it is not known.
type CrossPin struct {
	Diameter, PinionRadius, PinionLength float64
	Pinions                              int
	CaseRadius, CaseLength               float64
}

// Shaft is a shaft in torsion; Bore is 0 for a solid one.
type Shaft struct{ Diameter, Bore, Length float64 }

// Clutch is one candidate. Figures that only letting go needs may be missing; Missing names them.
type Clutch struct {
	Name         string
	Fitted       bool
	Discs        int
	Outer, Inner uncertain.Value // facing diameters, m
	Family       string          // of the facing, as driveline.FacingFamilies names it; empty unknown
	Friction     uncertain.Value
	HotFriction  *uncertain.Value
	Clamp        uncertain.Value
	LeverRatio   uncertain.Value
	Cushion      uncertain.Value
	Clearance    uncertain.Value
	FingerMax    uncertain.Value // +Inf where unknown
	BearingLoad  spring.Curve    // N against finger travel
	LoadScale    uncertain.Value // factor on the whole load curve, 1 unless given
	Spring       *spring.Cover   // where BearingLoad comes from its dimensions; nil where not known
	SpringTravel float64         // finger travel up to which it does
	// MissingForRelease names the keys without which letting go cannot be computed.
	MissingForRelease []string
}

// Release is one candidate for the way from the pedal to the bearing.
type Release struct {
	Name   string
	Fitted bool

	PedalRatio uncertain.Value // where Linkage gives it, that at half the travel
	Linkage    release.Linkage // zero where the ratio is taken as constant
	Assist     spring.Curve    // N by which a spring helps at the pad, against its travel; zero where there is none

	PedalTravel, FreePlay, PedalEfficiency, BoxStiffness, RodPitch              uncertain.Value
	MasterBore, MasterStroke, DeadStroke, MasterEfficiency                      uncertain.Value
	LineLength, Expansion, FluidVolume, BulkModulus, Compliance, TrappedAir     uncertain.Value
	SlaveBore, SlaveSleeve, ForkRatio, ForkStiffness, StandOff, SlaveEfficiency uncertain.Value
	SlaveStroke                                                                 uncertain.Value
}

// Clutch finds a candidate by name, or nil.
func (j *Job) Clutch(name string) *Clutch {
	i := slices.IndexFunc(j.Clutches, func(c Clutch) bool { return c.Name == name })
	if i < 0 {
		return nil
	}
	return &j.Clutches[i]
}

// Release finds a candidate by name, or nil.
func (j *Job) Release(name string) *Release {
	i := slices.IndexFunc(j.Releases, func(r Release) bool { return r.Name == name })
	if i < 0 {
		return nil
	}
	return &j.Releases[i]
}

// FittedPair names the clutch and the release system in the car now; empty where the file marks none.
func (j *Job) FittedPair() (clutch, release string) {
	for _, c := range j.Clutches {
		if c.Fitted {
			clutch = c.Name
		}
	}
	for _, r := range j.Releases {
		if r.Fitted {
			release = r.Name
		}
	}
	return clutch, release
}

// ProposedPair names what the shop proposes: what the file says, else the first of each that is not fitted,
// else the fitted one.
func (j *Job) ProposedPair() (clutch, release string) {
	if c, r, found := strings.Cut(j.Proposed, "/"); found {
		return c, r
	}
	clutch, release = j.FittedPair()
	if i := slices.IndexFunc(j.Clutches, func(c Clutch) bool { return !c.Fitted }); i >= 0 {
		clutch = j.Clutches[i].Name
	}
	if i := slices.IndexFunc(j.Releases, func(r Release) bool { return !r.Fitted }); i >= 0 {
		release = j.Releases[i].Name
	}
	return clutch, release
}
