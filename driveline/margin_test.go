package driveline

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"layshaft/quantity"
	"layshaft/uncertain"

	"pgregory.net/rapid"
)

// uprated is a twin-plate clutch behind an engine of which only the power is known.
func uprated() MarginInputs {
	return MarginInputs{
		Faces: Faces(2),
		Outer: uncertain.Exact(0.200), Inner: uncertain.Exact(0.140),
		Friction: uncertain.Uniform(0.26, 0.30),
		Clamp:    uncertain.Exact(9800),
		Demand: DemandFromPower(uncertain.Exact(quantity.From(380, "bhp")),
			uncertain.Exact(quantity.From(6200, "rpm"))),
		ServiceFactor: RoadFactor,
	}
}

// exactly makes every input of the margin a single figure.
func exactly(in MarginInputs) MarginInputs {
	for _, v := range []*uncertain.Value{&in.Outer, &in.Inner, &in.Friction, &in.Clamp,
		&in.Demand.Measured, &in.Demand.Speed, &in.Demand.PeakRatio, &in.Demand.Repeatability, &in.Demand.Loss} {
		*v = uncertain.Exact(v.Mid())
	}
	return in
}

func TestMarginIsCapacityOverDemandTimesFactor(t *testing.T) {
	// By hand: 380 bhp = 283 366 W at 649.262 rad/s is 436.443 N m, times 1.15 is 501.91 N m;
	// 4 x 0.28 x 9800 N x 0.085 m = 932.96 N m; over 1.25 x 501.91 is 1.48706.
	h := Margin(uprated(), 20000, 1)
	near(t, "demand", h.Demand, 501.91, 1e-5)
	near(t, "capacity", h.Capacity, 932.96, 1e-12)
	near(t, "margin", h.Margin, 1.48706, 1e-5)
	near(t, "margin as a quotient", h.Margin, h.Capacity/(h.Demand*RoadFactor), 1e-15)
	if h.CapacityUniformPressure <= h.Capacity {
		t.Errorf("a new facing carries %g, a worn one %g", h.CapacityUniformPressure, h.Capacity)
	}
	if h.Verdict != "holds" {
		t.Errorf("verdict %q", h.Verdict)
	}
}

func TestWheelTorqueIsReferredToTheCrank(t *testing.T) {
	curve, err := NewEngineCurve([]float64{200, 400}, []float64{300, 310})
	if err != nil {
		t.Fatal(err)
	}
	d := DemandFromCurve(curve, WheelLoss(FourWheels), Repeatability())
	near(t, "demand", d.Mid(), 310/(1-0.225), 1e-12)
	near(t, "at the crank", DemandFromCurve(curve, uncertain.Exact(0), Repeatability()).Mid(), 310, 1e-15)
}

func TestLossesGrowWithTheNumberOfDrivenParts(t *testing.T) {
	front, rear, four := WheelLoss(FrontWheels), WheelLoss(RearWheels), WheelLoss(FourWheels)
	near(t, "front", front.Mid(), 0.10, 1e-12)
	near(t, "rear", rear.Mid(), 0.15, 1e-12)
	if lo, hi := four.Bounds(); lo != 0.20 || hi != 0.25 {
		t.Errorf("four: %v", four)
	}
}

func TestExactInputsGiveOneMargin(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := exactly(uprated())
		in.Clamp = uncertain.Exact(rapid.Float64Range(1e3, 20e3).Draw(t, "clamp"))
		in.ServiceFactor = rapid.Float64Range(1, 3).Draw(t, "factor")
		h := Margin(in, 100, rapid.Uint64().Draw(t, "seed"))
		if h.P05 != h.Margin || h.P95 != h.Margin || h.CapacityP05 != h.Capacity || h.CapacityP95 != h.Capacity ||
			h.DemandP05 != h.Demand || h.DemandP95 != h.Demand {
			t.Fatalf("not one figure: %+v", h)
		}
		if want := map[bool]string{true: "holds", false: "slips"}[h.Margin >= 1]; h.Verdict != want {
			t.Fatalf("margin %g is called %q", h.Margin, h.Verdict)
		}
	})
}

// Where one factor alone is uncertain the margin is proportional to it, so its percentiles are known in closed form.
func TestSampledMarginMeetsClosedFormPercentiles(t *testing.T) {
	in := exactly(uprated())
	m := Margin(in, 1, 0).Margin
	in.Friction = uncertain.Uniform(0.21, 0.35)
	h := Margin(in, 20000, 7)
	near(t, "5 % of a uniform friction", h.P05, m*(0.21+0.05*0.14)/0.28, 2e-3)
	near(t, "95 % of a uniform friction", h.P95, m*(0.21+0.95*0.14)/0.28, 2e-3)

	in = exactly(uprated())
	in.Clamp = uncertain.Normal(9800, 490)
	h = Margin(in, 20000, 7)
	const z95 = 1.6448536269514722 // 95 % point of the standard normal
	near(t, "5 % of a normal clamp load", h.P05, m*(1-0.05*z95), 2e-3)
	near(t, "95 % of a normal clamp load", h.P95, m*(1+0.05*z95), 2e-3)

	in = exactly(uprated())
	in.Demand.Loss = uncertain.Uniform(0.20, 0.25)
	in.Demand.PeakRatio = uncertain.Exact(1)
	h = Margin(in, 20000, 7)
	m = h.Capacity / (in.Demand.Measured.Mid() / in.Demand.Speed.Mid() * in.ServiceFactor)
	near(t, "5 % of a uniform loss", h.P05, m*(1-0.2475), 2e-3)
	near(t, "95 % of a uniform loss", h.P95, m*(1-0.2025), 2e-3)
	near(t, "5 % of the demand", h.DemandP05, h.Capacity/(h.P95*in.ServiceFactor), 1e-4)
	near(t, "95 % of the demand", h.DemandP95, h.Capacity/(h.P05*in.ServiceFactor), 1e-4)
	if h.CapacityP05 != h.Capacity || h.CapacityP95 != h.Capacity {
		t.Error("the demand's range must not touch the capacity")
	}
}

func TestMarginDoesNotChangeWithTheUnitsOfScale(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(0.5, 2).Draw(t, "k")
		a, b := uprated(), uprated()
		b.Clamp, b.Demand.Measured = b.Clamp.Scale(k), b.Demand.Measured.Scale(k)
		x, y := Margin(a, 256, 3), Margin(b, 256, 3)
		if math.Abs(x.P05-y.P05) > 1e-12 || math.Abs(x.P95-y.P95) > 1e-12 || math.Abs(x.Margin-y.Margin) > 1e-12 {
			t.Fatalf("%+v\n%+v", x, y)
		}
		if !(x.P05 < x.Margin && x.Margin < x.P95) {
			t.Fatalf("margin %g is not between %g and %g", x.Margin, x.P05, x.P95)
		}
	})
}

func TestSameSeedSameMargin(t *testing.T) {
	if a, b := Margin(uprated(), 1000, 5), Margin(uprated(), 1000, 5); a != b {
		t.Errorf("%+v\n%+v", a, b)
	}
	if a, b := Margin(uprated(), 1000, 5), Margin(uprated(), 1000, 6); a.P05 == b.P05 {
		t.Error("another seed gave the very same draws")
	}
}

func TestJudgeSaysThinInBetween(t *testing.T) {
	for _, c := range []struct {
		p05, p95 float64
		want     string
	}{
		{1, 1.2, "holds"}, {0.999, 1.2, "thin"}, {0.8, 1, "thin"}, {0.8, 0.999, "slips"}, {math.NaN(), math.NaN(), "thin"},
	} {
		if got := Judge(c.p05, c.p95); got != c.want {
			t.Errorf("%g .. %g is called %q, want %q", c.p05, c.p95, got, c.want)
		}
	}
}

func TestImpossibleClutchesAreRefusedByName(t *testing.T) {
	for name, c := range map[string]struct {
		spoil func(*MarginInputs)
		says  string
	}{
		"no faces":          {func(in *MarginInputs) { in.Faces = 0 }, "a disc has two"},
		"inside out":        {func(in *MarginInputs) { in.Inner = uncertain.Exact(0.21) }, "outer diameter"},
		"no friction":       {func(in *MarginInputs) { in.Friction = uncertain.Exact(0) }, "friction"},
		"wild friction":     {func(in *MarginInputs) { in.Friction = uncertain.Normal(0.3, 0.1) }, "friction"},
		"pulling clamp":     {func(in *MarginInputs) { in.Clamp = uncertain.Exact(-1) }, "clamp load"},
		"clamp not known":   {func(in *MarginInputs) { in.Clamp = uncertain.Exact(math.NaN()) }, "clamp load"},
		"nothing arrives":   {func(in *MarginInputs) { in.Demand.Loss = uncertain.Uniform(0.5, 1) }, "not lost"},
		"standing engine":   {func(in *MarginInputs) { in.Demand.Speed = uncertain.Exact(0) }, "speed"},
		"no service factor": {func(in *MarginInputs) { in.ServiceFactor = 0 }, "service factor"},
	} {
		in := uprated()
		c.spoil(&in)
		if err := in.Check(); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := uprated().Check(); err != nil {
		t.Errorf("a good clutch: %v", err)
	}
}

func BenchmarkMargin(b *testing.B) {
	in := uprated()
	in.Clamp = uncertain.Normal(9800, 300)
	in.Demand.Repeatability = Repeatability()
	for b.Loop() {
		Margin(in, 20000, 1)
	}
}

func ExampleMargin() {
	h := Margin(MarginInputs{
		Faces: Faces(1),
		Outer: uncertain.Exact(0.230), Inner: uncertain.Exact(0.155),
		Friction:      uncertain.Exact(0.27),
		Clamp:         uncertain.Exact(6200),
		Demand:        DemandFromPower(uncertain.Exact(283366), uncertain.Exact(649.26)), // 380 bhp at 6200 rpm
		ServiceFactor: RoadFactor,
	}, 10000, 1)
	fmt.Printf("%.0f N m for %.0f N m: %.2f, %s\n", h.Capacity, h.Demand, h.Margin, h.Verdict)
	// Output: 322 N m for 502 N m: 0.51, slips
}
