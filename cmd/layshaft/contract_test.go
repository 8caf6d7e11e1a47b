package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"
)

const street = "../../examples/street-saloon.yaml"

func answer[T any](t *testing.T, args ...string) T {
	t.Helper()
	status, out, refusal := call(t, append(args, "--json")...)
	if status != exitComputed {
		t.Fatalf("%v: status %d: %s", args, status, refusal)
	}
	var into T
	if err := json.Unmarshal([]byte(out), &into); err != nil {
		t.Fatalf("%v: not one JSON object: %v\n%s", args, err, out)
	}
	return into
}

// near is relative: the answers are rounded to nine places.
func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 2e-6*math.Abs(want)+1e-9) {
		t.Errorf("%s: got %.9g, want %.9g", what, got, want)
	}
}

// plainJob has a single number for every known, so that each answer can be worked out by hand below.
const plainJob = `layshaft: 1
shop: {currency: GBP, labour_rate: 78.00 GBP/h, consumables: 2.5 %, tax: {name: VAT, rate: 20 %}}
car: {name: Hand-worked car, layout: small, mass: 1300 kg}
engine: {power: 300 bhp, at: 6000 rpm, use: track}
clutch:
  uprated:
    discs: 2
    facing: {outer: 200 mm, inner: 140 mm, friction: 0.28}
    clamp_load: 9.8 kN
    lever_ratio: 3.9
    cushion: 0.35 mm
    clearance: 0.25 mm
    finger_travel_max: 11.5 mm
    bearing_load: [[0 mm, 0 N], [1 mm, 900 N], [4 mm, 2100 N], [7 mm, 2350 N], [10 mm, 2050 N], [12 mm, 1950 N]]
release:
  metal-master:
    pedal:  {ratio: 5.8, travel: 150 mm, free_play: 6 mm, efficiency: 95 %, stiffness: 1500 N/mm, rod_pitch: 1.25 mm}
    master: {bore: 19.05 mm, stroke: 33 mm, dead_stroke: 1.2 mm, efficiency: 95 %}
    line:   {length: 1.8 m, expansion: 0.10 cm3/m/MPa, fluid_volume: 30 cm3, bulk_modulus: 1.6 GPa, trapped_air: 0.2 cm3}
    slave:  {bore: 20.64 mm, fork_ratio: 1.6, fork_stiffness: 2500 N/mm, stand_off: 0.5 mm, efficiency: 92 %}
work: [clutch, hydraulics]
options: [seal]
library: [layouts/]
`

const smallLayout = `layout: small
title: A small car for working out by hand
basis: Invented.
operations:
  raise:   {off: 0.1 h, on: 0.1 h}
  jack:    {off: 0.3 h, on: 0.2 h, needs: [raise]}
  beam:    {off: 0.2 h, on: 0.2 h}
  gearbox: {off: 1.2 h, on: 1.5 h, needs: [raise], any_of: [[jack, beam]], single_use: ["gearbox bolts x2"], fluids: [gear oil]}
  pedals:  {off: 0.4 h, on: 0.6 h}
jobs:
  clutch:     {title: Clutch, work: 0.9 h, needs: [gearbox], parts: [{name: Clutch kit, price: 1120.00 GBP}]}
  hydraulics: {title: Hydraulics, work: 0.7 h, needs: [pedals, raise], parts: [{name: Master, price: 164.95 GBP}, {name: Banjo washer, price: 0.35 GBP, qty: 3}]}
  seal:       {title: Seal, work: 0.25 h, needs: [gearbox], parts: [{name: Seal, price: 18.40 GBP}]}
`

func writePlainJob(t *testing.T) string {
	t.Helper()
	folder := t.TempDir()
	if err := os.Mkdir(filepath.Join(folder, "layouts"), 0o755); err != nil {
		t.Fatal(err)
	}
	for name, text := range map[string]string{"car.yaml": plainJob, "layouts/small.yaml": smallLayout} {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return filepath.Join(folder, "car.yaml")
}

func TestHoldAnswersByTheModelsAsWritten(t *testing.T) {
	type clutch struct {
		Capacity float64 `json:"capacity_nm"`
		New      float64 `json:"capacity_uniform_pressure_nm"`
		Margin   float64 `json:"margin"`
		P05      float64 `json:"margin_p05"`
		P95      float64 `json:"margin_p95"`
		Verdict  string  `json:"verdict"`
	}
	got := answer[struct {
		Demand   float64           `json:"demand_torque_nm"`
		Clutches map[string]clutch `json:"clutches"`
	}](t, "hold", writePlainJob(t))
	demand := 300 * 745.69987158227022 / (6000 * math.Pi / 30) * 1.15
	near(t, "demand", got.Demand, demand)
	c := got.Clutches["uprated"]
	capacity := 4 * 0.28 * 9800 * (0.1 + 0.07) / 2
	near(t, "capacity", c.Capacity, capacity)
	near(t, "capacity new", c.New, 4*0.28*9800*2/3*(0.1*0.1*0.1-0.07*0.07*0.07)/(0.1*0.1-0.07*0.07))
	near(t, "margin", c.Margin, capacity/(demand*1.5))
	// only the peak ratio is a range, 1.00 .. 1.30: the margin's 5 and 95 % figures are those of its far ends
	if want := c.Margin * 1.15 / 1.285; math.Abs(c.P05-want) > 2e-3 {
		t.Errorf("margin_p05 %.4f, want about %.4f", c.P05, want)
	}
	if want := c.Margin * 1.15 / 1.015; math.Abs(c.P95-want) > 2e-3 {
		t.Errorf("margin_p95 %.4f, want about %.4f", c.P95, want)
	}
	if want := map[bool]string{true: "holds", false: "thin"}[c.P05 >= 1]; c.Verdict != want {
		t.Errorf("verdict %s, want %s", c.Verdict, want)
	}
}

// byHand is the release chain of plainJob, written out once more.
type byHand struct{ Am, As float64 }

func (h byHand) load(x float64) float64 { // the points themselves, where the curve passes through them
	return map[float64]float64{0: 0, 1e-3: 900, 4e-3: 2100, 7e-3: 2350, 10e-3: 2050}[x]
}

func (h byHand) pedal(x float64) (s, effort, pressure, stroke float64) {
	F := h.load(x)
	p := F / (1.6 * h.As * 0.92)
	Fr := p * h.Am / 0.95
	Vc := (0.10e-12*1.8+30e-6/1.6e9)*p + 0.2e-6*(1-101325/(101325+p))
	stroke = 1.2e-3 + (Vc+h.As*1.6*(x+0.5e-3+F/2.5e6))/h.Am
	return 6e-3 + 5.8*(stroke+Fr/1.5e6), Fr / (5.8 * 0.95), p, stroke
}

func TestReleaseAnswersByTheModelsAsWritten(t *testing.T) {
	type point struct {
		Pedal    float64 `json:"pedal_mm"`
		Finger   float64 `json:"finger_mm"`
		Effort   float64 `json:"effort_n"`
		Pressure float64 `json:"pressure_mpa"`
		Torque   float64 `json:"torque_nm"`
	}
	type pair struct {
		Clutch, Release string
		Finger          float64 `json:"finger_travel_at_full_pedal_mm"`
		Lift            float64 `json:"plate_lift_mm"`
		Needed          float64 `json:"lift_needed_mm"`
		Slave           float64 `json:"slave_travel_mm"`
		Bearing         float64 `json:"bearing_travel_mm"`
		BiteEnd         float64 `json:"bite_end_mm"`
		StopMin         float64 `json:"stop_min_mm"`
		StopMax         float64 `json:"stop_max_mm"`
		Stop            float64 `json:"stop_recommended_mm"`
		Frees           float64 `json:"p_frees"`
		Over            float64 `json:"p_over_travels"`
		Snap            bool    `json:"snap_through"`
		Verdict         string
		Map             []point
	}
	file := writePlainJob(t)
	got := answer[struct{ Pairs []pair }](t, "release", file, "--pair", "uprated/metal-master")
	if len(got.Pairs) != 1 {
		t.Fatalf("%d pairs", len(got.Pairs))
	}
	p := got.Pairs[0]
	h := byHand{math.Pi / 4 * 19.05e-3 * 19.05e-3, math.Pi / 4 * 20.64e-3 * 20.64e-3}
	near(t, "lift needed", p.Needed, 0.35+4*0.25)
	near(t, "plate lift", p.Lift, p.Finger/3.9)
	near(t, "bearing travel", p.Bearing, p.Finger+0.5)
	s0, _, _, _ := h.pedal(0)
	near(t, "bite end", p.BiteEnd, s0*1e3)
	if !(p.StopMin < p.Stop && p.Stop < p.StopMax) {
		t.Errorf("the stop %.2f does not lie between %.2f and %.2f", p.Stop, p.StopMin, p.StopMax)
	}
	near(t, "stop between", p.Stop, (p.StopMin+math.Min(p.StopMax, 150))/2)
	if p.Frees != 1 || p.Over != 0 && p.Over != 1 || p.Snap {
		t.Errorf("p_frees %g, p_over_travels %g, snap %v", p.Frees, p.Over, p.Snap)
	}
	for _, x := range []float64{1e-3, 4e-3, 7e-3} {
		s, effort, pressure, _ := h.pedal(x)
		m := at(p.Map[0].Pedal, s*1e3, func(i int) (float64, []float64) {
			return p.Map[i].Pedal, []float64{p.Map[i].Finger, p.Map[i].Effort, p.Map[i].Pressure}
		}, len(p.Map))
		// the map has a point each millimetre of pedal: between them a straight line is good to a few parts in a thousand
		for i, want := range []float64{x * 1e3, effort, pressure / 1e6} {
			if math.Abs(m[i]-want) > 0.01*want {
				t.Errorf("at %.2f mm of pedal, figure %d: %.4f, want %.4f", s*1e3, i, m[i], want)
			}
		}
	}
}

// at reads a table between its rows.
func at(_, x float64, row func(int) (float64, []float64), rows int) []float64 {
	for i := 1; i < rows; i++ {
		x1, b := row(i)
		if x1 < x {
			continue
		}
		x0, a := row(i - 1)
		out := make([]float64, len(a))
		for j := range a {
			out[j] = a[j] + (b[j]-a[j])*(x-x0)/(x1-x0)
		}
		return out
	}
	return nil
}

func TestStripAnswersAsCountedByHand(t *testing.T) {
	type hours struct {
		Adds  float64 `json:"adds_h"`
		Alone float64 `json:"alone_h"`
	}
	got := answer[struct {
		Together  float64 `json:"together_h"`
		Apart     float64 `json:"apart_h"`
		Saved     float64 `json:"saved_h"`
		Jobs      map[string]hours
		Off, On   []string
		SingleUse []string `json:"single_use"`
		Fluids    []string
		Proven    bool
	}](t, "strip", writePlainJob(t))
	// raise 0.2 + beam 0.4 (jack would be 0.5) + gearbox 2.7 + pedals 1.0, work 0.9 + 0.7
	near(t, "together", got.Together, 5.9)
	near(t, "clutch alone", got.Jobs["clutch"].Alone, 0.2+0.4+2.7+0.9)
	near(t, "hydraulics alone", got.Jobs["hydraulics"].Alone, 0.2+1.0+0.7)
	near(t, "apart", got.Apart, 4.2+1.9)
	near(t, "saved", got.Saved, 0.2)
	near(t, "clutch adds", got.Jobs["clutch"].Adds, 5.9-1.9)
	near(t, "hydraulics adds", got.Jobs["hydraulics"].Adds, 5.9-4.2)
	if len(got.Off) != 4 || len(got.On) != 4 || !got.Proven {
		t.Errorf("off %v, on %v, proven %v", got.Off, got.On, got.Proven)
	}
	if len(got.SingleUse) != 1 || got.SingleUse[0] != "gearbox bolts x2" || len(got.Fluids) != 1 || got.Fluids[0] != "gear oil" {
		t.Errorf("single use %v, fluids %v", got.SingleUse, got.Fluids)
	}
}

func TestPriceAnswersToThePenny(t *testing.T) {
	got := answer[struct {
		Lines           []struct{ Kind, Name, Net string }
		Net, Tax, Gross string
		Options         map[string]struct{ Gross string }
	}](t, "price", writePlainJob(t))
	// labour 5.9 h x 78 = 460.20; consumables 2.5 % = 11.505 -> 11.51; parts 1120.00 + 164.95 + 1.05
	for i, want := range []string{"460.20", "11.51", "1120.00", "164.95", "1.05"} {
		if i >= len(got.Lines) || got.Lines[i].Net != want {
			t.Errorf("line %d of %+v: want %s", i, got.Lines, want)
		}
	}
	if got.Net != "1757.71" || got.Tax != "351.54" || got.Gross != "2109.25" {
		t.Errorf("net %s, tax %s, gross %s", got.Net, got.Tax, got.Gross)
	}
	// with the seal: labour 6.15 h = 479.70, consumables 11.99, parts + 18.40: net 1796.09, tax 359.22, gross 2155.31
	if got.Options["seal"].Gross != "46.06" {
		t.Errorf("the seal adds %s", got.Options["seal"].Gross)
	}
}

func TestWorkupHoldsAllFour(t *testing.T) {
	got := answer[map[string]json.RawMessage](t, "workup", writePlainJob(t))
	for _, part := range []string{"hold", "release", "strip", "price"} {
		if len(got[part]) < 10 {
			t.Errorf("no %s in the work-up", part)
		}
	}
}

func TestCheckExitsOneOnlyWhereTheAnswerIsNo(t *testing.T) {
	for _, c := range []struct {
		args []string
		want int
	}{
		{[]string{"release", street, "--pair", "two-disc/original", "--check"}, exitNo},
		{[]string{"release", street, "--pair", "two-disc/original"}, exitComputed},
		{[]string{"release", street, "--check"}, exitComputed},
		{[]string{"hold", "../../examples/hill-hatch.yaml", "--check"}, exitNo},
		{[]string{"workup", street, "--check"}, exitComputed},
	} {
		if status, _, refusal := call(t, c.args...); status != c.want {
			t.Errorf("%v: status %d, want %d (%s)", c.args, status, c.want, refusal)
		}
	}
}

func TestSameSeedSameAnswer(t *testing.T) {
	_, one, _ := call(t, "workup", street, "--json", "--seed", "7")
	_, two, _ := call(t, "workup", street, "--json", "--seed", "7")
	if one != two {
		t.Error("two runs with one seed differ")
	}
}
