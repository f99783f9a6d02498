package grammar_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"pottle/grammar"
)

// TestParseRecipeFaults are texts that are no recipe at all.
func TestParseRecipeFaults(t *testing.T) {
	megabyte := strings.Repeat("1 cup sugar and spice\n", 1<<20/22)
	for _, test := range []struct{ name, text, want string }{
		{"Empty", "", "there is no text to read; paste a recipe with its ingredients, a line each"},
		{"Spaces", " \t\n \u00a0\r\n", "there is no text to read; paste a recipe with its ingredients, a line each"},
		{"NUL", "1 cup\x00 sugar", "this is not plain text; save it as a text file (UTF-8) or paste the recipe's words"},
		{"Binary", "\x7fELF\x02\x01\x01\x00\x00\xff", "this is not plain text; save it as a text file (UTF-8) or paste the recipe's words"},
		{"Latin1", "1 cup cr\xe8me fra\xeeche", "this is not plain text; save it as a text file (UTF-8) or paste the recipe's words"},
		{"Surrogate", "1 cup \xed\xa0\x80 sugar", "this is not plain text; save it as a text file (UTF-8) or paste the recipe's words"},
		{"Megabyte", megabyte, `"1 cup sugar and spic…" is too long for one recipe: 1024 kB, where 64 kB is the most; paste the title, the servings and the ingredients`},
		{"OneByteTooLong", strings.Repeat("x", grammar.MaxRecipe+1), `"xxxxxxxxxxxxxxxxxxxx…" is too long for one recipe: 65 kB, where 64 kB is the most; paste the title, the servings and the ingredients`},
		{"Lines", strings.Repeat("\n1 egg\n", grammar.MaxLines+1), "line 802: has more than 400 lines; paste one recipe at a time"},
	} {
		t.Run(test.name, func(t *testing.T) {
			r, err := grammar.ParseRecipe(test.text)
			checkFault(t, err, test.want)
			if r != nil {
				t.Errorf("a recipe is returned with the fault: %v", r)
			}
		})
	}
}

// TestParseRecipeLimits are texts that are just within the limits.
func TestParseRecipeLimits(t *testing.T) {
	for _, test := range []struct{ name, text string }{
		{"Bytes", strings.Repeat("1 cup sugar and spice and\n", grammar.MaxRecipe)[:grammar.MaxRecipe/70]},
		{"Lines", strings.Repeat("1 egg\n", grammar.MaxLines)},
		{"OneLongLine", strings.Repeat("x", grammar.MaxRecipe)},
	} {
		t.Run(test.name, func(t *testing.T) {
			r, err := grammar.ParseRecipe(test.text)
			if err != nil {
				t.Fatal(err)
			}
			checkKept(t, test.text, r)
		})
	}
}

// TestParseLineFaults are amounts that cannot be; the rest of the line is read.
func TestParseLineFaults(t *testing.T) {
	const hint = "is not an amount a kitchen has; write it like 2, 1/2, 1 1/2 or 0.75"
	const fillets = "can be read as more than one amount; write it like \"4 (6 oz) fillets\""
	const lost = "has a sign that was lost, perhaps a fraction; write it like 2, 1/2, 1 1/2 or 0.75"
	const several = "can be read as more than one amount; write it like 2, 1/2, 1 1/2 or 0.75"
	for _, test := range []struct{ line, fault, read string }{
		{"1/0 cup sugar", `line 1, column 1: "1/0" ` + hint, "(no amount) | sugar"},
		{"• 1/0 cup sugar", `line 1, column 3: "1/0" ` + hint, "(no amount) | sugar"},
		{"🧈 🧈 1/0 cup sugar", `line 1, column 5: "1/0" ` + hint, "(no amount) | sugar"},
		{"1. 1/0 cup sugar", `line 1, column 4: "1/0" ` + hint, "(no amount) | sugar"},
		{"1 1/0 cup sugar", `line 1, column 1: "1 1/0" ` + hint, "(no amount) | sugar"},
		{"2 to 1/0 cups sugar", `line 1, column 6: "1/0" ` + hint, "(no amount) | sugar"},
		{"crème fraîche 1/0 cup", `line 1, column 15: "1/0" ` + hint, "(no amount) | crème fraîche"},
		{"1 egg and 1/0 cup milk", `line 1, column 11: "1/0" ` + hint, "1 | egg + (no amount) | milk"},
		{"1 egg, 1/0 cup milk, 2 tsp salt", `line 1, column 8: "1/0" ` + hint, "1 | egg + (no amount) | milk + 2 tsp | salt"},
		{"1 lemon or 1/0 cup juice", `line 1, column 12: "1/0" ` + hint, "1 | lemon | or: [1 | juice]"},
		{"juice of 1/0 lemons", `line 1, column 10: "1/0" ` + hint, "(no amount) | lemons | juice"},
		{"• 1 egg (and 1/0 cup milk)", `line 1, column 14: "1/0" ` + hint, "1 | egg + (no amount) | milk"},
		{"1 cup plus 1/0 tbsp sugar", `line 1, column 12: "1/0" ` + hint, "(no amount) | sugar"},
		{"123456789012345678901234567890 g sugar", `line 1, column 1: "123456789012345678901234567890" ` + hint, "(no amount) | sugar"},
		{"1/123456789012345678901234567890 g sugar", `line 1, column 1: "1/123456789012345678901234567890" ` + hint, "(no amount) | sugar"},
		{"0.123456789012345678901234567890 g sugar", `line 1, column 1: "0.123456789012345678901234567890" ` + hint, "(no amount) | sugar"},
		{"1234567890 g sugar", `line 1, column 1: "1234567890" ` + hint, "(no amount) | sugar"},
		{"999999999 dozen eggs", `line 1, column 1: "999999999" ` + hint, "(no amount) | eggs"},
		{"hundred hundred hundred hundred hundred eggs", `line 1, column 1: "hundred hundred hundred hundred hundred" ` + hint, "(no amount) | eggs"},
		{strings.Repeat("x", grammar.MaxLine+1), `line 1, column 1: "xxxxxxxxxxxxxxxxxxxx…" is too long to be one ingredient; put each ingredient on a line of its own`, "(not read)"},
		{strings.Repeat("é", grammar.MaxLine), `line 1, column 1: "éééééééééééééééééééé…" is too long to be one ingredient; put each ingredient on a line of its own`, "(not read)"},
		// One number in two pieces, or a fraction of which a part is lost.
		{"1 2 cups flour", `line 1, column 1: "1 2 cups" ` + several, "(no amount) | flour"},
		{"l 2 cups flour", `line 1, column 1: "l 2 cups" ` + several, `(no amount) | flour | note: "l" read as 1`},
		{"1, 5 cups flour", `line 1, column 1: "1, 5 cups" ` + several, "(no amount) | flour"},
		{"1, 5 kg beef", `line 1, column 1: "1, 5 kg" ` + several, "(no amount) | beef"},
		{"1..5 cups sugar", `line 1, column 1: "1..5 cups" ` + several, "(no amount) | sugar"},
		{"1 // 2 cup", `line 1, column 1: "1 // 2 cup" ` + several, "(no amount)"},
		{"1/2/3 cups sugar", `line 1, column 1: "1/2/3 cups" ` + several, "(no amount) | sugar"},
		{"/2 cup milk", `line 1, column 1: "/2 cup" ` + several, "(no amount) | milk"},
		{"1.1/2 cups sugar", `line 1, column 1: "1.1/2 cups" ` + several, "(no amount) | sugar"},
		{"one 1/2 cup sugar", `line 1, column 1: "one 1/2 cup" ` + several, "(no amount) | sugar"},
		{"2/8 oz pkgs cream cheese", `line 1, column 1: "2/8 oz pkgs" ` + several, "(no amount) | cream cheese"},
		{"1/15 oz can beans", `line 1, column 1: "1/15 oz can" ` + several, "(no amount) | beans"},
		{"2-8 oz blocks cream cheese", `line 1, column 1: "2-8 oz" ` + fillets, "(no amount) | blocks cream cheese"},
		{"4-6 oz salmon fillets", `line 1, column 1: "4-6 oz" ` + fillets, "(no amount) | salmon fillets"},
		{"1? cups milk", `line 1, column 1: "1? c" ` + lost, "1 | cups milk"},
		{"1\ufffd cups milk", "line 1, column 1: \"1\ufffd\" " + lost, "1 cup | milk"},
		{"2 / 300 g onions", `line 1, column 1: "2 / 300 g" ` + several, "(no amount) | onions"},
	} {
		line := grammar.ParseLine(test.line)
		if line.Fault == nil {
			t.Errorf("%.40q: no fault, read as %s", test.line, describe(line.Items))
			continue
		}
		if got := line.Fault.Error(); got != test.fault {
			t.Errorf("%.40q:\n got %s\nwant %s", test.line, got, test.fault)
		}
		if got := describe(line.Items); got != test.read {
			t.Errorf("%.40q:\n got %s\nwant %s", test.line, got, test.read)
		}
		if line.Text != test.line {
			t.Errorf("%.40q: kept as %.40q", test.line, line.Text)
		}
	}
}

// TestStrangeLines are lines that are hardly ingredients and no faults either.
func TestStrangeLines(t *testing.T) {
	deep := strings.Repeat("(", 250) + "sugar" + strings.Repeat(")", 250)
	choices := "1 cup a1" + strings.Repeat(" or b1", 60)
	for _, test := range []struct{ line, read string }{
		{"", "(no amount)"},
		{"   ", "(no amount)"},
		{"(((((((", "(no amount)"},
		{"))))", "(no amount)"},
		{"()", "(no amount)"},
		{"1 ()", "1"},
		{")1 cup( sugar", "1 cup | sugar"},
		{"1 cup (sugar", "1 cup | sugar"},
		{"1 cup sugar)", "1 cup | sugar"},
		{"1 cup [sugar)", "1 cup | aside: sugar"},
		{deep, "(no amount) | aside: " + strings.Repeat("(", 249) + "sugar" + strings.Repeat(")", 249)},
		{"1 cup " + deep + " milk", "1 cup | milk | aside: " + strings.Repeat("(", 249) + "sugar" + strings.Repeat(")", 249)},
		{"2 cups سكر", "2 cup | سكر"},
		{"كوب سكر", "(no amount) | كوب سكر"},
		{"\u200f\u202b2 cups sugar\u202c", "2 cup | sugar"},
		{"砂糖 100 g", "100 g | 砂糖"},
		{"🎉🎉🎉", "(no amount)"},
		{"👩‍🍳", "(no amount)"},
		{"...", "(no amount)"},
		{"---", "(no amount)"},
		{",,,,", "(no amount)"},
		{"or", "(no amount)"},
		{"and", "(no amount) | and"},
		{"1", "1"},
		{"a", "1"},
		{"1 cup", "1 cup"},
		{"1 cup of", "1 cup"},
		{"x", "(no amount)"},
		{"0 cups sugar", "0 cup | sugar"},
		{"-1 cup sugar", "1 cup | sugar"},
		{choices, ""},
		{strings.Repeat("1 egg and ", 50), ""},
		{strings.Repeat("juice of ", 60), ""},
		{strings.Repeat("1 ", 290), ""},
		{strings.Repeat("½", 280), ""},
		{strings.Repeat("1-", 290), ""},
		{strings.Repeat("1 cup ", 90), ""},
		{strings.Repeat("1/2 (", 110), ""},
	} {
		line := grammar.ParseLine(test.line)
		if len(line.Items) == 0 {
			t.Errorf("%.40q: no items", test.line)
		}
		if got := describe(line.Items); test.read != "" && got != test.read {
			t.Errorf("%.40q:\n got %s\nwant %s", test.line, got, test.read)
		}
		if line.Fault != nil {
			t.Errorf("%.40q: %v", test.line, line.Fault)
		}
		if want := strings.TrimSpace(test.line); line.Text != want {
			t.Errorf("%.40q: kept as %.40q", test.line, line.Text)
		}
	}
}

// TestLongLines shows that a line too long to read is kept among the others.
func TestLongLines(t *testing.T) {
	long := "1 cup sugar " + strings.Repeat("x", grammar.MaxLine)
	text := "Cake\n1 egg\n" + long + "\n2 eggs\nMethod\n" + long + "\n"
	r, err := grammar.ParseRecipe(text)
	if err != nil {
		t.Fatal(err)
	}
	checkKept(t, text, r)
	want := `line 3, column 1: "1 cup sugar xxxxxxxx…" is too long to be one ingredient; put each ingredient on a line of its own`
	if got := fmt.Sprint(r.Lines[2].Fault); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	if last := r.Lines[5]; last.Kind != grammar.Note || last.Fault != nil {
		t.Errorf("a long line of directions is a %s with fault %v", kindNames[last.Kind], last.Fault)
	}
	if len(r.Method) != 1 || r.Method[0] != long {
		t.Errorf("the directions are %.60q", r.Method)
	}
}

func TestParseRequestFaults(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"Empty", "", "there is no text to read; paste a recipe with its ingredients, a line each"},
		{"Spaces", " \n ", "there is no text to read; paste a recipe with its ingredients, a line each"},
		{"OnlySigns", "!?!", `there is no question to read; ask like "sodium in 1 tsp soy sauce"`},
		{"NUL", "sodium in \x00", "this is not plain text; save it as a text file (UTF-8) or paste the recipe's words"},
		{"InvalidUTF8", "sodium in cr\xe8me", "this is not plain text; save it as a text file (UTF-8) or paste the recipe's words"},
		{"Long", "sodium in " + strings.Repeat("x", grammar.MaxRequest), `"sodium in xxxxxxxxxx…" is too long for one question; paste a recipe with a line for each ingredient, or ask about one food`},
		{"Megabyte", strings.Repeat("sodium in salt ", 1<<20/15), `"sodium in salt sodiu…" is too long for one recipe: 1024 kB, where 64 kB is the most; paste the title, the servings and the ingredients`},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := grammar.ParseRequest(test.text)
			checkFault(t, err, test.want)
		})
	}
}

func checkFault(t *testing.T, err error, want string) {
	t.Helper()
	if err == nil {
		t.Fatalf("no error, want %s", want)
	}
	var fault *grammar.Fault
	if !errors.As(err, &fault) {
		t.Errorf("the error is a %T, not a *grammar.Fault", err)
	}
	if err.Error() != want {
		t.Errorf("got %s\nwant %s", err, want)
	}
}

// TestFaultError shows how the parts of a fault are put together.
func TestFaultError(t *testing.T) {
	for _, test := range []struct {
		fault grammar.Fault
		want  string
	}{
		{grammar.Fault{Reason: "is wrong"}, "is wrong"},
		{grammar.Fault{Part: "1/0", Reason: "is wrong"}, `"1/0" is wrong`},
		{grammar.Fault{Line: 3, Reason: "is wrong"}, "line 3: is wrong"},
		{grammar.Fault{Line: 3, Column: 7, Part: "1/0", Reason: "is wrong"}, `line 3, column 7: "1/0" is wrong`},
		{grammar.Fault{Line: 3, Part: "a\x1bb", Reason: "is wrong", Hint: "write it right"}, `line 3: "a\x1bb" is wrong; write it right`},
	} {
		if got := test.fault.Error(); got != test.want {
			t.Errorf("got %s, want %s", got, test.want)
		}
	}
}

// TestRepeated reads lines and requests as long as may be that repeat one
// thing: the time must not grow with the number of ways to read them.
func TestRepeated(t *testing.T) {
	for _, part := range []string{
		"1 ", "½", "a ", "1-", "1/2 (", "1 cup ", "1 cup/", "1 cup plus ", "1 lb to ", "1 of a ", "(1 cup) ", "(x)", "half and ",
		"about ", "large ", "each ", "or ", "1 or ", "1 cup or ", "a or ", "a/b/", "1 egg or ", "1 egg and ", "1 egg, ", "1 x plus 1, ",
		"juice of ", "1 cup a (or 1 cup b), ", "1 a, 1 b or 1 c (and 1 cup d), ", "1 cup x (1 cup y) ", "(or 1 cup x) ", "x or y (or z) / ",
		"use x instead of ", "x vs y or ", "at most 1 g ",
	} {
		text := strings.Repeat(part, grammar.MaxRequest/len(part))
		start := time.Now()
		checkLine(t, grammar.ParseLine(text))
		if _, err := grammar.ParseRequest(text); err != nil {
			t.Errorf("%q: %v", part, err)
		}
		if took := time.Since(start); took > slowest {
			t.Errorf("%q took %v", part, took)
		}
	}
}
