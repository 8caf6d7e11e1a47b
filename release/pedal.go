package release

// padTravel is the travel at the pad when the rod has moved by rod from where it meets the master's piston.
func (p *Pedal) padTravel(rod float64) float64 {
	if p.Linkage.Zero() {
		return p.FreePlay + p.Ratio*rod
	}
	return p.Linkage.PadTravel(p.Linkage.RodTravel(p.FreePlay) + rod)
}

// rodTravel is the inverse of padTravel; negative within the free play.
func (p *Pedal) rodTravel(pad float64) float64 {
	if p.Linkage.Zero() {
		return (pad - p.FreePlay) / p.Ratio
	}
	return p.Linkage.RodTravel(pad) - p.Linkage.RodTravel(p.FreePlay)
}

// RatioAt is the pedal ratio with the pad pressed by pad: Ratio, or what the geometry gives.
func (p *Pedal) RatioAt(pad float64) float64 {
	if p.Linkage.Zero() {
		return p.Ratio
	}
	return p.Linkage.RatioAt(pad)
}

// effort is the force at the pad that holds a rod force, less what an assist spring does.
func (p *Pedal) effort(pad, rodForce float64) float64 {
	force := rodForce / (p.RatioAt(pad) * p.Efficiency)
	if p.Assist.Zero() {
		return force
	}
	return force - p.Assist.At(pad)
}

// plain reports whether effort goes with the rod force alone.
func (p *Pedal) plain() bool { return p.Linkage.Zero() && p.Assist.Zero() }
