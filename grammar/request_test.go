package grammar_test

import (
	"fmt"
	"strings"
	"testing"

	"pottle/grammar"
)

var requestNames = map[grammar.RequestKind]string{
	grammar.Figures: "figures", grammar.Help: "help", grammar.SetServing: "servings", grammar.FixLine: "fix",
	grammar.ShowLines: "lines", grammar.GramsOf: "grams", grammar.NutrientOf: "nutrient", grammar.ChoicesOf: "choices",
	grammar.Compare: "compare", grammar.Holds: "holds", grammar.Convert: "convert", grammar.FoodSuits: "food suits", grammar.MakePage: "page",
	grammar.UseInstead: "use", grammar.SetAmount: "set", grammar.MultiplyFood: "multiply", grammar.Drop: "drop",
	grammar.Add: "add", grammar.Include: "include", grammar.Undo: "undo", grammar.WhatChanged: "changed",
	grammar.CompareRecipe: "compare recipe", grammar.Brings: "brings", grammar.Cut: "cut", grammar.ApplyAdvice: "apply",
	grammar.ReplaceWhat: "replace", grammar.SuitDiet: "diet", grammar.Fit: "fit", grammar.SetTarget: "target",
	grammar.CheckTarget: "check", grammar.Scale: "scale", grammar.ScalePan: "scale pan", grammar.Cook: "cook",
	grammar.BackTo: "back", grammar.Suitable: "suitable", grammar.Insulin: "insulin", grammar.RecipeFigure: "figure",
	grammar.ShowRecipe: "show", grammar.No: "no", grammar.SaveRecipe: "save",
	grammar.CookedWeight: "weighed", grammar.Claim: "claim", grammar.Label: "label", grammar.Warnings: "warnings", grammar.Thanks: "thanks", grammar.ServingOf: "serving of",
}

// describeRequest writes a request: its kind, then what is filled in. Another
// reading follows after " / ".
//
//	nutrient | nutrient: sodium | 1 tsp soy sauce
//	compare | nutrient: potassium | banana | orange
func describeRequest(r grammar.Request) string {
	parts := []string{requestNames[r.Kind]}
	add := func(label, value string) {
		if value != "" {
			parts = append(parts, label+value)
		}
	}
	if r.Line != 0 {
		add("line ", fmt.Sprint(r.Line))
	}
	add("", r.Servings.String())
	add("nutrient: ", r.Nutrient)
	add("food: ", r.Food)
	add("new: ", r.New)
	add("in ", r.Unit)
	if r.Hundred {
		add("", "of 100 g")
	}
	if r.Factor != nil {
		add("times ", r.Factor.RatString())
	}
	for _, n := range r.Numbers {
		add("number ", fmt.Sprint(n))
	}
	for _, l := range r.Limits {
		most := "at most "
		if l.AtLeast {
			most = "at least "
		}
		add("", strings.TrimSpace(l.Nutrient+" "+most+l.Amount.RatString()+" "+l.Unit))
	}
	for _, food := range r.Foods {
		add("of ", food)
	}
	if r.BySize {
		add("", "by size")
	}
	if r.OrScale {
		add("", "or scale")
	}
	if r.Whole {
		add("", "of the whole recipe")
	}
	parts = append(parts, r.Amounts...)
	if r.Fault != nil {
		add("fault: ", r.Fault.Error())
	}
	s := strings.Join(parts, " | ")
	if r.Else != nil {
		s += " / " + describeRequest(*r.Else)
	}
	return s
}

// requestTests are the questions about a food and the requests that need no
// recipe to be understood.
var requestTests = []struct{ text, want string }{
	// help
	{"help", "help"},
	{"Help", "help"},
	{"HELP!", "help"},
	{"?", "help"},
	{"help me", "help"},

	// lines
	{"lines", "lines"},
	{"show lines", "lines"},
	{"Show me all the lines?", "lines"},
	{"details", "lines"},
	{"show details", "lines"},
	{"working", "lines"},
	{"show the working", "lines"},

	// servings
	{"servings 6", "servings | 6"},
	{"serves 4", "servings | 4"},
	{"Servings: 6", "servings | 6"},
	{"servings = 6", "servings | 6"},
	{"serves 4 to 6", "servings | 4 to 6"},
	{"make it 6 servings", "servings | 6 | or scale"},
	{"make that 6 servings", "servings | 6 | or scale"},
	{"make it for 6", "servings | 6 | or scale"},
	{"6 servings", "servings | 6"},
	{"for 6 servings", "servings | 6 | or scale"},
	{"for 6 people", "servings | 6 | or scale"},
	{"make this for 6", "servings | 6 | or scale"},
	{"can you make it for 8", "servings | 8 | or scale"},
	{"make it serve 12", "servings | 12 | or scale"},
	{"I need it for 20 people", "servings | 20 | or scale"},
	{"for a crowd of 20", "servings | 20 | or scale"},
	{"make it for 6 people instead of 4", "servings | 6 | or scale"},

	// several nutrients
	{"sodium and potassium in 1 cup tomato juice", "nutrient | nutrient: sodium and potassium | 1 cup tomato juice"},
	{"protein, fat and carbs in 1 egg", "nutrient | nutrient: protein, fat and carbs | 1 egg"},
	{"how much carbs & fiber is in 1 apple", "nutrient | nutrient: carbs, fiber | 1 apple"},
	{"vitamins A, C and K in 1 cup kale", "nutrient | nutrient: vitamin A, vitamin C and vitamin K | 1 cup kale"},
	{"carbs, fiber and protein per serving", "figure | nutrient: carbs, fiber and protein"},

	// halves, and an ounce that is no unit
	{"carbs in one and a half cups cooked rice", "nutrient | nutrient: carbs | one and a half cups cooked rice"},
	{"sugar in two and a half tablespoons honey", "nutrient | nutrient: sugar | two and a half tablespoons honey"},
	{"carbs in half a cup rice", "nutrient | nutrient: carbs | 1/2 cup rice"},
	{"protein in ounce of cheddar", "nutrient | nutrient: protein | 1 oz cheddar"},
	{"iron in mg in spinach", "nutrient | nutrient: iron | in mg | spinach"},
	{"it serves 6", "servings | 6"},
	{"set the servings to 8", "servings | 8"},
	{"the servings are 8", "servings | 8"},
	{"servings six", "servings | 6"},
	{"servings half a dozen", "servings | 6"},
	{"servings 0", "servings | 0"},
	{"servings 1/0", `servings | fault: "1/0" is not an amount a kitchen has; write it like 2, 1/2, 1 1/2 or 0.75`},

	// fix a line
	{"line 3 is 2% milk", "fix | line 3 | 2% milk"},
	{"Line 3 is skim milk please", "fix | line 3 | skim milk"},
	{"line 3: 2% milk", "fix | line 3 | 2% milk"},
	{"line 3 = 2% milk", "fix | line 3 | 2% milk"},
	{"line 3, skim milk", "fix | line 3 | skim milk"},
	{"line 3 should be 2% milk", "fix | line 3 | 2% milk"},
	{"line 12 was 1 cup skim milk", "fix | line 12 | 1 cup skim milk"},
	{"number 3 is skim milk", "fix | line 3 | skim milk"},
	{"no. 3 is skim milk", "fix | line 3 | skim milk"},
	{"line 0 is milk", "fix | milk"},
	{"line 99999999999999999999 is milk", "fix | milk"},

	// grams
	{"how many grams is 1/3 cup packed brown sugar", "grams | 1/3 cup packed brown sugar"},
	{"how many grams are in a cup of flour?", "grams | a cup of flour"},
	{"How many g in 1 cup flour", "grams | 1 cup flour"},
	{"grams in 1 cup flour", "grams | 1 cup flour"},
	{"weight of 1 cup flour", "grams | 1 cup flour"},
	{"what is the weight of 1 cup flour", "grams | 1 cup flour"},
	{"what's the weight of 1 cup flour?", "grams | 1 cup flour"},
	{"how much does 1 cup flour weigh", "grams | 1 cup flour"},
	{"what does 1 cup flour weigh?", "grams | 1 cup flour"},
	{"how much does an egg weigh", "grams | an egg"},
	{"how many grams of flour in 1 cup", "grams | 1 cup flour"},
	{"1 cup flour in grams", "grams | 1 cup flour"},
	{"1 cup flour to grams", "grams | 1 cup flour"},
	{"convert 1 cup flour to grams", "grams | 1 cup flour"},

	// nutrient
	{"sodium in 1 tsp soy sauce", "nutrient | nutrient: sodium | 1 tsp soy sauce"},
	{"Sodium in 1/4 tsp salt?", "nutrient | nutrient: Sodium | 1/4 tsp salt"},
	{"sodium: 1 tsp soy sauce", "nutrient | nutrient: sodium | 1 tsp soy sauce"},
	{"how much sodium is in 1 tsp soy sauce", "nutrient | nutrient: sodium | 1 tsp soy sauce"},
	{"how much sodium in 1 tsp soy sauce??", "nutrient | nutrient: sodium | 1 tsp soy sauce"},
	{"how much sodium is there in soy sauce", "nutrient | nutrient: sodium | soy sauce"},
	{"what is the sodium in 1 tsp soy sauce", "nutrient | nutrient: sodium | 1 tsp soy sauce"},
	{"what is the sodium content of 1 tsp soy sauce", "nutrient | nutrient: sodium | 1 tsp soy sauce"},
	{"sodium content of soy sauce", "nutrient | nutrient: sodium | soy sauce"},
	{"the potassium in a banana", "nutrient | nutrient: potassium | a banana"},
	{"potassium of a banana", "nutrient | nutrient: potassium | a banana"},
	{"protein from 2 eggs", "nutrient | nutrient: protein | 2 eggs"},
	{"calories 2 eggs", "nutrient | nutrient: calories | 2 eggs"},
	{"how many calories in 1 egg", "nutrient | nutrient: calories | 1 egg"},
	{"how many calories do I get from 1 egg", "nutrient | nutrient: calories | 1 egg"},
	{"saturated fat in 1 tbsp butter", "nutrient | nutrient: saturated fat | 1 tbsp butter"},
	{"vitamin D in 1 cup milk", "nutrient | nutrient: vitamin D | 1 cup milk"},
	{"vitamin b12 in 3 oz salmon", "nutrient | nutrient: vitamin b12 | 3 oz salmon"},
	{"please tell me the sodium in 1 tsp soy sauce", "nutrient | nutrient: sodium | 1 tsp soy sauce"},
	{"can you tell me how much sodium is in 1 tsp soy sauce please?", "nutrient | nutrient: sodium | 1 tsp soy sauce"},
	{"hi, sodium in 1 tsp soy sauce", "nutrient | nutrient: sodium | 1 tsp soy sauce"},

	{"how many grams of carbohydrate are in 1 cup cooked rice", "nutrient | nutrient: carbohydrate | 1 cup cooked rice"},
	{"how many grams of carb is in 1/2 a cup of mashed sweet potato", "nutrient | nutrient: carb | 1/2 a cup of mashed sweet potato"},
	{"how many mg of sodium does 1 tsp soy sauce have?", "nutrient | nutrient: sodium | 1 tsp soy sauce"},
	{"how many carbs does a banana have", "nutrient | nutrient: carbs | a banana"},
	{"how many units of alcohol in 1 glass wine", "nutrient | nutrient: alcohol | 1 glass wine"},
	{"what about 1 cup of rice", "figures | 1 cup of rice"},

	// vitamins and fatty acids by their letters and numbers
	{"vitamin A in 1 sweet potato", "nutrient | nutrient: vitamin A | 1 sweet potato"},
	{"how much vitamin A is in a carrot", "nutrient | nutrient: vitamin A | a carrot"},
	{"vit a in 1 egg", "nutrient | nutrient: vit a | 1 egg"},
	{"vitamin A: carrot vs spinach", "compare | nutrient: vitamin A | carrot | spinach"},
	{"vitamin B 12 in 3 oz salmon", "nutrient | nutrient: vitamin b12 | 3 oz salmon"},
	{"vitamin b-6 in a banana", "nutrient | nutrient: vitamin b6 | a banana"},
	{"omega-3 in 3 oz salmon", "nutrient | nutrient: omega-3 | 3 oz salmon"},
	{"omega 3 in 3 oz salmon", "nutrient | nutrient: omega-3 | 3 oz salmon"},
	{"how much omega-3 does 3 oz salmon have", "nutrient | nutrient: omega-3 | 3 oz salmon"},

	// units
	{"energy in kJ of 1 banana", "nutrient | nutrient: energy | in kJ | 1 banana"},
	{"energy in 100g bread in kj", "nutrient | nutrient: energy | in kJ | 100g bread"},
	{"how many kJ in 1 banana", "nutrient | nutrient: kJ | 1 banana"},
	{"how many mg sodium in 6 g salt", "nutrient | nutrient: sodium | in mg | 6 g salt"},
	{"how much is 1/4 cup in ml", "convert | in ml | 1/4 cup"},
	{"convert 1/4 cup to ml", "convert | in ml | 1/4 cup"},
	{"500 g flour in cups", "convert | in cups | 500 g flour"},
	{"1/3 cup in tablespoons", "convert | in tablespoons | 1/3 cup"},
	{"2 oz in g", "convert | in g | 2 oz"},
	{"how many cups is 500 g flour", "holds | food: cups | 500 g flour"},
	{"how many tbsp in 100 g peanut butter", "holds | food: tbsp | 100 g peanut butter"},

	// how much of a food holds it
	{"15 g carbohydrate of grapes", "holds | food: grapes | 15 g carbohydrate / figures | 15 g carbohydrate of grapes"},
	{"how many grapes is 15 g carb", "holds | food: grapes | 15 g carb"},
	{"how much banana has 15 g carbs", "holds | food: banana | 15 g carbs"},
	{"how much rice is 45 g of carbohydrate", "holds | food: rice | 45 g of carbohydrate"},
	{"how many grapes is 1 carb choice", "holds | food: grapes | 1 carb choice"},
	{"how much salt is 1500 mg sodium", "holds | food: salt | 1500 mg sodium"},
	{"how many teaspoons of salt is 1500 mg sodium", "holds | food: teaspoons of salt | 1500 mg sodium"},
	{"how many grapes for 15 g carb", "fit | carb at most 15 g | of grapes / holds | food: grapes | 15 g carb"},
	{"200 g tuna in oil", "holds | food: oil | 200 g tuna / figures | 200 g tuna in oil"},

	// whether a food suits
	{"is soy sauce gluten free", "food suits | food: soy sauce | new: gluten free"},
	{"are oats gluten-free?", "food suits | food: oats | new: gluten-free"},
	{"is tamari usually gluten free", "food suits | food: tamari | new: gluten free"},
	{"does pesto contain nuts", "food suits | food: pesto | new: nuts"},
	{"is there gluten in soy sauce", "food suits | food: soy sauce | new: gluten"},
	{"any nuts in pesto", "food suits | food: pesto | new: nuts"},
	{"can a celiac eat oats", "food suits | food: oats | new: a celiac"},
	{"is honey safe for babies", "food suits | food: honey | new: babies"},
	{"can I give honey to my baby", "food suits | food: honey | new: my baby"},
	{"can I give my baby honey", "food suits | food: honey | new: baby"},
	{"is worcestershire sauce vegetarian", "food suits | food: worcestershire sauce | new: vegetarian"},

	// a dose of insulin
	{"how much insulin for 45 g carbs", "insulin"},
	{"how many units for this?", "insulin"},
	{"what bolus should I take", "insulin"},
	{"what dose for 1 cup cooked rice", "insulin"},

	// below zero
	{"sodium in -1 cup rice", `nutrient | nutrient: sodium | -1 cup rice | fault: "-1" cannot be below zero; say a number above zero`},
	{"-2 servings", `figures | -2 servings | fault: "-2" cannot be below zero; say a number above zero`},
	{"serves 4 -6", "servings | 4 to 6"},
	{"1 cup minus 2 tbsp flour", "figures | 1 cup minus 2 tbsp flour"},

	// carb choices
	{"carb choices in 1 cup cooked rice", "choices | 1 cup cooked rice"},
	{"how many carb choices in 1 cup cooked rice?", "choices | 1 cup cooked rice"},
	{"how many carb choices are in a banana", "choices | a banana"},
	{"carbohydrate choices for 1 slice bread", "choices | 1 slice bread"},
	{"carb exchanges in 1 apple", "choices | 1 apple"},
	{"carb choices: 1 apple", "choices | 1 apple"},
	{"carb choice 1 apple", "choices | 1 apple"},

	// compare
	{"potassium: banana vs orange", "compare | nutrient: potassium | banana | orange"},
	{"potassium in banana vs orange", "compare | nutrient: potassium | banana | orange"},
	{"sodium, soy sauce vs salt", "compare | nutrient: sodium | soy sauce | salt"},
	{"compare potassium: banana vs orange", "compare | nutrient: potassium | banana | orange"},
	{"compare potassium in a banana and an orange", "compare | nutrient: potassium | a banana | an orange"},
	{"which has more potassium: banana or orange", "compare | nutrient: potassium | banana | orange"},
	{"which has more potassium, a banana or an orange?", "compare | nutrient: potassium | a banana | an orange"},
	{"which is higher in sodium: soy sauce or salt", "compare | nutrient: sodium | soy sauce | salt"},
	{"what has more protein 3 oz chicken or 3 oz salmon", "compare | nutrient: protein | 3 oz chicken | 3 oz salmon"},
	{"which has more protein chicken or salmon", "compare | protein chicken | salmon"},
	{"what has more sodium, soy sauce or fish sauce", "compare | nutrient: sodium | soy sauce | fish sauce"},
	{"1 cup of whole milk versus skim milk", "compare | 1 cup of whole milk | skim milk"},
	{"compare butter and margarine", "compare | butter | margarine"},
	{"compare butter with margarine", "compare | butter | margarine"},
	{"compare butter to margarine", "compare | butter | margarine"},
	{"butter vs margarine", "compare | butter | margarine"},
	{"butter vs. margarine", "compare | butter | margarine"},
	{"butter versus margarine", "compare | butter | margarine"},
	{"butter compared to margarine", "compare | butter | margarine"},
	{"1 tbsp butter vs 1 tbsp margarine", "compare | 1 tbsp butter | 1 tbsp margarine"},

	// figures
	{"1 medium banana", "figures | 1 medium banana"},
	{"1 cup cooked rice?", "figures | 1 cup cooked rice"},
	{"1 cup mac and cheese", "figures | 1 cup mac and cheese"},
	{"what is in 1 medium banana", "figures | 1 medium banana"},
	{"what's in 1 medium banana?", "figures | 1 medium banana"},
	{"whats in 1 medium banana", "figures | 1 medium banana"},
	{"figures for 1 cup milk", "figures | 1 cup milk"},
	{"nutrition of 1 cup milk", "figures | 1 cup milk"},
	{"nutrients in 1 cup milk", "figures | 1 cup milk"},
	{"nutrition for 2 eggs", "figures | 2 eggs"},
	{"show 1 cup milk", "figures | 1 cup milk"},
	{"show me 1 cup milk", "figures | 1 cup milk"},
	{"tell me about eggs", "figures | eggs"},

	// anything else is taken for a food
	{"chicken soup", "figures | chicken soup"},
	{"thanks", "thanks"},
	{"salt and pepper", "figures | salt and pepper"},
	{"banana or orange", "figures | banana or orange"},
	{"many thanks!", "thanks"},
	{"good morning", "thanks"},
	{"thanks, sodium in 1 tsp soy sauce", "nutrient | nutrient: sodium | 1 tsp soy sauce"},
	{"sodium in a 1/4 tsp salt", "nutrient | nutrient: sodium | 1/4 tsp salt"},
	{"what is 15 g carbohydrate of cooked rice", "holds | food: cooked rice | 15 g carbohydrate / figures | 15 g carbohydrate of cooked rice"},
	{"half a cup in tablespoons", "convert | in tablespoons | 1/2 cup"},
	{"more iron: spinach or kale", "compare | nutrient: iron | spinach | kale"},
	{"what has the most fiber: apple, pear or orange", "compare | nutrient: fiber | apple | pear | orange"},
	{"which is lowest in sodium: cheddar, swiss, or feta", "compare | nutrient: sodium | cheddar | swiss | feta"},
	{"rank apple, pear and orange by fiber", "compare | nutrient: fiber | apple | pear | orange"},
	{"compare sodium in cheddar, swiss and feta", "compare | nutrient: sodium | cheddar | swiss | feta"},
	{"sodium in 1 can black beans, drained and rinsed", "nutrient | nutrient: sodium | 1 can black beans, drained and rinsed"},
	{"1 cup egg substitute", "figures | 1 cup egg substitute"},
	{"sodium in salt substitute", "nutrient | nutrient: sodium | salt substitute"},
	{"1 cup milk, 2 eggs", "figures | 1 cup milk, 2 eggs"},
	{"what can I eat for dinner", "figures | what can I eat for dinner"},
	{"is butter bad for you", "figures | is butter bad for you"},
	{"sodium soy sauce", "figures | sodium soy sauce"},
	{"2 eggs calories", "figures | 2 eggs calories"},
	{"1/0 cup milk", "figures | 1/0 cup milk"},
	{"🍌", "figures | 🍌"},
	{";-)", "figures | ;-)"},
}

// changeTests are the requests about the recipe in hand. Their other reading,
// for a talk without one, is left out.
var changeTests = []struct{ text, want string }{
	// another food
	{"use plain yogurt instead of sour cream", "use | food: sour cream | new: plain yogurt"},
	{"replace sour cream with plain yogurt", "use | food: sour cream | new: plain yogurt"},
	{"swap butter for olive oil", "use | food: butter | new: olive oil"},

	{"use low-sodium broth", "use | new: low-sodium broth"},
	{"what happens if I use low-sodium broth", "use | new: low-sodium broth"},
	{"use chicken with skin instead of chicken breast", "use | food: chicken breast | new: chicken with skin"},
	{"with the walnuts", "include | food: walnuts | new: walnuts"},

	// another amount
	{"salt 1/2 tsp", "set | food: salt | new: 1/2 tsp"},
	{"make the pecans 3/4 cup", "set | food: pecans | new: 3/4 cup"},
	{"only 2 tbsp oil", "set | food: oil | new: 2 tbsp"},
	{"half the sugar", "multiply | food: sugar | times 1/2"},
	{"double the beans", "multiply | food: beans | times 2"},
	{"2/3 of the oil", "multiply | food: oil | times 2/3"},
	{"a third less sugar", "multiply | food: sugar | times 2/3"},
	{"25% less salt", "multiply | food: salt | times 3/4"},
	{"cut the sugar by a quarter", "multiply | food: sugar | times 3/4"},

	// out and in
	{"drop the bacon", "drop | food: bacon"},
	{"leave out the salt", "drop | food: salt"},
	{"without the nuts", "drop | food: nuts"},
	{"add 1/2 cup barley", "add | food: 1/2 cup barley"},
	{"with the optional topping", "include | food: topping"},
	{"include the optional nuts", "include | food: nuts"},

	// versions
	{"undo", "undo"},
	{"go back", "undo"},
	{"what changed", "changed"},
	{"compare with the original", "compare recipe"},
	{"compare version 2 and 4", "compare recipe | number 2 | number 4"},

	// advice
	{"what brings the sodium", "brings | nutrient: sodium"},
	{"where does the sodium come from", "brings | nutrient: sodium"},
	{"which ingredient has the most fat", "brings | nutrient: fat"},
	{"what percent of the sodium is from the broth", "brings | nutrient: sodium"},
	{"cut sodium", "cut | food: cut sodium"},
	{"more fibre", "cut | food: more fibre"},
	{"apply 2", "apply | number 2"},
	{"apply 1, 3 and 4", "apply | number 1 | number 3 | number 4"},
	{"apply all", "apply"},
	{"what can replace buttermilk", "replace | food: buttermilk"},
	{"substitute for buttermilk", "replace | food: buttermilk"},
	{"make it vegetarian", "diet | food: vegetarian"},

	// below zero
	{"scale by -2", `scale | fault: "-2" cannot be below zero; say a number above zero`},
	{"scale by minus 2", `scale | fault: "minus 2" cannot be below zero; say a number above zero`},
	{"add -1 cup barley", `add | food: -1 cup barley | fault: "-1" cannot be below zero; say a number above zero`},
	{"use -2 cups barley instead of lentils", `use | food: lentils | new: -2 cups barley | fault: "-2" cannot be below zero; say a number above zero`},
	{"target carb -45: carbohydrate at most 45 g", "target | food: carb -45 | carbohydrate at most 45 g"},
	{"save as soup -2", "save | food: soup -2"},

	// no bacon
	{"no salt", "drop | food: salt"},
	{"and without salt?", "drop | food: salt"},
	{"with no bacon please", "drop | food: bacon"},
	{"no more salt", "drop | food: salt"},
	{"leave the salt out", "drop | food: salt"},
	{"no thanks", "no"},
	{"no. 3 is skim milk", "fix | line 3 | skim milk"},
	{"no more than 400 mg sodium", "fit | sodium at most 400 mg"},

	// the words around
	{"what if I use brown rice instead of egg noodles?", "use | food: egg noodles | new: brown rice"},
	{"what about using brown rice instead of egg noodles", "use | food: egg noodles | new: brown rice"},
	{"could you take out the salt please", "drop | food: salt"},
	{"can you halve the sugar", "multiply | food: sugar | times 1/2"},
	{"let's drop the bacon", "drop | food: bacon"},
	{"I'd like to add 1/2 cup barley", "add | food: 1/2 cup barley"},
	{"what if we left out the salt", "drop | food: salt"},
	{"can you call it low sodium", "claim | food: low sodium"},
	{"set salt to 1/4 tsp", "set | food: salt | new: 1/4 tsp"},
	{"the salt to 1/2 tsp", "set | food: salt | new: 1/2 tsp"},
	{"change the salt to 1/4 tsp", "set | food: salt | new: 1/4 tsp"},
	{"reduce the salt to 1/4 tsp", "set | food: salt | new: 1/4 tsp"},
	{"use 1/4 tsp salt", "set | food: salt | new: 1/4 tsp"},
	{"use half the salt", "multiply | food: salt | times 1/2"},
	{"cut the sodium to 500 mg", "set | food: sodium | new: 500 mg"},
	{"get the sodium under 400 mg", "fit | sodium at most 400 mg"},
	{"use no salt", "drop | food: salt"},
	{"what if it had no cheese", "drop | food: cheese"},
	{"make it with skim milk instead of whole milk", "use | food: whole milk | new: skim milk"},
	{"make it without salt", "drop | food: salt"},
	{"much less salt", "cut | food: less salt"},
	{"undo that", "undo"},
	{"undo the last change", "undo"},
	{"what did I change?", "changed"},
	{"what is different", "changed"},
	{"compare with version 1", "compare recipe | number 1"},
	{"back to the original", "back"},
	{"go back to version 2", "back | number 2"},
	{"start over", "back"},

	// whom it suits, what it holds
	{"is it gluten free?", "suitable | food: gluten free"},
	{"does it contain nuts?", "suitable | food: nuts"},
	{"are there any nuts in it", "suitable | food: nuts"},
	{"is this safe for pregnancy?", "suitable | food: pregnancy"},
	{"is it ok for someone with celiac", "suitable | food: someone with celiac"},
	{"can my client with diabetes/celiac eat this", "suitable | food: my client with diabetes/celiac"},
	{"can my client on insulin eat this", "suitable | food: my client on insulin"},
	{"can I eat this when pregnant", "suitable | food: pregnant"},

	// figures of the recipe
	{"how much sodium per serving", "figure | nutrient: sodium"},
	{"how many calories", "figure | nutrient: calories"},
	{"how many carbs in a serving", "figure | nutrient: carbs"},
	{"how many grams of carbs per serving", "figure | nutrient: carbs"},
	{"how much fibre is in it", "figure | nutrient: fibre"},
	{"how much fibre does it have", "figure | nutrient: fibre"},
	{"what's the potassium?", "figure | nutrient: potassium"},
	{"what about sodium", "figure | nutrient: sodium"},
	{"calories per serving", "figure | nutrient: calories"},
	{"how many calories in the whole recipe", "figure | nutrient: calories | of the whole recipe"},
	{"total calories in all", "figure | nutrient: calories | of the whole recipe"},
	{"how many carbs are in 1 serving", "figure | nutrient: carbs"},
	{"how many carbs in 2 servings", "figure | 2 | nutrient: carbs"},
	{"how much protein per 100 g", "figure | nutrient: protein | of 100 g"},
	{"figures per 100 g", "figure | of 100 g"},
	{"what is the serving size", "figure | nutrient: serving size"},
	{"make a page for the client", "page"},
	{"print a handout", "page"},
	{"print it out", "page"},
	{"what is in a serving", "show"},
	{"show the recipe", "show"},
	{"figures", "show"},
	{"show it again", "show"},

	// several limits, and names of any words
	{"how many servings for 600 mg sodium", "fit | sodium at most 600 mg | by size"},
	{"fit 45 g carbs and 500 mg sodium", "fit | carbs at most 45 g | sodium at most 500 mg | by size"},
	{"how much cheese for at most 350 kcal and 400 mg sodium", "fit | at most 350 kcal | sodium at most 400 mg | of cheese"},
	{"target DASH: sodium at most 500 mg, potassium at least 1000 mg", "target | food: DASH | sodium at most 500 mg | potassium at least 1000 mg"},

	// pans
	{"8x8 to 12 muffin cups", "scale pan | 8x8 | 12 muffin cups"},
	{"two 8-inch rounds to a 9x13", "scale pan | two 8-inch rounds | 9x13"},
	{"10-cup tube pan to two loaf pans", "scale pan | 10-cup tube pan | two loaf pans"},
	{"9 inch round into 8x8", "scale pan | 9 inch round | 8x8"},
	{"8-inch squares to loaves", "scale pan | 8-inch squares | loaves"},
	{"I want to bake it in a 9x13 instead of an 8x8", "scale pan | 8x8 | 9x13"},
	{"use a 9x13 instead of an 8x8", "scale pan | 8x8 | 9x13"},
	{"use ground round instead of beef round", "use | food: beef round | new: ground round"},
	{"scale the recipe to 12", "scale | 12"},
	{"scale by a million", `scale | fault: "by a million" is no number to scale by; say it like "scale by 2", "scale to 24 servings" or "8x8 to 9x13"`},

	// limits
	{"how much cheese for at most 350 kcal", "fit | at most 350 kcal | of cheese"},
	{"fit 45 g carbohydrate", "fit | carbohydrate at most 45 g | by size"},
	{"sodium under 400 mg", "fit | sodium at most 400 mg"},
	{"sodium below 400 a serving", "fit | sodium at most 400"},
	{"cut sodium by half", "multiply | food: sodium | times 1/2"},
	{"sodium under 400 mg by salt and soy sauce", "fit | sodium at most 400 mg | of salt | of soy sauce"},
	{"check carb-45", "check | food: carb-45"},
	{"check against carb-45", "check | food: carb-45"},

	// sizes
	{"scale to 24", "scale | 24"},
	{"double it", "scale | times 2"},
	{"halve the recipe", "scale | times 1/2"},
	{"scale by 2", "scale | times 2"},
	{"8x8 to 9x13", "scale pan | 8x8 | 9x13"},
	{"from a 9-inch round to two loaf pans", "scale pan | 9-inch round | two loaf pans"},

	// cooking
	{"baked 30 minutes", "cook | food: baked 30 minutes"},
	{"it weighed 1.4 kg cooked", "weighed | times 1400"},

	// what may be said
	{"can I call it high in fibre", "claim | food: high in fibre"},
	{"label", "label"},
	{"warnings", "warnings"},
	{"any allergens", "warnings"},
	{"food safety", "warnings"},
	{"what can I claim", "claim"},
	{"what may be claimed as a main dish", "claim | new: main dish"},

	// other wordings of the same
	{`"apply 2"`, "apply | number 2"},
	{"apply 2.", "apply | number 2"},
	{"do 2", "apply | number 2"},
	{"do 1 and 3", "apply | number 1 | number 3"},
	{"in grams please", "lines"},
	{"convert it to grams", "lines"},
	{"45 g carbohydrate per serving", "fit | carbohydrate at most 45 g | by size"},
	{"how do I get it under 500 mg sodium", "fit | sodium at most 500 mg"},
	{"how can we get the sodium below 400 mg", "fit | sodium at most 400 mg"},
	{"500 mg sodium per serving", "fit | sodium at most 500 mg"},
	{"25 g protein per serving", "fit | protein at least 25 g"},
	{"I want it under 400 kcal", "fit | at most 400 kcal"},
	{"use 1 can of beans instead of 2", "set | food: beans | new: 1 can"},
	{"how do I cut sodium", "cut | food: cut sodium"},
	{"cut the sodium in half", "multiply | food: sodium | times 1/2"},
	{"cut the recipe in half", "scale | times 1/2"},
	{"use lean beef instead", "use | new: lean beef"},
	{"use lean beef instead of lamb", "use | food: lamb | new: lean beef"},
	{"add 100g grated cheddar on top", "add | food: 100g grated cheddar"},
	{"serving size 1 cup", "serving of | new: 1 cup"},
	{"a serving is 250 g", "serving of | new: 250 g"},
	{"buttermilk substitute", "replace | food: buttermilk"},
	{"replace 1 cup of sour cream", "replace | food: 1 cup of sour cream"},
	{"replace sour cream with yogurt", "use | food: sour cream | new: yogurt"},
	{"low sodium substitute for soy sauce", "replace | food: soy sauce with less sodium"},
	{"use egg substitute instead of eggs", "use | food: eggs | new: egg substitute"},
}

func TestParseRequest(t *testing.T) {
	for _, test := range requestTests {
		r, err := grammar.ParseRequest(test.text)
		if err != nil {
			t.Errorf("%q: %v", test.text, err)
		}
		if got := describeRequest(r); got != test.want {
			t.Errorf("%q:\n got %s\nwant %s", test.text, got, test.want)
		}
	}
}

func TestParseChange(t *testing.T) {
	for _, test := range changeTests {
		r, err := grammar.ParseRequest(test.text)
		if err != nil {
			t.Errorf("%q: %v", test.text, err)
		}
		r.Else = nil
		if got := describeRequest(r); got != test.want {
			t.Errorf("%q:\n got %s\nwant %s", test.text, got, test.want)
		}
	}
}
