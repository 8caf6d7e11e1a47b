package yamlfile

import (
	"errors"
	"strings"
	"testing"
)

func FuzzDecode(f *testing.F) {
	for _, seed := range []string{
		good, "", "a: &x 1\nb: *x", "- [a, {b: c}]", "? a\n: b", "a: |\n  x\n", "a: \"\\x00\"", "<<: {a: b}", "%YAML 1.2\n---\na",
		"layshaft: 1\nclutch: {a: {discs: 1, clamp_load: 9.8, bearing_load: [[1 mm], [2, 3], 4]}}", "{a: 0,5 mm}", "\ta: b", "a:\n- b\n- c: d\n",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, err := Parse("f", data)
		if err == nil {
			var c car
			err = doc.Decode(&c)
			if !doc.Has("") {
				t.Fatal("a file without a root")
			}
		}
		if err == nil {
			return
		}
		var all Problems
		if !errors.As(err, &all) || len(all) == 0 || len(all) > maxProblems {
			t.Fatalf("no problems in %#v", err)
		}
		lines := strings.Count(string(data), "\n") + strings.Count(string(data), "\r") + 1
		for _, p := range all {
			if p.Line < 1 || p.Line > lines || p.Column < 1 || p.Message == "" || strings.ContainsAny(p.Message, "\n\r\x00") {
				t.Fatalf("a poor problem: %#v", p)
			}
		}
	})
}

func BenchmarkDecode(b *testing.B) {
	for b.Loop() {
		doc, err := Parse("car.yaml", []byte(good))
		if err != nil {
			b.Fatal(err)
		}
		var c car
		if err := doc.Decode(&c); err != nil {
			b.Fatal(err)
		}
	}
}
