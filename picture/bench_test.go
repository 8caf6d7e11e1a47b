package picture

import "testing"

func BenchmarkLoadPath(b *testing.B) {
	l := sampleLoadPath(LongitudinalRear, 2, false)
	for b.Loop() {
		l.Scene(Wide).Inline()
	}
}

func BenchmarkPedalMap(b *testing.B) {
	m := samplePedalMap(true)
	for b.Loop() {
		m.Scene(Wide).Inline()
	}
}
