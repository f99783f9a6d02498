package engine_test

import (
	"testing"

	"pottle/engine"
	"pottle/grammar"
)

// recipeOf reads a recipe.
func recipeOf(t testing.TB, text string) *grammar.Recipe {
	t.Helper()
	r, err := grammar.ParseRecipe(text)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestDishOf(t *testing.T) {
	for _, c := range []struct {
		recipe string
		want   engine.Dish
	}{
		// by the title
		{"Vegetable Soup\n2 carrots", engine.Soup},
		{"Mom's Chicken Soup Recipe\n2 carrots", engine.Soup},
		{"Peanut Butter Cookies\n1 cup flour", engine.Cookie},
		{"Jam Thumbprint Cookies\n1 cup flour\n1/2 cup jam", engine.Cookie},
		{"Coffee Cake\n2 cups flour", engine.Cake},
		{"Crab Cakes\n1 lb crab", engine.OtherDish},
		{"Rice Pudding\n1 cup rice", engine.Custard},
		{"Bread Pudding\n4 slices bread", engine.Custard},
		{"Angel Food Cake\n1 cup cake flour\n12 egg whites", engine.FoamCake},
		{"Buttermilk Biscuits\n2 cups flour\n1 tbsp baking powder", engine.Biscuit},
		{"Banana Bread\n2 cups flour\n1 tsp baking soda", engine.QuickBread},
		{"Irish Bread\n4 cups flour\n1 tsp baking soda", engine.QuickBread},
		{"Shepherd's Pie\n1 lb ground lamb", engine.Casserole},
		{"Apple Pie\n2 cups flour\n1 cup butter", engine.Pastry},
		{"Fruit Salad\n2 apples", engine.FruitDessert},
		{"Potato Salad with Bacon Dressing\n2 potatoes", engine.Salad},
		{"Salmon with Dill Sauce\n1 lb salmon", engine.OtherDish},
		{"Pesto Baked Polenta\n1 cup cornmeal", engine.OtherDish},
		{"Vanilla Ice Cream\n2 cups cream", engine.FrozenDessert},
		{"Buttercream Frosting\n1 cup butter", engine.Frosting},
		{"Kimchi Fried Rice\n1 cup kimchi\n2 cups cooked rice", engine.StirFry},
		{"Overnight Oats\n1 cup oats\n\nDirections\nDivide among jars, seal and refrigerate overnight.", engine.Cereal},
		{"Cheesecake\n1 lb cream cheese\n\nDirections\nBake in a boiling water bath for 1 hour.", engine.Custard},

		// yeast dough, whatever its name
		{"Cinnamon Rolls\n4 cups flour\n1 packet yeast\n1/2 cup sugar", engine.YeastDough},
		{"Honey Oat Cake\n4 cups flour\n2 1/4 tsp active dry yeast", engine.YeastDough},
		{"Country Loaf\n500 g flour\n100 g sourdough starter\n10 g salt", engine.YeastDough},
		{"French Bread Pizza\n1 loaf French bread\n1 cup cheese", engine.OtherDish},
		{"Tofu Scramble\n1 lb tofu\n2 tbsp nutritional yeast\n1 tbsp flour", engine.OtherDish},

		// what must not be changed
		{"Strawberry Jam\n4 cups strawberries\n4 cups sugar", engine.Preserve},
		{"Strawberry Spread\n4 cups strawberries\n1 box pectin\n7 cups sugar", engine.Preserve},
		{"Garden Salsa\n10 tomatoes\n1 cup vinegar\n\nDirections\nLadle into jars leaving 1/2 inch headspace. Process 15 minutes in a boiling-water canner.", engine.Preserve},
		{"Bread and Butter Pickles\n4 lb cucumbers\n1/2 cup salt", engine.Pickle},
		{"Quick Pickled Red Onions\n1 onion\n1 cup vinegar\n1 tsp salt", engine.Pickle},
		{"Sauerkraut\n5 lb cabbage\n3 tbsp salt", engine.Pickle},
		{"Crunchy Cabbage\n5 lb cabbage\n3 tbsp salt\n\nDirections\nPack into a crock and let ferment 4 weeks.", engine.Pickle},
		{"Pork Chops and Sauerkraut\n4 pork chops\n2 cups sauerkraut", engine.OtherDish},
		{"Gravlax\n2 lb salmon\n1/4 cup salt\n1/4 cup sugar", engine.Cure},
		{"Beef Jerky\n2 lb beef\n1/2 cup soy sauce", engine.Cure},
		{"Homemade Bacon\n3 lb pork belly\n1 tsp pink curing salt\n1/4 cup sugar", engine.Cure},
		{"Roast Turkey\nServes 12\n1 cup kosher salt\n1 turkey (12 lb)", engine.Cure},
		{"Chicken Soup for a Crowd\nServes 60\n1/4 cup salt\n8 gallons broth", engine.Soup},
		{"Peanut Brittle\n1 cup peanuts\n1 cup sugar", engine.Candy},

		// by what is in it and what is done
		{"Grandma's Best\n2 cups flour\n1 cup sugar\n1 tsp baking powder\n\nDirections\nDrop by spoonfuls onto a cookie sheet.", engine.Cookie},
		{"Sunday Treat\n2 cups flour\n1 cup sugar\n1 tsp baking powder\n\nDirections\nSpoon into muffin cups and bake.", engine.QuickBread},
		{"Sunday Treat\n2 cups flour\n1 cup sugar\n1 tsp baking powder", engine.Cake},
		{"Weeknight Beans\n2 cups beans\n4 cups vegetable broth\n\nDirections\nSimmer for 20 minutes.", engine.Soup},
		{"Weeknight Beef\n1 lb beef\n\nDirections\nStir-fry the beef in a hot wok.", engine.StirFry},
		{"", engine.OtherDish},
	} {
		if c.recipe == "" {
			if got := engine.DishOf(&grammar.Recipe{}); got != c.want {
				t.Errorf("an empty recipe is a %s", got)
			}
			continue
		}
		if got := engine.DishOf(recipeOf(t, c.recipe)); got != c.want {
			t.Errorf("%q is a %s, want %s", c.recipe, got, c.want)
		}
	}
}
