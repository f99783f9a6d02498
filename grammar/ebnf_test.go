package grammar

import (
	"flag"
	"os"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite testdata/ebnf.golden")

// TestEBNF compares the grammars, written out by their parsers, with the
// golden file, so that a change of grammar is seen in review.
func TestEBNF(t *testing.T) {
	const golden = "testdata/ebnf.golden"
	got := "(* An ingredient line. *)\n" + lineParser.String() +
		"\n\n(* A request. *)\n" + requestParser.String() +
		"\n\n(* A request about the recipe in hand. *)\n" + changeParser.String() +
		"\n\n(* From one pan to another. *)\n" + panParser.String() + "\n"
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatalf("%v; write it with go test ./grammar -run TestEBNF -update", err)
	}
	if got == string(want) {
		return
	}
	t.Errorf("the grammar is not that of %s; if the change is meant, run go test ./grammar -run TestEBNF -update", golden)
	before, after := strings.Split(string(want), "\n"), strings.Split(got, "\n")
	for i := range max(len(before), len(after)) {
		if i >= len(before) || i >= len(after) || before[i] != after[i] {
			t.Fatalf("from line %d on:\n-%s\n+%s", i+1, strings.Join(before[i:min(i+1, len(before))], ""), strings.Join(after[i:min(i+1, len(after))], ""))
		}
	}
}
