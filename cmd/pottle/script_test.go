package main

import (
	"os"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"pottle": func() {
			p := &program{in: os.Stdin, out: os.Stdout, err: os.Stderr}
			os.Exit(p.run(os.Args[1:]))
		},
	})
}

// TestScripts runs the program by the scripts in testdata/script: what it
// prints, what it says on standard error, its exit status.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{Dir: "testdata/script"})
}
