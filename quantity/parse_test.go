package quantity

import "testing"

func TestParseReadsWhatTheGarageWrites(t *testing.T) {
	for _, c := range []struct {
		text string
		d    Dimension
		want float64
	}{
		{"5/8 in", Length, 0.015875},
		{"1 1/8 in", Length, 0.028575},
		{`3/4"`, Length, 0.01905},
		{"0.1 mm", Length, 0.0001},
		{"95 %", Percent, 0.95},
		{"0.33 cm3/m/MPa", Expansion, 0.33e-12},
	} {
		if got, err := Parse(c.text, c.d); err != nil || got != c.want {
			t.Errorf("Parse(%q) = %v, %v; want %v", c.text, got, err, c.want)
		}
	}
}
