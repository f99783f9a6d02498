package engine_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pottle/engine"
	"pottle/fooddata"
)

const soyChicken = "Chicken\nServes 4\n\n1 1/2 lb boneless skinless chicken thighs\n1/2 cup soy sauce\n1/4 cup rice vinegar\n2 tbsp honey\n1 tbsp olive oil\n\nDirections\n"

// TestMarinadeThrownAway holds the ways to say that a marinade is thrown away, or
// that it is not. 1/2 cup soy sauce is about 7,000 mg sodium.
func TestMarinadeThrownAway(t *testing.T) {
	e := newEngine(t)
	mix := "Mix soy sauce, vinegar and honey in a bag. Add the chicken and marinate 4 hours. "
	for _, c := range []struct {
		directions string
		share      float64 // of the soy sauce, eaten; 1 if all
		note       string  // what is left open; "" if nothing
	}{
		{mix + "Discard marinade. Grill 12 minutes.", 0.25, ""},
		{mix + "Remove the chicken, discarding the marinade. Grill 12 minutes.", 0.25, ""},
		{mix + "Drain, and throw away the liquid. Grill 12 minutes.", 0.25, ""},
		{mix + "Throw the marinade away. Grill 12 minutes.", 0.25, ""},
		{mix + "Throw out the marinade. Grill 12 minutes.", 0.25, ""},
		{mix + "Pour off the marinade. Grill 12 minutes.", 0.25, ""},
		{mix + "Tip the marinade away and grill the chicken 12 minutes.", 0.25, ""},
		{mix + "Remove chicken from marinade (do not reuse). Grill 12 minutes.", 0.25, ""},
		{mix + "Take out the chicken; do not reuse the marinade. Grill 12 minutes.", 0.25, ""},
		{mix + "Grill the chicken 12 minutes. Don't use the marinade for basting.", 0.25, ""},
		{mix + "Drain and discard soy sauce mixture. Grill 12 minutes.", 0.25, ""},
		{mix + "Drain the chicken well and pat dry. Grill 12 minutes.", 0.25, ""},
		{mix + "Lift the chicken out of the soy mixture. Grill 12 minutes.", 0.25, ""},
		{mix + "Remove chicken, shaking off any excess, and dispose of the marinade. Grill 12 minutes.", 0.25, ""},
		{mix + "Discard the rest. Grill 12 minutes.", 0.25, ""},
		{mix + "Get rid of the marinade. Grill 12 minutes.", 0.25, ""},
		{mix + "Wipe off the marinade and discard it. Grill 12 minutes.", 0.25, ""},
		{mix + "Take chicken out of the marinade, pat dry, and grill. Toss the marinade.", 0.25, ""},
		{mix + "Grill 12 minutes. Toss out the marinade.", 0.25, ""},
		{mix + "Drain the chicken, discarding liquid. Grill 20 minutes.", 0.25, ""},
		{mix + "Dump the used marinade and grill the chicken 12 minutes.", 0.25, ""},
		{mix + "Grill 12 minutes. Toss the chicken in the marinade.", 1, ""},
		{mix + "Grill 12 minutes, basting with the marinade.", 1, "do not say what becomes of it"},
		{mix + "Grill 12 minutes. Simmer the rice 20 minutes.", 1, "do not say what becomes of it"},
		{mix + "Lift out the chicken and let drain. Throw the rest out. Grill.", 0.25, ""},
		{mix + "Blot dry with paper towels and grill.", 0.25, ""},
		{mix + "Remove from marinade and reserve marinade. Grill, basting often.", 1, ""},
		{mix + "Pour everything into a dish and bake 40 minutes.", 1, ""},
		{"Combine soy sauce, vinegar and honey. Reserve half. Marinate chicken in the rest 2 hours. Grill, then drizzle with the reserved marinade.", 1, "do not say what becomes of it"},
		{"Combine soy sauce, vinegar and honey. Reserve half. Marinate chicken in the rest 2 hours. Discard the marinade. Grill, then drizzle with the reserved marinade.", 0.625, ""},
		{"Let chicken sit in the soy sauce, vinegar and honey for 2 hours in the fridge. Grill.", 1, "do not say what becomes of it"},
		// Nothing is named: what a marinade is made of, and is not used later, is it.
		{"Marinate. Drain the chicken, discarding liquid. Grill 20 minutes.", 0.25, ""},
		{"Marinate chicken overnight. Take out, pat dry, and brush with the olive oil. Grill.", 0.25, ""},
		{"Combine all and marinate overnight. Grill.", 1, "do not say what becomes of it"},
		{"Mix soy sauce, vinegar and honey; add the chicken and let stand in the refrigerator 4 hours. Discard the soy mixture. Grill 12 minutes.", 0.25, ""},
		{"Mix soy sauce, vinegar and honey; add the chicken and let stand in the refrigerator 4 hours. Grill 12 minutes.", 1, "do not say what becomes of it"},
		{mix + "Drain the chicken. Grill 12 minutes. Boil the soy sauce mixture 5 minutes and spoon over.", 1, "cannot be told"},
		{mix + "Add the tomatoes and simmer 30 minutes.", 1, ""},
		// Used, wholly or in part.
		{mix + "Bake with the marinade 30 minutes.", 1, ""},
		{mix + "Drain, reserving the marinade. Grill 12 minutes.", 1, ""},
		{mix + "Do not discard the marinade. Boil it 5 minutes and pour over.", 1, ""},
		{mix + "Remove chicken from the marinade. Grill 12 minutes. Boil the marinade and spoon over.", 1, ""},
		{mix + "Grill 12 minutes, basting with the marinade. Discard any remaining marinade.", 1, "cannot be told"},
		{mix + "Reserve some of the marinade. Discard the rest. Grill 12 minutes.", 1, "cannot be told"},
		{mix + "Grill 12 minutes.", 1, "do not say what becomes of it"},
		// 1/4 cup, 59 ml, of 127 + 60 + 42 g is kept aside, and a quarter of the rest.
		{"Mix soy sauce, vinegar and honey. Reserve 1/4 cup of the marinade for basting. Add the chicken and marinate 4 hours. Discard the rest. Grill 12 minutes.", 0.445, ""},
		{mix + "Drain chicken, reserving 1/4 cup marinade; discard the rest. Grill 12 minutes, brushing with the reserved marinade.", 0.445, ""},
	} {
		r := recipe(t, soyChicken+c.directions)
		plain := e.Analyse(r)
		a := e.Served(r, plain, engine.Told{})
		at := lineOf(t, plain, "soy sauce")
		if share := a.Lines[at].Grams.Low / plain.Lines[at].Grams.Low; math.Abs(share-c.share) > 0.01 {
			t.Errorf("%s\n\tshare %.3f, want %g", c.directions, share, c.share)
		}
		if notes := strings.Join(a.Notes, "; "); c.note == "" && strings.Contains(notes, "counted") || !strings.Contains(notes, c.note) {
			t.Errorf("%s\n\tnotes %q, want %q", c.directions, notes, c.note)
		}
		if oil := lineOf(t, plain, "olive oil"); a.Lines[oil].Grams != plain.Lines[oil].Grams {
			t.Errorf("%s\n\tthe oil was thrown away", c.directions)
		}
	}
}

// TestButtermilkThrownAway holds that a soak without the word marinade is one.
func TestButtermilkThrownAway(t *testing.T) {
	e := newEngine(t)
	for _, directions := range []string{
		"Soak the chicken in buttermilk and hot sauce 4 hours; drain and discard buttermilk. Dredge in flour. Bake 40 minutes.",
		"Soak the chicken in the buttermilk and hot sauce overnight. Drain, discarding the buttermilk. Dredge in flour. Bake 40 minutes.",
		"Marinate the chicken in the buttermilk and hot sauce. Remove chicken from buttermilk, letting excess drip off. Dredge in flour. Bake 40 minutes.",
	} {
		r := recipe(t, "Chicken\nServes 6\n\n3 lb chicken drumsticks\n2 cups buttermilk\n1 tbsp hot sauce\n2 cups flour\n1 tsp salt\n\nDirections\n"+directions)
		plain := e.Analyse(r)
		a := e.Served(r, plain, engine.Told{})
		for food, want := range map[string]float64{"buttermilk": 0.25, "hot": 0.25, "flour": 1, "drumstick": 1} {
			at := lineOf(t, plain, food)
			if share := a.Lines[at].Grams.Low / plain.Lines[at].Grams.Low; math.Abs(share-want) > 0.01 {
				t.Errorf("%s\n\t%s: share %.2f, want %g", directions, food, share, want)
			}
		}
	}
}

// TestMarinadeTold holds that a share that is told counts whatever the directions
// say of the marinade.
func TestMarinadeTold(t *testing.T) {
	e := newEngine(t)
	r := recipe(t, soyChicken+"Mix soy sauce, vinegar and honey in a bag. Add the chicken and marinate 4 hours. Grill 12 minutes.")
	plain := e.Analyse(r)
	a := e.Served(r, plain, engine.Told{Kept: map[engine.KeptKind]float64{engine.KeptMarinade: 0.5}})
	at := lineOf(t, plain, "soy sauce")
	if share := a.Lines[at].Grams.Low / plain.Lines[at].Grams.Low; share != 0.5 {
		t.Errorf("share %g, want 0.5", share)
	}
}

// TestFatDrained holds what "drain" belongs to, and what is told not to be done.
func TestFatDrained(t *testing.T) {
	e := newEngine(t)
	for directions, want := range map[string]bool{
		"Drain and rinse the beans. Brown the beef in a skillet; do not drain. Add the beans.": false,
		"Brown the beef in a skillet. Drain and rinse the beans and add.":                      false,
		"Brown the beef in a skillet. Rinse and drain the beans; add.":                         false,
		"Brown the beef in a skillet. Drain, rinse and add the beans.":                         false,
		"Brown the beef in a skillet, but don't drain.":                                        false,
		"Brown the beef in a skillet without draining the fat.":                                false,
		"Brown the beef in a skillet. There is no need to drain the fat.":                      false,
		"Brown the beef in a skillet. Never discard the drippings.":                            false,
		"Drain the tomatoes. Brown the beef in a skillet.":                                     false,
		"Fry the tortillas and drain on paper towels. Mix the raw beef with the beans.":        false,
		"Brown the beef in a skillet; drain.":                                                  true,
		"Brown the beef in a skillet. Drain well.":                                             true,
		"Brown the beef in a skillet, drain, and add the beans.":                               true,
		"Brown the beef in a skillet. Drain the meat and return it to the pan.":                true,
		"Brown the beef in a skillet. Drain the beef and add the beans.":                       true,
		"Cook the ground beef and onion in a skillet until brown. Drain off fat.":              true,
		"Brown the beef in a skillet; pour off the excess fat. Drain and add the beans.":       true,
		"Brown the beef in a skillet; tip the fat away.":                                       true,
		"Brown the beef in a skillet and drain and crumble the beef.":                          true,
	} {
		r := recipe(t, "Tacos\nServes 4\n\n1 lb ground beef (80% lean)\n1 (15-oz) can black beans\n1 onion\n1 can diced tomatoes\n8 corn tortillas\n\nDirections\n"+directions)
		plain := e.Analyse(r)
		fat, _ := e.Served(r, plain, engine.Told{}).Lines[lineOf(t, plain, "beef")].Has(fooddata.Fat)
		all, _ := plain.Lines[lineOf(t, plain, "beef")].Has(fooddata.Fat)
		if got := fat.Low < all.Low; got != want {
			t.Errorf("%s: drained %v, want %v", directions, got, want)
		}
	}
}

// TestFryingOil holds that much oil for frying is asked about, by the line or by
// the directions, and that the oil of a pan or of a dough is counted.
func TestFryingOil(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		line, directions string
		asked            bool
	}{
		{"2 cups peanut or vegetable oil for frying", "", true},
		{"1 quart peanut or canola oil for frying", "", true},
		{"3 cups vegetable oil, for frying", "", true},
		{"1/2 cup olive oil, for pan-frying", "", true},
		{"4 cups vegetable oil, for the fryer", "", true},
		{"1 cup oil, to fry", "", true},
		{"3 cups vegetable oil", "Heat oil in a deep pan to 350 F. Fry in batches. Drain on paper towels.", true},
		{"Vegetable oil (about 3 cups)", "Deep-fry until golden.", true},
		{"1 litre sunflower oil", "Deep fry in batches for 5 minutes.", true},
		{"3 cups vegetable oil", "Fry the chicken 10 minutes.", true},
		{"1/2 cup canola oil", "Fry the chicken 4 minutes a side. Transfer to a plate lined with paper towels.", true},
		{"1 cup shortening", "Heat 1 inch of oil in a skillet and fry the chicken. Drain on a rack.", true},
		{"4 cups vegetable oil", "Poach the chicken in the oil 1 hour.", true},
		{"1 quart vegetable oil", "Drain on kitchen paper after frying 5 minutes.", true},
		{"2 tbsp vegetable oil", "Fry the chicken 5 minutes. Drain on paper towels.", false},
		{"2 tbsp vegetable oil", "Sauté the chicken in the oil.", false},
		{"2 tbsp oil for frying", "Fry the chicken.", false},
		{"1/3 cup vegetable oil", "Fry the onion in the oil until brown. Add the chicken and simmer 40 minutes.", false},
		{"1 cup vegetable oil", "Whisk oil, flour and sugar. Bake at 350 F for 40 minutes.", false},
		{"1/2 cup olive oil", "Roast in the oven with the oil at 400 F.", false},
		{"1/4 cup peanut oil", "Stir-fry the chicken in the hot oil 5 minutes.", false},
		{"1/2 cup vegetable oil, absorbed", "Deep-fry until golden.", false},
	} {
		r := recipe(t, "Fry\nServes 4\n\n1 lb boneless chicken thighs\n1 cup flour\n"+c.line+"\n\nDirections\n"+c.directions+"\n")
		a := e.Analyse(r)
		at := slices.IndexFunc(a.Lines, func(l engine.Line) bool { return l.Text == c.line })
		if at < 0 {
			t.Fatalf("no line %q", c.line)
		}
		l := &a.Lines[at]
		if l.AsksTakenUp() != c.asked || c.asked && (l.Grams.High > 0 || !strings.Contains(l.Why, "taken up in ")) || !c.asked && l.Status != engine.Counted {
			t.Errorf("%s; %s: %v %q, %g g; want asked %v", c.line, c.directions, l.Status, l.Why, l.Grams.Low, c.asked)
		}
	}
	// Where one line says that it is for frying, another is not meant.
	a := e.Analyse(recipe(t, "Doughnuts\nServes 4\n\n2 cups flour\n1/3 cup vegetable oil\nvegetable oil, for frying\n\nDirections\nKnead. Deep-fry in the oil.\n"))
	if l := &a.Lines[lineOf(t, a, "vegetable oil")]; l.Status != engine.Counted {
		t.Errorf("the oil of the dough: %v %s", l.Status, l.Why)
	}
}

// TestBrine holds that what meat takes up of a brine goes by its weight: 10 % of
// it (common practice, no source), in the brine's own proportions.
func TestBrine(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct {
		name, text string
		most, sum  float64 // grams of salt at the most, and of brine, taken up
	}{
		{"turkey breast", "Turkey\nServes 8\n\n4 lb bone-in turkey breast\n1 gallon water\n1 cup kosher salt\n1/2 cup sugar\n2 tbsp olive oil\n\nDirections\nDissolve salt and sugar in water. Submerge turkey 12 hours. Remove the turkey from the brine; discard brine. Roast 2 hours.", 12, 156},
		{"water told in the directions", "Pork\nServes 6\n\n3 lb boneless pork loin\n1/4 cup salt\n\nDirections\nDissolve the salt in 1 quart of cold water. Brine the pork 6 hours. Discard the brine. Roast 1 hour.", 12, 0},
		{"water not told", "Pork\nServes 6\n\n3 lb boneless pork loin\n1/4 cup salt\n\nDirections\nMake a brine of the salt. Brine the pork 6 hours. Discard the brine. Roast 1 hour.", 12, 0},
	} {
		r := recipe(t, c.text)
		plain := e.Analyse(r)
		a := e.Served(r, plain, engine.Told{})
		salt, brine := 0.0, 0.0
		for i := range a.Lines {
			l := &a.Lines[i]
			if l.Status != engine.Counted || l.Grams.Low == plain.Lines[i].Grams.Low {
				continue
			}
			brine += l.Grams.Low
			if strings.Contains(l.Food.Name(), "salt") {
				salt = l.Grams.Low
			}
			if said := strings.Join(l.Assumed, "; "); !strings.Contains(said, "of this brine taken up") || !strings.Contains(said, "an estimate") || !strings.Contains(said, "no source") {
				t.Errorf("%s: assumed %q", c.name, said)
			}
		}
		if salt <= 0 || salt > c.most || c.sum > 0 && math.Abs(brine-c.sum) > 1 {
			t.Errorf("%s: %.1f g of salt and %.0f g of brine in the meat, want at most %g g and %g g", c.name, salt, brine, c.most, c.sum)
		}
	}
	r := recipe(t, "Turkey\nServes 8\n\n12 lb turkey\n3 tbsp kosher salt\n1 tbsp pepper\n\nDirections\nRub the turkey with the salt for a dry brine. Refrigerate overnight and pat dry. Roast 3 hours.")
	plain := e.Analyse(r)
	if a := e.Served(r, plain, engine.Told{}); a.Lines[lineOf(t, plain, "salt")].Grams != plain.Lines[lineOf(t, plain, "salt")].Grams {
		t.Error("the salt of a dry brine was thrown away")
	}
}

// TestThrownAwayLeftOpen holds that what is thrown away and counted all the same is
// said.
func TestThrownAwayLeftOpen(t *testing.T) {
	e := newEngine(t)
	for _, c := range []struct{ ingredients, directions, note string }{
		{"4 slices bacon\n1 lb potatoes", "Fry the bacon until crisp; pour off the fat. Add the potatoes.", ""},
		{"4 slices bacon\n1 lb potatoes", "Fry the bacon until crisp. Add the potatoes.", "keep 33% of the fat"},
		{"4 slices bacon\n1 lb potatoes", "Cook the bacon and drain on paper towels. Add the potatoes.", "keep 33% of the fat"},
		{"1 lb sausage links\n1 lb potatoes", "Fry the sausage; pour off the fat. Add the potatoes.", "how much fat drains from "},
		{"2 lb chicken thighs\n2 onions\n2 quarts chicken broth", "Simmer 1 hour. Strain, discarding the solids.", "counted all the same"},
		{"1 lb chicken breast\n2 onions\n2 cups celery\n4 oz ham", "Simmer 1 hour. Discard the ham.", "\"drop the ham\""},
		{"1 lb chicken breast\n2 bay leaves\n1 lb mushrooms", "Slice the mushrooms; discard the stems. Simmer, discard the bay leaves.", ""},
		{"1 lb chicken breast\n1 cup flour", "Dredge the chicken in the flour, shaking off the excess flour. Bake.", "how much of the flour is left over"},
		{"1 lb chicken breast\n1/4 cup olive oil", "Fry the chicken. Pour off all but 1 tbsp oil.", "how much of the olive oil is left over"},
		{"2 lb mussels\n1 cup white wine", "Steam 5 minutes. Discard any mussels that have not opened.", ""},
		{"1 lb chicken breast\n1 onion", "Do not discard the onion. Bake.", ""},
	} {
		r := recipe(t, "Dish\nServes 4\n\n"+c.ingredients+"\n\nDirections\n"+c.directions)
		notes := strings.Join(e.Served(r, e.Analyse(r), engine.Told{}).Notes, "; ")
		if c.note == "" && notes != "" || !strings.Contains(notes, c.note) {
			t.Errorf("%s: notes %q, want %q", c.directions, notes, c.note)
		}
	}
}
