package fooddata

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// openTable opens the embedded table.
func openTable(tb testing.TB) *Table {
	tb.Helper()
	table, err := Open()
	if err != nil {
		tb.Fatal(err)
	}
	return table
}

// food returns the food with a number.
func food(tb testing.TB, number string) Food {
	tb.Helper()
	f, ok := openTable(tb).Food(number)
	if !ok {
		tb.Fatalf("no food %s", number)
	}
	return f
}

func TestTable(t *testing.T) {
	table := openTable(t)
	again, err := Open()
	if err != nil || again != table {
		t.Errorf("Open again = %p, %v, want the same table %p", again, err, table)
	}
	if !strings.Contains(table.Release(), "Release 28") {
		t.Errorf("Release() = %q, want Release 28 in it", table.Release())
	}
	foods := slices.Collect(table.All())
	if len(foods) != table.Len() || len(foods) < 3000 {
		t.Errorf("%d foods, Len() = %d, want the same and 3000 at least", len(foods), table.Len())
	}
	if got := foods[0].Number(); got != "01001" {
		t.Errorf("first food is %s, want 01001", got)
	}
	if got := foods[len(foods)-1].Number(); got != "90560" {
		t.Errorf("last food is %s, want 90560", got)
	}
	if table.Names() < 700 {
		t.Errorf("%d names, want 700 at least", table.Names())
	}
	if _, err := decode(embedded[:len(embedded)-1] + "x"); err == nil {
		t.Error("a table with another last byte opens: the checksum does not hold")
	}
}

// TestTableInvariants checks what must hold of every food.
func TestTableInvariants(t *testing.T) {
	table := openTable(t)
	displayNames := make(map[string]string)
	last := ""
	curated := 0
	for f := range table.All() {
		number := f.Number()
		if number <= last {
			t.Errorf("food %s after %s", number, last)
		}
		last = number
		if again, ok := table.Food(number); !ok || again != f {
			t.Errorf("%s: Food = %v, %t", number, again, ok)
		}
		if f.Name() == "" || f.Description() == "" || f.Group() == "" || f.AddedSugarBasis() == "" {
			t.Errorf("%s: an empty text", number)
		}
		key := strings.Join(Normalise(f.Name()), " ")
		if other, taken := displayNames[key]; taken {
			t.Errorf("%s and %s share the display name %q", other, number, f.Name())
		}
		displayNames[key] = number
		if strings.ToLower(f.Name()) != f.Name() {
			t.Errorf("%s: display name %q is not in lower case", number, f.Name())
		}
		if f.Curated() {
			curated++
			if e, ok := table.Named(f.Name()); !ok || e.Food != f {
				t.Errorf("%s: its display name %q stands for %v", number, f.Name(), e.Food)
			}
		}
		checkAmounts(t, f)
		checkPortions(t, f)
		if family := table.Family(f); !slices.Contains(family, f) {
			t.Errorf("%s is not in its own family", number)
		}
		contains, may := f.Allergens()
		for _, a := range may {
			if slices.Contains(contains, a) {
				t.Errorf("%s both contains and may contain %s", number, a)
			}
		}
		if d, like, ok := f.Density(); ok && (d <= 0 || d > 2 || like == "") {
			t.Errorf("%s: density %v, %q", number, d, like)
		}
		if refuse, what := f.Refuse(); refuse < 0 || refuse >= 100 || refuse == 0 && what != "" {
			t.Errorf("%s: refuse %v, %q", number, refuse, what)
		}
	}
	if curated < 700 {
		t.Errorf("%d curated foods, want 700 at least", curated)
	}
}

func checkAmounts(t *testing.T, f Food) {
	t.Helper()
	if _, ok := f.Per100g(Energy).Value(); !ok {
		t.Errorf("%s: no energy", f.Number())
	}
	for n := range Nutrient(NumNutrients) {
		v, ok := f.Per100g(n).Value()
		if !ok {
			if v != 0 {
				t.Errorf("%s: %s has no value and is %v", f.Number(), n, v)
			}
			continue
		}
		if v < 0 || math.IsNaN(v) || n.Unit() == "g" && v > 100.5 {
			t.Errorf("%s: %s is %v %s", f.Number(), n, v, n.Unit())
		}
	}
	sugars, ok1 := f.Per100g(Sugars).Value()
	added, ok2 := f.Per100g(AddedSugars).Value()
	if ok1 && ok2 && added > sugars {
		t.Errorf("%s: %v g added sugars of %v g sugars", f.Number(), added, sugars)
	}
	if ok2 == (f.AddedSugarBasis() == "not known") {
		t.Errorf("%s: added sugars known is %t, basis %q", f.Number(), ok2, f.AddedSugarBasis())
	}
}

func checkPortions(t *testing.T, f Food) {
	t.Helper()
	for p := range f.Portions() {
		if p.Amount <= 0 || p.Grams <= 0 || p.Measure == "" || p.Source == "" {
			t.Errorf("%s: portion %+v", f.Number(), p)
		}
		if !slices.Contains([]string{"", "mini", "extra small", "small", "medium", "large", "extra large", "jumbo"}, p.Size) {
			t.Errorf("%s: size %q", f.Number(), p.Size)
		}
		if p.Measure != strings.ToLower(p.Measure) || strings.ContainsAny(p.Measure, "()") {
			t.Errorf("%s: measure %q", f.Number(), p.Measure)
		}
	}
}

func TestFood(t *testing.T) {
	table := openTable(t)
	for _, tc := range []struct {
		number string
		ok     bool
	}{
		{"01001", true},
		{"1001", false},   // four digits
		{"001001", false}, // six
		{"99999", false},
		{"", false},
		{"01OO1", false}, // letters
		{"-1001", false},
		{"01001\x00", false},
	} {
		if f, ok := table.Food(tc.number); ok != tc.ok || ok == f.IsZero() {
			t.Errorf("Food(%q) = %v, %t, want %t", tc.number, f, ok, tc.ok)
		}
	}
	if got := (Food{}).String(); got != "no food" {
		t.Errorf("the zero Food is %q", got)
	}
}

// TestNoValueIsNotZero holds three foods against the source: a figure that it
// does not have, a figure of zero, and a figure.
func TestNoValueIsNotZero(t *testing.T) {
	for _, tc := range []struct {
		number   string
		nutrient Nutrient
		want     Amount
	}{
		{"01039", Sugars, Amount{}}, // roquefort: the source has no figure
		{"01040", Sugars, Known(0)}, // swiss cheese: the source says 0.00
		{"01004", Sugars, Known(0.5)},
		{"11529", VitaminD, Known(0)},
		{"02047", Sodium, Known(38758)}, // needs more than two bytes with decimals
		{"04002", Fat, Known(100)},
		{"01001", Starch, Amount{}},
	} {
		got := food(t, tc.number).Per100g(tc.nutrient)
		if got != tc.want {
			t.Errorf("%s: %s is %v, want %v", tc.number, tc.nutrient, got, tc.want)
		}
	}
	if v, ok := (Amount{}).Value(); v != 0 || ok {
		t.Errorf("the zero Amount is %v, %t", v, ok)
	}
}

func TestFoodFacts(t *testing.T) {
	for _, tc := range []struct {
		number string
		group  string
		state  State
		canned bool
	}{
		{"01001", "Dairy and Egg Products", Unstated, false},
		{"11529", "Vegetables and Vegetable Products", Raw, false},
		{"16027", "Legumes and Legume Products", Dried, false}, // "mature seeds, raw"
		{"16028", "Legumes and Legume Products", Cooked, false},
		{"16029", "Legumes and Legume Products", Canned, true},  // "canned" alone: with its liquid
		{"16145", "Legumes and Legume Products", Canned, false}, // "drained solids"
		{"16034", "Legumes and Legume Products", Canned, true},
		{"16103", "Legumes and Legume Products", Canned, false},      // refried: no liquid to drain
		{"11054", "Vegetables and Vegetable Products", Canned, true}, // "solids and liquids"
		{"11056", "Vegetables and Vegetable Products", Canned, false},
		{"11312", "Vegetables and Vegetable Products", Frozen, false},
		{"11313", "Vegetables and Vegetable Products", Cooked, false}, // frozen, then cooked
		{"11402", "Vegetables and Vegetable Products", Frozen, false}, // french fried, yet to be prepared
		{"20009", "Cereal Grains and Pasta", Dried, false},            // groats, roasted, dry
		{"16006", "Legumes and Legume Products", Canned, false},       // baked beans, canned
		{"02003", "Spices and Herbs", Dried, false},
		{"02030", "Spices and Herbs", Dried, false},
		{"02044", "Spices and Herbs", Raw, false},
		{"12063", "Nut and Seed Products", Unstated, false}, // dry roasted is not dried
		{"20120", "Cereal Grains and Pasta", Dried, false},
	} {
		f := food(t, tc.number)
		if f.Group() != tc.group || f.State() != tc.state || f.CannedLiquid() != tc.canned {
			t.Errorf("%s %s: %q, %s, canned liquid %t, want %q, %s, %t",
				tc.number, f.Description(), f.Group(), f.State(), f.CannedLiquid(), tc.group, tc.state, tc.canned)
		}
	}
	if refuse, what := food(t, "09003").Refuse(); refuse != 10 || what != "core and stem" {
		t.Errorf("apple: refuse %v, %q, want 10, core and stem", refuse, what)
	}
}

func TestAllergens(t *testing.T) {
	for _, tc := range []struct {
		number        string
		contains, not []Allergen
	}{
		{"01001", []Allergen{Milk}, []Allergen{Eggs, Wheat, Soybeans}},                                      // butter
		{"01003", []Allergen{Milk}, nil},                                                                    // ghee
		{"01123", []Allergen{Eggs}, []Allergen{Milk}},                                                       // egg
		{"06971", []Allergen{Fish}, []Allergen{Milk, Eggs}},                                                 // Worcestershire sauce
		{"16123", []Allergen{Soybeans, Wheat}, []Allergen{Fish}},                                            // soy sauce
		{"12166", []Allergen{Sesame}, []Allergen{TreeNuts}},                                                 // tahini
		{"16158", []Allergen{Sesame}, nil},                                                                  // hummus
		{"06627", []Allergen{Milk, TreeNuts}, nil},                                                          // pesto
		{"12061", []Allergen{TreeNuts}, []Allergen{Peanuts}},                                                // almonds
		{"12104", nil, []Allergen{TreeNuts}},                                                                // coconut
		{"16098", []Allergen{Peanuts}, []Allergen{Milk, TreeNuts}},                                          // peanut butter
		{"15149", []Allergen{Shellfish}, []Allergen{Fish}},                                                  // shrimp
		{"15157", nil, []Allergen{Shellfish, Fish}},                                                         // clams are molluscs
		{"20081", []Allergen{Wheat}, []Allergen{Milk, Eggs}},                                                // flour
		{"20028", []Allergen{Wheat}, nil},                                                                   // couscous
		{"20012", []Allergen{Wheat}, nil},                                                                   // bulgur
		{"20140", []Allergen{Wheat}, nil},                                                                   // spelt
		{"20008", nil, []Allergen{Wheat}},                                                                   // buckwheat
		{"20027", nil, []Allergen{Wheat}},                                                                   // cornstarch
		{"18369", nil, []Allergen{Wheat, Milk}},                                                             // baking powder
		{"04025", []Allergen{Eggs}, []Allergen{Milk}},                                                       // mayonnaise
		{"18069", []Allergen{Wheat}, nil},                                                                   // bread
		{"19165", nil, []Allergen{Milk, TreeNuts, Soybeans}},                                                // cocoa
		{"19120", []Allergen{Milk}, nil},                                                                    // milk chocolate
		{"14091", []Allergen{TreeNuts}, []Allergen{Milk}},                                                   // almond milk
		{"12117", nil, []Allergen{Milk, TreeNuts}},                                                          // coconut milk
		{"11529", nil, []Allergen{Milk, Eggs, Fish, Shellfish, TreeNuts, Peanuts, Wheat, Soybeans, Sesame}}, // tomato
	} {
		f := food(t, tc.number)
		contains, may := f.Allergens()
		for _, a := range tc.contains {
			if !slices.Contains(contains, a) {
				t.Errorf("%s %s contains %v, want %s in it", tc.number, f, contains, a)
			}
		}
		for _, a := range tc.not {
			if slices.Contains(contains, a) || slices.Contains(may, a) {
				t.Errorf("%s %s: contains %v, may contain %v, want no %s", tc.number, f, contains, may, a)
			}
		}
	}
	// What a maker may or may not add is "may contain": margarine and milk.
	_, may := food(t, "04610").Allergens()
	if !slices.Contains(may, Milk) {
		t.Errorf("margarine may contain %v, want milk in it", may)
	}
	for a := range Allergen(NumAllergens) {
		if got, ok := AllergenNamed(a.String()); !ok || got != a {
			t.Errorf("AllergenNamed(%q) = %v, %t", a, got, ok)
		}
	}
}

func TestAddedSugars(t *testing.T) {
	for _, tc := range []struct {
		number string
		want   Amount
	}{
		{"19335", Known(99.8)},             // granulated sugar: all
		{"19296", Known(82.12)},            // honey: all
		{"19353", Known(60.46)},            // maple syrup: all
		{"01077", Known(0)},                // milk
		{"09003", Known(0)},                // apple
		{"09206", Known(0)},                // orange juice
		{"09191", Known(0)},                // nectarine, which is no nectar
		{"11124", Known(0)},                // carrot
		{"20081", Known(0)},                // flour
		{"11547", Known(0)},                // tomato puree
		{"01039", Known(0)},                // roquefort: sugars missing, yet none added
		{"13346", Amount{}},                // corned beef: cured with sugar, sugars missing
		{"01095", Known(54.40 - 10.04)},    // sweetened condensed milk less evaporated milk
		{"01120", Known(18.64 - 7.04)},     // fruit yogurt less plain
		{"09241", Known(18.64 - 4.81)},     // peaches in heavy syrup less in water
		{"12179", Known(43.17 - 7.35)},     // sweetened coconut less plain
		{"19297", Known(48.50 * 94 / 100)}, // jam: 94 % by the standard
		{"18069", Amount{}},                // bread
		{"06931", Amount{}},                // pasta sauce
		{"04044", Known(0)},                // oil
	} {
		f := food(t, tc.number)
		got, ok := f.Per100g(AddedSugars).Value()
		want, wantOK := tc.want.Value()
		if ok != wantOK || math.Abs(got-want) > 1e-9 {
			t.Errorf("%s %s: added sugars %v, %t, want %v, %t (%s)", tc.number, f, got, ok, want, wantOK, f.AddedSugarBasis())
		}
	}
}

// portion returns the grams of one of a measure, the first that fits.
func portion(tb testing.TB, f Food, measure, size, detail string) Grams {
	tb.Helper()
	for p := range f.Portions() {
		if p.Measure == measure && p.Size == size && (detail == "" || strings.Contains(p.Detail, detail)) {
			return p.Grams / Grams(p.Amount)
		}
	}
	tb.Errorf("%s %s has no %s %s %s", f.Number(), f, size, measure, detail)
	return 0
}

// TestHouseholdFacts holds portions against facts from outside Release 28, whose
// sources are at each.
func TestHouseholdFacts(t *testing.T) {
	const research41 = "USDA Home Economics Research Report 41"
	for _, tc := range []struct {
		number, measure, size, detail string
		want, within                  Grams
		source                        string
	}{
		{"01123", "each", "large", "", 50, 1, "USDA egg sizes: 24 oz a dozen in shell, 12 % shell"},
		{"01001", "cup", "", "", 226.8, 0.5, "two sticks of 1/4 lb"},
		{"01001", "tbsp", "", "", 14.17, 0.1, "1/32 of a pound"},
		{"01077", "cup", "", "", 243.7, 1, "236.6 mL at 1.03 g/mL"},
		{"14411", "fl oz", "", "", 29.57, 0.1, "29.57 mL of water"},
		{"20081", "cup", "", "", 126, 3, research41},
		{"20084", "cup", "", "", 111, 30, research41 + ", spooned; Release 28 dips the cup"},
		{"19335", "cup", "", "", 196, 5, research41},
		{"19334", "cup", "", "packed", 211, 12, research41},
		{"20027", "cup", "", "", 125, 4, research41},
		{"19296", "cup", "", "", 332, 10, "an oat miller's table"},
		{"08120", "cup", "", "", 80, 3, "an oat miller's table"},
		{"04044", "cup", "", "", 209, 10, research41},
		{"11215", "clove", "", "", 3, 1, "common practice"},
	} {
		f := food(t, tc.number)
		if got := portion(t, f, tc.measure, tc.size, tc.detail); math.Abs(float64(got-tc.want)) > float64(tc.within) {
			t.Errorf("%s: a %s is %v g, want %v within %v (%s)", f, tc.measure, got, tc.want, tc.within, tc.source)
		}
	}
}

// TestPlantsHoldNoCholesterol has none in plain plant foods of which Release 28 has
// no figure, and leaves open what may hold something of an animal.
func TestPlantsHoldNoCholesterol(t *testing.T) {
	table := openTable(t)
	for number, known := range map[string]bool{
		"02068": true, "02069": true, "06631": true, "09433": true, "11238": true, "20647": true, "16037": true, // vinegars, sriracha, clementine, shiitake, millet flour, navy beans
		"11384": false, "06626": false, "09446": false, "16173": false, "16399": false, "06983": false, // gratin mix, pesto, fried plantain, refried beans, fish oil, ramen
	} {
		f, ok := table.Food(number)
		if !ok {
			t.Errorf("no food %s", number)
			continue
		}
		if v, ok := f.Per100g(Cholesterol).Value(); ok != known || v != 0 {
			t.Errorf("%s %s: cholesterol %v, known %v", number, f, v, ok)
		}
	}
}
