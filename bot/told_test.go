package bot_test

import (
	"bytes"
	"testing"

	"pottle/store"
)

// TestCookedWeightTravels: what was told of the cooking and of the cooked weight
// goes into the file of an export and comes back from it.
func TestCookedWeightTravels(t *testing.T) {
	s := memoryStore(t)
	c := remembered(t, s, "T", "one", "Rowan")
	says(t, c, "Greens\nServes 4\n1 lb kale\n1 tbsp olive oil", "4 servings")
	says(t, c, "boiled and drained", "Version 2")
	says(t, c, "it weighed 1 lb cooked", "Version 3: it weighed 454 g cooked.")
	says(t, c, "save as greens", "with 3 versions")
	claim := c.Reply("can I call it low fat as vegetables without sauce")

	var file bytes.Buffer
	if _, err := store.Export(t.Context(), s.In("T"), &file, nil); err != nil {
		t.Fatal(err)
	}
	other := memoryStore(t)
	if _, err := store.Import(t.Context(), other.In("U"), &file, "Kim", nil); err != nil {
		t.Fatal(err)
	}
	kim := remembered(t, other, "U", "two", "Kim")
	says(t, kim, "open greens", "It weighed 454 g cooked.")
	says(t, kim, "what changed", "boiled and drained")
	if got := kim.Reply("can I call it low fat as vegetables without sauce"); got != claim {
		t.Errorf("from the file:\n%s\nbefore:\n%s", got, claim)
	}
}
