package diagnosis

// Cause is a reason why a clutch drags.
type Cause string

// The causes. None is a chain as it is believed to be: what drags then drags by its measurements. DiscFault stands
// for all that drags with the fingers moving as they should: a disc the wrong way round or bent, and also what the
// release chain knows nothing of, such as dry splines or a seized spigot bearing.
const (
	None            Cause = "none"
	TrappedAir      Cause = "trapped-air"
	BoxFlex         Cause = "box-flex"
	HoseSwelling    Cause = "hose-swelling"
	WrongMasterBore Cause = "wrong-master-bore"
	WrongSlaveBore  Cause = "wrong-slave-bore"
	WornFork        Cause = "worn-fork"
	SealBypass      Cause = "seal-bypass"
	StandOff        Cause = "stand-off"
	DiscFault       Cause = "disc-fault"
)

// Causes lists them all.
var Causes = []Cause{None, TrappedAir, BoxFlex, HoseSwelling, WrongMasterBore, WrongSlaveBore, WornFork, SealBypass, StandOff, DiscFault}

// DefaultOdds is how often each cause is found, set against the others: air twice as often as any other one. Common
// practice, no source; a shop that keeps count puts its own figures in.
func DefaultOdds() map[Cause]float64 {
	odds := map[Cause]float64{}
	for _, c := range Causes {
		odds[c] = 1
	}
	odds[TrappedAir] = 2
	return odds
}

// InsideBell reports whether the gearbox must come out to get at the cause. A concentric slave sits in there with
// the rest.
func (c Cause) InsideBell(concentric bool) bool {
	switch c {
	case WornFork, StandOff, DiscFault:
		return true
	case WrongSlaveBore:
		return concentric
	}
	return false
}
