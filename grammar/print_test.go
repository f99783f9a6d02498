package grammar_test

import (
	"slices"
	"strings"
	"testing"

	"pottle/grammar"
)

// food stands for the food in a line whose amount alone is of interest.
const food = "kohlrabi"

// printTests are amounts and how they are written; an empty want means
// unchanged.
var printTests = []struct{ amount, want string }{
	{"2", ""},
	{"0", ""},
	{"1/2", ""},
	{"2 1/2", ""},
	{"0.35", ""},
	{"1.333", ""},
	{"0.123456789", ""},
	{"999999999", ""},
	{"5/7", ""},
	{"1 5/7", ""},
	{"1/999999999", ""},
	{"999999999 1/999999999", "999999999 1/999999999"},
	{"10/4", "2 1/2"},
	{"1,5 l", "1 1/2 l"},
	{"1 3/16 tsp", ""},
	{"3/32 tsp", "0.09375 tsp"},
	{"2 to 3", ""},
	{"1/2 to 3/4 cup", ""},
	{"2 cup", ""},
	{"2 cups", "2 cup"},
	{"1 fl oz", ""},
	{"2 metric cup", ""},
	{"1 imperial pint", ""},
	{"1 large", ""},
	{"2 extra large", ""},
	{"1 large bunch", ""},
	{"1 heaped tsp", ""},
	{"1 inch", ""},
	{"2 clove", ""},
	{"1 (14 1/2 oz) can", ""},
	{"1 can (14 oz)", "1 (14 oz) can"},
	{"2 (15 to 16 oz) large can", ""},
	{"2 can (28 oz total)", ""},
	{"3 (6 oz each)", ""},
	{"2 medium (8 oz each)", ""},
	{"1 cup plus 2 tbsp", ""},
	{"1 lb 8 oz", "1 lb plus 8 oz"},
	{"1 (400 g) tin plus 2 tbsp", ""},
	{"8 oz (225 g)", ""},
	{"8 oz / 225 g", "8 oz (225 g)"},
	{"1 cup (8 oz / 225 g)", "1 cup (8 oz) (225 g)"},
	{"1 lb plus 8 oz (680 g)", ""},
	{"2 stick (1 cup total)", ""},
	{"3 (1 cup sliced total)", ""},
	{"2 to 3 (8 oz total)", ""},
}

func TestAmountString(t *testing.T) {
	for _, test := range printTests {
		want := test.want
		if want == "" {
			want = test.amount
		}
		line := grammar.ParseLine(test.amount + " " + food)
		if line.Fault != nil || line.Items[0].Amount == nil {
			t.Errorf("%q: read as %s (%v)", test.amount, describe(line.Items), line.Fault)
			continue
		}
		if got := line.Items[0].Amount.String(); got != want {
			t.Errorf("%q is written %q, want %q", test.amount, got, want)
		}
		checkPrinted(t, test.amount, line.Items)
	}
}

// TestAmountStringOfCorpus holds the property for all lines that the engine
// is tested with.
func TestAmountStringOfCorpus(t *testing.T) {
	lines := corpusLines(t)
	for _, recipe := range corpusRecipes(t) {
		lines = append(lines, strings.Split(recipe, "\n")...)
	}
	for _, group := range lineTests {
		for _, test := range group.cases {
			lines = append(lines, test.line)
		}
	}
	for _, line := range lines {
		checkPrinted(t, line, grammar.ParseLine(line).Items)
	}
}

// checkPrinted reports amounts that, written out, are read as others.
func checkPrinted(t *testing.T, line string, items []grammar.Item) {
	t.Helper()
	for _, item := range items {
		checkPrinted(t, line, item.Or)
		if item.Amount == nil {
			continue
		}
		printed := item.Amount.String()
		again := grammar.ParseLine(printed + " " + food)
		got := again.Items[0]
		switch {
		case again.Fault != nil || got.Amount == nil || len(again.Items) > 1:
			t.Errorf("%q: its amount %q is read as %s (%v)", line, printed, describe(again.Items), again.Fault)
		case !sameAmount(*item.Amount, *got.Amount):
			t.Errorf("%q: its amount %q is read as %q", line, printed, got.Amount)
		}
	}
}

func sameAmount(a, b grammar.Amount) bool {
	return slices.EqualFunc(a.Terms, b.Terms, sameTerm) && slices.EqualFunc(a.Same, b.Same, sameAmount) &&
		slices.Equal(a.Words, b.Words) && a.Total == b.Total
}

func sameTerm(a, b grammar.Term) bool {
	if (a.Each == nil) != (b.Each == nil) || a.Each != nil && !sameTerm(*a.Each, *b.Each) {
		return false
	}
	return sameQuantity(a.Quantity, b.Quantity) && a.Measure == b.Measure && a.Size == b.Size && a.Heaped == b.Heaped
}

func sameQuantity(a, b grammar.Quantity) bool {
	return a.Low.Cmp(b.Low) == 0 && a.High.Cmp(b.High) == 0
}
