package picture

import (
	"fmt"
	"strings"
	"testing"
)

func sampleFront() Front {
	v := Front{Title: "Which bores", Desc: "Choices of bores, by effort and bite height.", Limit: 230}
	for i := range 14 {
		x := float64(i)
		v.Choices = append(v.Choices, FrontChoice{Number: i + 1, Words: fmt.Sprintf("master %d, slave 1 in", i+1), Bite: 70 + 2.2*x, Effort: 150 + 4*x + 0.2*x*x, Certainty: 0.94 + 0.006*x})
		for j := range 5 {
			v.Choices = append(v.Choices, FrontChoice{Words: "dominated", Bite: 66 + 2*x - float64(j), Effort: 160 + 4*x + 6*float64(j), Certainty: 1 - 0.02*float64(j)})
		}
	}
	return Front{v.Title, v.Desc, v.Limit, append(v.Choices, FrontChoice{Words: "as it is now", Bite: 75, Effort: 209, Certainty: 0.4, Present: true})}
}

func TestEveryChoiceCanBePicked(t *testing.T) {
	v := sampleFront()
	for _, size := range []Size{Wide, Narrow} {
		svg := string(v.Scene(size).Inline())
		for i := 1; i <= 14; i++ {
			if want := fmt.Sprintf(`class="choice" data-choice="%d"`, i); strings.Count(svg, want) != 1 {
				t.Errorf("%s stands there %d times", want, strings.Count(svg, want))
			}
		}
		if got := strings.Count(svg, `class="choice dominated"`); got != 70 {
			t.Errorf("%d dominated choices, want 70", got)
		}
		for _, want := range []string{`data-bite="70" data-effort="150" data-certainty="0.94"`, `class="choice present" data-bite="75" data-effort="209"`,
			"<title>master 1, slave 1 in: 150 N, bites 70 mm above the fully-down end, good in 94 of 100</title>", "heavier than 230 N"} {
			if !strings.Contains(svg, want) {
				t.Errorf("the picture lacks %s", want)
			}
		}
	}
	v.Limit = 0
	if svg := string(v.Scene(Wide).Inline()); strings.Contains(svg, "heavier than") {
		t.Error("a limit is drawn that nobody set")
	}
}

// The shape of a mark says how sure a choice is, without any colour.
func TestCertaintyIsToldByShape(t *testing.T) {
	steps := func(c float64) int { return len(certaintyShape(c)(0, 0, 5)) }
	disc, diamond, triangle := steps(0.995), steps(0.96), steps(0.5)
	if disc == diamond || diamond == triangle || disc == triangle {
		t.Errorf("shapes of %d, %d and %d steps", disc, diamond, triangle)
	}
	if steps(0.99) != disc || steps(0.95) != diamond || steps(0.949) != triangle {
		t.Error("a bound falls on the wrong side")
	}
}

func TestAPlaceOnThePanelIsItsValues(t *testing.T) {
	v := sampleFront()
	for _, size := range []Size{Wide, Narrow} {
		p := v.Panel(size)
		for _, c := range v.Choices {
			if !p.x.covers(c.Bite) || !p.y.covers(c.Effort) {
				t.Fatalf("%+v lies outside %+v", c, p)
			}
		}
		if p.y.at(p.YMin) != p.Box.Y+p.Box.H || p.x.at(p.XMax) != p.Box.X+p.Box.W {
			t.Errorf("the edges of %+v are not its values", p)
		}
	}
}
