package release

// padTravel is the travel at the pad when the rod has moved by rod from where it meets the master's piston.
func (p *Pedal) padTravel(rod float64) float64 { return p.FreePlay + p.Ratio*rod }

// rodTravel is the inverse of padTravel; negative within the free play.
func (p *Pedal) rodTravel(pad float64) float64 { return (pad - p.FreePlay) / p.Ratio }
