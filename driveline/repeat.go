package driveline

import (
	"fmt"
	"math"
)

// Repeat is one launch after another with a pause between.
type Repeat struct {
	Launch Launch // its Clutch by the cold friction; its Fade is not used
	Heat   ClutchHeat
	Fade   Fade
	Full   float64 // clutch capacity with the pedal up, by the cold friction, N m
	Demand float64 // torque that it has to carry afterwards: the engine's peak, N m
	Pause  float64 // from the end of one launch to the start of the next, s
}

// HeatedLaunch is one launch of a row.
type HeatedLaunch struct {
	Launched
	Rubbing  float64 // highest mean temperature of the rubbed faces, K
	Hottest  float64 // highest temperature of any face, K
	Part     string  // whose face that was
	Friction float64 // lowest on the way
	Capacity float64 // at that friction with the pedal up, N m
	Slips    bool    // the clutch did not lock, or that capacity is below the demand
}

// Run launches until the clutch slips, at most so many times. The launches that held are those without Slips.
func (r Repeat) Run(most int) ([]HeatedLaunch, error) {
	if err := r.Heat.Check(); err != nil {
		return nil, err
	}
	if !(r.Fade.Cold > 0 && r.Fade.Hot > 0 && r.Fade.To > r.Fade.From) {
		return nil, fmt.Errorf("fade: friction from %g to %g between %g and %g K; both must be above nought and the temperatures rise",
			r.Fade.Cold, r.Fade.Hot, r.Fade.From, r.Fade.To)
	}
	stack := NewStack(r.Heat)
	var row []HeatedLaunch
	for range most {
		launch, err := r.one(stack)
		if err != nil {
			return nil, err
		}
		row = append(row, launch)
		if launch.Slips {
			break
		}
		r.cool(stack)
	}
	return row, nil
}

// one makes a launch with the clutch as hot as it is.
func (r Repeat) one(stack *Stack) (HeatedLaunch, error) {
	h := HeatedLaunch{Friction: math.Inf(1)}
	note := func() (share float64) {
		rubbing, hottest := stack.Rubbing(), stack.Hottest()
		friction := r.Fade.At(rubbing)
		h.Rubbing, h.Friction = math.Max(h.Rubbing, rubbing), math.Min(h.Friction, friction)
		if T := hottest.Front(); T > h.Hottest {
			h.Hottest, h.Part = T, hottest.Name
		}
		return friction / r.Fade.Cold
	}
	l := r.Launch
	l.Fade = func(power, step float64) float64 {
		if step > 0 {
			stack.Step(power, step)
		}
		return note()
	}
	out, err := l.Run()
	if err != nil {
		return h, err
	}
	h.Launched = out
	h.Capacity = r.Full * h.Friction / r.Fade.Cold
	h.Slips = !out.Locked || h.Capacity < r.Demand
	return h, nil
}

// cool lets the pause pass, in steps that are short at first, while heat still runs quickly, and then grow.
func (r Repeat) cool(stack *Stack) {
	for left, step := r.Pause, 0.01; left > 0; step = math.Min(1.2*step, 5) {
		dt := math.Min(step, left)
		stack.Step(0, dt)
		left -= dt
	}
}
