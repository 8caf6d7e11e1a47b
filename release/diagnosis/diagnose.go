package diagnosis

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"layshaft/release"
	"layshaft/uncertain"
)

// Suspect is a cause with how likely it is, and how large the fault would be. Sizes are in SI: air and leakage m³,
// the box's stiffness N/m, a hose times its sound swelling, bores and lost travel m. They are NaN where the cause has
// none.
type Suspect struct {
	Cause          Cause
	Probability    float64
	Size, Low, Top float64 // middle of its distribution, and where nine tenths of it lie; of a bore the likeliest one
	Effective      float64 // draws of equal weight that this rests on
}

// Held is a reading held against what is predicted.
type Held struct {
	Kind                  Kind
	Measured, Uncertainty float64
	Sound, SoundSD        float64 // of a car with nothing at fault
	Explained, SD         float64 // with the likeliest cause
	Off                   float64 // of Explained, by how many spreads of reading and model
}

// Answer is why a clutch drags.
type Answer struct {
	Suspects   []Suspect // the likeliest first; the probabilities add up to one
	GearboxOut float64   // chance that what is wrong lies inside the bellhousing
	Next       []Worth   // readings not taken yet that need no gearbox out, the most telling first, see worths
	Held       []Held
	Doubt      float64 // bits
	Notes      []string
}

// DefaultDraws is how many points each stage takes for each suspicion.
const DefaultDraws = 1024

// Diagnose holds every cause against the readings. base and knowns are the chain as it is believed to be; odds is how
// often each cause is found, set against the others, nil for DefaultOdds. The same seed gives the same answer, on any
// number of processors and whatever order the readings were taken in.
func Diagnose(base release.Chain, knowns []release.Known, readings Readings, odds map[Cause]float64, draws int, seed uint64) (Answer, error) {
	q := newInquiry(base, knowns, &readings)
	if err := q.middle.Check(); err != nil {
		return Answer{}, err
	}
	if err := readings.check(&q.middle); err != nil {
		return Answer{}, err
	}
	if draws < 64 {
		return Answer{}, fmt.Errorf("%d draws are too few to tell the causes apart; %d will do", draws, DefaultDraws)
	}
	found := q.examineAll(draws, seed)
	if err := weighUp(found, readings.HoldsPressure, odds); err != nil {
		return Answer{}, err
	}
	concentric := q.middle.System.Slave.Sleeve > 0
	a := Answer{}
	chancesOf := make([]float64, len(found))
	for i := range found {
		f := &found[i]
		chancesOf[i] = f.probability
		a.Suspects = append(a.Suspects, f.suspect())
		if f.cause.InsideBell(concentric) {
			a.GearboxOut += f.probability
		}
	}
	a.Doubt = Entropy(chancesOf)
	a.Next = a.worths(&readings, found, concentric)
	slices.SortStableFunc(a.Suspects, func(x, y Suspect) int { return cmp.Compare(y.Probability, x.Probability) })
	lead := found[slices.IndexFunc(found, func(f finding) bool { return f.cause == a.Suspects[0].Cause })]
	a.Held = q.hold(&lead, q.sound(draws/2, seed))
	a.Notes = a.notes(&readings, concentric)
	return a, nil
}

// weighUp turns evidence and odds into probabilities.
func weighUp(found []finding, holds Known, odds map[Cause]float64) error {
	if odds == nil {
		odds = DefaultOdds()
	}
	logs := make([]float64, len(found))
	for i := range found {
		f := &found[i]
		logs[i] = f.logEvidence + holding(holds, f.cause) + math.Log(odds[f.cause])
	}
	parts, mean := uncertain.NormaliseWeights(logs)
	if math.IsInf(mean, -1) || math.IsNaN(mean) {
		return fmt.Errorf("no cause explains these readings at all; look at their units, and at the figures of the job file")
	}
	for i := range found {
		found[i].probability = parts[i]
	}
	return nil
}

func (f *finding) suspect() Suspect {
	s := Suspect{Cause: f.cause, Probability: f.probability, Effective: f.effective}
	sizes, weights := make([]float64, len(f.draws)), make([]float64, len(f.draws))
	for i, d := range f.draws {
		sizes[i], weights[i] = d.size, d.weight
	}
	if f.cause == WrongMasterBore || f.cause == WrongSlaveBore {
		s.Size, s.Low, s.Top = likeliest(sizes, weights)
		return s
	}
	p := uncertain.WeightedPercentiles(sizes, weights, 50, 5, 95)
	s.Size, s.Low, s.Top = p[0], p[1], p[2]
	return s
}

// likeliest is for sizes of which there are only a few: the one with the most weight, and the least and the greatest
// that have a twentieth of it or more.
func likeliest(sizes, weights []float64) (size, low, top float64) {
	const little = 0.05
	of := map[float64]float64{}
	for i, s := range sizes {
		of[s] += weights[i]
	}
	size = math.NaN()
	for s, w := range of {
		if math.IsNaN(size) || w > of[size] || w == of[size] && s < size {
			size = s
		}
	}
	low, top = size, size
	for s, w := range of {
		if w >= little {
			low, top = min(low, s), max(top, s)
		}
	}
	return size, low, top
}

// hold sets each reading beside what a sound car and the likeliest cause would show.
func (q *inquiry) hold(lead *finding, sound []draw) []Held {
	var all []Held
	for _, o := range q.seen {
		healthy, faulty := showing(sound, o.kind), lead.showing(o.kind)
		h := Held{
			Kind: o.kind, Measured: o.value, Uncertainty: o.uncertainty,
			Sound: uncertain.WeightedMean(healthy.figures, healthy.weights), SoundSD: uncertain.WeightedSD(healthy.figures, healthy.weights),
			Explained: uncertain.WeightedMean(faulty.figures, faulty.weights), SD: uncertain.WeightedSD(faulty.figures, faulty.weights),
		}
		h.Off = (o.value - h.Explained) / o.spread
		all = append(all, h)
	}
	return all
}
