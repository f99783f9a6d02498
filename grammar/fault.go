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
	s := f.what()
	switch {
	case f.Line > 0 && f.Column > 0:
		s = fmt.Sprintf("line %d, column %d: %s", f.Line, f.Column, s)
	case f.Line > 0:
		s = fmt.Sprintf("line %d: %s", f.Line, s)
	}
	return s + f.hint()
}

// Said is the fault without its place, for where the line stands beside it.
func (f *Fault) Said() string { return f.what() + f.hint() }

func (f *Fault) what() string {
	if f.Part == "" {
		return f.Reason
	}
	return fmt.Sprintf("%q %s", f.Part, f.Reason)
}

func (f *Fault) hint() string {
	if f.Hint == "" {
		return ""
	}
	return "; " + f.Hint
}
