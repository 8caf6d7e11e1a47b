// Package diagnosis tells why a clutch drags, from readings taken on the car, before the gearbox comes out again.
//
// Ten causes are held against the readings. Each is the release chain as it is believed to be, with its figures as
// sure as they are known, and one fault in it of a size that is not known. How well a cause explains the readings,
// over all that is unsure, times how often it is found at all, gives the odds of the causes; the weighted draws give
// the size of the fault, and what a further reading would tell. docs/diagnosis.md says what is assumed and how well
// it does on cars with a known fault.
package diagnosis
