package diagnosis

import (
	"math"

	"layshaft/release"
)

// faulty is a chain, with what a chain has no place for.
type faulty struct {
	release.Chain
	forkPlay  float64 // bearing travel lost in the fork's pivot, m
	leak      float64 // volume that passes a seal while the pedal is held for a reading, m³
	extraLift float64 // plate lift that the discs need beyond what sound ones do, m
}

// suspicion is one way that a chain can be at fault: a cause, and for a wrong bore the one that is in there.
type suspicion struct {
	cause Cause
	share float64 // of the cause's odds
	dims  int     // how many numbers describe it
	// inflict does the damage, with numbers between 0 and 1, and returns the fault's size.
	inflict func(f *faulty, u []float64) float64
}

// The sizes that faults have. Common practice, no source, but for those of the hose.
var (
	airVolume    = sizes{0.3e-6, 6e-6}  // m³
	boxCracked   = sizes{150e3, 1500e3} // N/m, of what gives way in series with the sound box
	hoseSoftened = sizes{2, 8}          // times the swelling of the sound hose
	forkLost     = sizes{1e-3, 6e-3}    // m of bearing travel under load
	leaked       = sizes{0.3e-6, 4e-6}  // m³ in the seconds that a reading takes
	gapTooLarge  = sizes{1e-3, 6e-3}    // m more than believed
	liftMore     = sizes{0.2e-3, 2e-3}  // m at the pressure plate
)

// typicalHose is how a hose swells of which nothing is known, m³/Pa: the lower middle of the 0.1 to 0.6 cm³ at
// working pressure that clutch hoses take up. Common practice, no source.
const typicalHose = 0.06e-12

// sizes is a range that a fault's size lies in.
type sizes struct{ least, most float64 }

// byRatio has each doubling equally likely: small faults are more common than large ones.
func (s sizes) byRatio(u float64) float64 { return s.least * math.Pow(s.most/s.least, u) }

func (s sizes) evenly(u float64) float64 { return s.least + u*(s.most-s.least) }

// suspicionsOf lists all ways in which a chain, believed to be like base, can be at fault.
func suspicionsOf(base *release.Chain) []suspicion {
	all := []suspicion{
		{None, 1, 0, noHarm},
		{TrappedAir, 1, 1, trapAir},
		{BoxFlex, 1, 1, crackBox},
		{HoseSwelling, 1, 1, softenHose},
		{SealBypass, 1, 1, func(f *faulty, u []float64) float64 {
			f.leak = leaked.byRatio(u[0])
			return f.leak
		}},
		{StandOff, 1, 1, func(f *faulty, u []float64) float64 {
			more := gapTooLarge.evenly(u[0])
			f.System.Slave.StandOff += more
			return more
		}},
		{DiscFault, 1, 1, func(f *faulty, u []float64) float64 {
			f.extraLift = liftMore.byRatio(u[0])
			return f.extraLift
		}},
	}
	if base.System.Slave.Sleeve == 0 { // a concentric slave has no fork
		all = append(all, suspicion{WornFork, 1, 2, wearFork})
	}
	for _, b := range otherBores(base.System.Master.Bore) {
		all = append(all, suspicion{WrongMasterBore, b.share, 0, func(f *faulty, _ []float64) float64 {
			f.System.Master.Bore = b.bore
			return b.bore
		}})
	}
	for _, b := range otherSlaves(&base.System.Slave) {
		all = append(all, suspicion{WrongSlaveBore, b.share, 0, func(f *faulty, _ []float64) float64 {
			f.System.Slave.Bore = b.bore
			return b.bore
		}})
	}
	return all
}

func noHarm(*faulty, []float64) float64 { return math.NaN() }

func trapAir(f *faulty, u []float64) float64 {
	more := airVolume.byRatio(u[0])
	f.System.Line.TrappedAir += more
	return more
}

// crackBox puts a soft place in series with the sound box and returns the stiffness of both.
func crackBox(f *faulty, u []float64) float64 {
	box := &f.System.Pedal.Stiffness
	*box = inSeries(*box, boxCracked.byRatio(u[0]))
	return *box
}

// softenHose returns how many times more the hose swells than a sound one.
func softenHose(f *faulty, u []float64) float64 {
	line := &f.System.Line
	sound := line.Expansion * line.Length
	if sound == 0 {
		sound = typicalHose
	}
	times := hoseSoftened.byRatio(u[0])
	line.Compliance += (times - 1) * sound
	return times
}

// wearFork loses bearing travel: part of it as play that closes without load, part of it as give under load. The
// size is the travel lost at the heaviest bearing load.
func wearFork(f *faulty, u []float64) float64 {
	lost := forkLost.byRatio(u[0])
	f.forkPlay = lost * u[1]
	f.System.Slave.StandOff += f.forkPlay // the slave must move that much more; the bearing does not
	if give := lost - f.forkPlay; give > 0 {
		_, heaviest := f.Clutch.BearingLoad.Max()
		f.System.Slave.ForkStiffness = inSeries(f.System.Slave.ForkStiffness, heaviest*f.Clutch.LoadScale/give)
	}
	return lost
}

// inSeries is the stiffness of two springs one behind the other.
//
//	1/k = 1/a + 1/b
func inSeries(a, b float64) float64 { return 1 / (1/a + 1/b) }
