package store

import (
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"layshaft/workshop"
)

// typed is an entry of the size that most have: a value typed at the car, with who and when.
func typed(i int) workshop.Entry {
	e := note(fmt.Sprintf("0193f2a4-7c1e-7000-8000-%012d", i))
	e.Body = []byte(`{"key":"release.metal-master.pedal.travel","from":"150 mm","to":"148 mm","note":"` + strings.Repeat("measured ", 12) + `"}`)
	return e
}

// BenchmarkAppend is one entry, on the disk when it returns.
func BenchmarkAppend(b *testing.B) {
	s := openAt(b, filepath.Join(b.TempDir(), "shop.db"))
	for i := 0; b.Loop(); i++ {
		if _, err := s.Append(b.Context(), "car/1", int64(i), typed(i)); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkReadCar reads a car of 500 entries in a shop that has 40 such cars, written in turns as in a shop.
func BenchmarkReadCar(b *testing.B) {
	s := openAt(b, filepath.Join(b.TempDir(), "shop.db"))
	const cars, length, turn = 40, 500, 25
	for last := 0; last < length; last += turn {
		for car := range cars {
			var entries []workshop.Entry
			for i := range turn {
				entries = append(entries, typed(last+i))
			}
			if _, err := s.Append(b.Context(), fmt.Sprintf("car/%d", car), int64(last), entries...); err != nil {
				b.Fatal(err)
			}
		}
	}
	for b.Loop() {
		entries, err := s.Read(b.Context(), "car/17", 0)
		if err != nil || len(entries) != length {
			b.Fatalf("%d entries, %v", len(entries), err)
		}
	}
}

// BenchmarkConflict is an append that is refused because somebody wrote ten entries in between.
func BenchmarkConflict(b *testing.B) {
	s := openAt(b, filepath.Join(b.TempDir(), "shop.db"))
	for i := range 500 {
		if _, err := s.Append(b.Context(), "car/1", int64(i), typed(i)); err != nil {
			b.Fatal(err)
		}
	}
	for b.Loop() {
		if _, err := s.Append(b.Context(), "car/1", 490, typed(9999)); err == nil {
			b.Fatal("no conflict")
		}
	}
}
