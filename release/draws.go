package release

import (
	"errors"
	"fmt"
	"runtime"
	"sync"
	"sync/atomic"

	"layshaft/uncertain"
)

var errNoneIsPossible = errors.New("the ranges given reach so far that not one draw makes a possible chain; narrow them")

// outcome is what one draw comes to.
type outcome struct {
	possible, frees, over bool
	good                  stretch
}

func (a *Answer) sample(middle *Chain, unsure []Known, samples int, seed uint64) error {
	outcomes := make([]outcome, samples)
	eachDraw(middle, unsure, samples, seed, func(i int, c *Chain, s *statics) { outcomes[i] = c.outcomeOn(s) })
	return a.chances(middle, outcomes)
}

func (c *Chain) outcome(load *bearingLoad) outcome {
	s := c.staticsOn(load)
	return c.outcomeOn(&s)
}

func (c *Chain) outcomeOn(s *statics) outcome {
	w, travel := c.window(s), c.System.Pedal.Travel
	return outcome{true, w.frees(travel), w.overTravels(travel), c.stops(s, &w)}
}

// chances makes of all draws' outcomes the chances and the stop that is good most likely.
func (a *Answer) chances(middle *Chain, outcomes []outcome) error {
	var good []stretch
	var frees, over, full int
	for _, o := range outcomes {
		if !o.possible {
			continue
		}
		good = append(good, o.good)
		frees += count(o.frees)
		over += count(o.over)
		full += count(o.frees && !o.over)
	}
	possible := float64(len(good))
	if possible == 0 {
		return errNoneIsPossible
	}
	a.PFrees, a.POverTravels, a.PBoth = float64(frees)/possible, float64(over)/possible, float64(full)/possible
	if a.NoWindow == "" {
		stop, share := bestStop(good, middle.System.Pedal.Travel)
		a.PBoth = share
		if share > 0 {
			a.StopRecommended = stop
		}
	}
	if a.Impossible = 1 - possible/float64(len(outcomes)); a.Impossible > 0 {
		a.Notes = append(a.Notes, fmt.Sprintf("%.2g %% of the draws made a chain that cannot be and were left out; a range reaches too far",
			a.Impossible*100))
	}
	return nil
}

func count(yes bool) int {
	if yes {
		return 1
	}
	return 0
}

// eachDraw hands over every draw that makes a possible chain, from several goroutines at once; i is its number.
func eachDraw(middle *Chain, unsure []Known, samples int, seed uint64, take func(i int, c *Chain, s *statics)) {
	sequence := uncertain.NewSequence(len(unsure), seed)
	middleLoad := newBearingLoad(middle.Clutch.BearingLoad)
	inChunks(samples, 256, func(from, to int) {
		c, load := *middle, middleLoad
		u := make([]float64, len(unsure))
		for i := from; i < to; i++ {
			sequence.At(i, u)
			for j := range unsure {
				unsure[j].Set(&c, unsure[j].Value.Quantile(u[j]))
			}
			if !c.possible() {
				continue
			}
			if c.Clutch.BearingLoad != load.Curve {
				load = newBearingLoad(c.Clutch.BearingLoad)
			}
			s := c.staticsOn(load)
			take(i, &c, &s)
		}
	})
}

// possible is the part of Check that a draw from a wide range can break, quick enough for every draw.
func (c *Chain) possible() bool {
	clutch, pedal, master, line, slave := &c.Clutch, &c.System.Pedal, &c.System.Master, &c.System.Line, &c.System.Slave
	return clutch.LeverRatio > 0 && clutch.Cushion >= 0 && clutch.Clearance >= 0 && clutch.LoadScale > 0 &&
		clutch.FingerTravelMax > 0 &&
		(pedal.Ratio > 0 || !pedal.Linkage.Zero()) && pedal.Travel > 0 && pedal.FreePlay >= 0 && isShare(pedal.Efficiency) && pedal.Stiffness > 0 &&
		master.Bore > 0 && master.Stroke > 0 && master.DeadStroke >= 0 && isShare(master.Efficiency) &&
		line.Length >= 0 && line.Expansion >= 0 && line.FluidVolume >= 0 && line.BulkModulus >= 0 &&
		line.Compliance >= 0 && line.TrappedAir >= 0 &&
		slave.Sleeve >= 0 && slave.Bore > slave.Sleeve && slave.ForkRatio > 0 && slave.ForkStiffness > 0 &&
		slave.StandOff >= 0 && isShare(slave.Efficiency)
}

func isShare(v float64) bool { return v > 0 && v <= 1 }

// inChunks has all processors share the work 0..n-1, a chunk at a time.
func inChunks(n, chunk int, work func(from, to int)) {
	var next atomic.Int64
	var done sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), (n+chunk-1)/chunk) {
		done.Go(func() {
			for from := int(next.Add(int64(chunk))) - chunk; from < n; from = int(next.Add(int64(chunk))) - chunk {
				work(from, min(from+chunk, n))
			}
		})
	}
	done.Wait()
}
