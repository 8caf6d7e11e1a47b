// Package quantity reads and prints numbers with units. A text such as "5/8 in", "380 bhp" or
// "0.33 cm3/m/MPa" becomes a float64 in SI units, or an uncertain.Value where a range is given, and comes back
// as text in the unit a reader wants. A missing, unknown or wrong unit is an error that says what is wrong and
// what would be right.
//
// Conversions are done with exact rational numbers and rounded once, so "0.1 mm" gives the float64 nearest to
// 0.0001. Every unit is defined from the SI by its legal or standard definition:
//
//	inch                 0.0254 m exactly (international yard, 1959: 0.9144 m)
//	pound                0.45359237 kg exactly (1959)
//	standard gravity     9.80665 m/s² exactly (3rd CGPM, 1901), which makes the kgf and the lbf
//	bar                  100 000 Pa; litre 0.001 m³ (SI brochure, 9th edition, tables 8 and following)
//	horsepower (hp)      550 ft lbf/s, mechanical; bhp is the same unit at the crankshaft
//	metric horsepower    75 kgf m/s (PS)
//	degree Celsius       K less 273.15; degree Fahrenheit 1.8 degC + 32
//
// Sources: BIPM, The International System of Units (SI brochure), 9th edition, and NIST Special Publication 811,
// appendix B, both from memory; the same definitions were seen in the unit tables of GNU Units 2.22 and of the
// pint library, and the tests compare the factors.
package quantity
