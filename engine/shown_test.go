package engine_test

import (
	"regexp"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

// TestShown shows that no fraction is written that a kitchen does not have,
// though the figures are of the exact amounts.
func TestShown(t *testing.T) {
	const text = "Bake\nServes 8\n1 rotisserie chicken, shredded\n12 corn tortillas\n1 (28 oz) can red enchilada sauce\n1 cup sour cream\n2 cups shredded cheddar cheese\n0.35 oz yeast\n1 1/2 cups milk\n"
	e := newEngine(t)
	odd := regexp.MustCompile(`\d{2,}/\d{2,}|/(?:5|7|9|1[0-57-9])\b`)
	for _, by := range []string{"5680/13221", "12/13", "7/11"} {
		s := scaleBy(t, scaledFrom(t, text), ratOf(t, by))
		for _, l := range s.Lines {
			if odd.MatchString(l.Kitchen) {
				t.Errorf("by %s: %q", by, l.Kitchen)
			}
		}
		a := e.Analyse(s.Recipe)
		for i := range a.Lines {
			if l := &a.Lines[i]; l.Kind == grammar.Ingredient && odd.MatchString(l.Shown(false)) {
				t.Errorf("by %s: the line is shown as %q", by, l.Shown(false))
			}
		}
		for _, c := range e.Suggest(s.Recipe, engine.All, nil, nil) {
			if odd.MatchString(c.What) {
				t.Errorf("by %s: suggested: %q", by, c.What)
			}
		}
	}
	s := scaleBy(t, scaledFrom(t, text), ratOf(t, "5680/13221"))
	if got, want := s.Lines[2].Kitchen, "1/2 (28 oz) can red enchilada sauce, 12 oz in all"; got != want {
		t.Errorf("the part of a can: %q, want %q", got, want)
	}
	if notes := strings.Join(s.Notes, "\n"); !strings.Contains(notes, "1/2 rotisserie chicken, shredded is 16 % more") {
		t.Errorf("not told how far off the chicken is:\n%s", notes)
	}
	a := e.Analyse(scaledFrom(t, text))
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Shown(false) != l.Text {
			t.Errorf("as written: %q is shown as %q", l.Text, l.Shown(false))
		}
	}
}
