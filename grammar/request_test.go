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
	grammar.Compare:    "compare",
	grammar.UseInstead: "use", grammar.SetAmount: "set", grammar.MultiplyFood: "multiply", grammar.Drop: "drop",
	grammar.Add: "add", grammar.Include: "include", grammar.Undo: "undo", grammar.WhatChanged: "changed",
	grammar.CompareRecipe: "compare recipe", grammar.Brings: "brings", grammar.Cut: "cut", grammar.ApplyAdvice: "apply",
	grammar.ReplaceWhat: "replace", grammar.SuitDiet: "diet", grammar.Fit: "fit", grammar.SetTarget: "target",
	grammar.CheckTarget: "check", grammar.Scale: "scale", grammar.ScalePan: "scale pan", grammar.Cook: "cook",
	grammar.CookedWeight: "weighed", grammar.Claim: "claim", grammar.Label: "label", grammar.Warnings: "warnings",
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
	{"make it 6 servings", "servings | 6"},
	{"make that 6 servings", "servings | 6"},
	{"make it for 6", "servings | 6"},
	{"6 servings", "servings | 6"},
	{"for 6 servings", "servings | 6"},
	{"for 6 people", "servings | 6"},
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
	{"thanks", "figures | thanks"},
	{"salt and pepper", "figures | salt and pepper"},
	{"banana or orange", "figures | banana or orange"},
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
	{"cut sodium", "cut | food: cut sodium"},
	{"more fibre", "cut | food: more fibre"},
	{"apply 2", "apply | number 2"},
	{"apply 1, 3 and 4", "apply | number 1 | number 3 | number 4"},
	{"apply all", "apply"},
	{"what can replace buttermilk", "replace | food: buttermilk"},
	{"substitute for buttermilk", "replace | food: buttermilk"},
	{"make it vegetarian", "diet | food: vegetarian"},

	// limits
	{"how much cheese for at most 350 kcal", "fit | at most 350 kcal | of cheese"},
	{"fit 45 g carbohydrate", "fit | carbohydrate at most 45 g | by size"},
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
