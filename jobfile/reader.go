package jobfile

import "layshaft/workshop"

// Reader reads and changes job files for the workshop.
type Reader struct{}

// Read reads a job; faults carry their place in the text.
func (Reader) Read(name string, text []byte, open func(name string) ([]byte, error)) (*workshop.Job, error) {
	job, _, err := Parse(name, text, open)
	return job, err
}

// Change sets single values in a job file's text.
func (Reader) Change(text []byte, changes []workshop.Change) ([]byte, error) {
	return Change(text, changes)
}
