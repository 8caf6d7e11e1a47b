package uncertain

// KorobovMultiplier lets the tests judge the lattice that the sequence is made of.
const KorobovMultiplier = korobovMultiplier
