package spring_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"layshaft/spring"
)

// cover is invented, with the proportions of a 230 mm road clutch.
func cover() spring.Cover {
	return spring.Cover{
		Diaphragm: spring.Diaphragm{
			Rim:          steelDisc(226, 180, 2.5, 4.2),
			PlateContact: 220 * mm, Fulcrum: 186 * mm, Fingertip: 56 * mm,
		},
		Set: 2.8 * mm, Wear: 1.4 * mm, Cushion: 0.7 * mm,
	}
}

func TestDiaphragmHeldAtItsEdgesIsItsRim(t *testing.T) {
	d := cover().Diaphragm
	d.PlateContact, d.Fulcrum = d.Rim.Outer, d.Rim.Inner
	for s := 0.0; s < 5*mm; s += mm / 2 {
		if got, want := d.ClampLoad(s), d.Rim.Load(s); math.Abs(got-want) > 1e-9*want {
			t.Errorf("clamp load at %g: %g, want the rim's %g", s, got, want)
		}
	}
}

// The form of the automotive handbooks (from memory), with R, r the rim's radii and R1, r1 those of the contacts:
//
//	F = πE·h·λ/(6(1-μ²)) · ln(R/r)/(R1-r1)² · [ (H - λ(R-r)/(R1-r1))·(H - λ/2·(R-r)/(R1-r1)) + h² ]
//
// It keeps the first term of the series that DIN's K1 sums up, which makes it greater by (ln R/r)²/60: 0.1 % here.
func TestDiaphragmAgreesWithTheHandbooksLogarithmicForm(t *testing.T) {
	d := cover().Diaphragm
	R, r, R1, r1 := d.Rim.Outer/2, d.Rim.Inner/2, d.PlateContact/2, d.Fulcrum/2
	H, h := d.Rim.ConeHeight, d.Rim.Thickness
	for _, deflection := range []float64{0.5 * mm, 1.4 * mm, 2.4 * mm, 3.4 * mm, 4.4 * mm} {
		e := deflection * (R - r) / (R1 - r1)
		want := math.Pi * d.Rim.Modulus * h * deflection / (6 * (1 - 0.09)) * math.Log(R/r) / math.Pow(R1-r1, 2) *
			((H-e)*(H-e/2) + h*h)
		near(t, fmt.Sprintf("clamp load at %.1f mm", deflection/mm), d.ClampLoad(deflection), want, 0.002)
	}
}

func TestWorkAtTheBearingIsWorkAtThePlate(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := cover()
		c.Diaphragm.Fulcrum = rapid.Float64Range(181, 219).Draw(t, "fulcrum") * mm
		c.Diaphragm.Fingertip = rapid.Float64Range(30, 120).Draw(t, "fingertip") * mm
		deflection := rapid.Float64Range(0.1, 1).Draw(t, "deflection") * mm
		plate := c.Diaphragm.ClampLoad(deflection)
		bearing := c.Diaphragm.BearingLoad(deflection) * c.Diaphragm.LeverRatio()
		if math.Abs(plate-bearing) > 1e-9*plate {
			t.Fatalf("%g J/m at the plate, %g at the bearing", plate, bearing)
		}
	})
}

func TestPullAndPushCoversLeverTheSameLaw(t *testing.T) {
	push := cover().Diaphragm
	pull := push
	pull.PlateContact, pull.Fulcrum = push.Fulcrum, push.PlateContact
	near(t, "push ratio", push.LeverRatio(), 130.0/34, 1e-12)
	near(t, "pull ratio", pull.LeverRatio(), 164.0/34, 1e-12)
	near(t, "clamp load pulling", pull.ClampLoad(mm), push.ClampLoad(mm), 1e-12)
}

func TestClampLoadRisesThenFallsAsTheFacingsWear(t *testing.T) {
	c := cover()
	built, err := c.ClampAgainstWear()
	if err != nil {
		t.Fatal(err)
	}
	fresh, worn := built.Curve.At(0), built.Curve.At(c.Wear)
	at, peak := built.Curve.Max()
	near(t, "new", fresh, c.Diaphragm.ClampLoad(c.Set), 1e-12)
	near(t, "worn", worn, c.Diaphragm.ClampLoad(c.Set-c.Wear), 1e-12)
	if !(at > 0.2*c.Wear && at < 0.8*c.Wear && peak > 1.03*fresh && peak > worn) {
		t.Errorf("new %.0f N, peak %.0f N at %.2f mm, worn %.0f N", fresh, peak, at/mm, worn)
	}
	if built.Largest > 0.001*peak {
		t.Errorf("the curve leaves the model by %.1f N of %.0f", built.Largest, peak)
	}
}

func TestBearingLoadRisesThroughTheCushionThenFollowsTheSpring(t *testing.T) {
	c := cover()
	ratio := c.Diaphragm.LeverRatio()
	built, err := c.BearingLoad(0, 7*mm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "at the cushion's end", built.Curve.At(c.Cushion*ratio), c.Diaphragm.BearingLoad(c.Set+c.Cushion), 1e-9)
	near(t, "at 6 mm", built.Curve.At(6*mm), c.Diaphragm.BearingLoad(c.Set+6*mm/ratio), 1e-3)
	half := c.Cushion / 2
	near(t, "half way through the cushion", built.Curve.At(half*ratio),
		(c.Diaphragm.ClampLoad(c.Set+half)-c.Diaphragm.ClampLoad(c.Set)/2)/ratio, 1e-3)
	if built.Curve.At(0) != 0 {
		t.Errorf("%g N before the fingers move", built.Curve.At(0))
	}
	if _, peak := built.Curve.Max(); built.Largest > 0.01*peak || len(built.Assumptions) == 0 {
		t.Errorf("the curve leaves the model by %.1f N of %.0f; assumptions %q", built.Largest, peak, built.Assumptions)
	}
}

func TestWithoutACushionTheBearingCarriesTheLoadAtOnce(t *testing.T) {
	c := cover()
	c.Cushion = 0
	built, err := c.BearingLoad(c.Wear, 7*mm)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "at once", built.Curve.At(0), c.Diaphragm.BearingLoad(c.Set-c.Wear), 1e-12)
}

func TestWorkingPointsAreNewHalfWornAndWorn(t *testing.T) {
	c := cover()
	points, err := c.WorkingPoints(7 * mm)
	if err != nil {
		t.Fatal(err)
	}
	clamp, err := c.ClampAgainstWear()
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []struct {
		name string
		wear float64
	}{{"new", 0}, {"half worn", 0.7 * mm}, {"worn", 1.4 * mm}} {
		p := points[i]
		bearing, err := c.BearingLoad(want.wear, 7*mm)
		if err != nil {
			t.Fatal(err)
		}
		if p.Name != want.name || p.Wear != want.wear || p.Deflection != c.Set-want.wear || p.EndLoad != bearing.Curve.At(7*mm) {
			t.Errorf("point %d is %+v", i, p)
		}
		near(t, p.Name+" clamp", p.Clamp, clamp.Curve.At(want.wear), 1e-9)
		if p.PeakLoad < p.EndLoad || p.PeakTravel <= 0 {
			t.Errorf("%s: peak %.0f N at %.1f mm, end %.0f N", p.Name, p.PeakLoad, p.PeakTravel/mm, p.EndLoad)
		}
	}
}

// The figures are those of the package itself: they guard against change and show a clutch's usual course, nothing more.
func ExampleCover_WorkingPoints() {
	steel := spring.DiscSpring{Outer: 0.226, Inner: 0.180, Thickness: 0.0025, ConeHeight: 0.0042,
		Modulus: spring.SteelModulus, Poisson: spring.SteelPoisson}
	clutch := spring.Cover{
		Diaphragm: spring.Diaphragm{Rim: steel, PlateContact: 0.220, Fulcrum: 0.186, Fingertip: 0.056},
		Set:       0.0028, Wear: 0.0014, Cushion: 0.0007,
	}
	points, err := clutch.WorkingPoints(0.007)
	if err != nil {
		fmt.Println(err)
	}
	for _, p := range points {
		fmt.Printf("%-9s clamp %.0f N, bearing %.0f N at most\n", p.Name, p.Clamp, p.PeakLoad)
	}
	// Output:
	// new       clamp 4700 N, bearing 1142 N at most
	// half worn clamp 4909 N, bearing 1229 N at most
	// worn      clamp 4488 N, bearing 1284 N at most
}

func TestCoverRefusesImpossibleDimensions(t *testing.T) {
	for want, change := range map[string]func(*spring.Cover){
		"plate contact":  func(c *spring.Cover) { c.Diaphragm.PlateContact = 0.3 },
		"fulcrum":        func(c *spring.Cover) { c.Diaphragm.Fulcrum = 0.1 },
		"no lever":       func(c *spring.Cover) { c.Diaphragm.Fulcrum = c.Diaphragm.PlateContact },
		"fingertip":      func(c *spring.Cover) { c.Diaphragm.Fingertip = 0.2 },
		"inner diameter": func(c *spring.Cover) { c.Diaphragm.Rim.Inner = 0 },
		"wear":           func(c *spring.Cover) { c.Wear = c.Set },
		"cushion":        func(c *spring.Cover) { c.Cushion = math.NaN() },
		"inside out":     func(c *spring.Cover) { c.Diaphragm.Rim.ConeHeight = 9 * mm },
	} {
		c := cover()
		change(&c)
		if _, err := c.WorkingPoints(30 * mm); err == nil || !strings.Contains(err.Error(), want) {
			t.Errorf("error %v, want one with %q", err, want)
		}
	}
	if _, err := cover().BearingLoad(3*mm, 7*mm); err == nil || !strings.Contains(err.Error(), "wear") {
		t.Errorf("more wear than there is: %v", err)
	}
	if _, err := cover().BearingLoad(0, 0); err == nil || !strings.Contains(err.Error(), "travel") {
		t.Errorf("no travel: %v", err)
	}
}
