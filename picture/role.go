package picture

import (
	"fmt"
	"strings"
)

// Role is what a colour is for. A page may set its own colours with the CSS custom properties --picture-ROLE;
// without them the pictures follow the reader's light or dark setting, and print in their own ink.
type Role string

const (
	Paper    Role = "paper"    // what is drawn on
	Ink      Role = "ink"      // outlines and words
	Quiet    Role = "quiet"    // second words, units, captions
	Faint    Role = "line"     // grids, hatching, leader lines
	Metal    Role = "metal"    // cut parts
	Fluid    Role = "fluid"    // fluid under pressure
	Proposed Role = "proposed" // accent 1
	Original Role = "original" // accent 2
	Good     Role = "good"
	Warn     Role = "warn"
	Bad      Role = "bad"
	Band     Role = "band"   // bite band
	Window   Role = "window" // window for the stop
)

// RGB is a colour as three parts of 255.
type RGB struct{ R, G, B uint8 }

func (c RGB) String() string { return fmt.Sprintf("#%02x%02x%02x", c.R, c.G, c.B) }

// swatch is one role's colour on a light page, a dark page and paper.
type swatch struct {
	role               Role
	light, dark, print RGB
}

func rgb(hex uint32) RGB { return RGB{uint8(hex >> 16), uint8(hex >> 8), uint8(hex)} }

var palette = []swatch{
	{Paper, rgb(0xfbfaf5), rgb(0x14191d), rgb(0xffffff)},
	{Ink, rgb(0x21303a), rgb(0xdde5e7), rgb(0x16202a)},
	{Quiet, rgb(0x586770), rgb(0x9babb2), rgb(0x4a565e)},
	{Faint, rgb(0xb3bcbd), rgb(0x47555d), rgb(0xa4adb0)},
	{Metal, rgb(0xeeebe0), rgb(0x232b31), rgb(0xf1efe8)},
	{Fluid, rgb(0xbfd9e4), rgb(0x2c5567), rgb(0xc8dde6)},
	{Proposed, rgb(0x0f5b84), rgb(0x74b9de), rgb(0x0b4f75)},
	{Original, rgb(0x80487a), rgb(0xcd9fc9), rgb(0x6e3c69)},
	{Good, rgb(0x2a6b48), rgb(0x82c59b), rgb(0x225c3d)},
	{Warn, rgb(0x8a5a00), rgb(0xdfb04f), rgb(0x774d00)},
	{Bad, rgb(0xa3302a), rgb(0xee8f83), rgb(0x922620)},
	{Band, rgb(0xdde8ee), rgb(0x22333d), rgb(0xe0eaef)},
	{Window, rgb(0xdeebd9), rgb(0x223a2b), rgb(0xe2eddd)},
}

// Print is the role's colour on paper.
func (r Role) Print() RGB {
	for _, s := range palette {
		if s.role == r {
			return s.print
		}
	}
	panic("picture: no colour for role " + string(r))
}

// StyleSheet is the CSS that pictures within a page need once (see Scene.Inline). A page turns them to its own
// colours by setting --picture-ink and so on for :root, and to its own letters by setting --picture-font; letters
// wider than those of Go, Helvetica or Roboto may outgrow the room that the pictures keep for them.
func StyleSheet() string {
	var b strings.Builder
	b.WriteString(".picture{max-width:100%;height:auto}\n")
	b.WriteString(".picture path{fill:none;fill-rule:evenodd;stroke-linecap:butt;stroke-linejoin:round}\n")
	b.WriteString(".picture text{font-family:var(--picture-font,Go,\"Helvetica Neue\",Helvetica,Arial,\"Liberation Sans\",sans-serif)}\n")
	colours := func(pick func(swatch) RGB) string {
		var c strings.Builder
		for _, s := range palette {
			fmt.Fprintf(&c, "--p-%s:var(--picture-%s,%s);", s.role, s.role, pick(s))
		}
		return ".picture{" + c.String() + "}"
	}
	b.WriteString(colours(func(s swatch) RGB { return s.light }) + "\n")
	b.WriteString("@media (prefers-color-scheme:dark){" + colours(func(s swatch) RGB { return s.dark }) + "}\n")
	b.WriteString("@media print{" + strings.ReplaceAll(colours(func(s swatch) RGB { return s.print }), "--picture-", "--picture-print-") + "}\n")
	for _, s := range palette {
		fmt.Fprintf(&b, ".picture .f-%s{fill:var(--p-%s)}.picture .s-%s{stroke:var(--p-%s)}\n", s.role, s.role, s.role, s.role)
	}
	return b.String()
}
