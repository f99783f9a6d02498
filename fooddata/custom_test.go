package fooddata_test

import (
	"maps"
	"math"
	"slices"
	"strings"
	"testing"

	"pottle/fooddata"
)

// oatBar is the food of the examples, as a label has it.
func oatBar() fooddata.CustomFood {
	return fooddata.CustomFood{
		Name: "oat bar", Others: []string{"house oat bar"}, ServingGrams: 40, ServingName: "bar",
		PerServing: map[fooddata.Nutrient]float64{
			fooddata.Energy: 150, fooddata.Fat: 5, fooddata.SaturatedFat: 1, fooddata.Carbohydrate: 25, fooddata.Fibre: 3,
			fooddata.Sugars: 8, fooddata.AddedSugars: 7, fooddata.Protein: 3, fooddata.Sodium: 95,
		},
	}
}

func newTable(t testing.TB, foods ...fooddata.CustomFood) *fooddata.Table {
	t.Helper()
	table, err := fooddata.NewTable("team test", foods)
	if err != nil {
		t.Fatal(err)
	}
	return table
}

func customNamed(t testing.TB, table *fooddata.Table, name string) fooddata.Food {
	t.Helper()
	entry, ok := table.Named(name)
	if !ok {
		t.Fatalf("%q is no name", name)
	}
	return entry.Food
}

func TestNewTable(t *testing.T) {
	table := newTable(t, oatBar(), fooddata.CustomFood{Name: "Crème broth", ServingGrams: 240, ServingName: "1 cup"})
	if table.Release() != "team test" || table.Len() != 2 {
		t.Errorf("release %q, %d foods", table.Release(), table.Len())
	}
	f := customNamed(t, table, "House oat-bars")
	if f != customNamed(t, table, "oat bar") || f.Name() != "oat bar" || f.Description() != "oat bar" {
		t.Errorf("found %s", f)
	}
	if entry, ok := table.NamedAnyOrder(fooddata.Normalise("creme broth")); !ok || entry.Food.Name() != "Crème broth" {
		t.Errorf("creme broth is %v", entry)
	}
	if found := table.Search([]string{"bar"}, 3); len(found) != 1 || found[0].Food != f {
		t.Errorf("search finds %v", found)
	}
	if !f.Team() || f.Source() != "team" || f.Number() != "4000000001" || f.Group() != "Team foods" || f.State() != fooddata.Unstated || !f.Curated() {
		t.Errorf("%v: %s, %s, %s, %s", f.Team(), f.Source(), f.Number(), f.Group(), f.State())
	}
	contains, may := f.Allergens()
	percent, what := f.Refuse()
	_, _, dense := f.Density()
	if len(contains)+len(may) > 0 || percent != 0 || what != "" || dense || f.AddedSugarBasis() != "as declared" || f.EnergyFromParts() {
		t.Errorf("%v %v, %v %s, %v, %s", contains, may, percent, what, dense, f.AddedSugarBasis())
	}
	if family := table.Family(f); len(family) != 1 || family[0] != f {
		t.Errorf("family %v", family)
	}
	for n := range fooddata.Nutrient(fooddata.NumNutrients) {
		want, declared := oatBar().PerServing[n]
		got, known := f.Per100g(n).Value()
		if known != declared || math.Abs(got*0.4-want) > 1e-9 {
			t.Errorf("%s: %v, %v; declared %v, %v", n, got*0.4, known, want, declared)
		}
	}
	broth := customNamed(t, table, "crème broth")
	if broth.AddedSugarBasis() != "not known" {
		t.Errorf("added sugars: %s", broth.AddedSugarBasis())
	}
}

// TestNewTableUSDA makes sure that the embedded table is no team's and that no
// number of it can be one.
func TestNewTableUSDA(t *testing.T) {
	base, err := fooddata.Open()
	if err != nil {
		t.Fatal(err)
	}
	team := customNamed(t, newTable(t, oatBar()), "oat bar")
	for f := range base.All() {
		if f.Team() || f.EnergyFromParts() || f.Source() != "USDA "+f.Number() || f.Number() == team.Number() {
			t.Fatalf("%s %s: %s", f.Number(), f, f.Source())
		}
	}
}

// TestNewTableExact holds declared figures against what a serving of odd weight
// brings, beside a food that costs sodium its decimals.
func TestNewTableExact(t *testing.T) {
	foods := []fooddata.CustomFood{{Name: "grey salt", ServingGrams: 1.5, PerServing: map[fooddata.Nutrient]float64{fooddata.Sodium: 581}}}
	for i, grams := range []float64{3, 7.125, 28.35, 30, 33, 56, 99.999, 100} {
		foods = append(foods, fooddata.CustomFood{Name: "food " + string(rune('a'+i)), ServingGrams: grams,
			PerServing: map[fooddata.Nutrient]float64{fooddata.Energy: 110, fooddata.Fat: 2.5, fooddata.Fibre: 0.5, fooddata.Sodium: 5, fooddata.VitaminD: 0.1, fooddata.Protein: 0}})
	}
	table := newTable(t, foods...)
	for _, c := range foods {
		f := customNamed(t, table, c.Name)
		for n, want := range c.PerServing {
			v, ok := f.Per100g(n).Value()
			within := 5e-7
			if n == fooddata.Sodium {
				within = 5e-6
			}
			if got := v * c.ServingGrams / 100; !ok || math.Abs(got-want) > within {
				t.Errorf("%s of %v g: %s %v, declared %v", c.Name, c.ServingGrams, n, got, want)
			}
		}
	}
}

func TestNewTableEnergy(t *testing.T) {
	c := oatBar()
	delete(c.PerServing, fooddata.Energy)
	f := customNamed(t, newTable(t, c), "oat bar")
	if v, ok := f.Per100g(fooddata.Energy).Value(); !ok || v != 392.5 || !f.EnergyFromParts() { // 157 kcal in 40 g
		t.Errorf("energy %v, %v, from parts %v", v, ok, f.EnergyFromParts())
	}
	delete(c.PerServing, fooddata.Fat)
	f = customNamed(t, newTable(t, c), "oat bar")
	if v, ok := f.Per100g(fooddata.Energy).Value(); ok || f.EnergyFromParts() {
		t.Errorf("energy %v without fat", v)
	}
}

func TestNewTableEmpty(t *testing.T) {
	table := newTable(t)
	if _, ok := table.Named("oat bar"); ok || table.Len() != 0 || len(table.Search([]string{"oat"}, 3)) != 0 {
		t.Error("an empty table holds something")
	}
}

func TestNewTablePortions(t *testing.T) {
	for _, c := range []struct {
		food, serving string
		grams         float64
		want          []fooddata.Portion
	}{
		{"oat bar", "", 40, []fooddata.Portion{{Amount: 1, Measure: "serving", Grams: 40}, {Amount: 1, Measure: "each", Grams: 40}}},
		{"oat bar", "serving", 40, []fooddata.Portion{{Amount: 1, Measure: "serving", Grams: 40}, {Amount: 1, Measure: "each", Grams: 40}}},
		{"oat bar", "40 g", 40, []fooddata.Portion{{Amount: 1, Measure: "serving", Grams: 40}, {Amount: 1, Measure: "each", Grams: 40}}},
		{"oat bar", "Bar", 40, []fooddata.Portion{{Amount: 1, Measure: "serving", Grams: 40}, {Amount: 1, Measure: "bar", Grams: 40}, {Amount: 1, Measure: "each", Grams: 40}}},
		{"rice cracker", "7 crackers", 15, []fooddata.Portion{{Amount: 1, Measure: "serving", Grams: 15}, {Amount: 7, Measure: "cracker", Grams: 15}, {Amount: 7, Measure: "each", Grams: 15}}},
		{"ginger broth", "cup", 240, []fooddata.Portion{{Amount: 1, Measure: "serving", Grams: 240}, {Amount: 1, Measure: "cup", Grams: 240}}},
		{"ginger broth", "1 1/2 Tablespoons", 24, []fooddata.Portion{{Amount: 1, Measure: "serving", Grams: 24}, {Amount: 1.5, Measure: "tbsp", Grams: 24}}},
		{"ginger broth", "1/3 cup", 80, []fooddata.Portion{{Amount: 1, Measure: "serving", Grams: 80}, {Amount: 1, Measure: "cup", Grams: 240}}},
	} {
		f := customNamed(t, newTable(t, fooddata.CustomFood{Name: c.food, ServingGrams: c.grams, ServingName: c.serving}), c.food)
		got := slices.Collect(f.Portions())
		for i := range c.want {
			c.want[i].Source = "as declared"
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s, %q:\n got %+v\nwant %+v", c.food, c.serving, got, c.want)
		}
	}
}

func TestNewTableErrors(t *testing.T) {
	with := func(change func(*fooddata.CustomFood)) fooddata.CustomFood {
		f := oatBar()
		change(&f)
		return f
	}
	for _, c := range []struct {
		name  string
		foods []fooddata.CustomFood
		want  string
	}{
		{"ErrNoName", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.Name = "" })}, `team food "": the name "" has no word`},
		{"ErrNoWord", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.Name = "of the 7" })}, `has no word`},
		{"ErrSign", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.Name = "oat\nbar" })}, `has signs that a name cannot have`},
		{"ErrMark", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.Others = []string{"oat*"} })}, `the name "oat*" has signs`},
		{"ErrUTF8", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.Name = "oat \xff" })}, `has signs`},
		{"ErrLong", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.Name = strings.Repeat("oat ", 16) })}, `has 64 letters, at most 60`},
		{"ErrZeroGrams", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.ServingGrams = 0 })}, `team food "oat bar": a serving weighs 0 g`},
		{"ErrNaNGrams", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.ServingGrams = math.NaN() })}, `a serving weighs NaN g`},
		{"ErrHeavy", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.ServingGrams = 1e9 })}, `a serving weighs 1e+09 g`},
		{"ErrServingName", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.ServingName = "2" })}, `the serving is called "2"`},
		{"ErrServingSign", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.ServingName = "bar\x00" })}, `has signs`},
		{"ErrServingShare", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.ServingGrams, f.ServingName = 1e5, "0.0015 bars" })}, `one of "0.0015 bars" weighs`},
		{"ErrNegative", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.PerServing[fooddata.Sodium] = -95 })}, `team food "oat bar": sodium is -95 mg`},
		{"ErrNaN", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.PerServing[fooddata.Fat] = math.NaN() })}, `total fat is NaN g`},
		{"ErrInfinite", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.PerServing[fooddata.Fat] = math.Inf(1) })}, `total fat is +Inf g`},
		{"ErrHuge", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.PerServing[fooddata.Sodium] = 1e7 })}, `sodium is 1e+07 mg in 40 g, more than any food has`},
		{"ErrHugeParts", []fooddata.CustomFood{{Name: "x bar", ServingGrams: 100, PerServing: map[fooddata.Nutrient]float64{fooddata.Fat: 4e6, fooddata.Protein: 1, fooddata.Carbohydrate: 1}}}, `team foods: energy of`},
		{"ErrNutrient", []fooddata.CustomFood{with(func(f *fooddata.CustomFood) { f.PerServing[fooddata.Nutrient(200)] = 1 })}, `nutrient 200 is not known`},
		{"ErrTwice", []fooddata.CustomFood{oatBar(), with(func(f *fooddata.CustomFood) { f.Name, f.Others = "seed bar", []string{"Oat-Bars"} })}, `team food "seed bar": the name "Oat-Bars" is that of "oat bar" too`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := fooddata.NewTable("team test", c.foods)
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("error %v, want %q", err, c.want)
			}
		})
	}
	t.Run("OKNameTwiceInOne", func(t *testing.T) {
		newTable(t, with(func(f *fooddata.CustomFood) { f.Others = []string{"Oat bars", "oat bar"} }))
	})
}

func TestCheck(t *testing.T) {
	type figures = map[fooddata.Nutrient]float64
	for _, c := range []struct {
		name   string
		grams  float64
		change figures // of the oat bar; below zero is taken out
		want   []string
	}{
		{"OK", 40, nil, nil},
		{"OKNearEnergy", 40, figures{fooddata.Energy: 175}, nil},
		{"OKLabelRounding", 10, figures{fooddata.Energy: 40, fooddata.Carbohydrate: 10, fooddata.Sugars: 10, fooddata.AddedSugars: 10, fooddata.Fibre: 0, fooddata.Protein: 0.4, fooddata.Fat: 0, fooddata.SaturatedFat: 0}, nil},
		{"OKFibre", 40, figures{fooddata.Energy: 90, fooddata.Fibre: 15}, nil},
		{"OKAlcohol", 150, figures{fooddata.Energy: 125, fooddata.Carbohydrate: 4, fooddata.Fibre: 0, fooddata.Sugars: 1, fooddata.AddedSugars: 0, fooddata.Protein: 0, fooddata.Fat: 0, fooddata.SaturatedFat: 0, fooddata.Alcohol: 15}, nil},
		{"HighEnergy", 40, figures{fooddata.Energy: 250}, []string{"Energy of 250 kcal is more than the 145 to 157 kcal that the parts give; alcohol, if it has any, is not given."}},
		{"Kilojoules", 40, figures{fooddata.Energy: 640}, []string{
			"Energy of 640 kcal is more than the 145 to 157 kcal that the parts give; it may be in kilojoules: 640 kJ is 153 kcal.",
			"Energy of 640 kcal is more than 40 g of pure fat has."}},
		{"LowEnergy", 40, figures{fooddata.Energy: 100}, []string{"Energy of 100 kcal is less than the 145 to 157 kcal that the parts give; sugar alcohols (polyols) in the carbohydrate can be why, else check."}},
		{"LowEnergyOfPart", 40, figures{fooddata.Energy: 50, fooddata.Protein: -1}, []string{"Energy of 50 kcal is less than the 133 to 145 kcal that the parts given so far hold."}},
		{"NoEnergy", 40, figures{fooddata.Energy: -1}, []string{"Energy is not given; 157 kcal is worked out from the parts, 4 kcal a gram of protein and carbohydrate, 9 of fat and 7 of alcohol."}},
		{"NoEnergyNoFat", 40, figures{fooddata.Energy: -1, fooddata.Fat: -1}, []string{"Energy is not given, and cannot be worked out without protein, fat and carbohydrate."}},
		{"Sugars", 40, figures{fooddata.Sugars: 30}, []string{"Sugars of 30 g is more than the carbohydrate of 25 g."}},
		{"AddedSugars", 40, figures{fooddata.AddedSugars: 9}, []string{"Added sugars of 9 g is more than the sugars of 8 g."}},
		{"AddedSugarsAlone", 40, figures{fooddata.Sugars: -1, fooddata.AddedSugars: 26}, []string{"Added sugars of 26 g is more than the carbohydrate of 25 g."}},
		{"Saturated", 40, figures{fooddata.SaturatedFat: 6}, []string{"Saturated fat of 6 g is more than the fat of 5 g."}},
		{"Fibre", 40, figures{fooddata.Energy: 100, fooddata.Fibre: 26}, []string{"Fibre of 26 g is more than the carbohydrate of 25 g; if the label leaves fibre out of the carbohydrate, give the two together as carbohydrate."}},
		{"SugarsAndFibre", 40, figures{fooddata.Sugars: 24}, []string{"Sugars and fibre come to 27 g, more than the carbohydrate of 25 g."}},
		{"Weight", 30, nil, []string{"Protein, fat and carbohydrate weigh 33 g, more than the serving of 30 g."}},
		{"Salt", 40, figures{fooddata.Sodium: 16000}, []string{"Sodium of 16000 mg is more than 40 g of salt has."}},
		{"Sodium", 40, figures{fooddata.Sodium: 9500}, []string{"Sodium of 9500 mg is more in one serving than the 2300 mg of a day: check that it is milligrams and one serving."}},
		{"Calcium", 40, figures{fooddata.Calcium: 41000}, []string{"Calcium of 41000 mg weighs more than the serving of 40 g."}},
		{"NoGrams", 0, nil, []string{"What a serving weighs is not given."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := oatBar()
			f.ServingGrams = c.grams
			maps.Copy(f.PerServing, c.change)
			maps.DeleteFunc(f.PerServing, func(_ fooddata.Nutrient, v float64) bool { return v < 0 })
			got := f.Check()
			if !slices.Equal(got, c.want) {
				t.Errorf("\n got %q\nwant %q", got, c.want)
			}
			if !slices.Equal(f.Check(), got) {
				t.Error("a second check says something else")
			}
		})
	}
}

func BenchmarkNewTable(b *testing.B) {
	var foods []fooddata.CustomFood
	for i := range 200 {
		f := oatBar()
		f.Name, f.Others = "bar "+strings.Repeat("x", i%26+1)+string(rune('a'+i/26)), nil
		foods = append(foods, f)
	}
	for b.Loop() {
		newTable(b, foods...)
	}
}
