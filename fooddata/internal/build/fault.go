package main

import (
	"fmt"
	"io"
)

// faults collects what is wrong with the lists, so that one run shows all.
type faults []string

func (f *faults) add(format string, args ...any) {
	*f = append(*f, fmt.Sprintf(format, args...))
}

// report writes the faults and returns an error if there are any.
func (f *faults) report(w io.Writer) error {
	for _, fault := range *f {
		fmt.Fprintln(w, fault)
	}
	if len(*f) > 0 {
		return fmt.Errorf("%d faults in the lists", len(*f))
	}
	return nil
}
