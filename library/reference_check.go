package library

import (
	"fmt"
	"slices"
	"strings"

	"layshaft/yamlfile"
)

// checkFactors wants each factor inside its own range.
func (r *Reference) checkFactors(doc *yamlfile.Document) (problems yamlfile.Problems) {
	for _, use := range r.ServiceFactors {
		lo, hi := use.Value.Range.Bounds()
		if use.Value.Factor < lo || use.Value.Factor > hi {
			problems = append(problems, doc.Fault(use.Name+".factor", "%g lies outside its own range %g .. %g", use.Value.Factor, lo, hi))
		}
	}
	return problems
}

// checkBores wants the bores to rise, so that the next size up is the next line, and a series that is known.
func (r *Reference) checkBores(doc *yamlfile.Document) (problems yamlfile.Problems) {
	for i, bore := range r.Bores {
		if i > 0 && bore.Value.Bore <= r.Bores[i-1].Value.Bore {
			problems = append(problems, doc.Fault(bore.Name+".bore", "does not lie above the bore before it, %s; put the sizes in rising order", r.Bores[i-1].Name))
		}
		if series := bore.Value.Series; series != "imperial" && series != "metric" {
			problems = append(problems, doc.Fault(bore.Name+".series", "%q is neither imperial nor metric", series))
		}
	}
	return problems
}

// checkFluids wants every fluid that is named to be a class of the table.
func (r *Reference) checkFluids(doc *yamlfile.Document) (problems yamlfile.Problems) {
	known := r.Fluids.Names()
	for _, class := range r.Fluids {
		for list, names := range [][]string{class.Value.MixesWith, class.Value.NeverWith} {
			key := class.Name + "." + [...]string{"mixes_with", "never_with"}[list]
			for i, name := range names {
				if !slices.Contains(known, name) {
					problems = append(problems, doc.Fault(fmt.Sprintf("%s[%d]", key, i), "%q is not a class of this table; it has %s", name, strings.Join(known, ", ")))
				}
			}
		}
	}
	return problems
}
