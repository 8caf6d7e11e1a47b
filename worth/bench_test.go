package worth

import "testing"

func BenchmarkInterval(b *testing.B) {
	for b.Loop() {
		Jeffreys.After(10, 7).Interval(Usual)
	}
}

func BenchmarkFit40(b *testing.B) {
	findings := simulated(Weibull{2.5, 150e6}, 40, true, 1)
	for b.Loop() {
		if _, err := FitWeibull(findings); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLikely40(b *testing.B) {
	fit := fitted(b, simulated(Weibull{2.5, 150e6}, 40, true, 1))
	for b.Loop() {
		fit.Likely(Usual).Range(b10)
	}
}
