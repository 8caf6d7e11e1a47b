package library

import (
	"math"
	"strings"
	"testing"

	"layshaft/driveline"
	"layshaft/quantity"
	"layshaft/uncertain"
)

func reference(t *testing.T) *Reference {
	t.Helper()
	r, err := OpenReference()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// FMVSS 116 S5.1.1 and S5.1.2, minimum dry and wet equilibrium reflux boiling points, as quoted on a fluid seller's
// page (seen; the standard itself was not).
func TestBrakeFluidsBoilWhereTheStandardSays(t *testing.T) {
	for class, want := range map[string][2]float64{"dot-3": {205, 140}, "dot-4": {230, 155}, "dot-5": {260, 180}, "dot-5.1": {260, 180}} {
		fluid, ok := reference(t).Fluids.Get(class)
		if !ok || fluid.DryBoiling == nil || fluid.WetBoiling == nil {
			t.Errorf("%s has no boiling points", class)
			continue
		}
		if dry, wet := quantity.To(*fluid.DryBoiling, "degC"), quantity.To(*fluid.WetBoiling, "degC"); math.Abs(dry-want[0]) > 1e-9 || math.Abs(wet-want[1]) > 1e-9 {
			t.Errorf("%s boils at %v dry and %v wet, expected %v", class, dry, wet, want)
		}
	}
}

// The inch is 25.4 mm exactly (international yard, 1959); areas in mm² computed by hand to one decimal.
func TestBoresAreTheirInches(t *testing.T) {
	for name, want := range map[string]struct{ mm, mm2 float64 }{
		"1/2 in": {12.7, 126.7}, "9/16 in": {14.2875, 160.3}, "5/8 in": {15.875, 197.9}, "11/16 in": {17.4625, 239.5},
		"0.700 in": {17.78, 248.3}, "3/4 in": {19.05, 285.0}, "13/16 in": {20.6375, 334.5}, "7/8 in": {22.225, 387.9},
		"15/16 in": {23.8125, 445.3}, "1 in": {25.4, 506.7}, "1 1/8 in": {28.575, 641.3},
	} {
		bore, ok := reference(t).Bores.Get(name)
		if !ok || math.Abs(bore.Bore*1e3-want.mm) > 1e-9 || math.Abs(bore.Area()*1e6-want.mm2) > 0.05 {
			t.Errorf("%s: %v mm, %v mm2, expected %+v", name, bore.Bore*1e3, bore.Area()*1e6, want)
		}
	}
}

func TestABoreIsAsLongAsItsNameSays(t *testing.T) {
	for _, bore := range reference(t).Bores {
		named, err := quantity.Parse(bore.Name, quantity.Length)
		if err != nil || named != bore.Value.Bore {
			t.Errorf("%s measures %v m, %v", bore.Name, bore.Value.Bore, err)
		}
		if imperial := strings.HasSuffix(bore.Name, " in"); imperial != (bore.Value.Series == "imperial") {
			t.Errorf("%s is in the %s series", bore.Name, bore.Value.Series)
		}
	}
}

// One figure is not kept in two minds: the tables and the formulas' own defaults agree.
func TestTheTablesAgreeWithTheFormulasDefaults(t *testing.T) {
	r := reference(t)
	for use, want := range map[string]float64{"road": driveline.RoadFactor, "track": driveline.TrackFactor, "drag": driveline.DragFactor} {
		if f, ok := r.ServiceFactors.Get(use); !ok || f.Factor != want {
			t.Errorf("%s: %v, expected %v", use, f.Factor, want)
		}
	}
	for name, want := range map[string]uncertain.Value{
		"driveline-front": driveline.WheelLoss(driveline.FrontWheels),
		"driveline-rear":  driveline.WheelLoss(driveline.RearWheels),
		"driveline-four":  driveline.WheelLoss(driveline.FourWheels),
	} {
		if l, ok := r.Losses.Get(name); !ok || l.Loss != want {
			t.Errorf("%s: %v, expected %v", name, l.Loss, want)
		}
	}
}

func TestEveryFigureHasARangeAndASource(t *testing.T) {
	r := reference(t)
	for _, facing := range r.Facings {
		for what, v := range map[string]uncertain.Value{"friction": facing.Value.Friction, "hot friction": facing.Value.HotFriction, "serves to": facing.Value.ServesTo} {
			if v.Kind() != uncertain.UniformKind {
				t.Errorf("%s: %s is a single figure", facing.Name, what)
			}
		}
		if facing.Value.AcceptedBy != "" {
			t.Errorf("%s: nobody can have accepted a generic figure beforehand", facing.Name)
		}
	}
	organic, _ := r.Facings.Get("organic")
	sintered, _ := r.Facings.Get("sintered")
	if organic.HotFriction.Mid() >= organic.Friction.Mid() || sintered.HotFriction.Mid() <= sintered.Friction.Mid() {
		t.Error("organic facings fade hot and sintered ones gain")
	}
}

func TestFluidsThatMustNotMeetSaySoOnBothSides(t *testing.T) {
	r := reference(t)
	for _, class := range r.Fluids {
		for _, name := range class.Value.NeverWith {
			if other, _ := r.Fluids.Get(name); !contains(other.NeverWith, class.Name) {
				t.Errorf("%s must not meet %s, but %s does not say so", class.Name, name, name)
			}
		}
		for _, name := range class.Value.MixesWith {
			if other, _ := r.Fluids.Get(name); !contains(other.MixesWith, class.Name) {
				t.Errorf("%s mixes with %s, but %s does not say so", class.Name, name, name)
			}
		}
	}
}

func contains(names []string, name string) bool {
	return strings.Contains(" "+strings.Join(names, " ")+" ", " "+name+" ")
}

func TestAShopsTableStandsInForTheBuiltIn(t *testing.T) {
	own := files(map[string]string{"reference/service-factors.yaml": "road: {title: Road, factor: 1.3, range: 1.2 .. 1.4, source: own cars, accepted_by: the foreman}\n"})
	r, err := OpenReference(own)
	if err != nil {
		t.Fatal(err)
	}
	road, _ := r.ServiceFactors.Get("road")
	if len(r.ServiceFactors) != 1 || road.Factor != 1.3 || road.AcceptedBy != "the foreman" || len(r.Bores) == 0 {
		t.Errorf("got %+v", r.ServiceFactors)
	}
}

func TestBadTablesAreRefused(t *testing.T) {
	for table, c := range map[string]struct{ text, want string }{
		"service-factors": {"road: {title: Road, factor: 1.6, range: 1.2 .. 1.4, source: x}\n",
			"own/reference/service-factors.yaml:1:29: road.factor: 1.6 lies outside its own range 1.2 .. 1.4"},
		"facings": {"organic: {title: Organic, friction: 0.27, hot_friction: 0.2, serves_to: 200 degC}\n",
			"own/reference/facings.yaml:1:1: organic.source: is missing; write for example common practice, no source"},
		"losses": {"four: {title: Four, loss: 20 .. 120 %, source: x}\n",
			`own/reference/losses.yaml:1:27: four.loss: "20 .. 120 %" must be less than 100 %; write for example 12 .. 18 %`},
		"bores": {"3/4 in: {bore: 3/4 in, series: imperial, source: x}\n5/8 in: {bore: 5/8 in, series: whitworth, source: x}\n",
			"own/reference/bores.yaml:2:16: 5/8 in.bore: does not lie above the bore before it, 3/4 in; put the sizes in rising order\n" +
				`own/reference/bores.yaml:2:32: 5/8 in.series: "whitworth" is neither imperial nor metric`},
		"fluids": {"dot-4: {title: DOT 4, source: x, never_with: [dot-5]}\n",
			`own/reference/fluids.yaml:1:47: dot-4.never_with[0]: "dot-5" is not a class of this table; it has dot-4`},
	} {
		_, err := OpenReference(files(map[string]string{"reference/" + table + ".yaml": c.text}))
		if err == nil || err.Error() != c.want {
			t.Errorf("%s\ngot  %v\nwant %s", table, err, c.want)
		}
	}
}
