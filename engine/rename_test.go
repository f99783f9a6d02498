package engine

import (
	"testing"

	"pottle/grammar"
)

// A food that takes another's place takes its place in the directions too, so
// that what is thrown away stays thrown away.
func TestApplyRenamesInDirections(t *testing.T) {
	r, err := grammar.ParseRecipe("Marinated tofu\nServes 4\n1 lb firm tofu\n1 cup soy sauce\n1 cup milk\n1 can coconut milk\n\nDirections\nMarinate the tofu in the Soy Sauce for 2 hours.\nSimmer the coconut milk.")
	if err != nil {
		t.Fatal(err)
	}
	at := func(word string) int {
		for i, l := range r.Lines {
			if l.Kind == grammar.Ingredient && l.Items[0].Words[0] == word {
				return i
			}
		}
		t.Fatalf("no line of %s", word)
		return -1
	}
	for _, tc := range []struct{ old, new, want string }{
		{"soy", "tamari", "Marinate the tofu in the tamari for 2 hours."},
		{"firm", "chicken breast", "Marinate the chicken breast in the Soy Sauce for 2 hours."},
		{"milk", "oat milk", "Marinate the tofu in the Soy Sauce for 2 hours."},
	} {
		item := grammar.ParseLine("1 cup " + tc.new).Items[0]
		for _, kind := range []EditKind{EditFood, EditLine} {
			changed, err := Apply(r, Edit{Kind: kind, Line: at(tc.old), Item: item})
			if err != nil {
				t.Fatal(err)
			}
			if got := changed.Method[0]; got != tc.want {
				t.Errorf("%s for %s: %q, want %q", tc.new, tc.old, got, tc.want)
			}
			if got := changed.Method[1]; got != "Simmer the coconut milk." {
				t.Errorf("%s for %s: %q was changed", tc.new, tc.old, got)
			}
		}
	}
	if r.Method[0] != "Marinate the tofu in the Soy Sauce for 2 hours." {
		t.Errorf("the recipe itself was changed: %q", r.Method[0])
	}
}
