package library

import (
	"errors"
	"fmt"
	"slices"

	"layshaft/stripdown"
	"layshaft/yamlfile"
)

// problemsOf gives what stripdown found wrong its place in the file.
func problemsOf(doc *yamlfile.Document, f *file, err error) error {
	var problems yamlfile.Problems
	for _, fault := range faultsIn(err) {
		problems = append(problems, doc.Fault(keyOf(f, fault), "%s", fault.Message))
	}
	if len(problems) == 0 {
		return err
	}
	return firstOf(problems)
}

// faultsIn takes joined errors apart.
func faultsIn(err error) []*stripdown.Fault {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		var all []*stripdown.Fault
		for _, each := range joined.Unwrap() {
			all = append(all, faultsIn(each)...)
		}
		return all
	}
	var fault *stripdown.Fault
	if errors.As(err, &fault) {
		return []*stripdown.Fault{fault}
	}
	return nil
}

// keyOf is the dotted key that a fault is about, down to the item of the list.
func keyOf(f *file, fault *stripdown.Fault) string {
	section, needs, anyOf := "operations.", []string(nil), [][]string(nil)
	if fault.In == "job" {
		section = "jobs."
		job, _ := f.Jobs.Get(fault.Name)
		needs, anyOf = job.Needs, job.AnyOf
	} else {
		op, _ := f.Operations.Get(fault.Name)
		needs, anyOf = op.Needs, op.AnyOf
	}
	key := section + fault.Name
	if i := slices.Index(needs, fault.Reference); i >= 0 && fault.Key == "needs" {
		return fmt.Sprintf("%s.needs[%d]", key, i)
	}
	for i, group := range anyOf {
		if j := slices.Index(group, fault.Reference); j >= 0 {
			return fmt.Sprintf("%s.any_of[%d][%d]", key, i, j)
		}
		if len(group) == 0 && fault.Kind == stripdown.EmptyGroup {
			return fmt.Sprintf("%s.any_of[%d]", key, i)
		}
	}
	return key + "." + fault.Key
}
