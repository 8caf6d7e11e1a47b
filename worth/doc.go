// Package worth answers whether a further job is worth doing now, while the way to it is open: from what the job adds
// now, what it would cost later by itself, and how often the shop found the part worn. It holds the break-even chance
// of need, the shop's finding rate with its interval, and a Weibull life fitted to findings by distance driven.
//
// Costs are in any one currency and distances in any one unit; the package knows neither. It makes no decision: where
// the records are too few to tell, it says so.
package worth
