package jobfile

import (
	"math"

	"layshaft/release"
	"layshaft/uncertain"
	"layshaft/workshop"
	"layshaft/yamlfile"
)

// sizingPart says what to choose from when bores are sought; what it leaves out is taken from the reference tables
// (bores) or stays as it is (pedal, hose).
type sizingPart struct {
	EffortLimit *float64                      `key:"effort_limit" of:"force" like:"180 N" check:">0"`
	Frees       *float64                      `key:"frees" of:"percent" like:"95 %" check:">0,<=1"`
	Masters     []float64                     `key:"masters" of:"length" like:"5/8 in" check:">0"`
	Slaves      []float64                     `key:"slaves" of:"length" like:"13/16 in" check:">0"`
	Ratios      []float64                     `key:"pedal_ratios" of:"number" like:"5.6" check:">0"`
	RatioRange  *uncertain.Value              `key:"pedal_ratio_range" of:"number" like:"5.0 .. 6.2" check:">0"`
	Hoses       yamlfile.Map[uncertain.Value] `key:"hoses" of:"expansion" like:"0.04 .. 0.06 cm3/m/MPa" check:">=0"`
}

func (r *reader) sizing(s *sizingPart) *workshop.Sizing {
	out := &workshop.Sizing{EffortLimit: or(s.EffortLimit, 0), Frees: or(s.Frees, 0), Masters: s.Masters, Slaves: s.Slaves, Ratios: s.Ratios}
	for _, hose := range s.Hoses {
		out.Hoses = append(out.Hoses, release.Hose{Name: hose.Name, Expansion: hose.Value})
	}
	switch {
	case s.RatioRange == nil:
	case s.Ratios != nil:
		r.fault("sizing.pedal_ratio_range", "the ratios are already listed; leave one of them out")
	case s.RatioRange.Kind() != uncertain.UniformKind:
		r.fault("sizing.pedal_ratio_range", "a range has two ends; write for example 5.0 .. 6.2")
	default:
		lo, hi := s.RatioRange.Bounds()
		out.Ratios = steps(lo, hi, 0.2)
	}
	return out
}

// steps are evenly spaced figures from lo to hi, no further than most apart.
func steps(lo, hi, most float64) []float64 {
	n := int(math.Ceil((hi - lo) / most * (1 - 1e-9)))
	all := make([]float64, n+1)
	for i := range all {
		all[i] = lo + (hi-lo)*float64(i)/float64(n)
	}
	return all
}
