package workshop_test

import (
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"math"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"layshaft/examples"
	"layshaft/jobfile"
	"layshaft/library"
	"layshaft/workshop"
	"layshaft/worth"
)

// smallCar has figures that can be worked out by hand.
const smallCar = `layshaft: 1
shop: {currency: GBP, labour_rate: 78.00 GBP/h, consumables: 2.5 %, tax: {name: VAT, rate: 20 %}}
car: {name: Hand-worked car, layout: small, odometer: 130000 km}
work: [clutch]
options: [seal, pins]
`

const smallLayout = `layout: small
basis: Invented.
operations:
  raise:   {off: 0.1 h, on: 0.1 h}
  beam:    {off: 0.2 h, on: 0.2 h}
  gearbox: {off: 1.2 h, on: 1.5 h, needs: [raise, beam]}
  case:    {off: 0.5 h, on: 0.5 h, needs: [gearbox]}
  drain:   {off: 0.2 h, on: 0.2 h, needs: [raise]}
jobs:
  clutch: {title: Clutch, work: 0.9 h, needs: [gearbox], parts: [{name: Kit, price: 1120.00 GBP}]}
  seal:   {title: Seal, work: 0.25 h, needs: [gearbox], parts: [{name: Seal, price: 18.40 GBP}]}
  pins:   {title: Pins, work: 1.0 h, needs: [case], parts: [{name: Pins, price: 285.00 GBP}], insist: [{job: oil, when: always}]}
  oil:    {title: Oil, work: 0.05 h, needs: [drain], parts: [{name: Oil, price: 60.00 GBP}]}
  look:   {title: Look at the pins, work: 0.3 h, needs: [gearbox]}
`

// worthOf works a car up and weighs its further jobs, by the shop's layout and findings.
func worthOf(t *testing.T, car, layout, findings string, chosen ...string) *workshop.WorthAnswer {
	t.Helper()
	folder := fstest.MapFS{"small.yaml": {Data: []byte(layout)}}
	if findings != "" {
		folder["findings.yaml"] = &fstest.MapFile{Data: []byte("basis: Invented for this test\nhorizon: 40000 km\njobs:\n" + findings)}
	}
	lib, err := library.Open(library.Folder{Name: "own", Files: folder})
	if err != nil {
		t.Fatal(err)
	}
	job, _, err := jobfile.Parse("car.yaml", []byte(car), nil)
	if err != nil {
		t.Fatal(err)
	}
	l, err := workshop.LayoutFor(job, lib)
	if err != nil {
		t.Fatal(err)
	}
	w, err := workshop.WorkUp(context.Background(), job, l, chosen, workshop.Quick)
	if err != nil {
		t.Fatal(err)
	}
	answer, err := workshop.Worth(context.Background(), job, l, w, chosen, lib.Findings())
	if err != nil {
		t.Fatal(err)
	}
	return answer
}

func close(t *testing.T, what string, got workshop.Figure, want float64) {
	t.Helper()
	if math.Abs(float64(got)-want) > 1e-9*(1+math.Abs(want)) {
		t.Errorf("%s: got %v, want %v", what, got, want)
	}
}

// By hand, at 78.00 an hour, 2.5 % of the labour for consumables and 20 % tax, each line rounded:
//
//	clutch                4.20 h  327.60 +  8.19 + 1120.00 = 1455.79, tax 291.16, gross 1746.95
//	clutch, seal          4.45 h  347.10 +  8.68 + 1138.40 = 1494.18, tax 298.84, gross 1793.02
//	seal                  3.55 h  276.90 +  6.92 +   18.40 =  302.22, tax  60.44, gross  362.66
//	clutch, pins, oil     6.65 h  518.70 + 12.97 + 1465.00 = 1996.67, tax 399.33, gross 2396.00
//	pins, oil             5.75 h  448.50 + 11.21 +  345.00 =  804.71, tax 160.94, gross  965.65
//	clutch, look          4.50 h  351.00 +  8.78 + 1120.00 = 1479.78, tax 295.96, gross 1775.74
func TestCostsNowAndLaterByHand(t *testing.T) {
	a := worthOf(t, smallCar, smallLayout, "")
	seal, pins := a.Jobs["seal"], a.Jobs["pins"]
	if seal.Adds != "46.07" || seal.Later != "362.66" || len(seal.With) != 0 {
		t.Errorf("seal: %+v", seal)
	}
	close(t, "seal", seal.BreakEven, 46.07/362.66)
	if pins.Adds != "649.05" || pins.Later != "965.65" || !slices.Equal(pins.With, []string{"oil"}) {
		t.Errorf("pins: %+v", pins)
	}
	close(t, "pins", pins.BreakEven, 649.05/965.65)
	if want := "It pays to do it now if the chance that it is needed within 40,000 km is above 1 in 8; this shop has no records of it yet."; seal.Words != want {
		t.Errorf("got  %s\nwant %s", seal.Words, want)
	}
	if seal.Verdict != worth.NoRecords || seal.Rate != nil || seal.Chance != nil || seal.Expected != nil || a.Records != "no records yet" {
		t.Errorf("without records: %+v", seal)
	}
	if !slices.Equal(a.Order(), []string{"seal", "pins"}) || len(a.Assumptions) != 2 {
		t.Errorf("order %v, assumed %v", a.Order(), a.Assumptions)
	}
}

// What the wanted work brings anyhow is not counted to a further job now; later it is paid again.
func TestWhatTheWorkBringsAnyhowIsFreeNowAndPaidAgainLater(t *testing.T) {
	layout := strings.Replace(smallLayout, "price: 1120.00 GBP}]}", "price: 1120.00 GBP}], insist: [{job: oil, when: always}]}", 1)
	pins := worthOf(t, smallCar, layout, "").Jobs["pins"]
	// clutch, pins: 6.20 h, 483.60 + 12.09 + 1405.00 = 1900.69, tax 380.14, gross 2280.83
	if pins.Adds != "533.88" || pins.Later != "965.65" || len(pins.With) != 0 {
		t.Errorf("%+v", pins)
	}
}

func TestChosenOptionsAreWeighedAsIfTheyWereNot(t *testing.T) {
	seal, chosen := worthOf(t, smallCar, smallLayout, "").Jobs["seal"], worthOf(t, smallCar, smallLayout, "", "seal").Jobs["seal"]
	if seal.Adds != chosen.Adds || seal.BreakEven != chosen.BreakEven {
		t.Errorf("%+v, chosen %+v", seal, chosen)
	}
}

func TestRecordsDecideOnlyWhenTheyAreEnough(t *testing.T) {
	for _, c := range []struct {
		looked, found int
		verdict       worth.Verdict
		words         string
	}{
		{10, 7, worth.Pays, "is above 1 in 8; this shop found it worn in 7 of 10 (80 % range 4 to 9 of 10): it pays."},
		{10, 1, worth.TooFew, "is above 1 in 8; this shop found it worn in 1 of 10 (80 % range 0 to 3 of 10): these are too few to tell."},
		{40, 1, worth.DoesNotPay, "is above 1 in 8; this shop found it worn in 1 of 40 (80 % range 0 to 8 of 100): on average it does not pay."},
	} {
		seal := worthOf(t, smallCar, smallLayout, fmt.Sprintf("  seal: {looked: %d, found: %d}\n", c.looked, c.found)).Jobs["seal"]
		if seal.Verdict != c.verdict || !strings.HasSuffix(seal.Words, c.words) {
			t.Errorf("%d of %d: %s: %s", c.found, c.looked, seal.Verdict, seal.Words)
		}
		mean := (float64(c.found) + 0.5) / (float64(c.looked) + 1)
		close(t, "expected now", seal.Expected.Now, 46.07)
		close(t, "expected, left", seal.Expected.Leave, math.Round(mean*362.66*100)/100)
	}
}

func TestALookIsWeighedByTheJobItIsFor(t *testing.T) {
	const findings = "  pins: {collateral: 100 %, look: {job: look, detects: 90 %, false_alarm: 10 %}, looked: 10, found: 7}\n"
	a := worthOf(t, strings.Replace(smallCar, "pins]", "pins, look]", 1), smallLayout, findings)
	const now, needed, look = 649.05, 2 * 965.65, 28.79
	from := (look + 0.1*now) / (0.9*(needed-now) + 0.1*now)
	to := (0.9*now - look) / (0.1*needed + 0.8*now)
	pins, first := a.Jobs["pins"], a.Jobs["look"]
	close(t, "pins", pins.BreakEven, now/needed)
	close(t, "look", first.BreakEven, from)
	if first.LooksAt != "pins" || first.Adds != "28.79" || first.Later != "965.65" || pins.LooksAt != "" || pins.Look.Job != "look" {
		t.Errorf("%+v", first)
	}
	close(t, "from", pins.Look.From, from)
	close(t, "to", first.Look.To, to)
	const chance = 7.5 / 11
	close(t, "expected", *pins.Expected.LookFirst, math.Round((look+(0.9*chance+0.1*(1-chance))*now+0.1*chance*needed)*100)/100)
	want := `It pays to look if the chance that "Pins" is needed within 40,000 km is above 1 in 13 (above 78 in 100, to do it unseen); this shop found it worn in 7 of 10 (80 % range 4 to 9 of 10): it pays.`
	if first.Verdict != worth.Pays || first.Words != want {
		t.Errorf("got  %s\nwant %s", first.Words, want)
	}
}

func TestALookThatCostsMoreThanItCanSaveSaysSo(t *testing.T) {
	layout := strings.Replace(smallLayout, "work: 0.3 h", "work: 9 h", 1)
	first := worthOf(t, strings.Replace(smallCar, "pins]", "look]", 1), layout, "  pins: {look: {job: look, detects: 90 %}, looked: 10, found: 7}\n").Jobs["look"]
	if first.Verdict != worth.DoesNotPay || first.Words != "Looking costs more than it can save: do the job unseen or leave it." {
		t.Errorf("%+v", first)
	}
}

// someLooks are invented: worn ever more often the farther the car went.
const someLooks = `  seal:
    looks:
      - {odometer: 80000 km, found: no}
      - {odometer: 95000 km, found: no}
      - {odometer: 110000 km, found: yes}
      - {odometer: 120000 km, found: no}
      - {odometer: 140000 km, found: yes, since: 90000 km}
      - {odometer: 150000 km, found: no, fitted: 70000 km}
      - {odometer: 160000 km, found: yes}
      - {odometer: 165000 km, found: no}
      - {odometer: 180000 km, found: yes}
      - {odometer: 190000 km, found: yes, failed: yes}
`

func TestDistancesTellHowItStandsWithThisCar(t *testing.T) {
	seal := worthOf(t, smallCar, smallLayout, someLooks).Jobs["seal"]
	fit, err := worth.FitWeibull([]worth.Finding{
		worth.SoundAt(80), worth.SoundAt(95), worth.WornBy(110), worth.SoundAt(120), worth.WornBetween(90, 140),
		worth.SoundAt(80), worth.WornBy(160), worth.SoundAt(165), worth.WornBy(180), worth.FailedAt(190),
	})
	if err != nil {
		t.Fatal(err)
	}
	about := func(what string, got workshop.Figure, want float64) {
		t.Helper()
		if math.Abs(float64(got)/want-1) > 1e-6 { // thousands of kilometres here, metres there
			t.Errorf("%s: got %v, want %v", what, got, want)
		}
	}
	about("shape", seal.Life.Shape, fit.Shape)
	about("B10", seal.Life.B10, 1e3*fit.Life(0.1))
	about("chance by 170,000 km", seal.Chance.Best, fit.Chance(170))
	about("if sound at 130,000 km", seal.Life.IfSound, fit.Within(40, 130))
	about("high", seal.Chance.High, fit.Likely(worth.Usual).Range(func(w worth.Weibull) float64 { return w.Chance(170) }).High)
	if seal.Chance.From != workshop.FromLife || seal.Rate.Found != 5 || seal.NoLife != "" || seal.Verdict != worth.Pays {
		t.Errorf("%+v", seal)
	}
	if !strings.Contains(seal.Words, "worn in 5 of 10, and by the distances it is worn by 170,000 km in ") {
		t.Error(seal.Words)
	}
}

func TestWithoutOdometerTheRateDecides(t *testing.T) {
	seal := worthOf(t, strings.Replace(smallCar, ", odometer: 130000 km", "", 1), smallLayout, someLooks).Jobs["seal"]
	if seal.Life == nil || seal.Life.IfSound.Known() || seal.Chance.From != workshop.FromRate || !strings.Contains(seal.NoLife, "odometer is not given") {
		t.Errorf("%+v", seal)
	}
}

func TestTooFewDistancesAreSaid(t *testing.T) {
	few := strings.Join(strings.SplitAfter(someLooks, "\n")[:6], "")
	seal := worthOf(t, smallCar, smallLayout, few).Jobs["seal"]
	if seal.Life != nil || seal.Chance.From != workshop.FromRate || seal.NoLife != "found worn 1 times with the distance known, and a life takes 5" {
		t.Errorf("%+v", seal)
	}
}

func TestWithoutPriceThereIsNoAnswer(t *testing.T) {
	_, car, _ := strings.Cut(smallCar, "car:")
	if a := worthOf(t, "layshaft: 1\ncar:"+car, smallLayout, ""); a != nil {
		t.Errorf("%+v", a)
	}
}

// For every invented car: an option adds here what the price says it adds; what is insisted on or in the work is no
// matter of choice; and without records nothing is claimed.
func TestEveryExampleAgreesWithItsPrice(t *testing.T) {
	names, err := fs.Glob(examples.Files, "*.yaml")
	if err != nil || len(names) < 8 {
		t.Fatal(names, err)
	}
	weighed := 0
	for _, name := range names {
		text, err := fs.ReadFile(examples.Files, name)
		if err != nil {
			t.Fatal(err)
		}
		job, _, err := jobfile.Parse(name, text, func(file string) ([]byte, error) { return fs.ReadFile(examples.Files, file) })
		if err != nil {
			t.Fatal(err)
		}
		layout, err := workshop.LayoutFor(job, library.Builtin())
		if err != nil {
			t.Fatal(err)
		}
		w, err := workshop.WorkUp(context.Background(), job, layout, nil, workshop.Quick)
		if err != nil {
			t.Fatal(err)
		}
		a, err := workshop.Worth(context.Background(), job, layout, w, nil, nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, advice := range w.Advice {
			if _, there := a.Jobs[advice.Job]; there && (advice.In || advice.Weight == workshop.Insisted) {
				t.Errorf("%s: %s is %s and yet weighed", name, advice.Job, advice.Weight)
			}
		}
		for of, now := range a.Jobs {
			weighed++
			option, offered := w.Price.Options[of]
			if offered && len(now.With) == 0 && option.Gross != now.Adds {
				t.Errorf("%s: %s adds %s to the price and %s here", name, of, option.Gross, now.Adds)
			}
			if now.Rate != nil || now.Verdict == worth.TooFew || !(now.BreakEven > 0) {
				t.Errorf("%s: %s without records: %+v", name, of, now)
			}
		}
	}
	if weighed < 30 {
		t.Errorf("only %d jobs weighed", weighed)
	}
}

func TestAnswerIsOneJSONObject(t *testing.T) {
	text, err := json.Marshal(worthOf(t, smallCar, smallLayout, someLooks))
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range []string{`"horizon_km":40000`, `"level":0.8`, `"records":"Invented for this test"`, `"adds_gross":"46.07"`, `"break_even":0.127033585`, `"verdict":"pays"`, `"b10_km":`, `"words":"It pays`} {
		if !strings.Contains(string(text), key) {
			t.Errorf("no %s in %s", key, text)
		}
	}
}

func BenchmarkWorth(b *testing.B) {
	text, err := fs.ReadFile(examples.Files, "street-saloon.yaml")
	if err != nil {
		b.Fatal(err)
	}
	job, _, err := jobfile.Parse("street-saloon.yaml", text, nil)
	if err != nil {
		b.Fatal(err)
	}
	layout, err := workshop.LayoutFor(job, library.Builtin())
	if err != nil {
		b.Fatal(err)
	}
	w, err := workshop.WorkUp(context.Background(), job, layout, nil, workshop.Quick)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := workshop.Worth(context.Background(), job, layout, w, nil, nil); err != nil {
			b.Fatal(err)
		}
	}
}
