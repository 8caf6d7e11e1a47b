// Package examples holds the invented job files that the README, the demo and the tests use.
package examples

import "embed"

// Files are the job files and the dyno runs that they name.
//
//go:embed *.yaml *.csv
var Files embed.FS
