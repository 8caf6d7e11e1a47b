package workshop

import (
	"context"
	"errors"
	"fmt"
	"math"

	"layshaft/library"
	"layshaft/release"
)

// Sizing says what to choose from when bores are sought. What is empty is taken from the reference tables (bores) or
// stays as it is (pedal ratio, hose).
type Sizing struct {
	EffortLimit     float64 // N; 0 for none
	Frees           float64 // least chance of freeing; 0 for usualFrees
	Masters, Slaves []float64
	Ratios          []float64
	Hoses           []release.Hose
}

// usualFrees is the chance of freeing that a choice must have where nobody asks for another.
const usualFrees = 0.95

// SizeWanted is what a search for bores is about. Empty names are the proposed clutch and the release system that is
// fitted; a limit of 0 is that of the job file.
type SizeWanted struct {
	Clutch, Release string
	EffortLimit     float64
	Dominated       bool // list the dominated choices too
}

// BiteHeightIs says what bite heights are measured from.
const BiteHeightIs = "how far above the pedal's fully-down end the clutch begins to bite when it is let up, at the pad"

// Size searches master and slave bores, pedal ratios and hoses for those that free the clutch surely enough, keep the
// effort and leave a place for the stop; the front is what remains when everything is left out that is heavier, less
// sure and lower in bite than something else. progress may be nil; it is called after every choice.
func Size(ctx context.Context, job *Job, wanted SizeWanted, reference *library.Reference, effort Effort, progress func(done, total int)) (*SizeAnswer, error) {
	clutch, system, err := job.sizedPair(wanted)
	if err != nil {
		return nil, err
	}
	chain, knowns := Chain(clutch, system)
	if err := chain.Check(); err != nil {
		return nil, faultOf(err, clutch, system)
	}
	limits := release.Limits{Effort: math.Inf(1), Frees: usualFrees}
	sizing := job.Sizing
	if sizing == nil {
		sizing = &Sizing{}
	}
	if sizing.Frees > 0 {
		limits.Frees = sizing.Frees
	}
	for _, limit := range []float64{sizing.EffortLimit, wanted.EffortLimit} {
		if limit > 0 {
			limits.Effort = limit
		}
	}
	s := sizes{clutch: clutch, system: system, chain: &chain, bores: reference}
	options := s.options(sizing)
	// A search needs less than a single answer does: its draws are the same for all, so that they compare well.
	samples := max(effort.Samples/8, 256)
	choices, err := release.Size(ctx, chain, knowns, options, limits, samples, effort.Seed, progress)
	if err != nil {
		return nil, s.fault(err)
	}
	present, err := release.Size(ctx, chain, knowns, release.Options{}, limits, samples, effort.Seed, nil)
	if err != nil {
		return nil, s.fault(err)
	}
	front := release.Front(choices)
	spans, err := release.EffortSpans(chain, knowns, options, front, samples/2, effort.Seed)
	if err != nil {
		return nil, s.fault(err)
	}
	answer := s.answer(choices, front, spans, limits)
	answer.Present = s.choice(&present[0])
	if wanted.Dominated {
		answer.Dominated = s.dominated(choices)
	}
	return answer, nil
}

// sizedPair finds the clutch and the release system that the search starts from.
func (j *Job) sizedPair(wanted SizeWanted) (*Clutch, *Release, error) {
	if len(j.Clutches) == 0 || len(j.Releases) == 0 {
		return nil, nil, &Fault{Key: "clutch", Message: "a clutch and the release system as it is are needed to look for bores"}
	}
	if wanted.Clutch == "" {
		wanted.Clutch, _ = j.ProposedPair()
	}
	if wanted.Release == "" {
		if _, wanted.Release = j.FittedPair(); wanted.Release == "" {
			wanted.Release = j.Releases[0].Name
		}
	}
	if err := j.checkPair(wanted.Clutch + "/" + wanted.Release); err != nil {
		return nil, nil, err
	}
	clutch, system := j.Clutch(wanted.Clutch), j.Release(wanted.Release)
	if missing := clutch.MissingForRelease; len(missing) > 0 {
		return nil, nil, &Fault{Key: missing[0], Message: "is needed to tell whether the clutch is let go"}
	}
	return clutch, system, nil
}

// sizes is one search for bores.
type sizes struct {
	clutch *Clutch
	system *Release
	chain  *release.Chain
	bores  *library.Reference
	notes  []string
}

func (s *sizes) note(format string, args ...any) {
	s.notes = append(s.notes, fmt.Sprintf(format, args...))
}

func (s *sizes) fault(err error) error {
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	return faultOf(err, s.clutch, s.system)
}

// options are what the job file lists, and else what the reference tables have.
func (s *sizes) options(sizing *Sizing) release.Options {
	o := release.Options{Masters: sizing.Masters, Slaves: sizing.Slaves, Ratios: sizing.Ratios, Hoses: sizing.Hoses}
	if len(o.Masters) == 0 {
		o.Masters = s.bores.BoreSizes()
		s.note("all %d bores of the reference table are tried as masters", len(o.Masters))
	}
	switch concentric := s.chain.System.Slave.Sleeve > 0; {
	case len(o.Slaves) == 0 && concentric:
		s.note("the concentric slave stays as it is: it goes by its own sizes, not by standard bores; list others under sizing.slaves")
	case len(o.Slaves) == 0:
		o.Slaves = s.bores.BoreSizes()
		s.note("all %d bores of the reference table are tried as slaves", len(o.Slaves))
	}
	if len(o.Ratios) == 0 {
		s.note("the pedal's ratio stays as it is; list those that the bracket allows under sizing.pedal_ratios")
	}
	if len(o.Hoses) == 0 {
		s.note("the hose stays as it is; list others under sizing.hoses")
	}
	s.note("stroke, dead stroke and efficiency of the master, and stroke and efficiency of the slave, are taken as those of %s for every bore: look at the maker's sheet", s.system.Name)
	s.note("whether a cylinder of that bore fits its place, and its rod the pedal, is for whoever fits it to see")
	return o
}
