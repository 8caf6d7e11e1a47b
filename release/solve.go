package release

import (
	"errors"
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"

	"layshaft/uncertain"
)

// Known is one figure of a chain, how sure it is, and where in the chain it goes.
type Known struct {
	Name  string
	Value uncertain.Value
	Set   func(*Chain, float64)
}

// Solve works out the answer for base with its knowns. The single figures take every known at its middle; the
// chances come from that many draws of those that are not exact. The same seed gives the same answer on any number
// of processors.
func Solve(base Chain, knowns []Known, samples int, seed uint64) (Answer, error) {
	middle := base
	for _, k := range knowns {
		k.Set(&middle, k.Value.Mid())
	}
	if err := middle.Check(); err != nil {
		return Answer{}, err
	}
	a := middle.solveExact()
	if unsure := notExact(knowns); len(unsure) > 0 {
		if samples < 1 {
			return Answer{}, fmt.Errorf("%d draws are too few to tell how sure the answer is; 10000 will do", samples)
		}
		if err := a.sample(&middle, unsure, samples, seed); err != nil {
			return Answer{}, err
		}
	} else {
		a.PFrees, a.POverTravels, a.PBoth = middle.certain(&a)
	}
	a.EffortAtStop = middle.effortAtStop(&a)
	return a, nil
}

func notExact(knowns []Known) []Known {
	var unsure []Known
	for _, k := range knowns {
		if !k.Value.IsExact() {
			unsure = append(unsure, k)
		}
	}
	return unsure
}

// certain gives the chances, 0 or 1, when every figure is known.
func (c *Chain) certain(a *Answer) (frees, over, both float64) {
	s := c.statics()
	w := c.window(&s)
	travel := c.System.Pedal.Travel
	frees, over = chance(w.frees(travel)), chance(w.overTravels(travel))
	return frees, over, chance(a.NoWindow == "")
}

func chance(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// effortAtStop is the effort with the pedal held at the recommended stop, or at full travel where there is none.
func (c *Chain) effortAtStop(a *Answer) float64 {
	at := c.System.Pedal.Travel
	if a.NoWindow == "" {
		at = a.StopRecommended
	}
	s := c.statics()
	return c.point(s.pressing(), at).Effort
}

// draws are the outcomes of sampling, in the order of the draws.
type draws struct {
	good        []stretch // nowhere for a chain that drags or cannot be
	frees, over atomic.Int64
	possible    atomic.Int64
	full        atomic.Int64 // draws that are good with the pedal at full travel
}

func (a *Answer) sample(middle *Chain, unsure []Known, samples int, seed uint64) error {
	d := draws{good: make([]stretch, samples)}
	sequence := uncertain.NewSequence(len(unsure), seed)
	inChunks(samples, func(from, to int) { d.run(middle, unsure, sequence, from, to) })

	possible := float64(d.possible.Load())
	if possible == 0 {
		return errors.New("the ranges given reach so far that not one draw makes a possible chain; narrow them")
	}
	a.Impossible = 1 - possible/float64(samples)
	a.PFrees = float64(d.frees.Load()) / possible
	a.POverTravels = float64(d.over.Load()) / possible
	a.PBoth = float64(d.full.Load()) / possible
	if a.NoWindow == "" {
		if stop, share := bestStop(d.good, middle.System.Pedal.Travel); share > 0 {
			a.StopRecommended = stop
			a.PBoth = share * float64(samples) / possible
		} else {
			a.PBoth = 0
		}
	}
	if a.Impossible > 0 {
		a.Notes = append(a.Notes, fmt.Sprintf("%.2g %% of the draws made a chain that cannot be and were left out; a range reaches too far",
			a.Impossible*100))
	}
	return nil
}

// run takes the draws from..to-1.
func (d *draws) run(middle *Chain, unsure []Known, sequence uncertain.Sequence, from, to int) {
	c := *middle
	load := newBearingLoad(c.Clutch.BearingLoad)
	u := make([]float64, len(unsure))
	var frees, over, possible, full int64
	for i := from; i < to; i++ {
		sequence.At(i, u)
		for j := range unsure {
			unsure[j].Set(&c, unsure[j].Value.Quantile(u[j]))
		}
		if !c.possible() {
			d.good[i] = nowhere
			continue
		}
		if c.Clutch.BearingLoad != load.Curve {
			load = newBearingLoad(c.Clutch.BearingLoad)
		}
		s := c.staticsOn(load)
		w := c.window(&s)
		d.good[i] = c.stops(&s, &w)
		travel := c.System.Pedal.Travel
		possible++
		if w.overTravels(travel) {
			over++
		} else if w.frees(travel) {
			full++
		}
		if w.frees(travel) {
			frees++
		}
	}
	d.frees.Add(frees)
	d.over.Add(over)
	d.possible.Add(possible)
	d.full.Add(full)
}

// possible is the part of Check that a draw from a wide range can break, quick enough for every draw.
func (c *Chain) possible() bool {
	clutch, pedal, master, line, slave := &c.Clutch, &c.System.Pedal, &c.System.Master, &c.System.Line, &c.System.Slave
	return clutch.LeverRatio > 0 && clutch.Cushion >= 0 && clutch.Clearance >= 0 && clutch.LoadScale > 0 &&
		clutch.FingerTravelMax > 0 &&
		pedal.Ratio > 0 && pedal.Travel > 0 && pedal.FreePlay >= 0 && isShare(pedal.Efficiency) && pedal.Stiffness > 0 &&
		master.Bore > 0 && master.Stroke > 0 && master.DeadStroke >= 0 && isShare(master.Efficiency) &&
		line.Length >= 0 && line.Expansion >= 0 && line.FluidVolume >= 0 && line.BulkModulus >= 0 &&
		line.Compliance >= 0 && line.TrappedAir >= 0 &&
		slave.Sleeve >= 0 && slave.Bore > slave.Sleeve && slave.ForkRatio > 0 && slave.ForkStiffness > 0 &&
		slave.StandOff >= 0 && isShare(slave.Efficiency)
}

func isShare(v float64) bool { return v > 0 && v <= 1 }

// chunk is how many draws one worker takes at a time.
const chunk = 1024

// inChunks has all processors share the work 0..n-1.
func inChunks(n int, work func(from, to int)) {
	var next atomic.Int64
	var done sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), (n+chunk-1)/chunk) {
		done.Go(func() {
			for {
				from := int(next.Add(chunk)) - chunk
				if from >= n {
					return
				}
				work(from, min(from+chunk, n))
			}
		})
	}
	done.Wait()
}
