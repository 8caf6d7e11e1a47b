package driveline

// Slab is a flat body through which heat runs in one direction: in at its front by a given flux, out at its back to
// the air. It is cut into cells of one thickness and stepped fully implicitly, which never overshoots, keeps account
// of every joule, and is accurate to the first order of the time step.
type Slab struct {
	Film    float64 // film coefficient at the back, W/(m² K); 0 insulated
	Ambient float64 // temperature of the air there, K

	material Material
	width    float64   // of a cell, m
	cells    []float64 // temperature at the middle of each, K
	flux     float64   // of the last step, W/m²
	work     []float64
}

// NewSlab returns a slab at one temperature (K). Cells should be thin against √(α·t) of the times that matter.
func NewSlab(m Material, thickness float64, cells int, temperature float64) *Slab {
	if cells < 1 || !(thickness > 0) {
		panic("driveline: a slab needs a thickness and at least one cell")
	}
	s := &Slab{material: m, width: thickness / float64(cells), cells: make([]float64, cells), work: make([]float64, cells)}
	for i := range s.cells {
		s.cells[i] = temperature
	}
	return s
}

// Step lets a time dt (s) pass under a flux (W/m²) into the front.
//
//	ρ·c·Δx·(T' − T)/dt = k/Δx·(T'before − 2·T' + T'after),  T' at the end of the step
//
// with the flux in place of the cell before the first, and behind the last the film in series with half a cell. The
// equations are solved by elimination from front to back (Thomas).
func (s *Slab) Step(dt, flux float64) {
	last := len(s.cells) - 1
	between := s.material.Conductivity / s.width // conductance from cell to cell, W/(m² K)
	store := s.material.Density * s.material.SpecificHeat * s.width / dt
	before := 0.0 // conductance to the cell before
	heat := flux  // what comes in beside conduction between cells
	// Forward: T[i] = cells[i] + work[i]·T[i+1].
	for i := range s.cells {
		after, gain := between, 0.0
		if i == last {
			after, gain = 0, s.throughBack()
		}
		fromBefore := 0.0
		if i > 0 {
			fromBefore = before * s.work[i-1]
		}
		diagonal := store + before + after + gain - fromBefore
		right := store*s.cells[i] + heat + gain*s.Ambient
		if i > 0 {
			right += before * s.cells[i-1]
		}
		s.cells[i], s.work[i] = right/diagonal, after/diagonal
		before, heat = between, 0
	}
	for i := last - 1; i >= 0; i-- {
		s.cells[i] += s.work[i] * s.cells[i+1]
	}
	s.flux = flux
}

// throughBack is the conductance from the middle of the last cell to the air.
func (s *Slab) throughBack() float64 {
	if s.Film == 0 {
		return 0
	}
	return 1 / (1/s.Film + s.width/(2*s.material.Conductivity))
}

// Front returns the temperature of the front surface, K.
func (s *Slab) Front() float64 {
	return s.cells[0] + s.flux*s.width/(2*s.material.Conductivity)
}

// Back returns the temperature of the back surface, K.
func (s *Slab) Back() float64 {
	last := s.cells[len(s.cells)-1]
	return last + s.throughBack()*(s.Ambient-last)*s.width/(2*s.material.Conductivity)
}

// Mean returns the temperature that the slab would even out at, K.
func (s *Slab) Mean() float64 {
	sum := 0.0
	for _, T := range s.cells {
		sum += T
	}
	return sum / float64(len(s.cells))
}
