package worth_test

import (
	"fmt"

	"layshaft/worth"
)

// An invented shop: cross pins add 150 while the case is out and cost 1350 by themselves; of ten pairs looked at, seven
// were worn.
func Example() {
	pins := worth.Costs{Now: 150, Later: 1350}
	found := worth.Jeffreys.After(10, 7).Interval(worth.Usual)
	fmt.Printf("pays above 1 in %.0f\n", 1/pins.BreakEven())
	fmt.Printf("worn in 7 of 10, %.0f to %.0f %%: %s\n", 100*found.Low, 100*found.High, worth.Judge(pins.BreakEven(), found))
	// Output:
	// pays above 1 in 9
	// worn in 7 of 10, 50 to 85 %: pays
}

// Beta(1, 15) after 25 of 50 looks.
// Source: package bayesrules, docs/reference/summarize_beta_binomial.html: mean 0.3939394 (seen).
func ExampleBelief_After() {
	fmt.Printf("%.7f\n", worth.Belief{Alpha: 1, Beta: 15}.After(50, 25).Mean())
	// Output: 0.3939394
}

// Twenty units on test, ten of which still ran at 500 h.
// Source: NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1.3: shape 1.7208, mean 540.737 h (seen). It prints a
// scale of 606.5280 too; R and this package find 606.5276.
func ExampleFitWeibull() {
	var units []worth.Finding
	for _, hours := range []float64{54, 187, 216, 240, 244, 335, 361, 373, 375, 386} {
		units = append(units, worth.FailedAt(hours))
	}
	for range 10 {
		units = append(units, worth.SoundAt(500))
	}
	fit, err := worth.FitWeibull(units)
	if err != nil {
		panic(err)
	}
	fmt.Printf("shape %.4f, mean %.1f h\n", fit.Shape, fit.Mean())
	fmt.Printf("one that ran 500 h fails within 100 h more: %.0f %%\n", 100*fit.Within(100, 500))
	// Output:
	// shape 1.7208, mean 540.7 h
	// one that ran 500 h fails within 100 h more: 23 %
}

// A free look never pays less than guessing; one that costs money pays between two chances of need.
func ExampleCosts_LookPays() {
	pins := worth.Costs{Now: 300, Later: 1500}
	from, to := pins.LookPays(worth.Look{Cost: 30, Detects: 0.9, FalseAlarm: 0.1})
	fmt.Printf("leave it below %.0f %%, look between, do it unseen above %.0f %%\n", 100*from, 100*to)
	// Output: leave it below 5 %, look between, do it unseen above 62 %
}
