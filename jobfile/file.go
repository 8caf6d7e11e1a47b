package jobfile

import (
	"layshaft/pricing"
	"layshaft/uncertain"
	"layshaft/yamlfile"
)

// file is the job file as it is written; docs/jobfile.md describes it to people. Pointers mark what may be left
// out, so that "not given" and "nought" stay two different things.
type file struct {
	Version  int                       `key:"layshaft" need:"yes"`
	Shop     *shopPart                 `key:"shop"`
	Car      carPart                   `key:"car" need:"yes"`
	Engine   *enginePart               `key:"engine"`
	Drive    *drivePart                `key:"driveline"`
	Clutches yamlfile.Map[clutchPart]  `key:"clutch"`
	Releases yamlfile.Map[releasePart] `key:"release"`
	Sizing   *sizingPart               `key:"sizing"`
	Proposed string                    `key:"proposed"`
	Work     []string                  `key:"work"`
	Options  []string                  `key:"options"`
	Library  []string                  `key:"library"`
	Notes    string                    `key:"notes"`
}

type shopPart struct {
	Currency    pricing.Currency `key:"currency" need:"yes" like:"GBP"`
	LabourRate  pricing.Rate     `key:"labour_rate" need:"yes" like:"78.00 GBP/h"`
	Consumables pricing.Percent  `key:"consumables" like:"2.5 %"`
	Tax         *taxPart         `key:"tax"`
}

type taxPart struct {
	Name string          `key:"name" like:"VAT"`
	Rate pricing.Percent `key:"rate" need:"yes" like:"20 %"`
}

type carPart struct {
	Name         string           `key:"name" need:"yes"`
	Registration string           `key:"registration"`
	VIN          string           `key:"vin"`
	Layout       string           `key:"layout"`
	Mass         *uncertain.Value `key:"mass" of:"mass" like:"1480 kg" check:">0"`
	Odometer     *uncertain.Value `key:"odometer" of:"length" like:"81000 mi" check:">=0"`
}

type enginePart struct {
	Power         *uncertain.Value `key:"power" of:"power" like:"380 bhp" check:">0"`
	At            *uncertain.Value `key:"at" of:"angular speed" like:"6200 rpm" check:">0"`
	Dyno          string           `key:"dyno"`
	MeasuredAt    string           `key:"measured_at"`
	Loss          *uncertain.Value `key:"loss" of:"percent" like:"12 .. 18 %" check:">=0,<1"`
	Repeatability *uncertain.Value `key:"repeatability" of:"percent" like:"1.5 %" check:">=0"`
	Use           string           `key:"use"`
	ServiceFactor *uncertain.Value `key:"service_factor" of:"number" like:"1.3" check:">0"`
}

type drivePart struct {
	Gears       []float64        `key:"gears" of:"number" like:"3.2" check:">0"`
	Final       *uncertain.Value `key:"final_drive" of:"number" like:"4.1" check:">0"`
	TyreRadius  *uncertain.Value `key:"tyre_radius" of:"length" like:"310 mm" check:">0"`
	TyreGrip    *uncertain.Value `key:"tyre_grip" of:"number" like:"0.9 .. 1.1" check:">0"`
	FrontShare  *uncertain.Value `key:"front_share" of:"percent" like:"54 %" check:">0,<1"`
	Wheelbase   *uncertain.Value `key:"wheelbase" of:"length" like:"2.6 m" check:">0"`
	CentreHigh  *uncertain.Value `key:"centre_of_mass_height" of:"length" like:"0.52 m" check:">0"`
	EngineSpin  *uncertain.Value `key:"engine_inertia" of:"inertia" like:"0.16 kg m2" check:">0"`
	WheelSpin   *uncertain.Value `key:"wheel_inertia" of:"inertia" like:"4.2 kg m2" check:">=0"`
	LaunchSpeed *uncertain.Value `key:"launch_speed" of:"angular speed" like:"4000 rpm" check:">0"`
	BiteTime    *uncertain.Value `key:"bite_time" of:"time" like:"0.8 s" check:">0,<=10"`
	CrossPin    *crossPinPart    `key:"cross_pin"`
	HalfShaft   *shaftPart       `key:"half_shaft"`
}

type crossPinPart struct {
	Diameter     uncertain.Value  `key:"diameter" of:"length" need:"yes" like:"16 mm" check:">0"`
	PinionRadius uncertain.Value  `key:"pinion_radius" of:"length" need:"yes" like:"24 mm" check:">0"`
	PinionLength uncertain.Value  `key:"pinion_length" of:"length" need:"yes" like:"14 mm" check:">0"`
	Pinions      int              `key:"pinions" need:"yes" like:"2" check:">=2"`
	CaseRadius   *uncertain.Value `key:"case_radius" of:"length" like:"36 mm" check:">0"`
	CaseLength   *uncertain.Value `key:"case_length" of:"length" like:"12 mm" check:">0"`
}

type shaftPart struct {
	Diameter uncertain.Value  `key:"diameter" of:"length" need:"yes" like:"27 mm" check:">0"`
	Bore     *uncertain.Value `key:"bore" of:"length" like:"0 mm" check:">=0"`
	Length   uncertain.Value  `key:"length" of:"length" need:"yes" like:"620 mm" check:">0"`
}

type clutchPart struct {
	Fitted     bool             `key:"fitted"`
	Discs      int              `key:"discs" need:"yes" like:"1" check:">=1"`
	Facing     facingPart       `key:"facing" need:"yes"`
	Clamp      uncertain.Value  `key:"clamp_load" of:"force" need:"yes" like:"9.8 kN" check:">0"`
	LeverRatio *uncertain.Value `key:"lever_ratio" of:"number" like:"3.9" check:">0"`
	Cushion    *uncertain.Value `key:"cushion" of:"length" like:"0.35 mm" check:">=0"`
	Clearance  *uncertain.Value `key:"clearance" of:"length" like:"0.25 mm" check:">=0"`
	FingerMax  *uncertain.Value `key:"finger_travel_max" of:"length" like:"11.5 mm" check:">0"`
	Load       []yamlfile.Row   `key:"bearing_load" of:"length,force" like:"[4 mm, 2100 N]"` // one of these four
	LoadFrom   *loadFiguresPart `key:"bearing_load_from" form:"where given"`
	LoadCSV    string           `key:"bearing_load_csv" like:"bench.csv"`
	Spring     *springPart      `key:"spring" form:"where given"`
	LoadScale  *uncertain.Value `key:"bearing_load_scale" of:"percent" like:"95 .. 105 %" check:">0"`
}

type facingPart struct {
	Outer       uncertain.Value  `key:"outer" of:"length" need:"yes" like:"230 mm" check:">0"`
	Inner       uncertain.Value  `key:"inner" of:"length" need:"yes" like:"155 mm" check:">0"`
	Friction    uncertain.Value  `key:"friction" of:"number" need:"yes" like:"0.26 .. 0.30" check:">0,<=2"`
	HotFriction *uncertain.Value `key:"hot_friction" of:"number" like:"0.20 .. 0.26" check:">0,<=2"`
	Family      string           `key:"family" like:"organic"`
}

type releasePart struct {
	Fitted bool       `key:"fitted"`
	Pedal  pedalPart  `key:"pedal" need:"yes"`
	Master masterPart `key:"master" need:"yes"`
	Line   *linePart  `key:"line"`
	Slave  slavePart  `key:"slave" need:"yes"`
}

type pedalPart struct {
	Ratio      *uncertain.Value `key:"ratio" of:"number" like:"5.8" check:">0"` // this or the linkage
	Linkage    *linkagePart     `key:"linkage" form:"where given"`
	Assist     []yamlfile.Row   `key:"assist" of:"length,force" like:"[60 mm, 25 N]"`
	Travel     uncertain.Value  `key:"travel" of:"length" need:"yes" like:"150 mm" check:">0"`
	FreePlay   *uncertain.Value `key:"free_play" of:"length" like:"6 mm" check:">=0"`
	Efficiency *uncertain.Value `key:"efficiency" of:"percent" like:"95 %" check:">0,<=1"`
	Stiffness  *uncertain.Value `key:"stiffness" of:"stiffness" like:"1500 N/mm" check:">0"`
	RodPitch   *uncertain.Value `key:"rod_pitch" of:"length" like:"1.25 mm" check:">0"`
}

type masterPart struct {
	Bore       uncertain.Value  `key:"bore" of:"length" need:"yes" like:"19.05 mm" check:">0"`
	Stroke     *uncertain.Value `key:"stroke" of:"length" like:"33 mm" check:">0"`
	DeadStroke *uncertain.Value `key:"dead_stroke" of:"length" like:"1.2 mm" check:">=0"`
	Efficiency *uncertain.Value `key:"efficiency" of:"percent" like:"95 %" check:">0,<=1"`
}

type linePart struct {
	Length      *uncertain.Value `key:"length" of:"length" like:"1.8 m" check:">=0"`
	Expansion   *uncertain.Value `key:"expansion" of:"expansion" like:"0.10 cm3/m/MPa" check:">=0"`
	FluidVolume *uncertain.Value `key:"fluid_volume" of:"volume" like:"30 cm3" check:">=0"`
	BulkModulus *uncertain.Value `key:"bulk_modulus" of:"pressure" like:"1.6 GPa" check:">0"`
	Compliance  *uncertain.Value `key:"compliance" of:"compliance" like:"0.02 cm3/MPa" check:">=0"`
	TrappedAir  *uncertain.Value `key:"trapped_air" of:"volume" like:"0 cm3" check:">=0"`
}

type slavePart struct {
	Bore          uncertain.Value  `key:"bore" of:"length" need:"yes" like:"20.64 mm" check:">0"`
	Sleeve        *uncertain.Value `key:"sleeve" of:"length" like:"36 mm" check:">=0"`
	Stroke        *uncertain.Value `key:"stroke" of:"length" like:"22 mm" check:">0"`
	ForkRatio     *uncertain.Value `key:"fork_ratio" of:"number" like:"1.6" check:">0"`
	ForkStiffness *uncertain.Value `key:"fork_stiffness" of:"stiffness" like:"2500 N/mm" check:">0"`
	StandOff      *uncertain.Value `key:"stand_off" of:"length" like:"0 mm" check:">=0"`
	Efficiency    *uncertain.Value `key:"efficiency" of:"percent" like:"92 %" check:">0,<=1"`
}
