package release

import (
	"fmt"
	"math"
	"slices"

	"layshaft/uncertain"
)

// Wanted is what a setting has to keep.
type Wanted struct {
	// FreePlay at the pad that leaves the master's port open and does not waste travel, m: the maker's figure first.
	FreePlayMin, FreePlayMax float64
}

// UsualFreePlay is what makers ask of the push rod's play as felt at the pad: 1 to 5 mm (manufacturers' service data,
// as quoted).
func UsualFreePlay() Wanted { return Wanted{1e-3, 5e-3} }

// RodStep is the part of a turn by which a rod is set: finer steps are lost when the lock nut is tightened.
const RodStep = 0.25

// Setup is how rod and stop belong, and what should be read afterwards.
type Setup struct {
	// Rod is how much longer the rod is to be made, m, shorter where negative; Turns is the same in turns of its thread,
	// NaN where the pitch is not known.
	Rod, Turns float64

	Stop             float64 // where it belongs, pedal travel at the pad, m; NaN where no place is good: NoStop says why
	StopMin, StopMax float64 // between which 19 in 20 draws free and stay within their limits, each; may be empty
	PGood            float64 // chance that it frees, does not over-travel and keeps the free play wanted
	PPortOpen        float64 // chance that the rod leaves the port open
	NoStop           string

	Expected []Expected // what to read afterwards, the held ones with the pedal at the stop
	Met      []Met      // the readings that this rests on, held against what was known before
	Learned  []Learned  // what the readings tell of the unsure figures, the most first

	Draws, Stages int     // of the update by the readings
	Effective     float64 // draws of equal weight that it rests on
	Notes         []string

	state *learnt
}

// Expected is one reading as it should come out, with the error that such a reading usually has.
type Expected struct {
	Kind          SettingKind
	P05, P50, P95 float64
}

// Met is a reading beside what the figures let expect before it was taken.
type Met struct {
	Kind          SettingKind
	Read, SD      float64
	Before, After Span    // 5 and 95 % of what should be read, by the figures as they were and as they are learned
	Far           float64 // how many standard deviations the reading lies from the middle of Before
	Unexplained   bool    // not even the figures as learned come near it
}

// Learned is one unsure figure before and after the readings.
type Learned struct {
	Name                                   string
	Before, BeforeSD, After, AfterSD, Told float64 // Told: the part of its variance that is gone
}

// learnt are equally likely chains once the readings are in.
type learnt struct {
	draws []settingDraw
}

type settingDraw struct {
	chain Chain
	load  *bearingLoad
}

// SetUp learns from readings on the car how its figures really are, and works out how rod and stop belong. The free
// play read takes the place of the one among the figures, which is a setting and no property of the car.
func SetUp(base Chain, knowns []Known, readings SettingReadings, wanted Wanted, samples int, seed uint64) (*Setup, error) {
	if err := readings.Check(); err != nil {
		return nil, err
	}
	if !(wanted.FreePlayMin > 0 && wanted.FreePlayMax > wanted.FreePlayMin) {
		return nil, &Fault{"wanted.free_play", fmt.Sprintf("%.4g to %.4g mm is no range above nought; below nought the rod holds the port shut",
			wanted.FreePlayMin*1e3, wanted.FreePlayMax*1e3)}
	}
	if samples < 100 {
		return nil, fmt.Errorf("%d draws are too few to learn from readings; 4096 will do", samples)
	}
	middle, err := base.middle(knowns)
	if err != nil {
		return nil, err
	}
	l := newLearner(middle, notExact(knowns), readings)
	e := uncertain.Explore(len(l.values), l.misfits, samples, seed)
	if e.Effective == 0 {
		return nil, &Fault{"setting", "no figure within the ranges of the job file explains these readings; take them again, or look for a fault"}
	}
	s := &Setup{Draws: len(e.Points), Stages: e.Stages, Effective: e.Effective}
	after := e.Pick(samples)
	s.state = l.chains(after)
	s.Met = l.met(after, samples, seed)
	s.Learned = l.learned(after)
	s.advise(&middle, wanted)
	s.expect(&middle)
	s.note(&middle, &readings, wanted)
	return s, nil
}

// advise tries the rod in steps about the free play wanted, each with the stop that is best for it.
func (s *Setup) advise(middle *Chain, wanted Wanted) {
	best, bestMiss := -1.0, math.Inf(1)
	for _, rod := range s.rodSteps(middle, wanted) {
		stop, share := s.state.bestStop(rod, wanted)
		miss := math.Abs(s.state.freePlay(rod)[1] - (wanted.FreePlayMin+wanted.FreePlayMax)/2)
		if rod == 0 {
			miss = 0 // what is as good as any other is left as it is
		}
		if share > best+asGood || share > best-asGood && miss < bestMiss {
			best, bestMiss = max(best, share), miss
			s.Rod, s.Stop, s.PGood = rod, stop, share
		}
	}
	s.Turns = s.Rod / middle.System.Pedal.RodPitch
	if middle.System.Pedal.RodPitch == 0 {
		s.Turns = math.NaN()
	}
	s.PPortOpen = s.state.portOpen(s.Rod)
	s.StopMin, s.StopMax = s.state.stopSpan(s.Rod)
	if math.IsNaN(s.Stop) {
		s.NoStop = "no place of the stop frees the discs within the limits of fingers, master and pedal"
	}
}

// asGood is how much less likely a setting may be to count as good as another.
const asGood = 0.01

// rodSteps are the changes of the rod's length that put the middle of the free play inside the range wanted, no change
// among them if that does. Where no step of the thread does, it is the one that comes nearest.
func (s *Setup) rodSteps(middle *Chain, wanted Wanted) []float64 {
	step := RodStep * middle.System.Pedal.RodPitch
	if step == 0 {
		step = 0.1e-3 // a length can be set by gauge where the pitch is not known
	}
	longest := s.state.rodFor(wanted.FreePlayMin)
	shortest := s.state.rodFor(wanted.FreePlayMax)
	var rods []float64
	for k := math.Ceil(shortest / step); k*step <= longest; k++ {
		rods = append(rods, k*step)
	}
	if len(rods) == 0 {
		rods = append(rods, math.Round((shortest+longest)/2/step)*step)
	}
	return rods
}

// expect works out what should be read once rod and stop are set.
func (s *Setup) expect(middle *Chain) {
	at := s.Stop
	if math.IsNaN(at) {
		at = middle.System.Pedal.Travel
	}
	columns := s.state.predicted(s.Rod, at)
	for _, k := range SettingKinds {
		spread := math.Hypot(k.DefaultUncertainty(), k.chainError()*uncertain.Mean(columns[k]))
		ends := smeared(columns[k], spread, 0.05, 0.5, 0.95)
		s.Expected = append(s.Expected, Expected{k, ends[0], ends[1], ends[2]})
	}
}

func (s *Setup) note(middle *Chain, readings *SettingReadings, wanted Wanted) {
	note := func(format string, args ...any) { s.Notes = append(s.Notes, fmt.Sprintf(format, args...)) }
	if v, read := readings.Taken[FreePlayRead]; !read {
		note("the free play was not read; the job file's %.1f mm stands in for it", middle.System.Pedal.FreePlay*1e3)
	} else if v.Mid() <= 2*readings.list()[0].u {
		note("hardly any free play was read: the rod may hold the port shut by any amount; shorten it until there is play, and read again")
	}
	if middle.System.Pedal.RodPitch == 0 {
		note("the pitch of the rod's thread is not known: measure its length, or give rod_pitch")
	}
	if s.Effective < fewDraws {
		note("this rests on %.0f draws only: read again, or give wider ranges", s.Effective)
	}
	if slices.ContainsFunc(s.Met, func(m Met) bool { return m.Unexplained }) {
		note("a reading is not explained by any figure within its range: read it again, and if it stays look for a fault before anything is set")
	}
	if len(s.Learned) == 0 {
		note("every figure is given as exact, so that the readings can teach nothing: give ranges for what was not measured")
	}
	if s.PGood > 0 && s.PGood < 0.95 {
		note("good with only %.0f in 100: measure what is least sure, or change parts", s.PGood*100)
	}
	if free := s.state.freePlay(s.Rod); free[0] < wanted.FreePlayMin || free[2] > wanted.FreePlayMax {
		note("the free play may come out at %.1f to %.1f mm, and %.1f to %.1f mm is wanted: read it again once the rod is set",
			free[0]*1e3, free[2]*1e3, wanted.FreePlayMin*1e3, wanted.FreePlayMax*1e3)
	}
}

// fewDraws is the number of effective draws below which an answer rests on luck.
const fewDraws = 200
