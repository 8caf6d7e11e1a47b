package main

import (
	"fmt"
	"io"
	"strings"

	"layshaft/quantity"
	"layshaft/release"
	"layshaft/workshop"
)

type shimCommand struct {
	HousingDepth        string  `required:"" placeholder:"DEPTHS" help:"From the face of bell and gearbox to the finger tips, three places or more: \"62.5 mm, 62.3 mm, 62.4 mm\"."`
	BearingHeight       string  `required:"" placeholder:"DEPTHS" help:"From the same face on the gearbox to the bearing, pushed fully back: \"54.1 mm\"."`
	Target              string  `required:"" placeholder:"LENGTH" help:"Stand-off wanted, the bearing maker's figure: \"5 mm\"."`
	Wear                string  `placeholder:"LENGTH" help:"Wear of all facings together, over their life."`
	LeverRatio          float64 `placeholder:"RATIO" help:"Finger travel over plate lift."`
	Stroke              string  `placeholder:"LENGTH" help:"Finger travel at full pedal."`
	BearingTravel       string  `placeholder:"LENGTH" help:"The bearing's own travel, its maker's figure."`
	SecondHousingDepth  string  `placeholder:"DEPTHS" help:"The same depths taken by a second person."`
	SecondBearingHeight string  `placeholder:"DEPTHS" help:"The same depths taken by a second person."`
	JSON                bool    `name:"json" help:"Print one JSON object instead of text."`
	Check               bool    `help:"Exit with status 1 when the answer is neither a shim nor that none is needed."`
}

func (s *shimCommand) Run(c console) error {
	wanted, err := s.wanted()
	if err != nil {
		return err
	}
	answer, err := workshop.Shim(wanted)
	if err != nil {
		return fmt.Errorf("--%w", err)
	}
	if s.JSON {
		err = printJSON(c.out, answer)
	} else {
		printShim(c.out, answer)
	}
	if err == nil && s.Check && answer.Verdict != workshop.ShimFit && answer.Verdict != workshop.ShimNotNeeded {
		return no{answer.Verdict + ": " + answer.Why}
	}
	return err
}

// wanted reads the flags, each a length or a list of them.
func (s *shimCommand) wanted() (w workshop.ShimWanted, err error) {
	read := func(flag, text string) []float64 {
		if text == "" || err != nil {
			return nil
		}
		var lengths []float64
		for part := range strings.SplitSeq(text, ",") {
			length, bad := quantity.Parse(strings.TrimSpace(part), quantity.Length)
			if bad != nil || length <= 0 {
				err = fmt.Errorf("--%s %q: %q is no length above nought; write for example 62.4 mm", flag, text, strings.TrimSpace(part))
				return nil
			}
			lengths = append(lengths, length)
		}
		return lengths
	}
	one := func(flag, text string) float64 {
		lengths := read(flag, text)
		if len(lengths) > 1 && err == nil {
			err = fmt.Errorf("--%s %q: one length is wanted", flag, text)
		}
		if len(lengths) == 0 {
			return 0
		}
		return lengths[0]
	}
	w = workshop.ShimWanted{
		Readings: release.ShimReadings{Fingers: read("housing-depth", s.HousingDepth), Bearing: read("bearing-height", s.BearingHeight), Target: one("target", s.Target)},
		Wear:     one("wear", s.Wear), LeverRatio: s.LeverRatio, Stroke: one("stroke", s.Stroke), Travel: one("bearing-travel", s.BearingTravel),
	}
	if s.LeverRatio < 0 {
		err = fmt.Errorf("--lever-ratio %g must be more than nought", s.LeverRatio)
	}
	if (s.SecondHousingDepth == "") != (s.SecondBearingHeight == "") && err == nil {
		err = fmt.Errorf("--second-housing-depth and --second-bearing-height belong together: a second person takes both")
	}
	if s.SecondHousingDepth != "" {
		w.Second = &release.ShimReadings{Fingers: read("second-housing-depth", s.SecondHousingDepth), Bearing: read("second-bearing-height", s.SecondBearingHeight)}
	}
	return w, err
}

func printShim(w io.Writer, a *workshop.ShimAnswer) {
	fmt.Fprintf(w, "%s: %s.\n\n", a.Verdict, a.Why)
	t := newTable("", "")
	t.row("gap, bearing fully back", fmt.Sprintf("%.2f +- %.2f mm", a.Gap, a.GapError))
	t.row("finger tips differ by", fmt.Sprintf("%.2f mm", a.Spread))
	t.row("stand-off wanted", fmt.Sprintf("%.2f mm", a.Target))
	t.row("shim", fmt.Sprintf("%.2f mm", a.Shim))
	if a.SecondGap.Known() {
		t.row("gap by the second person", fmt.Sprintf("%.2f mm", a.SecondGap))
	}
	if a.WhenWorn.Known() {
		t.row("fingers come nearer with wear", fmt.Sprintf("%.2f mm", a.Growth))
		t.row("gap left with worn facings", fmt.Sprintf("%.2f mm", a.WhenWorn))
	}
	if a.AtFull.Known() {
		t.row("bearing travel left at full pedal", fmt.Sprintf("%.2f mm", a.AtFull))
	}
	t.print(w)
	for _, missing := range a.NotChecked {
		fmt.Fprintf(w, "  not checked: %s\n", missing)
	}
	for _, caution := range a.Cautions {
		fmt.Fprintf(w, "  ! %s\n", caution)
	}
}
