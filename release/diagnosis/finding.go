package diagnosis

import (
	"math"
	"slices"
	"sync"

	"layshaft/uncertain"
)

// finding is what the readings say of one cause.
type finding struct {
	cause       Cause
	probability float64
	logEvidence float64
	draws       []draw // weights add up to one
	effective   float64
}

// draw is one weighted point: how large the fault is there and what the car would show.
type draw struct {
	weight, size float64
	readings     [kinds]float64
}

// examine explores one suspicion.
func (q *inquiry) examine(s *suspicion, draws int, seed uint64) finding {
	e := uncertain.Explore(q.dims(s), q.misfits(s), draws, seed)
	picked := e.Pick(draws / 2)
	f := finding{cause: s.cause, logEvidence: e.LogEvidence + math.Log(s.share), effective: e.Effective, draws: make([]draw, len(picked))}
	for i, z := range picked {
		f.draws[i] = q.draw(s, z, 1/float64(len(picked)))
	}
	return f
}

// sound is what a car with nothing at fault would show, before anything is read.
func (q *inquiry) sound(draws int, seed uint64) []draw {
	s := suspicion{cause: None, inflict: noHarm}
	e := uncertain.Explore(q.dims(&s), func(_, r []float64) []float64 { return r }, draws, seed)
	all := make([]draw, len(e.Points))
	for i, z := range e.Points {
		all[i] = q.draw(&s, z, e.Weights[i])
	}
	return all
}

func (q *inquiry) draw(s *suspicion, z []float64, weight float64) draw {
	t := q.at(s, z)
	return draw{weight, t.size, t.predict(&every).readings}
}

// examineAll explores every suspicion, several at once, and gathers those of one cause. The answer does not depend
// on how many run at once.
func (q *inquiry) examineAll(draws int, seed uint64) []finding {
	suspicions := suspicionsOf(&q.middle)
	each := make([]finding, len(suspicions))
	var running sync.WaitGroup
	for i := range suspicions {
		running.Go(func() { each[i] = q.examine(&suspicions[i], draws, seed+uint64(i)) })
	}
	running.Wait()
	var found []finding
	for _, c := range Causes {
		of := slices.DeleteFunc(slices.Clone(each), func(f finding) bool { return f.cause != c })
		found = append(found, gather(c, of))
	}
	return found
}

// gather makes one finding of a cause's suspicions, each with its part of the evidence.
func gather(c Cause, of []finding) finding {
	all := finding{cause: c, logEvidence: math.Inf(-1)}
	logs := make([]float64, len(of))
	for i, f := range of {
		logs[i] = f.logEvidence
	}
	parts, mean := uncertain.NormaliseWeights(logs)
	if math.IsInf(mean, -1) || len(of) == 0 {
		return all
	}
	all.logEvidence = mean + math.Log(float64(len(of)))
	squares := 0.0
	for i, f := range of {
		squares += parts[i] * parts[i] / f.effective
		for _, d := range f.draws {
			d.weight *= parts[i]
			all.draws = append(all.draws, d)
		}
	}
	all.effective = 1 / squares
	return all
}

// showing is a reading as the draws predict it.
func (f *finding) showing(k Kind) scattered { return showing(f.draws, k) }

func showing(draws []draw, k Kind) scattered {
	s := scattered{make([]float64, len(draws)), make([]float64, len(draws))}
	for i, d := range draws {
		s.figures[i], s.weights[i] = d.readings[k], d.weight
	}
	return s
}
