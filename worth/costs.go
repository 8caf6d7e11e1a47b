package worth

import "math"

// Costs are what one further job costs, in any one currency.
type Costs struct {
	Now        float64 // what it adds while the way to it is open
	Later      float64 // the same job by itself: the whole way in and out again
	Collateral float64 // damage and loss that come with waiting until it is needed, as a part of Later
}

// WhenNeeded is what it costs when the job was left and is then needed.
//
//	L = L₁·(1 + k)
//
//	L₁  price of the job by itself (Later)     money
//	k   collateral damage as a part of it      –
func (c Costs) WhenNeeded() float64 { return c.Later * (1 + c.Collateral) }

// BreakEven returns the chance of need above which doing the job now is cheaper on average than leaving it.
//
//	p* = N / L
//
//	N   what the job adds now                  money
//	L   what it costs when left and needed     money
//	p*  break-even chance                      –
//
// It is 0 where the job adds nothing, and 1 or more where coming back costs no more than doing it now: then no chance
// of need makes it pay. Assumed: the renewed part lasts as long as the question looks ahead, the owner pays either
// way, money now and then weighs the same, and the owner minds averages, not bad luck.
//
// This is the cost/loss ratio of decision theory: A. K. Ångström (1922) and J. C. Thompson (1952), retold in
// D. S. Richardson, Quart. J. Roy. Meteorol. Soc. 126 (2000), 649–667 (retellings seen, papers not).
func (c Costs) BreakEven() float64 {
	switch needed := c.WhenNeeded(); {
	case c.Now <= 0:
		return 0
	case needed <= 0:
		return math.Inf(1)
	default:
		return c.Now / needed
	}
}

// Leave is the expected cost of leaving the job until it is needed: p·L, with the chance of need p.
func (c Costs) Leave(p float64) float64 { return p * c.WhenNeeded() }

// Look is a look at the part before deciding.
type Look struct {
	Cost       float64 // what looking adds
	Detects    float64 // chance that a part that will be needed is seen to be worn
	FalseAlarm float64 // chance that one that would have lasted is taken for worn
}

// LookFirst is the expected cost of looking first and doing the job only where the part is found worn.
//
//	E = K + p·[s·N + (1−s)·L] + (1−p)·f·N
//
//	K   what looking adds                      money
//	p   chance of need                         –
//	s   chance that the look sees it (Detects) –
//	f   chance of a false alarm                –
//	N   what the job adds now                  money
//	L   what it costs when left and needed     money
//
// Source: expense matrix times contingency table, as Richardson (2000) above.
func (c Costs) LookFirst(look Look, p float64) float64 {
	found := p*look.Detects + (1-p)*look.FalseAlarm
	missed := p * (1 - look.Detects)
	return look.Cost + found*c.Now + missed*c.WhenNeeded()
}

// LookPays returns the chances of need between which looking first is cheaper than both leaving the job and doing it
// unseen. Where the two are the wrong way round or equal, looking never pays.
//
//	from = (K + f·N) / (s·(L−N) + f·N)
//	to   = ((1−f)·N − K) / ((1−s)·L + (s−f)·N)
//
// with the symbols of LookFirst: where its line crosses those of Leave and of doing it now.
func (c Costs) LookPays(look Look) (from, to float64) {
	needed, s, f := c.WhenNeeded(), look.Detects, look.FalseAlarm
	from = crossing(look.Cost+f*c.Now, s*(needed-c.Now)+f*c.Now, 1)
	to = crossing((1-f)*c.Now-look.Cost, (1-s)*needed+(s-f)*c.Now, 0)
	return from, to
}

// crossing is height / slope between 0 and 1; never where the slope does not rise.
func crossing(height, slope, never float64) float64 {
	if slope <= 0 {
		return never
	}
	return max(0, min(1, height/slope))
}
