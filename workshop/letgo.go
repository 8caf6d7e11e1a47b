package workshop

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"layshaft/driveline"
	"layshaft/release"
	"layshaft/uncertain"
)

// LetGo answers for every clutch with every release system whether the pedal frees it. only, "clutch/release",
// picks one pair; empty takes all.
func LetGo(job *Job, only string, effort Effort) (*ReleaseAnswer, error) {
	switch {
	case len(job.Clutches) == 0:
		return nil, &Fault{Key: "clutch", Message: "no clutch is given"}
	case len(job.Releases) == 0:
		return nil, &Fault{Key: "release", Message: "no release system is given"}
	}
	if err := job.checkPair(only); err != nil {
		return nil, err
	}
	answer := &ReleaseAnswer{}
	for i := range job.Clutches {
		clutch := &job.Clutches[i]
		if err := answer.addWear(clutch, only); err != nil {
			return nil, err
		}
		for j := range job.Releases {
			system := &job.Releases[j]
			if only != "" && only != clutch.Name+"/"+system.Name {
				continue
			}
			if missing := clutch.MissingForRelease; len(missing) > 0 {
				answer.NotComputed = append(answer.NotComputed, Assumption{
					Key: clutch.Name + "/" + system.Name, Text: "needs " + strings.Join(missing, " and ")})
				continue
			}
			pair, err := letGo(clutch, system, effort)
			if err != nil {
				return nil, err
			}
			answer.Pairs = append(answer.Pairs, pair)
		}
	}
	if len(answer.Pairs) == 0 {
		missing := answer.NotComputed[0]
		return nil, &Fault{Key: "clutch", Message: "nothing can be computed: " + missing.Key + " " + missing.Text}
	}
	return answer, nil
}

// checkPair sees to it that a pair named by hand exists.
func (j *Job) checkPair(pair string) error {
	if pair == "" {
		return nil
	}
	clutch, system, found := strings.Cut(pair, "/")
	switch {
	case !found:
		return &Fault{Key: "pair", Message: "\"" + pair + "\" is not a pair", Example: j.Clutches[0].Name + "/" + j.Releases[0].Name}
	case j.Clutch(clutch) == nil:
		return &Fault{Key: "pair", Message: "there is no clutch \"" + clutch + "\" in this job", Example: j.Clutches[0].Name + "/" + j.Releases[0].Name}
	case j.Release(system) == nil:
		return &Fault{Key: "pair", Message: "there is no release system \"" + system + "\" in this job", Example: j.Clutches[0].Name + "/" + j.Releases[0].Name}
	}
	return nil
}

func letGo(clutch *Clutch, system *Release, effort Effort) (PairAnswer, error) {
	chain, knowns := Chain(clutch, system)
	a, err := release.Solve(chain, knowns, effort.Samples, effort.Seed)
	if err != nil {
		return PairAnswer{}, faultOf(err, clutch, system)
	}
	sure, err := howSure(chain, knowns, effort)
	if err != nil {
		return PairAnswer{}, &Fault{Key: "release." + system.Name, Message: err.Error()}
	}
	out := PairAnswer{
		Sure:   sure,
		Clutch: clutch.Name, Release: system.Name,
		FingerTravel: millimetres(a.FingerTravel), PlateLift: millimetres(a.PlateLift), LiftNeeded: millimetres(a.LiftNeeded),
		SlaveTravel: millimetres(a.SlaveTravel), BearingTravel: millimetres(a.BearingTravel),
		PedalTravel: millimetres(chain.System.Pedal.Travel),
		PeakEffort:  Figure(a.PeakEffort), EffortAtStop: Figure(a.EffortAtStop), PeakPressure: Figure(a.PeakPressure / 1e6),
		MasterStroke: millimetres(a.MasterStroke), MasterHas: millimetres(chain.System.Master.Stroke),
		BiteStart: millimetres(a.BiteStart), BiteEnd: millimetres(a.BiteEnd),
		StopMin: millimetres(a.StopMin), StopMax: millimetres(a.StopMax), StopRecommended: millimetres(a.StopRecommended),
		FreedFinger: millimetres(chain.Clutch.FingerTravelNeeded()), FingerLimit: millimetres(chain.Clutch.FingerTravelMax),
		Left:   millimetres(a.Margin),
		PFrees: Figure(a.PFrees), POverTravels: Figure(a.POverTravels), PBoth: Figure(a.PBoth),
		SnapThrough: a.SnapThrough, BeyondCurve: a.BeyondCurve, Verdict: a.Verdict, NoWindow: a.NoWindow, Notes: a.Notes,
	}
	out.Why = why(&chain, &a)
	for _, share := range chain.TravelShares(chain.Clutch.FingerTravelNeeded()) {
		out.Travel = append(out.Travel, Share{share.Name, millimetres(share.Pedal), share.Name == release.ShareUseful})
	}
	out.Map = mapOf(&chain, a.Snaps, effort.Points)
	return out, nil
}

// mapOf is the pedal map, with the points marked that the pedal snaps through to.
func mapOf(chain *release.Chain, snaps []release.Snap, points int) []MapPoint {
	var all []MapPoint
	before := math.Inf(-1)
	for _, p := range chain.Map(points) {
		jump := slices.ContainsFunc(snaps, func(s release.Snap) bool { return !s.LetUp && before < s.Pedal && s.Pedal <= p.Pedal })
		all = append(all, MapPoint{millimetres(p.Pedal), millimetres(p.Finger), Figure(p.Effort), Figure(p.Pressure / 1e6), Figure(p.Torque), jump})
		before = p.Pedal
	}
	return all
}

// why says in one sentence what the verdict rests on.
func why(chain *release.Chain, a *release.Answer) string {
	travel := chain.System.Pedal.Travel * 1e3
	switch a.Verdict {
	case release.Bottoms:
		return fmt.Sprintf("the master bottoms at %.0f mm of pedal: full travel asks %.1f mm of stroke, it has %.1f mm",
			a.BottomsAt*1e3, a.MasterStroke*1e3, chain.System.Master.Stroke*1e3)
	case release.Drags:
		return fmt.Sprintf("the discs would be free at %.0f mm of pedal, which has %.0f mm; %s", a.StopMin*1e3, travel, lost(chain))
	case release.OverTravels:
		text := fmt.Sprintf("full pedal pushes the fingers %.1f mm, past their limit of %.1f mm", a.FingerTravel*1e3, chain.Clutch.FingerTravelMax*1e3)
		if a.BeyondCurve {
			text = fmt.Sprintf("full pedal pushes the fingers past their limit of %.1f mm", chain.Clutch.FingerTravelMax*1e3)
		}
		if a.NoWindow != "" {
			return text + "; " + a.NoWindow
		}
		if a.StopRecommended < a.StopMin || a.StopRecommended > a.StopMax || a.PBoth < 0.95 {
			return text + fmt.Sprintf("; no stop is sure: the likeliest, %.0f mm of pedal, is good %.0f times in 100", a.StopRecommended*1e3, a.PBoth*100)
		}
		return text + fmt.Sprintf("; with the stop at %.0f mm of pedal it frees and stays inside", a.StopRecommended*1e3)
	}
	return fmt.Sprintf("the discs are free at %.0f mm of the pedal's %.0f mm; %s", a.StopMin*1e3, travel, lost(chain))
}

// lost names the two largest things besides useful travel that the pedal's travel goes to before the clutch is free.
func lost(chain *release.Chain) string {
	shares := slices.DeleteFunc(chain.TravelShares(chain.Clutch.FingerTravelNeeded()), func(s release.Share) bool { return s.Name == release.ShareUseful })
	slices.SortStableFunc(shares, func(a, b release.Share) int { return cmp.Compare(b.Pedal, a.Pedal) })
	return fmt.Sprintf("until then %.0f mm go to %s and %.0f mm to %s", shares[0].Pedal*1e3, shares[0].Name, shares[1].Pedal*1e3, shares[1].Name)
}

// faultOf turns what the release chain finds wrong into faults with the job file's keys.
func faultOf(err error, clutch *Clutch, system *Release) error {
	var faults release.Faults
	var one *release.Fault
	if errors.As(err, &one) {
		faults = release.Faults{one}
	} else if !errors.As(err, &faults) {
		return &Fault{Key: "release." + system.Name, Message: err.Error()}
	}
	var all []error
	for _, f := range faults {
		key := f.Key
		switch part, rest, _ := strings.Cut(f.Key, "."); part {
		case "clutch":
			key = "clutch." + clutch.Name + "." + rest
		case "release":
			key = "release." + system.Name + "." + rest
		}
		all = append(all, &Fault{Key: key, Message: f.Message})
	}
	return errors.Join(all...)
}

// figure is one figure of a chain: its key within the job file, what is known of it, and where it goes.
type figure struct {
	key   string
	value uncertain.Value
	set   func(*release.Chain, float64)
}

// Chain puts a clutch and a release system together: the chain with every figure at its middle, and the figures
// that are only roughly known.
func Chain(clutch *Clutch, system *Release) (release.Chain, []release.Known) {
	chain := release.Chain{Clutch: release.Clutch{Faces: driveline.Faces(clutch.Discs), Capacity: clutch.capacity(), BearingLoad: clutch.BearingLoad}}
	chain.System.Pedal.Linkage, chain.System.Pedal.Assist = system.Linkage, system.Assist
	var knowns []release.Known
	for _, f := range append(clutch.figures(), system.figures()...) {
		f.set(&chain, f.value.Mid())
		if !f.value.IsExact() {
			knowns = append(knowns, release.Known{Name: f.key, Value: f.value, Set: f.set})
		}
	}
	return chain, knowns
}

func (c *Clutch) figures() []figure {
	key := "clutch." + c.Name + "."
	return []figure{
		{key + "lever_ratio", c.LeverRatio, func(r *release.Chain, v float64) { r.Clutch.LeverRatio = v }},
		{key + "cushion", c.Cushion, func(r *release.Chain, v float64) { r.Clutch.Cushion = v }},
		{key + "clearance", c.Clearance, func(r *release.Chain, v float64) { r.Clutch.Clearance = v }},
		{key + "finger_travel_max", c.FingerMax, func(r *release.Chain, v float64) { r.Clutch.FingerTravelMax = v }},
		{key + "bearing_load_scale", c.LoadScale, func(r *release.Chain, v float64) { r.Clutch.LoadScale = v }},
	}
}

func (s *Release) figures() []figure {
	key := "release." + s.Name + "."
	return []figure{
		{key + "pedal.ratio", s.PedalRatio, func(r *release.Chain, v float64) { r.System.Pedal.Ratio = v }},
		{key + "pedal.travel", s.PedalTravel, func(r *release.Chain, v float64) { r.System.Pedal.Travel = v }},
		{key + "pedal.free_play", s.FreePlay, func(r *release.Chain, v float64) { r.System.Pedal.FreePlay = v }},
		{key + "pedal.efficiency", s.PedalEfficiency, func(r *release.Chain, v float64) { r.System.Pedal.Efficiency = v }},
		{key + "pedal.stiffness", s.BoxStiffness, func(r *release.Chain, v float64) { r.System.Pedal.Stiffness = v }},
		{key + "pedal.rod_pitch", s.RodPitch, func(r *release.Chain, v float64) { r.System.Pedal.RodPitch = v }},
		{key + "master.bore", s.MasterBore, func(r *release.Chain, v float64) { r.System.Master.Bore = v }},
		{key + "master.stroke", s.MasterStroke, func(r *release.Chain, v float64) { r.System.Master.Stroke = v }},
		{key + "master.dead_stroke", s.DeadStroke, func(r *release.Chain, v float64) { r.System.Master.DeadStroke = v }},
		{key + "master.efficiency", s.MasterEfficiency, func(r *release.Chain, v float64) { r.System.Master.Efficiency = v }},
		{key + "line.length", s.LineLength, func(r *release.Chain, v float64) { r.System.Line.Length = v }},
		{key + "line.expansion", s.Expansion, func(r *release.Chain, v float64) { r.System.Line.Expansion = v }},
		{key + "line.fluid_volume", s.FluidVolume, func(r *release.Chain, v float64) { r.System.Line.FluidVolume = v }},
		{key + "line.bulk_modulus", s.BulkModulus, func(r *release.Chain, v float64) { r.System.Line.BulkModulus = v }},
		{key + "line.compliance", s.Compliance, func(r *release.Chain, v float64) { r.System.Line.Compliance = v }},
		{key + "line.trapped_air", s.TrappedAir, func(r *release.Chain, v float64) { r.System.Line.TrappedAir = v }},
		{key + "slave.bore", s.SlaveBore, func(r *release.Chain, v float64) { r.System.Slave.Bore = v }},
		{key + "slave.sleeve", s.SlaveSleeve, func(r *release.Chain, v float64) { r.System.Slave.Sleeve = v }},
		{key + "slave.stroke", s.SlaveStroke, func(r *release.Chain, v float64) { r.System.Slave.Stroke = v }},
		{key + "slave.fork_ratio", s.ForkRatio, func(r *release.Chain, v float64) { r.System.Slave.ForkRatio = v }},
		{key + "slave.fork_stiffness", s.ForkStiffness, func(r *release.Chain, v float64) { r.System.Slave.ForkStiffness = v }},
		{key + "slave.stand_off", s.StandOff, func(r *release.Chain, v float64) { r.System.Slave.StandOff = v }},
		{key + "slave.efficiency", s.SlaveEfficiency, func(r *release.Chain, v float64) { r.System.Slave.Efficiency = v }},
	}
}
