package engine_test

import (
	"bufio"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// analysed works out a recipe given as text.
func analysed(t *testing.T, e *engine.Engine, text string) (*engine.Analysis, []string) {
	t.Helper()
	r, err := grammar.ParseRecipe(text)
	if err != nil {
		t.Fatalf("%q: %v", text, err)
	}
	return e.Analyse(r), r.Method
}

// said writes cautions as "kind: text", a line each.
func said(cautions []engine.Caution) string {
	var b strings.Builder
	for _, c := range cautions {
		b.WriteString(c.Kind + ": " + c.Text + "\n")
	}
	return b.String()
}

// TestCautions holds recipes against what must be said of them and what must
// not. The facts are those of shared/standards/safety.md and adjust.md.
func TestCautions(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		name, recipe string
		must, not    []string
	}{
		// The nine major allergens: contained, and possible by usual composition.
		{"nine", "Everything\nServes 4\n1 cup milk\n2 eggs\n1 lb cod\n1/2 lb shrimp\n1/4 cup almonds\n1/4 cup peanuts\n1 cup flour\n1/2 cup tofu\n1 tbsp sesame seeds",
			[]string{"contains milk: milk", "contains eggs: eggs", "contains fish: cod", "contains crustacean shellfish: shrimp", "contains tree nuts: almonds",
				"contains peanuts: peanuts", "contains wheat: flour", "contains soybeans: tofu", "contains sesame: sesame seeds"}, []string{"not known"}},
		{"optional and other choice", "Bars\nServes 8\n1/2 cup butter or margarine\n1/2 cup walnuts (optional)",
			[]string{"contains milk: butter; may contain: margarine (the other choice); check each label", "contains tree nuts: walnuts (optional)"}, nil},
		{"no amount", "Toast\nServes 1\n1 slice bread\nbutter for serving", []string{"contains milk: butter"}, nil},
		{"not known", "Dip\nServes 4\n1 cup zorgblat dressing\n1 cup carrots", []string{"not known, so may contain any of the nine major allergens and gluten: zorgblat dressing"}, []string{"carrots"}},
		{"salt and pepper are known", "Dip\nServes 4\n1 cup carrots\nsalt and pepper to taste", nil, []string{"not known"}},
		{"denied by words", "Pasta\nServes 4\n8 oz gluten-free pasta\n2 tbsp vegan butter\n1/4 cup egg-free mayonnaise",
			[]string{"may contain wheat: gluten-free pasta", "may contain milk: vegan butter", "may contain eggs: egg-free mayonnaise"},
			[]string{"contains wheat:", "contains gluten:", "contains milk:", "contains eggs:"}},

		// Kidney beans: the lectin of dried ones (FDA Bad Bug Book, from memory).
		{"dried kidney beans in a slow cooker", "Chilli\nServes 6\n500 g dried red kidney beans\n1 onion\nDirections\nPut everything in the slow cooker and cook on low for 8 hours.",
			[]string{"kidney beans: dried red kidney beans: raw or half cooked", "boil in fresh water for 30 minutes", "this slow cooker does not get hot enough"}, nil},
		{"crock pot in the title", "Crockpot beans\nServes 6\n1 lb dried cannellini beans\nDirections\nCook 8 hours.", []string{"this slow cooker does not get hot enough"}, nil},
		{"soaked rajma", "Rajma\nServes 4\n1 cup rajma (red kidney beans), soaked overnight\nDirections\nPressure cook.", []string{"kidney beans: rajma: raw or half cooked", "never from raw in a slow cooker"}, []string{"this slow cooker"}},
		{"canned kidney beans", "Chili\nServes 4\n2 (15 oz) cans red kidney beans, drained\nDirections\nSlow cooker, low for 6 hours.", nil, []string{"lectin"}},
		{"cooked kidney beans", "Salad\nServes 4\n2 cups cooked kidney beans", nil, []string{"lectin"}},
		{"kidney beans by the cup", "Salad\nServes 4\n2 cups kidney beans", nil, []string{"lectin"}},
		{"red bean paste", "Buns\nServes 4\n1 cup red bean paste", nil, []string{"lectin"}},

		// Hidden sources of safety.md.
		{"worcestershire", "A\nServes 1\n1 tsp Worcestershire sauce", []string{"contains fish: worcestershire sauce"}, nil},
		{"soy sauce", "A\nServes 1\n1 tbsp soy sauce", []string{"contains soybeans: soy sauce", "contains wheat: soy sauce", "contains gluten: soy sauce"}, nil},
		{"tahini and hummus", "A\nServes 1\n1 tbsp tahini\n1/4 cup hummus", []string{"contains sesame: tahini, hummus"}, nil},
		{"pesto", "A\nServes 1\n1/4 cup pesto", []string{"tree nuts: pesto", "milk: pesto"}, nil},
		{"surimi", "A\nServes 1\n4 oz imitation crab", []string{"contains fish: imitation crab", "crustacean shellfish: imitation crab", "eggs: imitation crab"}, nil},
		{"broth cube", "A\nServes 1\n1 chicken bouillon cube", []string{"may contain wheat: chicken bouillon cube", "may contain soybeans", "may contain milk"}, nil},
		{"wheat by other names", "A\nServes 4\n1 cup seitan\n1 cup couscous\n1 cup bulgur\n1 cup farro\n1 cup spelt", []string{"contains wheat: ", "seitan", "couscous", "bulgur", "farro", "spelt"}, nil},
		{"marzipan", "A\nServes 4\n4 oz marzipan", []string{"contains tree nuts: marzipan"}, nil},
		{"ghee", "A\nServes 4\n2 tbsp ghee", []string{"contains milk: ghee"}, nil},
		{"mayonnaise", "A\nServes 4\n2 tbsp mayonnaise", []string{"contains eggs: mayonnaise"}, []string{"raw egg"}},
		{"miso", "A\nServes 4\n2 tbsp miso", []string{"contains soybeans: miso"}, nil},
		{"kimchi", "A\nServes 4\n1 cup kimchi", []string{"may contain fish: kimchi", "may contain crustacean shellfish: kimchi"}, nil},
		{"foods another stands in for", "A\nServes 4\n1 cup panko\n4 oz mascarpone\n1 cup oat milk\n1/2 tsp almond extract\n1 lb basa",
			[]string{"contains wheat: panko", "contains milk: mascarpone", "may contain: oat milk", "may contain tree nuts: almond extract", "contains fish: basa"}, []string{"contains milk: mascarpone, oat milk"}},

		// Look-alikes.
		{"look-alikes", "Bowl\nServes 4\n1 butternut squash\n1/2 tsp nutmeg\n1 cup shredded coconut\n1 can coconut milk\n1 eggplant\n1 cup peas\n1 cup buckwheat flour\n8 oz rice noodles\n1 can water chestnuts\n1/4 tsp cream of tartar\n8 oz oyster mushrooms\n1 can butter beans\n1 head butter lettuce\n1 tbsp sunflower seed butter\n1 spaghetti squash\n1 cup corn tortilla chips",
			nil, []string{"milk", "eggs", "tree nuts", "peanuts", "wheat", "gluten", "fish", "molluscs"}},
		{"peanut butter is no butter", "A\nServes 4\n1/2 cup peanut butter", []string{"contains peanuts: peanut butter"}, []string{"milk"}},
		{"nut milks are no milk", "A\nServes 4\n1 cup unsweetened almond milk", []string{"contains tree nuts: unsweetened almond milk"}, []string{"contains milk", "may contain milk"}},
		{"cocoa butter", "A\nServes 4\n2 tbsp cocoa butter", nil, []string{"milk"}},
		{"oyster crackers", "A\nServes 4\n1 cup oyster crackers", []string{"contains wheat"}, []string{"molluscs", "fish"}},
		{"stock pot beside the food", "A\nServes 4\n1 cup ginger ale\n1 cup root beer", nil, []string{"alcohol", "gluten"}},
		{"crab apples", "A\nServes 4\n2 crabapples", nil, []string{"shellfish"}},

		// Molluscs.
		{"scallops", "A\nServes 4\n1 lb scallops", []string{"molluscs: scallops: a mollusc, outside the nine"}, []string{"contains crustacean shellfish"}},

		// Gluten and oats.
		{"barley, rye, malt", "A\nServes 4\n1 cup pearl barley\n1 cup rye flour\n1 tbsp malt vinegar\n12 fl oz beer", []string{"contains gluten: pearl barley, rye flour, malt vinegar, beer"}, nil},
		{"oats", "A\nServes 4\n1 cup rolled oats", []string{"oats: rolled oats: often cross-contacted", "under 20 ppm"}, []string{"contains gluten"}},
		{"gluten-free oats are told of too", "A\nServes 4\n1 cup gluten-free oats", []string{"oats: "}, nil},
		{"rice and corn", "A\nServes 4\n1 cup rice\n1 cup cornmeal\n2 corn tortillas\n1 cup quinoa", nil, []string{"gluten", "oats"}},

		// Alcohol.
		{"wine simmered", "Stew\nServes 4\n1 cup red wine\n1 lb beef stew meat\nDirections\nSimmer 2 hours.", []string{"alcohol: red wine, 6.2 g put in for a serving; cooking leaves 85 % off the heat, 40 % after 15 minutes"}, nil},
		{"rum not cooked", "Balls\nServes 10\n1/4 cup rum\n2 cups cocoa powder\nDirections\nMix and roll.", []string{"the directions do not cook it off"}, nil},
		{"servings not known", "Stew\n1 cup red wine\n1 lb beef stew meat", []string{"g put in for the whole recipe"}, nil},
		{"vanilla is too little", "Cookies\nServes 24\n1 tsp vanilla extract\n2 cups flour\n1 cup sugar", nil, []string{"alcohol"}},
		{"much extract", "Sauce\nServes 2\n1 tbsp vanilla extract\n1 cup sugar", []string{"alcohol: vanilla extract, 2.2 g"}, nil},
		{"vinegar and alcohol-free", "A\nServes 8\n1/4 cup red wine vinegar\n1 cup non-alcoholic beer\n1 tsp rum extract\n1 scotch bonnet pepper", nil, []string{"metronidazole"}},

		// Raw egg.
		{"mayonnaise made", "Mayonnaise\nServes 8\n2 egg yolks\n1 cup olive oil\nDirections\nWhisk the yolks. Drizzle in the oil.", []string{"raw egg: egg yolks may stay raw"}, nil},
		{"mousse", "Chocolate Mousse\nServes 6\n6 oz dark chocolate\n4 eggs, separated\nDirections\nMelt the chocolate over simmering water. Stir in the yolks. Fold in the whipped whites. Chill 4 hours.", []string{"raw egg: "}, nil},
		{"mousse without directions", "Chocolate Mousse\nServes 6\n6 oz dark chocolate\n4 eggs", []string{"raw egg: "}, nil},
		{"no-bake", "No-Bake Cheesecake\nServes 8\n2 eggs\n1 lb cream cheese\nDirections\nBeat all together. Chill.", []string{"raw egg: "}, nil},
		{"hollandaise", "Hollandaise\nServes 4\n3 egg yolks\n1/2 cup butter\nDirections\nWhisk the yolks over simmering water.", []string{"raw egg: "}, nil},
		{"carbonara", "Spaghetti Carbonara\nServes 4\n12 oz spaghetti\n3 eggs\n4 oz bacon\nDirections\nBoil the pasta. Toss with the eggs off the heat.", []string{"raw egg: "}, nil},
		{"caesar with baked croutons", "Caesar Salad\nServes 4\n1 egg yolk\n1 head romaine\n2 cups bread cubes\nDirections\nWhisk the yolk with oil. Bake the bread cubes until crisp.", []string{"raw egg: "}, nil},
		{"soft-boiled", "Breakfast\nServes 2\n2 soft-boiled eggs\n2 slices toast", []string{"raw egg: "}, nil},
		{"poached, runny", "Eggs on Toast\nServes 2\n2 eggs\nDirections\nPoach the eggs until the yolks are runny.", []string{"raw egg: "}, nil},
		{"cake", "Pound Cake\nServes 8\n4 eggs\n2 cups flour\n1 cup butter\nDirections\nBeat the eggs. Bake 1 hour.", nil, []string{"raw egg"}},
		{"heated to 160 °F", "Eggnog\nServes 8\n6 eggs\n4 cups milk\nDirections\nCook, stirring, to 160°F. Chill.", nil, []string{"raw egg"}},
		{"pasteurised", "Tiramisu\nServes 8\n4 pasteurized eggs\n1 lb mascarpone\nDirections\nWhip and chill.", nil, []string{"raw egg"}},
		{"hard-boiled", "Egg Salad\nServes 4\n4 hard-boiled eggs\n1/4 cup mayonnaise\nDirections\nMix.", nil, []string{"raw egg"}},
		{"egg noodles", "Noodle Salad\nServes 4\n8 oz egg noodles\n1 eggplant\nDirections\nToss.", nil, []string{"raw egg"}},
		{"mousse without egg", "Chocolate Mousse\nServes 4\n6 oz dark chocolate\n1 cup heavy cream\nDirections\nWhip and chill.", nil, []string{"raw egg"}},
		{"boiled, then sliced cold", "Nicoise Salad\nServes 4\n4 eggs\n1 lb green beans\nDirections\nBoil the eggs 10 minutes. Slice the eggs over the beans.", nil, []string{"raw egg"}},

		// Raw fish, meat, flour.
		{"sushi", "Tuna Sushi\nServes 4\n8 oz tuna\n2 cups sushi rice\nDirections\nCook the rice. Slice the tuna.", []string{"raw fish or meat: tuna: eaten raw"}, nil},
		{"ceviche", "Fish Ceviche\nServes 4\n1 lb snapper\n1/2 cup lime juice\nDirections\nMarinate 2 hours.", []string{"acid does not cook it"}, []string{"temperature"}},
		{"ceviche of poached shrimp", "Shrimp Ceviche\nServes 4\n1 lb shrimp\n1/2 cup lime juice\nDirections\nPoach the shrimp 2 minutes.", nil, []string{"raw fish"}},
		{"vegetable sushi", "Avocado Sushi\nServes 4\n1 avocado\n2 cups sushi rice", nil, []string{"raw fish"}},
		{"cookie dough", "Edible Cookie Dough\nServes 4\n1 cup flour\n1/2 cup butter\nDirections\nMix and chill.", []string{"raw flour: flour"}, nil},
		{"dough that is baked", "Cookie Dough Brownies\nServes 4\n1 cup flour\n1/2 cup butter\nDirections\nBake.", nil, []string{"raw flour"}},

		// Honey, medicines.
		{"honey", "Granola\nServes 8\n1/3 cup honey\n2 cups oats\nDirections\nBake.", []string{"honey: never for infants under 12 months, cooked or not"}, nil},
		{"honeydew, honeycrisp", "Salad\nServes 4\n1 honeydew melon\n2 honeycrisp apples", nil, []string{"infants"}},
		{"grapefruit", "Salad\nServes 2\n1 grapefruit", []string{"grapefruit: interacts with more than 85 medicines"}, nil},
		{"pomelo, Seville orange, marmalade", "Salad\nServes 2\n1 pomelo\n1 Seville orange", []string{"grapefruit: pomelo, seville orange"}, nil},
		{"marmalade", "Toast\nServes 2\n2 tbsp marmalade", []string{"grapefruit: marmalade: may contain Seville orange"}, nil},
		{"juice of a grapefruit", "Drink\nServes 2\njuice of 1 grapefruit", []string{"interacts with more than 85"}, nil},
		{"grapes and grapeseed oil", "Salad\nServes 2\n1 cup grapes\n1 tbsp grapeseed oil\n1 orange\n1 pint grape tomatoes", nil, []string{"medicines"}},
		{"kale", "Salad\nServes 2\n4 cups kale\n1 tbsp olive oil", []string{"vitamin K: ", "most from kale", "consistent"}, nil},
		{"little kale", "Soup\nServes 8\n1/4 cup kale\n8 carrots", nil, []string{"vitamin K"}},
		{"potassium chloride", "Soup\nServes 4\n1 tsp salt substitute", []string{"potassium salt: salt substitute: potassium chloride can be a danger"}, nil},
		{"low-sodium broth", "Soup\nServes 4\n4 cups low-sodium chicken broth", []string{"potassium salt: low-sodium chicken broth: may contain potassium chloride"}, nil},
		{"salt, plain broth, low-fat milk", "Soup\nServes 4\n1 tsp kosher salt\n4 cups chicken broth\n1 cup low-fat milk", nil, []string{"potassium"}},
		{"liquorice", "Candy\nServes 4\n4 oz licorice", []string{"liquorice: "}, nil},
		{"fennel and anise", "Soup\nServes 4\n1 fennel bulb\n1 tsp anise seed", nil, []string{"liquorice"}},
		{"sweeteners", "Drink\nServes 4\n1 tsp aspartame\n1/4 cup erythritol", []string{"phenylketonuria", "laxative"}, nil},

		// Pregnancy and other higher risk.
		{"sprouts", "Sandwich\nServes 2\n1 cup alfalfa sprouts\n4 slices bread", []string{"raw sprouts: alfalfa sprouts"}, nil},
		{"Brussels sprouts", "Roast\nServes 4\n1 lb Brussels sprouts", nil, []string{"raw sprouts"}},
		{"canned sprouts", "Stir fry\nServes 4\n1 can bean sprouts, drained", nil, []string{"raw sprouts"}},
		{"soft cheese", "Salad\nServes 4\n4 oz feta\n2 oz brie", []string{"soft cheese: feta, brie: check that the label says pasteurised milk"}, nil},
		{"hard cheese", "Salad\nServes 4\n4 oz cheddar\n2 oz parmesan\n2 tbsp blue cheese dressing", nil, []string{"soft cheese"}},
		{"raw milk", "Drink\nServes 4\n4 cups unpasteurized apple cider", []string{"unpasteurised: "}, nil},
		{"deli meat", "Sandwich\nServes 1\n2 oz deli turkey\n2 slices bread", []string{"deli meat: deli turkey: heat to 165 °F"}, nil},
		{"hot dog buns", "Rolls\nServes 1\n2 hot dog buns\n1 tsp deli mustard", nil, []string{"deli meat"}},
		{"swordfish", "Grill\nServes 4\n1 lb swordfish", []string{"mercury: swordfish"}, nil},
		{"liver", "Fry\nServes 4\n1 lb beef liver", []string{"liver: beef liver: very high in retinol", "organ meats to 160 °F"}, nil},

		// Temperatures.
		{"poultry", "Roast\nServes 4\n2 lb chicken thighs\n1 lb ground turkey", []string{"chicken thighs, ground turkey: cook poultry to 165 °F (74 °C)"}, nil},
		{"ground meat", "Burgers\nServes 4\n1 lb ground beef\n1/2 lb Italian sausage", []string{"ground beef, italian sausage: cook ground meat to 160 °F (71 °C)"}, nil},
		{"whole cuts", "Roast\nServes 4\n2 lb pork loin\n1 lb beef sirloin steak\n1 lb lamb leg", []string{"cook to 145 °F (63 °C), then rest 3 minutes"}, []string{"160 °F"}},
		{"fish", "Bake\nServes 4\n1 lb salmon\n1 lb shrimp", []string{"salmon, shrimp: cook to 145 °F (63 °C), or until opaque"}, nil},
		{"mussels", "Pot\nServes 4\n2 lb mussels", []string{"mussels: cook until the shells open"}, nil},
		{"egg dish", "Spinach Quiche\nServes 6\n4 eggs\n1 cup milk\nDirections\nBake.", []string{"egg dish: cook to 160 °F (71 °C)"}, nil},
		{"casserole", "Green Bean Casserole\nServes 6\n1 lb green beans\nDirections\nBake.", []string{"casserole: cook to 165 °F"}, nil},
		{"casserole dish is no casserole", "Brownies\nServes 6\n2 eggs\n1 cup flour\nDirections\nBake in a casserole dish.", nil, []string{"casserole", "egg dish"}},
		{"game", "Roast\nServes 4\n2 lb venison", []string{"game and organ meats to 160 °F"}, nil},
		{"ham", "Baked Ham\nServes 10\n5 lb ham\nDirections\nBake.", []string{"reheat cooked ham to 140 °F (60 °C) if packed in an inspected plant, else to 165 °F"}, nil},
		{"cooked, canned, cured", "Salad\nServes 4\n2 cups cooked chicken\n1 can tuna\n4 slices bacon\n4 oz smoked salmon\n1 cup chicken broth\n1 tsp chicken bouillon", nil, []string{"temperature"}},
		{"unknown kinds by words", "Roast\nServes 4\n1 lb zorg poussin fillets", []string{"165 °F"}, nil},
		{"vegetable names", "Salad\nServes 4\n4 beefsteak tomatoes\n1 lb oyster mushrooms", nil, []string{"temperature"}},

		// Storage.
		{"stew", "Beef Stew\nServes 6\n2 lb beef stew meat\n3 carrots\nDirections\nSimmer 2 hours.", []string{"storage: refrigerate at 40 °F (4 °C) within 2 hours, 1 hour above 90 °F", "within 3 to 4 days", "reheat to a boil"}, nil},
		{"rice and beans", "Rice and Beans\nServes 6\n1 cup rice\n1 can black beans\nDirections\nCook the rice.", []string{"reheat to 165 °F (74 °C)"}, nil},
		{"chicken salad is not reheated", "Chicken Salad\nServes 4\n2 cups cooked chicken\n1/4 cup mayonnaise\nDirections\nMix.", []string{"storage: "}, []string{"reheat"}},
		{"slow cooker", "Chicken Chili\nServes 6\n1 lb chicken breast\n1 can beans\nDirections\nCook in a slow cooker 6 hours.", []string{"not in the slow cooker"}, nil},
		{"hard-boiled eggs", "Hard-Boiled Eggs\nServes 6\n6 eggs\n1 tsp salt\nDirections\nBoil 10 minutes.", []string{"within 1 week"}, []string{"3 to 4 days"}},
		{"canned beans", "Hummus\nServes 8\n1 can chickpeas\n1/4 cup tahini", []string{"storage: "}, []string{"reheat"}},
		{"meringue pie", "Lemon Meringue Pie\nServes 8\n1 pie crust\n4 eggs\nDirections\nCook the yolks. Bake 15 minutes.", []string{"storage: "}, []string{"raw egg"}},
		{"cocktail", "Whiskey Sour\nServes 1\n2 oz bourbon\n1 egg white\nDirections\nShake with ice.", []string{"raw egg: "}, []string{"storage"}},
		{"cookies", "Sugar Cookies\nServes 24\n2 cups flour\n1 egg\n1/2 cup milk\nDirections\nBake.", nil, []string{"storage"}},
		{"one amount alone", "1 lb ground beef", nil, []string{"storage"}},

		// What is preserved.
		{"pickles", "Dill Pickles\nServes 16\n4 lb cucumbers\n4 cups vinegar\n1/4 cup pickling salt\nDirections\nPack in jars.", []string{"preserving: pickled"}, []string{"storage"}},
		{"potato salad with pickles", "Potato Salad with Pickles\nServes 8\n2 lb potatoes\n1/2 cup dill pickles\n1/2 tsp salt", nil, []string{"preserving"}},
		{"jam", "Strawberry Jam\nServes 32\n4 cups strawberries\n7 cups sugar\n1 package pectin", []string{"preserving: jam or jelly"}, nil},
		{"yeast bread is no matter of safety", "White Bread\nServes 12\n3 cups flour\n2 tsp yeast\n2 tsp salt\nDirections\nBake.", nil, []string{"preserving"}},
		{"garlic in oil", "Garlic Oil\nServes 16\n1 cup olive oil\n6 cloves garlic\nDirections\nWarm gently.", []string{"garlic in oil: "}, nil},
		{"garlic and oil in a dish", "Pasta with Garlic\nServes 4\n1/4 cup olive oil\n6 cloves garlic\n12 oz pasta", nil, []string{"garlic in oil"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, method := analysed(t, e, c.recipe)
			got := said(a.Cautions(method))
			for _, want := range c.must {
				if !strings.Contains(got, want) {
					t.Errorf("%q is not said:\n%s", want, got)
				}
			}
			for _, unwanted := range c.not {
				for line := range strings.Lines(got) {
					if strings.Contains(line, unwanted) {
						t.Errorf("%q is said: %s", unwanted, line)
					}
				}
			}
		})
	}
}

// cautionOrder is the order that Cautions promises.
var cautionOrder = []string{"allergen", "molluscs", "gluten", "oats", "alcohol", "raw egg", "raw fish or meat", "raw flour", "honey", "raw sprouts", "soft cheese",
	"unpasteurised", "deli meat", "mercury", "liver", "grapefruit", "vitamin K", "potassium salt", "liquorice", "aspartame", "sugar alcohols", "temperature",
	"storage", "preserving", "garlic in oil"}

// TestCautionForm checks, over all published recipes, what holds for every
// caution: one line, a source, the lines it names, the order, and no word that
// clears a food.
func TestCautionForm(t *testing.T) {
	e := newEngine(t)
	for _, p := range readPublished(t) {
		a := e.Analyse(p.recipe)
		last := 0
		for _, c := range a.Cautions(p.recipe.Method) {
			at := slices.Index(cautionOrder, c.Kind)
			switch {
			case at < 0:
				t.Errorf("%s: kind %q is not in the list", p.name, c.Kind)
			case at < last:
				t.Errorf("%s: %q stands after %q", p.name, c.Kind, cautionOrder[last])
			case c.Text == "" || strings.ContainsAny(c.Text, "\n\t"):
				t.Errorf("%s: %q is not one line", p.name, c.Text)
			case c.Source == "":
				t.Errorf("%s: %q has no source", p.name, c.Text)
			case c.Kind == "allergen" && !strings.HasSuffix(c.Text, "; check each label"):
				t.Errorf("%s: %q does not send to the label", p.name, c.Text)
			case !slices.IsSorted(c.Lines) || slices.ContainsFunc(c.Lines, func(i int) bool { return i < 0 || i >= len(a.Lines) || a.Lines[i].Kind != grammar.Ingredient }):
				t.Errorf("%s: %q names lines %v of %d", p.name, c.Text, c.Lines, len(a.Lines))
			}
			for _, clears := range []string{"free of", "free from", " safe"} {
				if strings.Contains(c.Text, clears) {
					t.Errorf("%s: %q says %q", p.name, c.Text, clears)
				}
			}
			last = max(last, at)
		}
	}
}

// TestAllergensOfTheTable checks for the name of every food chosen by hand that
// no allergen which the table gives for it goes missing, and that none is said
// to be contained which the table does not give.
func TestAllergensOfTheTable(t *testing.T) {
	e := newEngine(t)
	checked := 0
	for f := range e.Table().All() {
		if !f.Curated() {
			continue
		}
		l := e.Resolve(grammar.ParseLine("100 g " + f.Name()).Items[0])
		if l.Status != engine.Counted || l.Food != f {
			continue
		}
		checked++
		got := said(engine.Single(l).Cautions(nil))
		has, might := f.Allergens()
		for a := range fooddata.Allergen(fooddata.NumAllergens) {
			contains := strings.Contains(got, "allergen: contains "+a.String()+":")
			may := strings.Contains(got, "allergen: may contain "+a.String()+":")
			switch {
			case slices.Contains(has, a) && !contains && !may, slices.Contains(might, a) && !may && !contains:
				t.Errorf("%s (%s): %s is missing", f.Name(), f.Number(), a)
			case contains && !slices.Contains(has, a):
				t.Errorf("%s (%s): contains %s, by the table it does not", f.Name(), f.Number(), a)
			}
		}
	}
	if checked < 1500 {
		t.Errorf("checked %d foods only", checked)
	}
}

// TestStandInAllergens checks the names that the table stands in another food
// for: what that food contains is at least possible, by every name.
func TestStandInAllergens(t *testing.T) {
	e := newEngine(t)
	files, err := filepath.Glob("../fooddata/list/names_*.tsv")
	if err != nil || len(files) == 0 {
		t.Fatalf("no name lists: %v", err)
	}
	checked := 0
	for _, name := range standIns(t, files) {
		l := e.Resolve(grammar.ParseLine("100 g " + name).Items[0])
		if l.Status != engine.Counted {
			continue
		}
		checked++
		got := said(engine.Single(l).Cautions(nil))
		has, _ := l.Food.Allergens()
		for _, a := range has {
			if !strings.Contains(got, "contains "+a.String()+":") && !strings.Contains(got, "may contain "+a.String()+":") {
				t.Errorf("%s, counted as %s: %s is missing", name, l.Food, a)
			}
		}
	}
	if checked < 500 {
		t.Errorf("checked %d names only", checked)
	}
}

// standIns returns the names that a list marks with "~".
func standIns(t *testing.T, files []string) []string {
	t.Helper()
	var list []string
	for _, file := range files {
		f, err := os.Open(file)
		if err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewScanner(f)
		lines.Buffer(nil, 1<<20)
		for lines.Scan() {
			cells := strings.Split(lines.Text(), "\t")
			if len(cells) < 3 || strings.HasPrefix(cells[0], "#") {
				continue
			}
			for _, name := range strings.Split(cells[2], ";") {
				if plain, ok := strings.CutSuffix(strings.TrimSpace(name), "~"); ok {
					list = append(list, plain)
				}
			}
		}
		if err := lines.Err(); err != nil {
			t.Fatal(err)
		}
		if err := f.Close(); err != nil {
			t.Fatal(err)
		}
	}
	return list
}

func TestAllergenChange(t *testing.T) {
	e := newEngine(t)
	type allergens = []fooddata.Allergen
	for _, c := range []struct {
		name, before, after  string
		brings, noLongerShow allergens
	}{
		{"milk for almond milk", "A\nServes 4\n1 cup milk", "A\nServes 4\n1 cup almond milk", allergens{fooddata.TreeNuts, fooddata.Soybeans}, allergens{fooddata.Milk}},
		{"flour for nut flour", "A\nServes 4\n1 cup flour", "A\nServes 4\n1 cup almond flour", allergens{fooddata.TreeNuts}, allergens{fooddata.Wheat}},
		{"egg for egg white", "A\nServes 4\n1 egg", "A\nServes 4\n2 egg whites", nil, nil},
		{"butter for tahini", "A\nServes 4\n2 tbsp butter", "A\nServes 4\n2 tbsp tahini", allergens{fooddata.Sesame}, allergens{fooddata.Milk}},
		{"butter for margarine", "A\nServes 4\n2 tbsp butter", "A\nServes 4\n2 tbsp margarine", allergens{fooddata.Soybeans}, nil},
		{"margarine for butter", "A\nServes 4\n2 tbsp margarine", "A\nServes 4\n2 tbsp butter", allergens{fooddata.Milk}, allergens{fooddata.Soybeans}},
		{"other lines still bring it", "A\nServes 4\n1 cup milk\n2 tbsp butter", "A\nServes 4\n1 cup soy milk\n2 tbsp butter", allergens{fooddata.Soybeans}, nil},
		{"something not known hides all", "A\nServes 4\n2 tbsp butter", "A\nServes 4\n2 tbsp zorgblat", nil, nil},
		{"no change", "A\nServes 4\n1 cup rice", "A\nServes 4\n1 cup rice", nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			before, _ := analysed(t, e, c.before)
			after, _ := analysed(t, e, c.after)
			brings, gone := engine.AllergenChange(before, after)
			if !slices.Equal(brings, c.brings) || !slices.Equal(gone, c.noLongerShow) {
				t.Errorf("brings %v, no longer shows %v; want %v, %v", brings, gone, c.brings, c.noLongerShow)
			}
		})
	}
}

// TestCautionsLeaveAnalysis checks that asking for cautions changes nothing
// and gives the same twice.
func TestCautionsLeaveAnalysis(t *testing.T) {
	e := newEngine(t)
	a, method := analysed(t, e, "Stew\nServes 4\n1 cup red wine (or broth)\n2 tbsp butter, softened\n1 lb chicken (such as thighs)\nDirections\nSimmer.")
	before := len(a.Lines[2].Item.Aside)
	first := said(a.Cautions(method))
	if second := said(a.Cautions(method)); first != second {
		t.Errorf("first\n%s\nthen\n%s", first, second)
	}
	if len(a.Lines[2].Item.Aside) != before {
		t.Error("the analysis was changed")
	}
}

func BenchmarkCautions(b *testing.B) {
	table, err := fooddata.Open()
	if err != nil {
		b.Fatal(err)
	}
	r, err := grammar.ParseRecipe("Muffins\nServes 12\n2 cups flour\n2 eggs\n1 cup milk\n1/2 cup butter or margarine\n3/4 cup sugar\n1 tsp vanilla\n1 cup blueberries\n1/2 cup walnuts (optional)\nDirections\nMix. Bake at 400 F for 20 minutes.")
	if err != nil {
		b.Fatal(err)
	}
	a := engine.New(table, engine.Options{}).Analyse(r)
	for b.Loop() {
		a.Cautions(r.Method)
	}
}

// TestAllergenMoves holds that what only may be brought in is told apart, and
// that gluten beside wheat is told of (21 CFR 101.91).
func TestAllergenMoves(t *testing.T) {
	e := newEngine(t)
	type allergens = []fooddata.Allergen
	for _, c := range []struct {
		before, after string
		brings, may   allergens
		gluten        string
	}{
		{"1 cup rice", "1/2 cup pearl barley", nil, nil, "Brings in gluten: pearl barley."},
		{"1 cup rice", "1 cup rye flour", nil, nil, "Brings in gluten: rye flour."},
		{"1 cup rice", "1 cup rolled oats", nil, allergens{fooddata.Wheat}, ""},
		{"1 cup rice", "1 cup flour", allergens{fooddata.Wheat}, nil, ""},
		{"1 cup flour", "1/2 cup pearl barley", nil, nil, ""},
		{"2 tbsp butter", "2 tbsp margarine", nil, allergens{fooddata.Soybeans}, ""},
		{"2 tbsp margarine", "2 tbsp butter", allergens{fooddata.Milk}, nil, ""},
		{"1 cup rice", "1 cup rice", nil, nil, ""},
	} {
		before, _ := analysed(t, e, "A\nServes 4\n"+c.before)
		after, _ := analysed(t, e, "A\nServes 4\n"+c.after)
		m := engine.AllergenMoves(before, after)
		if !slices.Equal(m.Brings, c.brings) || !slices.Equal(m.MayBring, c.may) || m.Gluten != c.gluten {
			t.Errorf("%s for %s: %+v", c.after, c.before, m)
		}
		if sentence, brings := engine.GlutenChange(before, after); sentence != c.gluten || brings != (c.gluten != "") {
			t.Errorf("%s for %s: %q, %v", c.after, c.before, sentence, brings)
		}
		for _, s := range m.Sentences() {
			if strings.Contains(s, "Brings in") && strings.Contains(s, "soybeans") {
				t.Errorf("%s for %s: %s", c.after, c.before, s)
			}
		}
	}
}

// TestCautionSources holds the sources of cautions to authorities: law, agencies,
// institutes and universities, no blogs and no shops.
func TestCautionSources(t *testing.T) {
	e := newEngine(t)
	address := regexp.MustCompile(`https?://([^/; ]+)`)
	seen := make(map[string]bool)
	for _, text := range []string{
		"Pickled hot dog mousse\nServes 2\n1 cup milk\n2 eggs\n1 tbsp honey\n1/2 cup red wine\n1 cup barley\n1 cup oats\n2 hot dogs\n1/2 grapefruit\n1 tsp salt substitute\n1 oz licorice\n1 tsp aspartame\n1 tsp xylitol\n1 lb swordfish\n1 lb chicken liver\n1 lb ground beef\n1 cup alfalfa sprouts\n4 oz brie\n1 lb clams\n2 cups kale\n1 cup vinegar\n1 tsp salt\n1 cup unpasteurized cider\n1 lb dried kidney beans\nDirections\nMix. Chill.",
		"Cookie dough\nServes 2\n1 cup flour\n1 cup sugar", "Garlic oil\nServes 2\n1 cup olive oil\n4 cloves garlic", "Ceviche\nServes 2\n1 lb tuna\n1/4 cup lime juice",
		"Chicken casserole\nServes 2\n1 lb chicken\n1 cup rice\nDirections\nBake.", "Stuffed turkey\nServes 8\n1 turkey\n4 cups bread", "Ham\nServes 2\n1 lb cooked ham", "Hard-boiled eggs\nServes 2\n4 eggs",
	} {
		a, method := analysed(t, e, text)
		for _, c := range a.Cautions(method) {
			seen[c.Kind] = true
			for _, found := range address.FindAllStringSubmatch(c.Source, -1) {
				if host := found[1]; !strings.HasSuffix(host, ".gov") && !strings.HasSuffix(host, ".edu") {
					t.Errorf("%s: %s is no authority: %s", c.Kind, host, c.Source)
				}
			}
			if !strings.Contains(c.Source, "from memory") && !address.MatchString(c.Source) && !strings.Contains(c.Source, "CFR") {
				t.Errorf("%s: the source tells neither where it is nor that it is from memory: %s", c.Kind, c.Source)
			}
		}
	}
	for _, kind := range []string{"honey", "allergen", "gluten", "temperature", "potassium salt", "grapefruit", "kidney beans", "deli meat", "storage"} {
		if !seen[kind] {
			t.Errorf("no caution of the kind %q was seen", kind)
		}
	}
}
