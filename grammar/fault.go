package grammar

import "fmt"

// Fault says what could not be read, where, and what would work. Line and
// Column count from 1, Column in characters; a Line of 0 means the whole text.
type Fault struct {
	Line, Column int
	Part         string // what was typed there, as typed
	Reason       string // what is wrong with it, in a cook's words
	Hint         string // what would work; may be empty
}

// Error gives the fault in one line, lower case and without a full stop.
func (f *Fault) Error() string {
	s := f.Reason
	if f.Part != "" {
		s = fmt.Sprintf("%q %s", f.Part, f.Reason)
	}
	switch {
	case f.Line > 0 && f.Column > 0:
		s = fmt.Sprintf("line %d, column %d: %s", f.Line, f.Column, s)
	case f.Line > 0:
		s = fmt.Sprintf("line %d: %s", f.Line, s)
	}
	if f.Hint != "" {
		s += "; " + f.Hint
	}
	return s
}
