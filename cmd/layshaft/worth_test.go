package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

const plainFindings = `basis: Invented for this test
jobs:
  seal: {looked: 10, found: 7}
`

// plainJobWithFindings is the hand-worked car with a findings file beside its layout.
func plainJobWithFindings(t *testing.T, findings string) string {
	t.Helper()
	car := writePlainJob(t)
	if err := os.WriteFile(filepath.Join(filepath.Dir(car), "layouts", "findings.yaml"), []byte(findings), 0o644); err != nil {
		t.Fatal(err)
	}
	return car
}

type worthKeys struct {
	Horizon float64 `json:"horizon_km"`
	Jobs    map[string]struct {
		Adds      string  `json:"adds_gross"`
		Later     string  `json:"later_gross"`
		BreakEven float64 `json:"break_even"`
		Verdict   string  `json:"verdict"`
	} `json:"jobs"`
}

// By hand. The seal adds 0.25 h to the 5.9 h of clutch and hydraulics: labour 19.50, consumables 11.99 after 11.51,
// part 18.40; gross 2155.31 after 2109.25. By itself it takes 3.55 h: 276.90, 6.92 and 18.40, gross 362.66.
func TestWorthSetsNowAgainstLater(t *testing.T) {
	car := plainJobWithFindings(t, plainFindings)
	got := answer[worthKeys](t, "worth", car)
	seal := got.Jobs["seal"]
	if got.Horizon != 40000 || seal.Adds != "46.06" || seal.Later != "362.66" || seal.Verdict != "pays" {
		t.Errorf("%+v", got)
	}
	near(t, "break-even", seal.BreakEven, 46.06/362.66)
	price := answer[struct {
		Options map[string]struct{ Gross string }
	}](t, "price", car)
	if price.Options["seal"].Gross != seal.Adds {
		t.Errorf("the price says %s", price.Options["seal"].Gross)
	}
	whole := answer[struct{ Worth worthKeys }](t, "workup", car)
	if whole.Worth.Jobs["seal"] != seal {
		t.Errorf("workup says %+v", whole.Worth)
	}
}

func TestWorthInWords(t *testing.T) {
	car := plainJobWithFindings(t, plainFindings)
	want := "Seal: It pays to do it now if the chance that it is needed within 40,000 km is above 1 in 8; this shop found it worn in 7 of 10 (80 % range 4 to 9 of 10): it pays.\n"
	for _, command := range []string{"worth", "workup"} {
		if status, out, refusal := call(t, command, car); status != exitComputed || !strings.Contains(out, want) {
			t.Errorf("%s: status %d: %s\n%s", command, status, refusal, out)
		}
	}
	if _, out, _ := call(t, "worth", writePlainJob(t)); !strings.Contains(out, "this shop has no records of it yet.\n") || !strings.Contains(out, "worth.horizon: asked whether it is needed within 40,000 km: common practice, no source") {
		t.Errorf("without records:\n%s", out)
	}
}

func TestWorthRefusesWhatItCannotRead(t *testing.T) {
	car := plainJobWithFindings(t, strings.Replace(plainFindings, "seal:", "saal:", 1))
	status, _, refusal := call(t, "worth", car)
	if status != exitBadInput || !strings.Contains(refusal, `findings.yaml:3:3: jobs.saal: no layout has a job called "saal"; did you mean "seal"?`) {
		t.Errorf("status %d: %s", status, refusal)
	}
	car = writePlainJob(t)
	text, err := os.ReadFile(car)
	if err != nil {
		t.Fatal(err)
	}
	shopless := filepath.Join(filepath.Dir(car), "shopless.yaml")
	_, rest, _ := strings.Cut(string(text), "\ncar:")
	if err := os.WriteFile(shopless, []byte("layshaft: 1\ncar:"+rest), 0o644); err != nil {
		t.Fatal(err)
	}
	if status, _, refusal := call(t, "worth", shopless); status != exitBadInput || !strings.Contains(refusal, "without the shop's terms") {
		t.Errorf("status %d: %s", status, refusal)
	}
}
