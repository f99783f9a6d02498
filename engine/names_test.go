package engine_test

import (
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

// TestNamesComeBack says every display name that the curated lists have, as a
// line would: it must be taken for its own food, since replies offer these
// names as answers.
func TestNamesComeBack(t *testing.T) {
	e := newEngine(t)
	said, wrong := 0, 0
	for f := range e.Table().All() {
		if !f.Curated() {
			continue
		}
		said++
		l := e.Resolve(grammar.ParseLine("100 g " + f.Name()).Items[0])
		if l.Food != f || l.Status != engine.Counted {
			wrong++
			t.Errorf("100 g %s (%s) is %s: %s %s %s %v", f.Name(), f.Number(), l.Status, number(&l), l.Food, l.Why, l.Assumed)
		}
	}
	t.Logf("%d names said, %d taken for another food", said, wrong)
	if said < 700 {
		t.Errorf("only %d names", said)
	}
}
