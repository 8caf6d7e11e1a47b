package driveline

import "layshaft/uncertain"

// Fade is how friction changes as the rubbing faces heat up: from the cold figure below one temperature evenly to the
// hot figure at another. It may rise as well as fall.
type Fade struct {
	Cold, Hot float64 // coefficients of friction
	From, To  float64 // temperatures of the faces, K
}

// At returns the friction at a temperature of the faces. Above To nobody has a figure; the hot one is kept.
func (f Fade) At(temperature float64) float64 {
	switch {
	case temperature <= f.From:
		return f.Cold
	case temperature >= f.To:
		return f.Hot
	}
	return f.Cold + (f.Hot-f.Cold)*(temperature-f.From)/(f.To-f.From)
}

// FacingFamily is a kind of facing with the figures that are usual for it. They are common practice, no source, and the
// hot ones are the weakest of them: the maker's sheet goes before any of this.
type FacingFamily struct {
	Name        string
	Friction    uncertain.Value // cold, –
	HotFriction uncertain.Value // at the upper working limit, –
	From, To    float64         // usual working limits of the faces, lowest and highest named, K
	Facing      Material
	Against     Material // what it rubs on
}

// FacingFamilies lists the usual ones, from the mildest to the hardest.
func FacingFamilies() []FacingFamily {
	between := uncertain.Uniform
	const zero = 273.15
	organic, sintered, carbon, iron := OrganicFacing(), SinteredFacing(), CarbonComposite(), GreyIron()
	return []FacingFamily{
		{"organic", between(0.25, 0.30), between(0.17, 0.25), zero + 200, zero + 300, organic, iron},
		{"carbon-aramid blend", between(0.28, 0.32), between(0.23, 0.29), zero + 250, zero + 350, organic, iron},
		{"aramid", between(0.30, 0.36), between(0.27, 0.34), zero + 300, zero + 370, organic, iron},
		{"cerametallic", between(0.33, 0.42), between(0.33, 0.44), zero + 450, zero + 600, sintered, iron},
		{"sintered", between(0.35, 0.50), between(0.37, 0.53), zero + 500, zero + 650, sintered, iron},
		{"carbon-carbon", between(0.25, 0.35), between(0.40, 0.55), zero + 100, zero + 600, carbon, carbon},
	}
}
