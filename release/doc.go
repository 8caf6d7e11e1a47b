// Package release follows the pedal's movement to the clutch fingers: pedal, rod, master cylinder, line, slave,
// fork, bearing, diaphragm, discs. It tells whether the clutch lets go, whether the fingers are pushed too far,
// where the pedal bites, how heavy it is, where its stop belongs, and how sure all that is when some of the
// figures are only roughly known.
//
// The chain is quasi-static: pressed slowly enough that nothing but the bearing load, the friction of the parts
// (as efficiencies) and their give counts. Everything is in SI units. Pedal travel, free play and effort are
// those at the pad. A stiffness of +Inf is a rigid part; a stroke or a greatest finger travel of +Inf is not
// known.
package release
