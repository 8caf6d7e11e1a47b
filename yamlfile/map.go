package yamlfile

import "layshaft/spelling"

// Named is one entry of a Map.
type Named[T any] struct {
	Name  string
	Value T
}

// Map is a mapping whose keys the reader chooses, such as clutch candidates, in the order of the file.
type Map[T any] []Named[T]

// Get finds an entry by its name.
func (m Map[T]) Get(name string) (T, bool) {
	for _, entry := range m {
		if entry.Name == name {
			return entry.Value, true
		}
	}
	var none T
	return none, false
}

// Names lists the names in the order of the file.
func (m Map[T]) Names() []string {
	names := make([]string, len(m))
	for i, entry := range m {
		names[i] = entry.Name
	}
	return names
}

// add appends an entry and returns a pointer to its value, good until the next add.
func (m *Map[T]) add(name string) any {
	*m = append(*m, Named[T]{Name: name})
	return &(*m)[len(*m)-1].Value
}

// grower is any *Map.
type grower interface{ add(name string) any }

// Row is one row of a table of quantities, in SI units; the field's tag names the dimension of each column:
//
//	Load []yamlfile.Row `key:"bearing_load" of:"length,force"`
type Row []float64

// Nearest returns the known word that was probably meant, or "" when none is near.
func Nearest(word string, known []string) string { return spelling.Nearest(word, known) }
