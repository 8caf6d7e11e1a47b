package library

import (
	"slices"
	"testing"
)

func TestBoresGoByTheNameTheyAreSoldUnder(t *testing.T) {
	r, err := OpenReference()
	if err != nil {
		t.Fatal(err)
	}
	for bore, want := range map[float64]string{19.05e-3: "3/4 in", 15.87e-3: "5/8 in", 15.9e-3: "15.90 mm", 17.78e-3: "0.700 in", 18e-3: "18 mm"} {
		if got := r.BoreName(bore); got != want {
			t.Errorf("%g m is called %s, want %s", bore, got, want)
		}
	}
	sizes := r.BoreSizes()
	if len(sizes) != len(r.Bores) || !slices.IsSorted(sizes) {
		t.Errorf("sizes %v", sizes)
	}
	for _, size := range sizes { // each name finds its own size again, not a neighbour's
		i := slices.Index(sizes, size)
		if r.BoreName(size) != r.Bores[i].Name {
			t.Errorf("%s is called %s", r.Bores[i].Name, r.BoreName(size))
		}
	}
}
