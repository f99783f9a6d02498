package fooddata

import "testing"

func TestNamed(t *testing.T) {
	table := openTable(t)
	for _, tc := range []struct {
		name, number string // "" means not found
		open         bool
	}{
		{"butter", "01001", true}, // salted or not
		{"Butter", "01001", true},
		{"salted butter", "01001", false},
		{"all-purpose flour", "20081", false},
		{"All Purpose Flour", "20081", false},
		{"egg", "01123", false},
		{"eggs", "01123", false},
		{"tomatoes", "11529", false},
		{"half & half", "01049", false},
		{"milk", "", true}, // which milk is the list's to say
		{"ground beef", "", true},
		{"rice", "", true},
		{"sugar", "19335", false},
		{"olive oil", "04053", false},
		{"garlic", "11215", false},
	} {
		e, ok := table.Named(tc.name)
		if !ok || tc.number != "" && e.Food.Number() != tc.number || e.Open != tc.open {
			t.Errorf("Named(%q) = %s %v, open %t, %t, want %s, open %t", tc.name, e.Name, e.Food, e.Open, ok, tc.number, tc.open)
		}
		if e.Open && len(table.Family(e.Food)) < 2 {
			t.Errorf("%q is open, but its family is %v", tc.name, table.Family(e.Food))
		}
	}
	for _, name := range []string{"", " ", "!?", "the", "butter butter", "zzz", "\xff", "flour all purpose extra fancy"} {
		if e, ok := table.Named(name); ok {
			t.Errorf("Named(%q) = %v, want nothing", name, e.Food)
		}
	}
}

func TestNamedAnyOrder(t *testing.T) {
	table := openTable(t)
	for _, tc := range []struct{ words, number string }{
		{"flour all-purpose", "20081"},
		{"oil olive", "04053"},
		{"butter unsalted", "01145"},
	} {
		words := Normalise(tc.words)
		if e, ok := table.NamedAnyOrder(words); !ok || e.Food.Number() != tc.number {
			t.Errorf("NamedAnyOrder(%q) = %v, %t, want %s", words, e.Food, ok, tc.number)
		}
	}
	if e, ok := table.NamedAnyOrder(nil); ok {
		t.Errorf("NamedAnyOrder of no words = %v", e.Food)
	}
	// A word more or twice is another name.
	if e, ok := table.NamedAnyOrder([]string{"butter", "butter"}); ok {
		t.Errorf("NamedAnyOrder(butter, butter) = %v", e.Food)
	}
	// The words are left as they were.
	words := []string{"oil", "olive"}
	table.NamedAnyOrder(words)
	if words[0] != "oil" {
		t.Errorf("NamedAnyOrder sorted its argument: %q", words)
	}
}

// TestEveryNameFindsItsFood looks every name of the table up.
func TestEveryNameFindsItsFood(t *testing.T) {
	table := openTable(t)
	for i := range table.Names() {
		n := table.file.Name(i)
		name := table.file.Text(n.Text)
		e, ok := table.Named(name)
		if !ok || e.Food.index != n.Food {
			t.Errorf("Named(%q) = %v, %t", name, e.Food, ok)
		}
		if e, ok := table.NamedAnyOrder(Normalise(name)); ok && e.Food.index != n.Food && e.Food.Curated() == (Food{table, n.Food}).Curated() {
			t.Errorf("NamedAnyOrder(%q) = %v, want %v or nothing", name, e.Food, Food{table, n.Food})
		}
	}
}
