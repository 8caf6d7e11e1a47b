package psplib

import (
	"bytes"
	"fmt"
	"strings"

	"layshaft/diary/project"
)

// Write writes a project whose first activity is the source and whose last is the sink, as Read reads it.
func Write(p *project.Problem, origin string) []byte {
	var b bytes.Buffer
	rule := strings.Repeat("*", 72) + "\n"
	horizon := 0
	for _, d := range p.Durations {
		horizon += d
	}
	n := len(p.Durations)
	fmt.Fprintf(&b, "%sfile with basedata            : %s\ninitial value random generator: 0\n%s", rule, origin, rule)
	fmt.Fprintf(&b, "projects                      :  1\njobs (incl. supersource/sink ):  %d\nhorizon                       :  %d\n", n, horizon)
	fmt.Fprintf(&b, "RESOURCES\n  - renewable                 :  %d   R\n  - nonrenewable              :  0   N\n  - doubly constrained        :  0   D\n%s", len(p.Capacities), rule)
	fmt.Fprintf(&b, "PROJECT INFORMATION:\npronr.  #jobs rel.date duedate tardcost  MPM-Time\n    1     %d      0        0        0       %d\n%s", n-2, p.CriticalPath(), rule)
	fmt.Fprintf(&b, "PRECEDENCE RELATIONS:\njobnr.    #modes  #successors   successors\n")
	for i, successors := range p.Successors {
		fmt.Fprintf(&b, "%4d        1     %6d     ", i+1, len(successors))
		for _, s := range successors {
			fmt.Fprintf(&b, "%5d", s+1)
		}
		b.WriteByte('\n')
	}
	fmt.Fprintf(&b, "%sREQUESTS/DURATIONS:\njobnr. mode duration", rule)
	for r := range p.Capacities {
		fmt.Fprintf(&b, "  R %d", r+1)
	}
	fmt.Fprintf(&b, "\n%s\n", strings.Repeat("-", 72))
	for i, d := range p.Durations {
		fmt.Fprintf(&b, "%3d      1   %5d ", i+1, d)
		for _, x := range p.Demands[i] {
			fmt.Fprintf(&b, "%5d", x)
		}
		b.WriteByte('\n')
	}
	fmt.Fprintf(&b, "%sRESOURCEAVAILABILITIES:\n", rule)
	for r := range p.Capacities {
		fmt.Fprintf(&b, "  R %d", r+1)
	}
	b.WriteByte('\n')
	for _, c := range p.Capacities {
		fmt.Fprintf(&b, "%5d", c)
	}
	fmt.Fprintf(&b, "\n%s", rule)
	return b.Bytes()
}
