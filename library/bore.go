package library

import (
	"fmt"
	"math"
	"slices"

	"layshaft/yamlfile"
)

// BoreSizes are the standard bores, smallest first, m.
func (r *Reference) BoreSizes() []float64 {
	sizes := make([]float64, len(r.Bores))
	for i, bore := range r.Bores {
		sizes[i] = bore.Value.Bore
	}
	return sizes
}

// BoreName is what a bore is sold as: "3/4 in" for 19.05 mm. One that is not in the table is named by its size.
func (r *Reference) BoreName(bore float64) string {
	const same = 0.02e-3 // 5/8 in is 15.875 mm and often written 15.87 mm
	if i := slices.IndexFunc(r.Bores, func(b yamlfile.Named[Bore]) bool { return math.Abs(b.Value.Bore-bore) < same }); i >= 0 {
		return r.Bores[i].Name
	}
	return fmt.Sprintf("%.2f mm", bore*1e3)
}
