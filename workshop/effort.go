package workshop

// Effort says how hard to sample: more draws tell the chances more finely and take longer. The same seed gives the
// same answer every time. Powers of two serve the sampling best.
type Effort struct {
	Samples    int // draws for the chances
	Doubt      int // draws for the band and for what to measure first; 0 leaves them out
	BandPoints int // of the band
	Points     int // of each pedal map
	Seed       uint64
}

// Thorough is the effort for commands and paper, Quick the one for a page that follows what is typed.
var (
	Thorough = Effort{Samples: 16384, Doubt: 2048, BandPoints: 76, Points: 151, Seed: 1}
	Quick    = Effort{Samples: 2048, Doubt: 256, BandPoints: 51, Points: 151, Seed: 1}
)
