package diagnosis

import (
	"math"
	"slices"

	"layshaft/release"
)

// bores are the sizes that master and slave cylinders are made in, m: 1/2 in to 1 1/8 in, and 0.700 in. From memory.
var bores = []float64{12.70e-3, 14.29e-3, 15.87e-3, 17.46e-3, 17.78e-3, 19.05e-3, 20.64e-3, 22.22e-3, 23.81e-3, 25.40e-3, 28.57e-3}

// mistaken is a bore that may be in place of the right one.
type mistaken struct{ bore, share float64 }

// How likely it is that a wrong cylinder is one size off, and two, on either side. Common practice, no source.
var sizesOff = []float64{0.35, 0.15}

// otherBores are the sizes next to a bore that is believed to be in there.
func otherBores(believed float64) []mistaken {
	const same = 0.1e-3 // 19 mm and 3/4 in are one size
	smaller, larger := []float64{}, []float64{}
	for _, b := range bores {
		switch {
		case b < believed-same:
			smaller = append([]float64{b}, smaller...)
		case b > believed+same:
			larger = append(larger, b)
		}
	}
	var all []mistaken
	for step, share := range sizesOff {
		for _, side := range [][]float64{smaller, larger} {
			if step < len(side) {
				all = append(all, mistaken{side[step], share})
			}
		}
	}
	return shared(all)
}

// otherSlaves are the bores that may be in place of a slave's. Concentric slaves come in no standard sizes: taken are
// units with 15 and 35 % more area, and as much less.
func otherSlaves(s *release.Slave) []mistaken {
	if s.Sleeve == 0 {
		return otherBores(s.Bore)
	}
	var all []mistaken
	for step, ratio := range []float64{1.15, 1.35} {
		for _, r := range []float64{ratio, 1 / ratio} {
			bore := math.Sqrt(s.Sleeve*s.Sleeve + r*(s.Bore*s.Bore-s.Sleeve*s.Sleeve))
			all = append(all, mistaken{bore, sizesOff[step]})
		}
	}
	return shared(all)
}

// shared makes the shares add up to one, from the smallest bore to the largest.
func shared(all []mistaken) []mistaken {
	sum := 0.0
	for _, m := range all {
		sum += m.share
	}
	for i := range all {
		all[i].share /= sum
	}
	slices.SortFunc(all, func(a, b mistaken) int {
		if a.bore < b.bore {
			return -1
		}
		return 1
	})
	return all
}
