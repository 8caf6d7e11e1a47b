// Package spring answers what load a clutch's spring makes at a given travel: from points measured or printed,
// joined by a curve that invents no bumps; from the dimensions of a disc spring; and from the dimensions of a
// diaphragm with its fingers. SI units throughout: metres, newtons, pascals.
package spring
