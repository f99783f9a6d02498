package engine_test

import (
	"strings"
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

// TestOneAndSeveral: a scaled line says one or several of what is counted, be it
// a measure or a name, and reads back as the same food and weight.
func TestOneAndSeveral(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct{ line, factor, want string }{
		// Measures.
		{"1 piece of ginger", "2", "2 pieces ginger"},
		{"2 pieces fresh ginger, peeled", "1/2", "1 piece fresh ginger, peeled"},
		{"1 slice of bread", "2", "2 slices bread"},
		{"1 sprig of thyme", "2", "2 sprigs thyme"},
		{"2 sprigs rosemary", "1/2", "1 sprig rosemary"},
		{"1 clove of garlic", "3", "3 cloves garlic"},
		{"2 cloves garlic, crushed", "1/2", "1 clove garlic, crushed"},
		{"1 stick of celery", "2", "2 sticks celery"},
		{"1 can of chickpeas", "2", "2 cans chickpeas"},
		{"2 cans tomatoes", "1/2", "1 can tomatoes"},
		{"1 head of garlic", "2", "2 heads garlic"},
		{"1 bunch of parsley", "2", "2 bunches parsley"},
		{"2 bunches parsley", "1/2", "1 bunch parsley"},
		{"1 pinch of salt", "2", "2 pinches salt"},
		{"1 loaf of bread", "2", "2 loaves bread"},
		{"1 box of pasta", "2", "2 boxes pasta"},
		// Names before "of".
		{"1 1-inch piece of ginger", "2", "2 (1-inch) pieces of ginger"},
		{"2 1-inch pieces of ginger", "1/2", "1 (1-inch) piece of ginger"},
		{"1 (2-inch) piece ginger", "2", "2 (2-inch) pieces ginger"},
		{"2 (2-inch) pieces ginger", "1/2", "1 (2-inch) piece ginger"},
		{"1 3-inch cinnamon stick", "2", "2 (3-inch) cinnamon sticks"},
		{"1 thick slice of ham", "2", "2 thick slices of ham"},
		{"2 legs of lamb", "1/2", "1 leg of lamb"},
		{"1 leg of lamb", "2", "2 legs of lamb"},
		// Names that end in what is counted.
		{"2 stock cubes", "1/2", "1 stock cube"},
		{"2 lemon wedges", "1/2", "1 lemon wedge"},
		{"1 lemon wedge", "2", "2 lemon wedges"},
		{"2 celery sticks", "1/2", "1 celery stick"},
		{"1 celery stick", "2", "2 celery sticks"},
		{"2 cheese slices", "1/2", "1 cheese slice"},
		{"2 chicken breast halves", "1/2", "1 chicken breast half"},
		{"2 bay leaves", "1/2", "1 bay leaf"},
		{"1 garlic clove, crushed", "2", "2 garlic cloves, crushed"},
		{"2 onions, sliced", "1/2", "1 onion, sliced"},
		{"1 chicken thigh, skin on", "2", "2 chicken thighs, skin on"},
		{"1 red chilli", "2", "2 red chillies"},
		{"1 cherry", "2", "2 cherries"},
		{"1 turkey", "2", "2 turkeys"},
		{"1 star anise", "2", "2 star anise"},
		{"1 lemon or lime", "2", "2 lemons or limes"},
		{"1 onion or 2 shallots, chopped", "2", "2 onions or 4 shallots, chopped"},
		{"1 cup butter or margarine, melted", "2", "2 cups butter or margarine, melted"},
		{"4 balls mozzarella", "1/4", "1 ball mozzarella"},
		{"2 lemons or limes", "1/2", "1 lemon or lime"},
		// Parts of one are one.
		{"1 piece of ginger", "1/2", "1/2 piece ginger"},
		{"2 slices bread", "3/8", "3/4 slice bread"},
		{"1 piece of ginger", "3/2", "1 1/2 pieces ginger"},
	} {
		s := scaleBy(t, scaledFrom(t, "Dish\nserves 2\n\n"+c.line), ratOf(t, c.factor))
		if got := s.Lines[0].Kitchen; got != c.want {
			t.Errorf("%s by %s: %q, want %q", c.line, c.factor, got, c.want)
			continue
		}
		readsBack(t, e, c.line, s.Recipe.Lines[s.Lines[0].Line].Items, c.want)
	}
}

// readsBack holds that a line that was written from items reads as they are.
func readsBack(t *testing.T, e *engine.Engine, line string, items []grammar.Item, text string) {
	t.Helper()
	again := grammar.ParseLine(text).Items
	if len(again) != len(items) {
		t.Errorf("%s: %q reads as %d items of %d", line, text, len(again), len(items))
		return
	}
	for i := range items {
		was, now := e.Resolve(items[i]), e.Resolve(again[i])
		if now.Status != was.Status || now.Food != was.Food || !sameFigure(now.Grams.Low, was.Grams.Low) {
			t.Errorf("%s: %q reads as %s %s %g g, but is %s %s %g g", line, text, now.Status, now.Food, now.Grams.Low, was.Status, was.Food, was.Grams.Low)
		}
	}
}

// TestChangedLinesReadBack: a line of the recipes at hand that is multiplied and
// written reads back as the same foods and weights, as from the box.
func TestChangedLinesReadBack(t *testing.T) {
	e := newEngine(t)
	var lines []grammar.Line
	for _, l := range readLabels(t, "testdata/labelled_us.tsv", "testdata/labelled_uk.tsv", "testdata/labelled_review.tsv") {
		lines = append(lines, grammar.ParseLine(l.line))
	}
	for _, p := range readPublished(t) {
		lines = append(lines, p.recipe.Lines...)
	}
	for _, line := range []string{"zest and juice of 2 unwaxed lemons", "1 large lemon, grated for zest (and freshly squeezed for 2 Tbsp lemon juice)",
		"2 Tbsp fresh ginger, minced (or 2 tsp ground)", "1 cup fresh or frozen blueberries, no sugar added", "a ½-inch knob of ginger", "a thumb-sized piece of ginger, grated"} {
		lines = append(lines, grammar.ParseLine(line))
	}
	checked := 0
	for _, line := range lines {
		if line.Kind != grammar.Ingredient || line.Fault != nil || len(line.Items) == 0 || line.Items[0].Amount == nil ||
			strings.Contains(line.Text, "mozarella") { // so misspelt that what stands beside it decides
			continue
		}
		for _, factor := range []string{"2", "1/2", "1/3"} {
			items := make([]grammar.Item, len(line.Items))
			counted := false
			for i := range items {
				items[i] = engine.Multiply(line.Items[i], ratOf(t, factor))
				counted = counted || e.Resolve(items[i]).Status == engine.Counted
			}
			if counted {
				checked++
				readsBack(t, e, line.Text, items, engine.LineText(items, line.Items))
			}
		}
	}
	if checked < 1000 {
		t.Errorf("only %d lines checked", checked)
	}
}
