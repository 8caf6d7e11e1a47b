package workshop

import (
	"errors"
	"strings"

	"layshaft/release"
	"layshaft/release/diagnosis"
)

// CarReadings are what was read on a car whose clutch drags. A readings file is its written form; package jobfile
// reads that.
type CarReadings struct {
	Pair     string // "clutch/release", as fitted when the readings were taken
	Readings diagnosis.Readings
	Odds     map[diagnosis.Cause]float64 // how often the shop finds each cause, set against the others; nil: common practice
}

// DiagnoseAnswer says why a clutch drags.
type DiagnoseAnswer struct {
	Clutch  string `json:"clutch"`
	Release string `json:"release"`

	Causes     []CauseAnswer `json:"causes"`
	GearboxOut Figure        `json:"gearbox_out"`
	Doubt      Figure        `json:"doubt_bits"`

	NextReading  *string       `json:"next_reading"` // null where every reading has been taken
	NextReadings []NextReading `json:"next_readings"`
	Readings     []HeldReading `json:"readings"`
	Cautions     []string      `json:"cautions"`
	Notes        []string      `json:"notes"`
}

// CauseAnswer is one cause, with the size of the fault in Unit.
type CauseAnswer struct {
	Cause       string `json:"cause"`
	Means       string `json:"means"`
	Probability Figure `json:"probability"`
	Value       Figure `json:"value"`
	Low         Figure `json:"value_p05"`
	Top         Figure `json:"value_p95"`
	Unit        string `json:"unit"`
	Measures    string `json:"measures"` // what Value is
	InsideBell  bool   `json:"inside_bellhousing"`
	Effective   Figure `json:"effective_draws"`
}

// NextReading is a reading not taken yet, with what it is expected to tell.
type NextReading struct {
	Reading  string   `json:"reading"`
	Gain     Figure   `json:"gain_bits"`
	Part     Figure   `json:"part_of_doubt"`
	How      string   `json:"how"`
	Minutes  Figure   `json:"minutes"`
	Cautions []string `json:"cautions,omitempty"`
}

// HeldReading is a reading beside what a sound car and the likeliest cause would show.
type HeldReading struct {
	Reading     string `json:"reading"`
	Unit        string `json:"unit"`
	Measured    Figure `json:"measured"`
	Uncertainty Figure `json:"uncertainty"`
	Sound       Figure `json:"sound_car"`
	SoundSD     Figure `json:"sound_car_sd"`
	Explained   Figure `json:"likeliest_cause"`
	ExplainedSD Figure `json:"likeliest_cause_sd"`
	Off         Figure `json:"off_by_sd"`
}

// causeWords say in the trade's words what a cause is, and in which unit and of what its size is told.
var causeWords = map[diagnosis.Cause]struct {
	means, unit, measures string
	perUnit               float64
}{
	diagnosis.None:            {"nothing is out of order: the parts as given drag by their measurements", "", "", 1},
	diagnosis.TrappedAir:      {"air in the line", "cm3", "air at the pressure of the atmosphere", 1e-6},
	diagnosis.BoxFlex:         {"pedal box, bulkhead or master mounting gives way", "N/mm", "stiffness at the push rod", 1e3},
	diagnosis.HoseSwelling:    {"a hose swells", "times", "swelling against a sound hose", 1},
	diagnosis.WrongMasterBore: {"the master has another bore than believed", "mm", "bore of the master", 1e-3},
	diagnosis.WrongSlaveBore:  {"the slave has another bore than believed", "mm", "bore of the slave", 1e-3},
	diagnosis.WornFork:        {"fork or pivot worn, cracked or loose", "mm", "bearing travel lost under load", 1e-3},
	diagnosis.SealBypass:      {"a seal lets fluid by", "cm3", "fluid lost while the pedal is held for a reading", 1e-6},
	diagnosis.StandOff:        {"the bearing stands too far from the fingers", "mm", "gap more than believed", 1e-3},
	diagnosis.DiscFault:       {"a disc is the wrong way round, bent or stuck", "mm", "plate lift needed more than a sound disc needs", 1e-3},
}

// Diagnose tells why a clutch drags. A draw is shared among the causes: sixteen give each stage of each about one.
func Diagnose(job *Job, r *CarReadings, effort Effort) (*DiagnoseAnswer, error) {
	clutch, system, err := job.pairFor(r.Pair)
	if err != nil {
		return nil, err
	}
	chain, knowns := Chain(clutch, system)
	a, err := diagnosis.Diagnose(chain, knowns, r.Readings, r.Odds, max(leastDraws, effort.Samples/16), effort.Seed)
	if err != nil {
		return nil, diagnoseFault(err, clutch, system)
	}
	concentric := chain.System.Slave.Sleeve > 0
	out := &DiagnoseAnswer{
		Clutch: clutch.Name, Release: system.Name, GearboxOut: Figure(a.GearboxOut), Doubt: Figure(a.Doubt),
		NextReadings: []NextReading{}, Readings: []HeldReading{}, Cautions: diagnosis.Cautions, Notes: a.Notes,
	}
	for _, s := range a.Suspects {
		out.Causes = append(out.Causes, causeAnswer(s, concentric))
	}
	for _, w := range a.Next {
		g := diagnosis.GuideTo(w.Key)
		out.NextReadings = append(out.NextReadings, NextReading{w.Key, Figure(w.Gain), Figure(w.Part), g.How, Figure(g.Minutes), g.Cautions})
	}
	if len(a.Next) > 0 {
		out.NextReading = &a.Next[0].Key
	}
	for _, h := range a.Held {
		out.Readings = append(out.Readings, heldReading(h))
	}
	return out, nil
}

const leastDraws = 64

// pairFor finds a pair named by hand, with all that letting go needs.
func (j *Job) pairFor(pair string) (*Clutch, *Release, error) {
	if len(j.Clutches) == 0 || len(j.Releases) == 0 {
		return nil, nil, &Fault{Key: "release", Message: "the job file must give a clutch and a release system"}
	}
	if pair == "" {
		return nil, nil, &Fault{Key: "pair", Message: "say which clutch and release system are in the car", Example: j.Clutches[0].Name + "/" + j.Releases[0].Name}
	}
	if err := j.checkPair(pair); err != nil {
		return nil, nil, err
	}
	name, system, _ := strings.Cut(pair, "/")
	clutch := j.Clutch(name)
	if missing := clutch.MissingForRelease; len(missing) > 0 {
		return nil, nil, &Fault{Key: "clutch." + name, Message: "nothing can be computed without " + strings.Join(missing, " and ")}
	}
	return clutch, j.Release(system), nil
}

// diagnoseFault leaves keys of the readings as they are, and gives those of the chain the names of the job file.
func diagnoseFault(err error, clutch *Clutch, system *Release) error {
	var faults release.Faults
	if !errors.As(err, &faults) {
		return &Fault{Key: "readings", Message: err.Error()}
	}
	if !strings.HasPrefix(faults[0].Key, "readings.") {
		return faultOf(err, clutch, system)
	}
	var all []error
	for _, f := range faults {
		all = append(all, &Fault{Key: f.Key, Message: f.Message})
	}
	return errors.Join(all...)
}

func causeAnswer(s diagnosis.Suspect, concentric bool) CauseAnswer {
	words := causeWords[s.Cause]
	return CauseAnswer{
		Cause: string(s.Cause), Means: words.means, Probability: Figure(s.Probability),
		Value: Figure(s.Size / words.perUnit), Low: Figure(s.Low / words.perUnit), Top: Figure(s.Top / words.perUnit),
		Unit: words.unit, Measures: words.measures, InsideBell: s.Cause.InsideBell(concentric), Effective: Figure(s.Effective),
	}
}

func heldReading(h diagnosis.Held) HeldReading {
	unit, per := "mm", 1e-3
	switch h.Kind {
	case diagnosis.Effort:
		unit, per = "N", 1
	case diagnosis.Pressure:
		unit, per = "MPa", 1e6
	}
	in := func(v float64) Figure { return Figure(v / per) }
	return HeldReading{
		Reading: h.Kind.Key(), Unit: unit, Measured: in(h.Measured), Uncertainty: in(h.Uncertainty), Sound: in(h.Sound), SoundSD: in(h.SoundSD),
		Explained: in(h.Explained), ExplainedSD: in(h.SD), Off: Figure(h.Off),
	}
}
