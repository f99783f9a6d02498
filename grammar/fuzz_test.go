package grammar_test

import (
	"errors"
	"testing"
	"time"
	"unicode/utf8"

	"pottle/grammar"
)

// slowest is the most that the reading of one text may take; the limits on
// its length keep it far below, even on a busy machine.
const slowest = 5 * time.Second

// FuzzLine holds that any line gives items, loses nothing, and writes its
// amounts so that they are read again.
func FuzzLine(f *testing.F) {
	for _, line := range corpusLines(f) {
		f.Add(line)
	}
	for _, group := range lineTests {
		for _, test := range group.cases {
			f.Add(test.line)
		}
	}
	f.Fuzz(func(t *testing.T, text string) {
		if !utf8.ValidString(text) {
			t.Skip("no text")
		}
		start := time.Now()
		line := grammar.ParseLine(text)
		if took := time.Since(start); took > slowest {
			t.Errorf("took %v", took)
		}
		checkLine(t, line)
		checkPrinted(t, text, line.Items)
	})
}

// checkLine reports what no line that was read may be.
func checkLine(t *testing.T, line grammar.Line) {
	t.Helper()
	if len(line.Items) == 0 {
		t.Errorf("no items in %q", line.Text)
	}
	for _, item := range line.Items {
		checkItem(t, item)
	}
	if f := line.Fault; f != nil {
		if f.Line != line.Number {
			t.Errorf("%q: the fault names line %d of line %d", line.Text, f.Line, line.Number)
		}
		if f.Column < 1 || f.Column > utf8.RuneCountInString(line.Text) {
			t.Errorf("%q: the fault names column %d", line.Text, f.Column)
		}
	}
}

func checkItem(t *testing.T, item grammar.Item) {
	t.Helper()
	if (item.Amount == nil) == (item.Uncounted == "") {
		t.Errorf("amount %v, uncounted %q: one of them must be", item.Amount, item.Uncounted)
	}
	if item.Amount != nil {
		checkAmount(t, *item.Amount)
	}
	for _, or := range item.Or {
		checkItem(t, or)
	}
}

func checkAmount(t *testing.T, a grammar.Amount) {
	t.Helper()
	if len(a.Terms) == 0 {
		t.Error("an amount without terms")
	}
	for _, term := range a.Terms {
		for term := &term; term != nil; term = term.Each {
			if q := term.Quantity; q.Low == nil || q.High == nil || q.Low.Cmp(q.High) > 0 || q.Low.Sign() < 0 {
				t.Errorf("the quantity %v to %v", q.Low, q.High)
			}
		}
	}
	for _, same := range a.Same {
		checkAmount(t, same)
	}
}

// FuzzRecipe holds that every line of any text is kept, or the text refused
// with a fault.
func FuzzRecipe(f *testing.F) {
	for _, recipe := range corpusRecipes(f) {
		f.Add(recipe)
	}
	for _, test := range recipeTests {
		f.Add(test.text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		start := time.Now()
		r, err := grammar.ParseRecipe(text)
		if took := time.Since(start); took > slowest {
			t.Errorf("took %v", took)
		}
		if err != nil {
			if fault := new(grammar.Fault); !errors.As(err, &fault) || fault.Reason == "" {
				t.Errorf("the error is %v", err)
			}
			return
		}
		checkKept(t, text, r)
		for _, line := range r.Lines {
			if line.Kind == grammar.Ingredient {
				checkLine(t, line)
			} else if line.Items != nil {
				t.Errorf("a %s with items: %q", kindNames[line.Kind], line.Text)
			}
		}
		if q := r.Servings; q.Low != nil && (q.Low.Sign() <= 0 || q.Low.Cmp(q.High) > 0) {
			t.Errorf("serves %v to %v", q.Low, q.High)
		}
	})
}

// FuzzRequest holds that any text gives a request with what its kind needs,
// or a fault.
func FuzzRequest(f *testing.F) {
	for _, test := range requestTests {
		f.Add(test.text)
	}
	for _, test := range changeTests {
		f.Add(test.text)
	}
	for _, line := range corpusLines(f) {
		f.Add("sodium in " + line)
		f.Add(line + " vs " + line)
	}
	f.Fuzz(func(t *testing.T, text string) {
		start := time.Now()
		r, err := grammar.ParseRequest(text)
		if took := time.Since(start); took > slowest {
			t.Errorf("took %v", took)
		}
		if err != nil {
			if fault := new(grammar.Fault); !errors.As(err, &fault) || fault.Reason == "" {
				t.Errorf("the error is %v", err)
			}
			return
		}
		checkRequest(t, r)
	})
}

func checkRequest(t *testing.T, r grammar.Request) {
	t.Helper()
	amounts := -1 // any number
	switch r.Kind {
	case grammar.Figures, grammar.GramsOf, grammar.NutrientOf, grammar.ChoicesOf, grammar.FixLine:
		amounts = 1
	case grammar.Holds, grammar.Convert:
		if amounts = 1; r.Food == "" && r.Unit == "" {
			t.Errorf("kind %d without what it is asked in", r.Kind)
		}
	case grammar.Compare:
		if len(r.Amounts) < 2 {
			t.Errorf("compares %d", len(r.Amounts))
		}
	case grammar.ScalePan:
		amounts = 2
	case grammar.Suitable, grammar.Drop, grammar.FoodSuits:
		if r.Food == "" || r.Kind == grammar.FoodSuits && r.New == "" {
			t.Errorf("kind %d without a food", r.Kind)
		}
	case grammar.RecipeFigure:
		if r.Nutrient == "" && !r.Hundred {
			t.Error("a figure without a name")
		}
	case grammar.UseInstead:
		if r.New == "" {
			t.Error("use of nothing")
		}
	case grammar.Fit:
		if len(r.Limits) == 0 {
			t.Error("nothing to fit to")
		}
	case grammar.SetServing:
		if (r.Servings.Low == nil) == (r.Fault == nil) {
			t.Errorf("servings %v with fault %v", r.Servings, r.Fault)
		}
	}
	if amounts >= 0 && len(r.Amounts) != amounts {
		t.Errorf("kind %d with the amounts %q", r.Kind, r.Amounts)
	}
	for _, amount := range r.Amounts {
		if amount == "" {
			t.Errorf("kind %d with the amounts %q", r.Kind, r.Amounts)
		}
	}
	if r.Else != nil {
		checkRequest(t, *r.Else)
	}
}
