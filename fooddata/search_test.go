package fooddata

import (
	"reflect"
	"slices"
	"strings"
	"testing"
)

func TestSearch(t *testing.T) {
	table := openTable(t)
	for _, tc := range []struct {
		words   string
		first   string // number
		missing string
	}{
		{"butter", "01001", ""},
		{"tomato", "11529", ""},
		{"tomatos", "11529", ""},
		{"zuchini", "11477", ""},                // a letter left out
		{"carot", "11124", ""},                  // a letter left out
		{"parmesean cheese", "01032", ""},       // a letter too many
		{"vanila extract", "02050", ""},         // two words, one wrong
		{"garlci powder", "02020", ""},          // swapped
		{"sharp chedder", "01270", ""},          // another letter
		{"bell pepper red", "11821", ""},        // another order
		{"unsalted butter melted", "01145", ""}, // a word that other foods have
		{"xyzzy olive oil", "04053", "xyzzy"},
		{"quinoa", "20035", ""},
		{"purple cabbage", "11112", ""},
		{"worcestershire", "06971", ""},
		{"shiitake mushrooms", "11238", ""},
	} {
		got := table.Search(Normalise(tc.words), 5)
		if len(got) == 0 {
			t.Errorf("Search(%q) finds nothing, want %s", tc.words, tc.first)
			continue
		}
		if got[0].Food.Number() != tc.first || tc.missing != "" && strings.Join(got[0].Missing, " ") != tc.missing {
			t.Errorf("Search(%q) = %s %s, missing %q, want %s, missing %q",
				tc.words, got[0].Food.Number(), got[0].Food, got[0].Missing, tc.first, tc.missing)
		}
	}
}

func TestSearchOrder(t *testing.T) {
	table := openTable(t)
	for _, words := range []string{"chicken breast", "beans", "milk low fat", "xyzzy", "raw"} {
		query := Normalise(words)
		got := table.Search(query, 50)
		for i, c := range got {
			if c.Score <= 0 || c.Score > 1 {
				t.Errorf("Search(%q): %s scores %v", words, c.Food, c.Score)
			}
			if i > 0 && c.Score > got[i-1].Score {
				t.Errorf("Search(%q): %s with %v after %v", words, c.Food, c.Score, got[i-1].Score)
			}
			for _, m := range c.Missing {
				if !slices.Contains(query, m) {
					t.Errorf("Search(%q): %s misses %q", words, c.Food, m)
				}
			}
		}
		if again := table.Search(query, 50); !reflect.DeepEqual(got, again) {
			t.Errorf("Search(%q) differs the second time", words)
		}
		if short := table.Search(query, 3); !reflect.DeepEqual(short, got[:min(3, len(got))]) {
			t.Errorf("Search(%q, 3) is not the start of Search(%q, 50)", words, words)
		}
	}
}

func TestSearchNothing(t *testing.T) {
	table := openTable(t)
	for _, tc := range []struct {
		words []string
		limit int
	}{
		{nil, 5},
		{[]string{}, 5},
		{[]string{"butter"}, 0},
		{[]string{"butter"}, -1},
		{[]string{"qqqq"}, 5},
		{[]string{""}, 5},
		{[]string{"\xff\xff\xff\xff\xff"}, 5},
	} {
		if got := table.Search(tc.words, tc.limit); len(got) != 0 {
			t.Errorf("Search(%q, %d) = %v, want nothing", tc.words, tc.limit, got)
		}
	}
	long := slices.Repeat([]string{"butter", "salted", "milk", "egg", "flour", "a", "b", "c", "d"}, 100)
	if got := table.Search(long, 5); len(got) == 0 {
		t.Error("a search of many words finds nothing")
	}
}

func TestOneErrorApart(t *testing.T) {
	for _, tc := range []struct {
		a, b string
		want bool
	}{
		{"carot", "carrot", true},
		{"carrot", "carot", true},
		{"carrto", "carrot", true},
		{"parrot", "carrot", true},
		{"carro", "carrot", true},
		{"carrotx", "carrot", true},
		{"xcarrot", "carrot", true},
		{"carrot", "carrot", false}, // none at all
		{"crat", "carrot", false},
		{"carbot", "parrot", false}, // two
		{"tacrro", "carrot", false},
		{"abc", "abcd", false}, // too short to judge
		{"", "", false},
	} {
		if got := oneErrorApart(tc.a, tc.b); got != tc.want {
			t.Errorf("oneErrorApart(%q, %q) = %t, want %t", tc.a, tc.b, got, tc.want)
		}
	}
}

func FuzzSearch(f *testing.F) {
	for _, s := range []string{"butter", "low fat milk", "", "\xff", "carot juise", strings.Repeat("a ", 40)} {
		f.Add(s)
	}
	table := openTable(f)
	f.Fuzz(func(t *testing.T, s string) {
		words := strings.Fields(s)
		for _, c := range table.Search(words, 10) {
			if c.Score <= 0 || c.Score > 1 || c.Food.IsZero() {
				t.Errorf("Search(%q): %+v", words, c)
			}
		}
		table.Named(s)
		table.NamedAnyOrder(words)
	})
}
