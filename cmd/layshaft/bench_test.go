package main

import (
	"io"
	"testing"
)

// BenchmarkWorkup is all that `layshaft workup` does but for starting the process.
func BenchmarkWorkup(b *testing.B) {
	for b.Loop() {
		if status := run([]string{"workup", street}, console{io.Discard, io.Discard}); status != exitComputed {
			b.Fatal(status)
		}
	}
}
