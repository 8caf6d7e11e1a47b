package yamlfile

import (
	"testing"

	"layshaft/uncertain"
)

type clutch struct {
	Fitted bool            `key:"fitted"`
	Discs  int             `key:"discs" need:"yes" like:"1" check:">=1"`
	Clamp  float64         `key:"clamp_load" of:"force" need:"yes" like:"9.8 kN" check:">0"`
	Grip   uncertain.Value `key:"friction" of:"number" like:"0.26 .. 0.30" check:">0,<=2"`
	Load   []Row           `key:"bearing_load" of:"length,force" like:"[4 mm, 2100 N]"`
}

type car struct {
	Version  int         `key:"layshaft" need:"yes"`
	Clutches Map[clutch] `key:"clutch"`
	Work     []string    `key:"work"`
}

const good = `layshaft: 1
clutch:
  original: {fitted: true, discs: 1, clamp_load: 6.2 kN, friction: 0.27}
  uprated:
    discs: 2
    clamp_load: 9.8 kN # hot
    friction: 0.26 .. 0.30
    bearing_load: [[0 mm, 0 N], [4 mm, 2100 N]]
work: [replace-clutch]
`

func TestDecodeFillsAStruct(t *testing.T) {
	doc, err := Parse("car.yaml", []byte(good))
	if err != nil {
		t.Fatal(err)
	}
	var c car
	if err := doc.Decode(&c); err != nil {
		t.Fatal(err)
	}
	up, ok := c.Clutches.Get("uprated")
	if !ok || up.Clamp != 9800 || up.Grip != uncertain.Uniform(0.26, 0.30) || up.Load[1][0] != 0.004 || up.Load[1][1] != 2100 {
		t.Errorf("got %+v", up)
	}
	if c.Clutches[0].Name != "original" || !c.Clutches[0].Value.Fitted || c.Work[0] != "replace-clutch" {
		t.Errorf("got %+v", c)
	}
}

func TestAFigureWithoutAUnitIsRefusedWithItsPlace(t *testing.T) {
	doc, err := Parse("car.yaml", []byte("layshaft: 1\nclutch:\n  uprated:\n    discs: 2\n    clamp_load: 9.8\n"))
	if err != nil {
		t.Fatal(err)
	}
	var c car
	const want = `car.yaml:5:17: clutch.uprated.clamp_load: "9.8" has no unit; write for example 9.8 kN`
	if err := doc.Decode(&c); err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
}
