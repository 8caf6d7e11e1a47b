package picture

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the pictures in testdata")

// goldens are the pictures kept in testdata, to be looked at when a drawing changes.
func goldens() map[string]*Scene {
	all := map[string]*Scene{}
	add := func(name string, draw func(Size) *Scene) {
		all[name+"-wide.svg"] = draw(Wide)
		all[name+"-narrow.svg"] = draw(Narrow)
	}
	add("load-path", sampleLoadPath(LongitudinalRear, 2, false).Scene)
	add("pedal-map", samplePedalMap(true).Scene)
	add("hold-bars", sampleHoldBars().Scene)
	add("travel-bars", sampleTravelBars().Scene)
	add("sensitivity", sampleSensitivity().Scene)
	add("strip", sampleStrip().Scene)
	add("front", sampleFront().Scene)
	add("worth", sampleWorth().Scene)
	return all
}

func TestPicturesAreAsTheyWereLastLookedAt(t *testing.T) {
	for name, scene := range goldens() {
		file := filepath.Join("testdata", name)
		got := scene.SVG()
		if *update {
			if err := os.WriteFile(file, got, 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if !bytes.Equal(got, want) {
			t.Errorf("%s has changed; look at the picture and run the test with -update", file)
		}
	}
}
