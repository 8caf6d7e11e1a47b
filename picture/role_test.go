package picture

import (
	"math"
	"strings"
	"testing"
)

// contrast is the contrast ratio of two colours (W3C, WCAG 2.1, relative luminance and contrast ratio; from memory).
func contrast(a, b RGB) float64 {
	luminance := func(c RGB) float64 {
		part := func(v uint8) float64 {
			s := float64(v) / 255
			if s <= 0.03928 {
				return s / 12.92
			}
			return math.Pow((s+0.055)/1.055, 2.4)
		}
		return 0.2126*part(c.R) + 0.7152*part(c.G) + 0.0722*part(c.B)
	}
	la, lb := luminance(a), luminance(b)
	return (math.Max(la, lb) + 0.05) / (math.Min(la, lb) + 0.05)
}

func TestBlackOnWhiteHasTheGreatestContrast(t *testing.T) {
	if c := contrast(rgb(0), rgb(0xffffff)); math.Abs(c-21) > 1e-9 { // 21 to 1, as WCAG states
		t.Errorf("contrast %v", c)
	}
}

// Words need 4.5 to 1, lines that carry meaning 3 to 1 (WCAG 2.1, success criteria 1.4.3 and 1.4.11; from memory).
func TestWordsCanBeReadOnEveryGround(t *testing.T) {
	for name, pick := range map[string]func(swatch) RGB{
		"light": func(s swatch) RGB { return s.light },
		"dark":  func(s swatch) RGB { return s.dark },
		"print": func(s swatch) RGB { return s.print },
	} {
		colour := map[Role]RGB{}
		for _, s := range palette {
			colour[s.role] = pick(s)
		}
		for _, word := range []Role{Ink, Quiet, Proposed, Original, Good, Warn, Bad} {
			if c := contrast(colour[word], colour[Paper]); c < 4.5 {
				t.Errorf("%s: %s on paper has contrast %.2f", name, word, c)
			}
		}
		for _, ground := range []Role{Band, Window, Metal, Fluid} {
			if c := contrast(colour[Ink], colour[ground]); c < 4.5 {
				t.Errorf("%s: ink on %s has contrast %.2f", name, ground, c)
			}
		}
	}
}

func TestTheStyleSheetHasEveryRole(t *testing.T) {
	css := StyleSheet()
	for _, s := range palette {
		for _, want := range []string{"--picture-" + string(s.role) + ",", ".f-" + string(s.role) + "{", ".s-" + string(s.role) + "{"} {
			if !strings.Contains(css, want) {
				t.Errorf("no %s in the style sheet", want)
			}
		}
	}
	if strings.Count(css, "{") != strings.Count(css, "}") {
		t.Error("braces do not match")
	}
}
