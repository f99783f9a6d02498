package engine_test

import (
	"strings"
	"testing"
	"time"

	"pottle/engine"
	"pottle/grammar"
)

// TestBeside asks how much there is of a second food, with an example that is
// counted.
func TestBeside(t *testing.T) {
	e := newEngine(t)
	for text, second := range map[string]string{
		"1 cup coffee with sugar": "sugar", "1 cup coffee with cream and sugar": "cream and sugar", "8 oz spaghetti with meatballs": "meatballs", "1 slice toast with butter": "butter",
		"1 baked potato with sour cream": "sour cream", "1 bagel with cream cheese": "cream cheese", "2 slices toast and butter": "butter", "3 cups popcorn with salt": "salt",
		"2 pancakes topped with syrup": "syrup", "1 cup oatmeal made with milk": "milk", "1 cup peanut butter and jelly": "jelly", "1 apple with peanut butter": "peanut butter",
	} {
		l := resolved(t, e, text)
		if l.Status != engine.Ask || l.Reason != engine.AskAmount || !strings.Contains(l.Why, "the amount of "+second) {
			t.Errorf("%q: %s %s %q %v", text, l.Status, l.Food, l.Why, l.Assumed)
			continue
		}
		for _, item := range grammar.ParseLine(l.Example).Items {
			if one := e.Resolve(item); one.Status != engine.Counted {
				t.Errorf("%q: example %q, of which %v is %s: %s", text, l.Example, item.Words, one.Status, one.Why)
			}
		}
	}
	for _, text := range []string{"1 apple with skin", "1 potato with skin", "1 can diced tomatoes with juice", "1 can diced tomatoes with basil and oregano", "1 can pork and beans", "1 cup half and half",
		"1 cup coffee with 2 tbsp half-and-half", "1 cup frozen peas and carrots", "1 cup tea with lemon", "1 lb shrimp with tails on", "1 cup yogurt with live cultures", "1 lb peeled and deveined shrimp",
		"1 cup chopped kale leaves and stems", "1 cup cottage cheese with pineapple"} {
		if l := resolved(t, e, text); l.Status != engine.Counted {
			t.Errorf("%q: %s %q", text, l.Status, l.Why)
		}
	}
	for _, text := range []string{"1 apple with skin", "1 potato with skin"} {
		if l := resolved(t, e, text); strings.Contains(strings.Join(l.Assumed, "; "), "not taken into account") {
			t.Errorf("%q: %q, though its figures are with the skin", text, l.Assumed)
		}
	}
	begun := time.Now()
	resolved(t, e, "1 cup coffee"+strings.Repeat(" with sugar plus cream", 12))
	resolved(t, e, "1 cup toast"+strings.Repeat(" plus butter", 30))
	if took := time.Since(begun); took > 5*time.Second {
		t.Errorf("many foods took %v", took)
	}
}
