// Package jobfile reads the job file, the written form of one car's job, into workshop.Job, and changes single
// values in it without disturbing the rest. docs/jobfile.md describes the format to people.
package jobfile

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/driveline"
	"layshaft/dyno"
	"layshaft/pricing"
	"layshaft/uncertain"
	"layshaft/workshop"
	"layshaft/yamlfile"
)

// Version is the number that a job file carries in its first key.
const Version = 1

// Open fetches a file that the job file names, such as a dyno run. Names are as written in the job file.
type Open func(name string) ([]byte, error)

// Source is a job file as it was read: it knows where each key stands.
type Source struct {
	Name string
	Text []byte
	doc  *yamlfile.Document
}

// Locate gives a fault of the workshop its place in the file. Other errors pass through.
func (s *Source) Locate(err error) error {
	var fault *workshop.Fault
	if s.doc == nil || !errors.As(err, &fault) {
		return err
	}
	problem := s.doc.Fault(fault.Key, "%s", fault.Message)
	problem.Example = fault.Example
	return problem
}

// Parse reads a job file. name stands in messages; open may be nil where no other file may be read.
func Parse(name string, text []byte, open Open) (*workshop.Job, *Source, error) {
	doc, err := yamlfile.Parse(name, text)
	if err != nil {
		return nil, nil, err
	}
	source := &Source{Name: name, Text: text, doc: doc}
	var f file
	if err := doc.Decode(&f); err != nil {
		return nil, source, err
	}
	r := &reader{doc: doc, open: open}
	job := r.job(&f)
	if len(r.problems) > 0 {
		return nil, source, r.problems
	}
	return job, source, nil
}

// reader turns the written file into a job and gathers what is wrong and what had to be assumed.
type reader struct {
	doc      *yamlfile.Document
	open     Open
	problems yamlfile.Problems
	assumed  []workshop.Assumption
}

func (r *reader) fault(key, format string, args ...any) {
	r.problems = append(r.problems, r.doc.Fault(key, format, args...))
}

func (r *reader) assume(key, format string, args ...any) {
	r.assumed = append(r.assumed, workshop.Assumption{Key: key, Text: fmt.Sprintf(format, args...)})
}

// or returns the value given, or takes another and says so. An empty note keeps quiet: the figure taken is
// then no more than "there is none of it".
func (r *reader) or(key string, given *uncertain.Value, taken float64, note string) uncertain.Value {
	if given != nil {
		return *given
	}
	if note != "" {
		r.assume(key, "%s", note)
	}
	return uncertain.Exact(taken)
}

// mid returns a single figure for what may be left out; 0 where it is.
func mid(v *uncertain.Value) float64 {
	if v == nil {
		return 0
	}
	return v.Mid()
}

func (r *reader) job(f *file) *workshop.Job {
	if f.Version != Version {
		r.fault("layshaft", "this program reads job files of version %d, not %d", Version, f.Version)
	}
	job := &workshop.Job{
		Car:      r.car(&f.Car),
		Proposed: f.Proposed,
		Work:     f.Work,
		Options:  f.Options,
		Folders:  f.Library,
		Notes:    f.Notes,
	}
	if f.Shop != nil {
		job.Shop = r.terms(f.Shop)
	}
	if f.Engine != nil {
		job.Engine = r.engine(f.Engine, job.Car.Layout)
	}
	if f.Drive != nil {
		job.Drive = r.drive(f.Drive)
	}
	for _, named := range f.Clutches {
		job.Clutches = append(job.Clutches, r.clutch(named.Name, &named.Value))
	}
	for _, named := range f.Releases {
		job.Releases = append(job.Releases, r.release(named.Name, &named.Value))
	}
	if f.Sizing != nil {
		job.Sizing = r.sizing(f.Sizing)
	}
	r.oneFitted(job)
	r.proposed(job)
	r.distinct("work", f.Work)
	r.distinct("options", f.Options)
	job.Assumed = r.assumed
	return job
}

func (r *reader) car(c *carPart) workshop.CarFacts {
	if problem := vinProblem(c.VIN); problem != "" {
		r.fault("car.vin", "%s", problem)
	}
	return workshop.CarFacts{
		Name: c.Name, Registration: c.Registration, VIN: c.VIN, Layout: c.Layout,
		Mass: mid(c.Mass), Odometer: mid(c.Odometer),
	}
}

func (r *reader) terms(s *shopPart) *pricing.Terms {
	terms := &pricing.Terms{LabourRate: s.LabourRate, Consumables: s.Consumables}
	if rate := s.LabourRate.PerHour().Currency(); rate != s.Currency {
		r.fault("shop.labour_rate", "the rate is in %s but the shop charges in %s", rate, s.Currency)
	}
	if s.Tax == nil {
		r.assume("shop.tax", "no tax given: none is added")
		return terms
	}
	terms.Taxes = []pricing.Tax{{Name: s.Tax.Name, Rate: s.Tax.Rate}}
	return terms
}

func (r *reader) engine(e *enginePart, layout string) *workshop.Engine {
	engine := &workshop.Engine{Use: e.Use}
	if engine.Use == "" {
		engine.Use = "road"
		r.assume("engine.use", "use not given: road")
	}
	engine.ServiceFactor = r.serviceFactor(e, engine.Use)
	switch {
	case e.Dyno != "" && e.Power != nil:
		r.fault("engine.power", "give either the dyno run or a power figure, not both")
	case e.Dyno != "":
		r.dynoRun(engine, e, layout)
	case e.Power != nil && e.At != nil:
		engine.Power, engine.PowerSpeed = *e.Power, *e.At
	case e.Power != nil:
		r.fault("engine.at", "a power needs the engine speed it was reached at; write for example 6200 rpm")
	default:
		r.fault("engine", "neither a dyno run nor a power is given; write for example power: 380 bhp and at: 6200 rpm")
	}
	return engine
}

// serviceFactors are the uses that a job file may name without giving a factor.
var serviceFactors = map[string]float64{
	"road": driveline.RoadFactor, "track": driveline.TrackFactor, "drag": driveline.DragFactor,
}

func (r *reader) serviceFactor(e *enginePart, use string) float64 {
	if e.ServiceFactor != nil {
		return e.ServiceFactor.Mid()
	}
	factor, known := serviceFactors[use]
	if !known {
		r.fault("engine.use", "%q is not a use that has a service factor; write road, track or drag, or give service_factor yourself", use)
		return 1
	}
	r.assume("engine.service_factor", "service factor %.2f for %s use: common practice, no source", factor, use)
	return factor
}

func (r *reader) dynoRun(engine *workshop.Engine, e *enginePart, layout string) {
	if r.open == nil {
		r.fault("engine.dyno", "the dyno file %q cannot be read from here", e.Dyno)
		return
	}
	data, err := r.open(e.Dyno)
	if err != nil {
		r.fault("engine.dyno", "the dyno file %q cannot be read: %v", e.Dyno, err)
		return
	}
	run, err := dyno.Parse(e.Dyno, data)
	if err != nil {
		r.fault("engine.dyno", "%v", err)
		return
	}
	engine.Run = &run
	if e.Repeatability != nil {
		engine.Repeatability = uncertain.Normal(1, e.Repeatability.Mid())
	} else {
		engine.Repeatability = driveline.Repeatability()
		r.assume("engine.repeatability", "one dyno run repeats within about 1 %% (one standard deviation): common practice, no source")
	}
	switch e.MeasuredAt {
	case "crank":
	case "wheels":
		engine.AtWheels = true
		engine.Loss = r.loss(e, layout)
	case "":
		r.fault("engine.measured_at", "say where the dyno measured: wheels or crank")
	default:
		r.fault("engine.measured_at", "%q is neither wheels nor crank", e.MeasuredAt)
	}
}

func (r *reader) loss(e *enginePart, layout string) uncertain.Value {
	if e.Loss != nil {
		return *e.Loss
	}
	wheels, words := workshop.DrivenWheels(layout)
	loss := driveline.WheelLoss(wheels)
	lo, hi := loss.Bounds()
	r.assume("engine.loss", "loss from crank to wheels %.0f .. %.0f %% for %s drive: common practice, no source", lo*100, hi*100, words)
	return loss
}

func (r *reader) oneFitted(job *workshop.Job) {
	seen := ""
	for _, c := range job.Clutches {
		if c.Fitted && seen != "" {
			r.fault("clutch."+c.Name+".fitted", "%s is already marked as fitted; a car has one clutch", seen)
		}
		if c.Fitted {
			seen = c.Name
		}
	}
	seen = ""
	for _, c := range job.Releases {
		if c.Fitted && seen != "" {
			r.fault("release."+c.Name+".fitted", "%s is already marked as fitted; a car has one release system", seen)
		}
		if c.Fitted {
			seen = c.Name
		}
	}
}

// proposed sees to it that the pair the shop proposes is among the candidates.
func (r *reader) proposed(job *workshop.Job) {
	if job.Proposed == "" {
		return
	}
	clutch, system, found := strings.Cut(job.Proposed, "/")
	switch {
	case !found:
		r.fault("proposed", "%q is not a pair; write the clutch, a stroke and the release system, such as uprated/metal-master", job.Proposed)
	case job.Clutch(clutch) == nil:
		r.fault("proposed", "there is no clutch %q in this file", clutch)
	case job.Release(system) == nil:
		r.fault("proposed", "there is no release system %q in this file", system)
	}
}

func (r *reader) distinct(key string, names []string) {
	seen := map[string]bool{}
	for i, name := range names {
		if seen[name] {
			r.fault(fmt.Sprintf("%s[%d]", key, i), "%q stands here twice", name)
		}
		seen[name] = true
	}
}

func (r *reader) clutch(name string, c *clutchPart) workshop.Clutch {
	key := "clutch." + name + "."
	clutch := workshop.Clutch{
		Name: name, Fitted: c.Fitted, Discs: c.Discs,
		Outer: c.Facing.Outer, Inner: c.Facing.Inner, Family: r.family(key, c.Facing.Family),
		Friction: c.Facing.Friction, HotFriction: c.Facing.HotFriction, Clamp: c.Clamp,
		Cushion:   r.or(key+"cushion", c.Cushion, 0, "no cushion given: the torque lets go all at once"),
		Clearance: r.or(key+"clearance", c.Clearance, 0.25e-3, "running clearance 0.25 mm per face: common practice, no source"),
		FingerMax: r.or(key+"finger_travel_max", c.FingerMax, math.Inf(1), "greatest finger travel not given: over-travel cannot be judged beyond the load curve; only the maker's sheet tells"),
		LoadScale: r.or(key+"bearing_load_scale", c.LoadScale, 1, ""),
	}
	if c.Facing.Inner.Mid() >= c.Facing.Outer.Mid() {
		r.fault(key+"facing.inner", "the facing's inner diameter must be smaller than its outer diameter")
	}
	if c.LeverRatio != nil {
		clutch.LeverRatio = *c.LeverRatio
	}
	r.load(key, c, &clutch)
	if c.LeverRatio == nil && clutch.Spring == nil {
		clutch.MissingForRelease = append([]string{key + "lever_ratio"}, clutch.MissingForRelease...)
	}
	return clutch
}

// family is the facing family as written, once it is known to be one of those that the driveline has figures for.
func (r *reader) family(key, name string) string {
	var known []string
	for _, f := range driveline.FacingFamilies() {
		known = append(known, f.Name)
	}
	if name != "" && !slices.Contains(known, name) {
		r.fault(key+"facing.family", "%q is not a family of facings; there are %s", name, strings.Join(known, ", "))
	}
	return name
}

func (r *reader) release(name string, s *releasePart) workshop.Release {
	key := "release." + name + "."
	line := s.Line
	if line == nil {
		line = &linePart{}
		r.assume(key+"line", "nothing known of the line: it is taken as rigid, full and free of air")
	}
	lineNote := func(note string) string { // of a line that is given in part; one that is missing is said once
		if s.Line == nil {
			return ""
		}
		return note
	}
	out := workshop.Release{
		Name: name, Fitted: s.Fitted,
		PedalTravel:     s.Pedal.Travel,
		FreePlay:        r.or(key+"pedal.free_play", s.Pedal.FreePlay, 0, "free play not given: none"),
		PedalEfficiency: r.or(key+"pedal.efficiency", s.Pedal.Efficiency, 1, "pedal taken as free of friction"),
		BoxStiffness:    r.or(key+"pedal.stiffness", s.Pedal.Stiffness, math.Inf(1), "pedal box and master mounting taken as rigid: measure the movement with a dial gauge"),
		RodPitch:        r.or(key+"pedal.rod_pitch", s.Pedal.RodPitch, 0, ""),

		MasterBore:       s.Master.Bore,
		MasterStroke:     r.or(key+"master.stroke", s.Master.Stroke, math.Inf(1), "stroke of the master not given: bottoming cannot be judged"),
		DeadStroke:       r.or(key+"master.dead_stroke", s.Master.DeadStroke, 0, "dead stroke not given: none"),
		MasterEfficiency: r.or(key+"master.efficiency", s.Master.Efficiency, 1, "master taken as free of friction"),

		LineLength:  r.or(key+"line.length", line.Length, 0, lineNote("length of hose not given: it is taken as none, so that it does not swell")),
		Expansion:   r.or(key+"line.expansion", line.Expansion, 0, lineNote("expansion of the hose not given: it is taken as none, so that it does not swell")),
		FluidVolume: r.or(key+"line.fluid_volume", line.FluidVolume, 0, lineNote("fluid volume not given: the fluid is taken as stiff")),
		BulkModulus: r.or(key+"line.bulk_modulus", line.BulkModulus, math.Inf(1), lineNote("bulk modulus not given: the fluid is taken as stiff")),
		Compliance:  r.or(key+"line.compliance", line.Compliance, 0, ""),
		TrappedAir:  r.or(key+"line.trapped_air", line.TrappedAir, 0, lineNote("trapped air not given: none")),

		SlaveBore:       s.Slave.Bore,
		SlaveSleeve:     r.or(key+"slave.sleeve", s.Slave.Sleeve, 0, ""),
		SlaveStroke:     r.or(key+"slave.stroke", s.Slave.Stroke, math.Inf(1), ""),
		ForkRatio:       r.or(key+"slave.fork_ratio", s.Slave.ForkRatio, 1, "fork ratio not given: 1, as for a slave around the input shaft"),
		ForkStiffness:   r.or(key+"slave.fork_stiffness", s.Slave.ForkStiffness, math.Inf(1), "fork taken as rigid"),
		StandOff:        r.or(key+"slave.stand_off", s.Slave.StandOff, 0, "bearing taken as resting on the fingers"),
		SlaveEfficiency: r.or(key+"slave.efficiency", s.Slave.Efficiency, 1, "slave and fork taken as free of friction"),
	}
	r.pedalDrive(key+"pedal.", &s.Pedal, &out)
	if out.SlaveSleeve.Mid() >= out.SlaveBore.Mid() {
		r.fault(key+"slave.sleeve", "the sleeve inside a concentric slave must be smaller than its bore")
	}
	return out
}

func (r *reader) drive(d *drivePart) *workshop.Drive {
	drive := &workshop.Drive{
		Gears: d.Gears, Final: mid(d.Final), TyreRadius: mid(d.TyreRadius),
		FrontShare: mid(d.FrontShare), Wheelbase: mid(d.Wheelbase), CentreHigh: mid(d.CentreHigh),
		EngineSpin: mid(d.EngineSpin), WheelSpin: mid(d.WheelSpin), LaunchSpeed: mid(d.LaunchSpeed),
		BiteTime: mid(d.BiteTime),
	}
	if d.TyreGrip != nil {
		drive.TyreGrip = *d.TyreGrip
	}
	if pin := d.CrossPin; pin != nil {
		drive.CrossPin = &workshop.CrossPin{Diameter: pin.Diameter.Mid(), PinionRadius: pin.PinionRadius.Mid(),
			PinionLength: pin.PinionLength.Mid(), Pinions: pin.Pinions,
			CaseRadius: mid(pin.CaseRadius), CaseLength: mid(pin.CaseLength)}
	}
	if shaft := d.HalfShaft; shaft != nil {
		drive.HalfShaft = &workshop.Shaft{Diameter: shaft.Diameter.Mid(), Bore: mid(shaft.Bore), Length: shaft.Length.Mid()}
	}
	return drive
}
