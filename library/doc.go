// Package library keeps the shop's knowledge as data: layouts, which say what is in the way of what on a kind of
// car, what each job needs and costs, and what to mind; and tables of reference figures, each with its source.
// Five generic layouts are built in. A shop copies one, puts its own hours and prices in, and hands the folder to
// Open; its layouts stand before the built-in ones.
//
// Every hour in the built-in layouts is a starting value from common practice, without a source. The package knows
// nothing of any one car and touches no disc: folders come in as fs.FS.
package library
