package main

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"

	"layshaft/workshop"
)

// table prints columns that line up.
type table struct{ rows [][]string }

func newTable(heads ...string) *table { return &table{rows: [][]string{heads}} }

func (t *table) row(cells ...string) { t.rows = append(t.rows, cells) }

func (t *table) print(w io.Writer) {
	tabs := tabwriter.NewWriter(w, 0, 0, 3, ' ', 0)
	for _, row := range t.rows {
		fmt.Fprintln(tabs, strings.Join(row, "\t"))
	}
	tabs.Flush()
}

// printAssumptions lists what nobody gave, as far as its key begins with one of the prefixes.
func printAssumptions(w io.Writer, assumed []workshop.Assumption, prefixes ...string) {
	headed := false
	for _, a := range assumed {
		if !hasAnyPrefix(a.Key, prefixes) {
			continue
		}
		if !headed {
			fmt.Fprintln(w, "\nAssumed, since the job file does not say:")
			headed = true
		}
		fmt.Fprintf(w, "  %s: %s\n", a.Key, a.Text)
	}
}

func hasAnyPrefix(text string, prefixes []string) bool {
	for _, p := range prefixes {
		if strings.HasPrefix(text, p) {
			return true
		}
	}
	return len(prefixes) == 0
}
