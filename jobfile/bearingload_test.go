package jobfile

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"

	"layshaft/release"
	"layshaft/spring"
	"layshaft/workshop"
)

// clutchFile is a job file whose clutch has some more lines, and whose release system a pedal.
func clutchFile(clutch, pedal string) string {
	return `layshaft: 1
car: {name: Corrie}
clutch:
  uprated:
    discs: 2
    facing: {outer: 200 mm, inner: 140 mm, friction: 0.28}
    clamp_load: 5.9 kN
    cushion: 0.7 mm
` + clutch + `release:
  metal-master:
    pedal: {` + pedal + `}
    master: {bore: 19.05 mm}
    slave: {bore: 20.64 mm}
`
}

const (
	plainPedal = "ratio: 5.8, travel: 150 mm"
	// the spring of package spring's tests, with the proportions of a 230 mm road clutch
	springLine = "    spring: {outer: 226 mm, inner: 180 mm, thickness: 2.5 mm, cone_height: 4.2 mm, plate_contact: 220 mm, fulcrum: 186 mm, fingertip: 56 mm, set: 2.8 mm, wear: 1.4 mm, finger_travel: 10 mm}\n"
)

func parsed(t *testing.T, text string, files map[string]string) (*workshop.Job, error) {
	t.Helper()
	job, _, err := Parse("car.yaml", []byte(text), func(name string) ([]byte, error) {
		data, there := files[name]
		if !there {
			return nil, errors.New("there is no such file")
		}
		return []byte(data), nil
	})
	return job, err
}

func mustParse(t *testing.T, text string, files map[string]string) *workshop.Job {
	t.Helper()
	job, err := parsed(t, text, files)
	if err != nil {
		t.Fatal(err)
	}
	return job
}

func assumed(job *workshop.Job, key string) string {
	var all []string
	for _, a := range job.Assumed {
		if a.Key == key {
			all = append(all, a.Text)
		}
	}
	return strings.Join(all, "\n")
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s is %g, want %g within %g", what, got, want, tolerance)
	}
}

func TestBearingLoadFromAMakersFewNumbers(t *testing.T) {
	job := mustParse(t, clutchFile("    lever_ratio: 3.9\n    bearing_load_from: {peak: 2350 N, at: 7 mm, release_travel: 10 mm, load_at_release: 2050 N}\n", plainPedal), nil)
	curve := job.Clutches[0].BearingLoad
	near(t, "load at rest", curve.At(0), 0, 0)
	near(t, "peak", curve.At(7e-3), 2350, 1e-9)
	near(t, "load at release", curve.At(10e-3), 2050, 1e-9)
	texts := assumed(job, "clutch.uprated.bearing_load_from")
	if !strings.Contains(texts, "smooth guess") || !strings.Contains(texts, "far from clamp load / lever ratio, 1513 N") {
		t.Errorf("assumed: %s", texts)
	}
	guessed := mustParse(t, clutchFile("    lever_ratio: 3.9\n    bearing_load_from: {release_travel: 10 mm}\n", plainPedal), nil)
	near(t, "peak by the lever law", guessed.Clutches[0].BearingLoad.At(0.7e-3*3.9), 5900/3.9, 1e-9)
}

// A bench's readings of a parabola, in N and mm, in two orders of columns and with either decimal sign.
func TestBearingLoadFromABench(t *testing.T) {
	parabola := func(mm float64) float64 { return 600*mm - 30*mm*mm }
	point, comma := "# press 3\ntime s,finger travel [mm],load (N)\n", "Load kN;Travel_mm\r\n"
	for i := range 21 {
		mm := float64(i) / 2
		point += fmt.Sprintf("%d,%.1f,%.2f\n", i, mm, parabola(mm))
		comma += strings.ReplaceAll(fmt.Sprintf("%.5f;%.1f\r\n", parabola(mm)/1000, mm), ".", ",")
	}
	for name, file := range map[string]string{"point": point, "comma": comma} {
		job := mustParse(t, clutchFile("    lever_ratio: 3.9\n    bearing_load_csv: bench.csv\n", plainPedal), map[string]string{"bench.csv": file})
		for _, mm := range []float64{0, 1.3, 5, 9.9} {
			near(t, name, job.Clutches[0].BearingLoad.At(mm*1e-3), parabola(mm), 3) // a smoothing spline is straight at its ends, the parabola is not
		}
		texts := assumed(job, "clutch.uprated.bearing_load_csv")
		if !strings.Contains(texts, "21 readings at 21 travels smoothed") || !strings.Contains(texts, "root mean square") {
			t.Errorf("%s: assumed: %s", name, texts)
		}
	}
}

func TestBearingLoadFromTheSpring(t *testing.T) {
	job := mustParse(t, clutchFile(springLine, plainPedal), nil)
	clutch := job.Clutches[0]
	cover := spring.Cover{
		Diaphragm: spring.Diaphragm{
			Rim:          spring.DiscSpring{Outer: 0.226, Inner: 0.180, Thickness: 2.5e-3, ConeHeight: 4.2e-3, Modulus: spring.SteelModulus, Poisson: spring.SteelPoisson},
			PlateContact: 0.220, Fulcrum: 0.186, Fingertip: 0.056,
		},
		Set: 2.8e-3, Wear: 1.4e-3, Cushion: 0.7e-3,
	}
	want, err := cover.BearingLoad(0, 10e-3)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range []float64{0, 2e-3, 6e-3, 10e-3} {
		near(t, "bearing load", clutch.BearingLoad.At(x), want.Curve.At(x), 1e-9)
	}
	near(t, "lever ratio", clutch.LeverRatio.Mid(), (186.-56)/(220-186), 1e-9)
	if *clutch.Spring != cover || clutch.SpringTravel != 10e-3 || len(clutch.MissingForRelease) != 0 {
		t.Errorf("clutch %+v", clutch)
	}
	texts := assumed(job, "clutch.uprated.spring")
	if !strings.Contains(texts, "lever ratio 3.82 from the spring's diameters") || !strings.Contains(texts, "Almen and Laszlo") {
		t.Errorf("assumed: %s", texts)
	}
	differs := mustParse(t, clutchFile("    lever_ratio: 4.4\n"+springLine, plainPedal), nil)
	if texts := assumed(differs, "clutch.uprated.spring"); !strings.Contains(texts, "lever ratio 3.82 from the spring's dimensions, but 4.40 is given") {
		t.Errorf("assumed: %s", texts)
	}
	near(t, "the lever ratio given", differs.Clutches[0].LeverRatio.Mid(), 4.4, 0)
}

func TestPedalFromItsGeometry(t *testing.T) {
	const linkage = "linkage: {pad: [20 mm, -280 mm], rod_end: [-5 mm, -60 mm], rod_seat: [124 mm, -45 mm], master_axis: [0.98, 0.05]}"
	job := mustParse(t, clutchFile("", linkage+", travel: 150 mm, assist: [[0 mm, -20 N], [60 mm, 25 N], [150 mm, 40 N]]"), nil)
	system := job.Releases[0]
	want := release.Linkage{Pad: release.XY{X: 0.02, Y: -0.28}, RodEnd: release.XY{X: -0.005, Y: -0.06}, Seat: release.XY{X: 0.124, Y: -0.045}, Axis: release.XY{X: 0.98, Y: 0.05}}
	if system.Linkage != want {
		t.Errorf("linkage %+v", system.Linkage)
	}
	near(t, "ratio half way", system.PedalRatio.Mid(), want.RatioAt(75e-3), 0)
	near(t, "assist", system.Assist.At(60e-3), 25, 0)
	if texts := assumed(job, "release.metal-master.pedal.linkage"); !strings.Contains(texts, "at rest") {
		t.Errorf("assumed: %s", texts)
	}
	chain, _ := workshop.Chain(&job.Clutches[0], &system)
	if chain.System.Pedal.Linkage != want || chain.System.Pedal.Assist != system.Assist {
		t.Error("the chain does not have the geometry or the spring")
	}
}

func TestWaysToGiveLoadAndPedalAreRefusedWhereTheyContradict(t *testing.T) {
	const table = "    bearing_load: [[0 mm, 0 N], [4 mm, 2100 N]]\n"
	const from = "    bearing_load_from: {peak: 2350 N, release_travel: 10 mm}\n"
	for _, c := range []struct{ clutch, pedal, want string }{
		{table + from, plainPedal, "car.yaml:10:5: clutch.uprated.bearing_load_from: the bearing load is already given by bearing_load; leave one out: it is given by one of bearing_load, bearing_load_from, bearing_load_csv, spring"},
		{springLine + "    bearing_load_csv: bench.csv\n", plainPedal, "car.yaml:9:5: clutch.uprated.spring: the bearing load is already given by bearing_load_csv; leave one out: it is given by one of bearing_load, bearing_load_from, bearing_load_csv, spring"},
		{"    bearing_load_from: {peak: 2350 N, at: 12 mm, release_travel: 10 mm}\n", plainPedal, "car.yaml:9:5: clutch.uprated.bearing_load_from: bearing load: the peak, at 0.012 m, lies past the release travel, 0.01 m"},
		{"    bearing_load_from: {peak: 2350 N}\n", plainPedal, "car.yaml:9:5: clutch.uprated.bearing_load_from.release_travel: is missing; write for example 10 mm"},
		{"    bearing_load_csv: nowhere.csv\n", plainPedal, `car.yaml:9:23: clutch.uprated.bearing_load_csv: the file "nowhere.csv" cannot be read: there is no such file`},
		{"    bearing_load_csv: bare.csv\n", plainPedal, "car.yaml:9:23: clutch.uprated.bearing_load_csv: bare.csv:1: a column with a unit of length and one with a unit of force are wanted; write for example travel mm,load N"},
		{"    bearing_load_csv: word.csv\n", plainPedal, `car.yaml:9:23: clutch.uprated.bearing_load_csv: word.csv: reading 2: "much" is not a number`},
		{"    bearing_load_csv: short.csv\n", plainPedal, "car.yaml:9:23: clutch.uprated.bearing_load_csv: short.csv: reading 1 has only 1 figures"},
		{"    bearing_load_csv: late.csv\n", plainPedal, "car.yaml:9:23: clutch.uprated.bearing_load_csv: late.csv: the first reading lies at 1 mm of travel; measure from 0 mm, where the bearing touches the fingers"},
		{"    bearing_load_csv: few.csv\n", plainPedal, "car.yaml:9:23: clutch.uprated.bearing_load_csv: bench readings: 2 different travels; 6 to 300 can be smoothed"},
		{"    bearing_load_csv: empty.csv\n", plainPedal, "car.yaml:9:23: clutch.uprated.bearing_load_csv: empty.csv: no line of column names; write for example travel mm,load N"},
		{strings.Replace(springLine, ", finger_travel: 10 mm", "", 1), plainPedal, "car.yaml:9:5: clutch.uprated.spring.finger_travel: say up to which finger travel the load is wanted, here or by finger_travel_max"},
		{strings.Replace(springLine, "wear: 1.4 mm", "wear: 3 mm", 1), plainPedal, "car.yaml:9:5: clutch.uprated.spring: cover: wear 0.003 m must lie between nought and the deflection when new, 0.0028 m; past it nothing clamps"},
		{"", "travel: 150 mm", "car.yaml:11:5: release.metal-master.pedal.ratio: neither ratio nor linkage is given; write for example ratio: 5.8"},
		{"", plainPedal + ", linkage: {pad: [0 mm, 280 mm], rod_end: [0 mm, 60 mm], rod_seat: [124 mm, 45 mm], master_axis: [1, 0]}", "car.yaml:11:20: release.metal-master.pedal.ratio: the linkage already gives the ratio; leave one of them out"},
		{"", "linkage: {pad: [0 mm, 280 mm], rod_end: [0 mm, 60 mm], rod_seat: [124 mm, 45 mm]}, travel: 150 mm", "car.yaml:11:13: release.metal-master.pedal.linkage.master_axis: is missing; write for example [1, 0]"},
	} {
		_, err := parsed(t, clutchFile(c.clutch, c.pedal), map[string]string{
			"bare.csv": "travel,load\n1,2\n", "word.csv": "travel mm,load N\n0,0\n1,much\n", "short.csv": "travel mm,load N\n1\n",
			"late.csv": "travel mm,load N\n1,1\n2,2\n3,3\n4,4\n5,5\n6,6\n7,7\n", "few.csv": "travel mm,load N\n0,0\n1,1\n", "empty.csv": "",
		})
		if err == nil || err.Error() != c.want {
			t.Errorf("got  %v\nwant %s", err, c.want)
		}
	}
}

func TestFormShowsTheWayThatTheFileTakes(t *testing.T) {
	has := func(text, key string) bool {
		for _, g := range Form([]byte(text)) {
			for _, f := range g.Fields {
				if f.Key == key {
					return true
				}
			}
		}
		return false
	}
	if has(clutchFile("", plainPedal), "clutch.uprated.spring.set") || !has(clutchFile(springLine, plainPedal), "clutch.uprated.spring.set") {
		t.Error("the spring's dimensions belong in the form where the file has them, and only there")
	}
	if !has(clutchFile("", plainPedal), "clutch.uprated.bearing_load") {
		t.Error("the table is missing from the form")
	}
}

func FuzzBenchReadings(f *testing.F) {
	f.Add([]byte("travel mm,load N\n0,0\n1,2\n"))
	f.Add([]byte("load kN;travel mm\n1,5;0,5\n"))
	f.Add([]byte("\ufeffa\tb\n\"\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		travel, load, err := benchReadings("f", data)
		if err == nil && len(travel) != len(load) {
			t.Errorf("%d travels, %d loads", len(travel), len(load))
		}
		for _, v := range append(travel, load...) {
			if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
				t.Errorf("read %v", v)
			}
		}
	})
}
