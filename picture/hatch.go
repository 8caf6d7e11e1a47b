package picture

import (
	"math"
	"sort"
)

// hatch is a way of filling an area with thin parallel lines. The lines are worked out here rather than left to the
// renderer, so that page and paper carry the same ones and several pictures on a page share no pattern names.
type hatch struct {
	angle   float64 // degrees, clockwise on the page
	spacing float64
	cross   bool // a second set at right angles
}

var (
	hatchSteel = hatch{angle: -45, spacing: 5}
	hatchOther = hatch{angle: 45, spacing: 5} // the neighbouring part, as drawing practice has it (ISO 128: adjoining parts differ)
	hatchFine  = hatch{angle: -45, spacing: 3}
	hatchLined = hatch{angle: 45, spacing: 3.2, cross: true} // friction lining
)

// lines returns the hatching of an area.
func (h hatch) lines(area Path) Path {
	out := hatchLines(area, h.angle, h.spacing)
	if h.cross {
		out = append(out, hatchLines(area, h.angle+90, h.spacing)...)
	}
	return out
}

// hatchLines cuts parallel lines to an area. In coordinates turned so that the lines lie level, every line is cut by
// the outline an even number of times, and the pieces between first and second, third and fourth... cut lie inside.
func hatchLines(area Path, angle, spacing float64) Path {
	if !area.drawable() || spacing <= 0 {
		return nil
	}
	sin, cos := math.Sincos(angle * math.Pi / 180)
	turn := transform{cos, -sin, sin, cos, 0, 0}
	back := transform{cos, sin, -sin, cos, 0, 0}
	outlines := area.transformed(turn).flatten()
	top, bottom := math.Inf(1), math.Inf(-1)
	for _, o := range outlines {
		for _, p := range o {
			top, bottom = math.Min(top, p.Y), math.Max(bottom, p.Y)
		}
	}
	var lines Path
	for y := (math.Floor(top/spacing) + 0.5) * spacing; y < bottom; y += spacing {
		cuts := levelCuts(outlines, y)
		for i := 0; i+1 < len(cuts); i += 2 {
			a, b := back.apply(Point{cuts[i], y}), back.apply(Point{cuts[i+1], y})
			lines.moveTo(a.X, a.Y)
			lines.lineTo(b.X, b.Y)
		}
	}
	return lines
}

// levelCuts tells where the outlines cross the level line at y, from left to right.
func levelCuts(outlines [][]Point, y float64) []float64 {
	var cuts []float64
	for _, o := range outlines {
		for i, a := range o {
			b := o[(i+1)%len(o)]
			if (a.Y <= y) != (b.Y <= y) {
				cuts = append(cuts, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
			}
		}
	}
	sort.Float64s(cuts)
	return cuts
}
