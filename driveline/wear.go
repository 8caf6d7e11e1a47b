package driveline

import (
	"fmt"
	"math"

	"layshaft/spring"
	"layshaft/uncertain"
)

// WornClamp returns the clamp load once the facings have lost wear (m, all faces together). shape is the clamp load
// against that wear, from the maker or from the spring's dimensions, and starts at 0; only its course counts, its
// height comes from the load when new. A diaphragm's load rises before it falls, so worn is not always weaker.
func WornClamp(asNew uncertain.Value, shape spring.Curve, wear float64) (uncertain.Value, error) {
	if wear == 0 {
		return asNew, nil
	}
	if shape.Zero() {
		return asNew, fmt.Errorf("clamp load: no figures against wear, so the load after %.2g mm is not known", wear*1e3)
	}
	ratio := shape.At(wear) / shape.At(0)
	if math.IsNaN(ratio) || math.IsInf(ratio, 0) {
		lo, hi := shape.Domain()
		return asNew, fmt.Errorf("clamp load: %.2g mm of wear is outside the figures, %.2g to %.2g mm", wear*1e3, lo*1e3, hi*1e3)
	}
	return asNew.Scale(ratio), nil
}
