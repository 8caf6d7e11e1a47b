package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"layshaft/release/diagnosis"
)

const airy = `layshaft: 1
pair: two-disc/metal-master
readings:
  pedal_travel: 141 +- 1 mm
  slave_travel: 11.6 +- 0.3 mm
  slave_travel_after_pumping: 13.4 +- 0.3 mm
  box_movement: 0.8 +- 0.1 mm
  holds_pressure: yes
`

func writeReadings(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "r.yaml")
	if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

type diagnosed struct {
	Causes []struct {
		Cause       string   `json:"cause"`
		Probability float64  `json:"probability"`
		Value       *float64 `json:"value"`
		Unit        string   `json:"unit"`
	} `json:"causes"`
	NextReading *string `json:"next_reading"`
	GearboxOut  float64 `json:"gearbox_out"`
}

func TestDiagnoseGivesTheAgreedKeys(t *testing.T) {
	got := answer[diagnosed](t, "diagnose", street, "--readings", writeReadings(t, airy))
	sum, names := 0.0, []string{}
	for i, c := range got.Causes {
		sum += c.Probability
		names = append(names, c.Cause)
		if i > 0 && c.Probability > got.Causes[i-1].Probability {
			t.Errorf("%s stands behind one that is less likely", c.Cause)
		}
		if (c.Value == nil) != (c.Cause == string(diagnosis.None)) || (c.Unit == "") != (c.Value == nil) {
			t.Errorf("%s has the size %v %q", c.Cause, c.Value, c.Unit)
		}
	}
	near(t, "all probabilities", sum, 1)
	for _, c := range diagnosis.Causes {
		if !slices.Contains(names, string(c)) {
			t.Errorf("no %s in %v", c, names)
		}
	}
	// the slave falls 6 mm short and pumping wins 1.8 mm back, with a box as stiff as believed and a pedal that stays
	if got.Causes[0].Cause != "trapped-air" || !(*got.Causes[0].Value > 1 && *got.Causes[0].Value < 2.5) || got.Causes[0].Unit != "cm3" {
		t.Errorf("first %+v of %v", got.Causes[0], *got.Causes[0].Value)
	}
	if got.NextReading == nil || strings.Contains(airy, *got.NextReading+":") || got.GearboxOut > 0.1 {
		t.Errorf("next %v, gearbox out %g", got.NextReading, got.GearboxOut)
	}
}

func TestDiagnoseDoesNotMindTheOrderOfReadings(t *testing.T) {
	lines := strings.SplitAfter(airy, "\n")
	slices.Reverse(lines[3:8])
	status, out, _ := call(t, "diagnose", street, "--readings", writeReadings(t, airy), "--json")
	again, turned, _ := call(t, "diagnose", street, "--readings", writeReadings(t, strings.Join(lines, "")), "--json")
	if status != exitComputed || again != exitComputed || out != turned {
		t.Errorf("status %d and %d; in one order\n%s\nin the other\n%s", status, again, out, turned)
	}
}

func TestDiagnoseSaysInWordsWhatToReadAndWhatToMind(t *testing.T) {
	status, out, refusal := call(t, "diagnose", street, "--readings", writeReadings(t, airy))
	if status != exitComputed {
		t.Fatalf("status %d: %s", status, refusal)
	}
	for _, want := range []string{"Why two-disc with metal-master drags", "air in the line", "Inside the bellhousing, gearbox out:", "Read next: ",
		"Caution: Engine off", "Nobody is under the car", "drags: no"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
	if status, _, refusal := call(t, "diagnose", street, "--readings", writeReadings(t, airy), "--check"); status != exitNo ||
		!strings.Contains(refusal, "trapped-air") {
		t.Errorf("--check: status %d: %s", status, refusal)
	}
}

func TestDiagnoseRefusesWhatCannotBeRead(t *testing.T) {
	for _, at := range []struct{ from, to, want string }{
		{"141 +- 1 mm", "170 +- 1 mm", "r.yaml:4:17: readings.pedal_travel: 170 mm is more than the pedal has: 142 mm"},
		{"11.6 +- 0.3 mm", "116 +- 0.3 mm", "readings.slave_travel: 116 mm is more than "},
		{"two-disc/metal", "two-disc/golden", "r.yaml:2:7: pair: there is no release system \"golden-master\" in this job; write for example original/original"},
		{"readings:", "reading:", "readings: is missing"},
	} {
		status, out, refusal := call(t, "diagnose", street, "--readings", writeReadings(t, strings.Replace(airy, at.from, at.to, 1)))
		if status != exitBadInput || !strings.Contains(refusal, at.want) || out != "" {
			t.Errorf("%s: status %d: %s", at.to, status, refusal)
		}
	}
	if status, _, refusal := call(t, "diagnose", street, "--readings", "nowhere.yaml"); status != exitBadInput || !strings.Contains(refusal, "there is no such file") {
		t.Errorf("status %d: %s", status, refusal)
	}
}
