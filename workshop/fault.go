package workshop

// Fault is something wrong in what a person gave: which key to look at, what is wrong with it, and what would be
// right. Whoever read the file adds the line.
type Fault struct {
	Key     string
	Message string
	Example string
}

func (f *Fault) Error() string {
	text := f.Key + ": " + f.Message
	if f.Example != "" {
		text += "; write for example " + f.Example
	}
	return text
}
