package workshop

// Effort says how hard to sample: more draws tell the chances more finely and take longer. The same seed gives the
// same answer every time. Powers of two serve the sampling best.
type Effort struct {
	Samples    int // draws for the chances
	Doubt      int // draws for what to measure first; 0 leaves doubt and band out
	BandDraws  int
	BandPoints int
	Points     int // of each pedal map
	Launches   int // most launches in a row; 0 leaves the launch out
	Seed       uint64
}

// Thorough is the effort for commands and paper, Quick the one for a page that follows what is typed.
var (
	Thorough = Effort{Samples: 8192, Doubt: 1024, BandDraws: 256, BandPoints: 61, Points: 151, Launches: 20, Seed: 1}
	Quick    = Effort{Samples: 2048, Doubt: 256, BandDraws: 96, BandPoints: 41, Points: 151, Seed: 1}
)
