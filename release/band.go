package release

import "layshaft/uncertain"

// Span is where nine draws in ten lie.
type Span struct{ P05, P95 float64 }

// BandPoint is one position of the pedal with how far the answers scatter there.
type BandPoint struct {
	Pedal                            float64 // travel at the pad, m
	Finger, Effort, Pressure, Torque Span
}

// Band is the pedal map with its scatter: points positions evenly from rest to the pedal's travel at its middle
// figure, pressed down, each with the 5 and 95 % figures of that many draws. Draws that cannot be are left out.
func Band(base Chain, knowns []Known, points, samples int, seed uint64) ([]BandPoint, error) {
	middle, err := base.middle(knowns)
	if err != nil {
		return nil, err
	}
	maps := drawMaps(&middle, notExact(knowns), points, samples, seed)
	if len(maps) == 0 {
		return nil, errNoneIsPossible
	}
	band := make([]BandPoint, points)
	inChunks(points, 1, func(from, to int) {
		column := make([]float64, len(maps))
		span := func(at int, figure func(*Point) float64) Span {
			for i, m := range maps {
				column[i] = figure(&m[at])
			}
			ends := uncertain.Percentiles(column, 5, 95)
			return Span{ends[0], ends[1]}
		}
		for i := from; i < to; i++ {
			band[i] = BandPoint{
				Pedal:    maps[0][i].Pedal,
				Finger:   span(i, func(p *Point) float64 { return p.Finger }),
				Effort:   span(i, func(p *Point) float64 { return p.Effort }),
				Pressure: span(i, func(p *Point) float64 { return p.Pressure }),
				Torque:   span(i, func(p *Point) float64 { return p.Torque }),
			}
		}
	})
	return band, nil
}

// drawMaps is one map a draw that can be, in the order of the draws.
func drawMaps(middle *Chain, unsure []Known, points, samples int, seed uint64) [][]Point {
	if len(unsure) == 0 {
		samples = 1
	}
	drawn := make([][]Point, samples)
	travel := middle.System.Pedal.Travel
	eachDraw(middle, unsure, samples, seed, func(i int, c *Chain, s *statics) {
		drawn[i] = c.draw(s.pressing(), points, travel)
	})
	possible := drawn[:0]
	for _, m := range drawn {
		if m != nil {
			possible = append(possible, m)
		}
	}
	return possible
}
