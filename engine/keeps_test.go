package engine_test

import (
	"strings"
	"testing"
)

// TestKeeps holds dishes against what Illinois Extension and the standards in
// shared/standards (adjust.md, safety.md) say must keep its salt or sugar.
func TestKeeps(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		recipe      string
		salt, sugar string // how the reason begins; empty if there is none
	}{
		{"White Bread\nServes 12\n3 cups flour\n2 tsp yeast\n2 tsp salt\n1 tbsp sugar\nDirections\nKnead and let rise. Bake.", "yeast dough", "yeast dough"},
		{"French Bread\nServes 12\n3 cups flour\n2 tsp yeast\n2 tsp salt", "yeast dough", ""},
		{"Sourdough Bread\nServes 12\n3 cups flour\n1 cup sourdough starter\n2 tsp salt", "yeast dough", ""},
		{"Dill Pickles\nServes 16\n4 lb cucumbers\n4 cups vinegar\n1/4 cup pickling salt", "pickled", ""},
		{"Quick Pickled Red Onions\nServes 8\n1 red onion\n1 cup vinegar\n1 tsp salt\n1 tbsp sugar", "pickled", "pickled"},
		{"Tomato Chutney\nServes 16\n2 lb tomatoes\n1 cup sugar\n1 cup vinegar", "pickled", "pickled"},
		{"Sauerkraut\nServes 20\n5 lb cabbage\n3 tbsp salt", "fermented", ""},
		{"Cabbage in a Crock\nServes 20\n5 lb cabbage\n3 tbsp salt\nDirections\nPack and let ferment 3 weeks.", "fermented", ""},
		{"Kombucha\nServes 16\n1 cup sugar\n8 tea bags\n1 gallon water\nDirections\nLet ferment 7 days.", "fermented", "fermented"},
		{"Gravlax\nServes 8\n2 lb salmon\n1/4 cup salt\n1/4 cup sugar\nDirections\nRefrigerate 3 days.", "cured", "cured"},
		{"Home-Cured Bacon\nServes 20\n5 lb pork belly\n1/4 cup salt\n2 tsp pink curing salt", "cured", ""},
		{"Beef Jerky\nServes 16\n2 lb beef round\n1/2 cup soy sauce\nDirections\nDry in the oven.", "cured", ""},
		{"Preserved Lemons\nServes 16\n8 lemons\n1/2 cup kosher salt", "cured", ""},
		{"Peach Salsa\nServes 32\n6 cups peaches\n1 cup vinegar\n1 tsp salt\nDirections\nLadle into hot jars, leaving 1/2 inch headspace. Process in a boiling-water canner 15 minutes.", "put up in jars", ""},
		{"Apple Butter\nServes 32\n5 lb apples\n2 cups sugar\nDirections\nSimmer. Ladle into sterilized jars.", "put up in jars", "put up in jars"},
		{"Strawberry Jam\nServes 32\n4 cups strawberries\n7 cups sugar\n1 package pectin", "", "jam or jelly"},
		{"Freezer Jam\nServes 32\n4 cups strawberries\n4 cups sugar", "", "jam or jelly"},
		{"Peanut Brittle\nServes 16\n2 cups sugar\n1 cup corn syrup\n2 cups peanuts", "", "candy"},

		// Look-alikes.
		{"Banana Bread\nServes 12\n2 cups flour\n1 tsp baking soda\n1/2 tsp salt\n3 bananas\n3/4 cup sugar", "", ""},
		{"Potato Salad with Pickles\nServes 8\n2 lb potatoes\n1/2 cup dill pickles\n1/2 tsp salt\n1/4 cup vinegar", "", ""},
		{"Fried Pickles\nServes 4\n1 cup flour\n2 cups dill pickle slices\n1 tsp salt\nDirections\nFry.", "", ""},
		{"Tuna Salad\nServes 4\n1 can tuna\n2 tbsp sweet pickle relish\n1/4 cup mayonnaise", "", ""},
		{"Kimchi Fried Rice\nServes 4\n1 cup kimchi\n3 cups cooked rice\n1/2 tsp salt", "", ""},
		{"Pork Chops with Sauerkraut\nServes 4\n4 pork chops\n2 cups sauerkraut\n1/2 tsp salt", "", ""},
		{"Corned Beef and Cabbage\nServes 8\n3 lb corned beef brisket\n1 tbsp pickling spice\n1 head cabbage\n1 tsp salt\nDirections\nSimmer 3 hours.", "", ""},
		{"Black Bean Chicken\nServes 4\n1 tbsp fermented black beans\n1 lb chicken\n1/4 tsp salt\nDirections\nRinse the fermented black beans. Stir-fry.", "", ""},
		{"Jam Thumbprint Cookies\nServes 24\n2 cups flour\n1 cup butter\n1/2 cup sugar\n1/2 cup jam\nDirections\nBake.", "", ""},
		{"Jelly Roll\nServes 8\n4 eggs\n3/4 cup sugar\n3/4 cup flour\n1 cup jelly\nDirections\nBake.", "", ""},
		{"Peanut Butter and Jelly Sandwich\nServes 1\n2 slices bread\n2 tbsp peanut butter\n1 tbsp jelly\n1 tsp sugar", "", ""},
		{"Fruit Jelly\nServes 4\n1 envelope gelatin\n2 cups grape juice\n1/4 cup sugar", "", ""},
		{"Chocolate Fudge Cake\nServes 12\n2 cups flour\n2 cups sugar\n1 tsp baking soda\nDirections\nBake.", "", ""},
		{"Popcorn\nServes 4\n1/2 cup popcorn kernels\n2 tbsp nutritional yeast\n1/4 tsp salt", "", ""},
		{"Sourdough Toast\nServes 1\n2 slices sourdough bread\n1 tsp butter\n1 pinch salt", "", ""},
		{"Cheesecake\nServes 12\n3 eggs\n2 packages cream cheese\n1 cup sugar\nDirections\nBake in a water bath.", "", ""},
		{"Overnight Oats\nServes 1\n1/2 cup oats\n1/2 cup milk\n1 tsp sugar\nDirections\nStir in a mason jar and chill.", "", ""},
		{"Cucumber Salad\nServes 4\n2 cucumbers\n1/4 cup vinegar\n1 tsp sugar\n1/2 tsp salt", "", ""},
		{"Sugar Snap Peas\nServes 4\n1 lb sugar snap peas\n1/2 tsp salt", "", ""},
	} {
		a, method := analysed(t, e, c.recipe)
		for _, k := range []struct {
			what, want string
			keeps      func([]string) (string, bool)
		}{{"salt", c.salt, a.KeepsSalt}, {"sugar", c.sugar, a.KeepsSugar}} {
			why, yes := k.keeps(method)
			if yes != (k.want != "") || !strings.HasPrefix(why, k.want) || yes && why == "" {
				t.Errorf("%s keeps its %s: %t, %q; want %q", a.Title, k.what, yes, why, k.want)
			}
		}
	}
}
