package engine

import (
	"slices"
	"strconv"
	"strings"
	"unicode"

	"pottle/fooddata"
)

// claimKind is what a claim says.
type claimKind uint8

const (
	claimUnknown claimKind = iota
	claimHigh
	claimGood
	claimMore
	claimFree
	claimVeryLow
	claimLow
	claimReduced
	claimLight
	claimLightSodium
	claimLightlySalted
	claimUnsalted
	claimNoAddedSugars
	claimPercentFatFree
	claimLean
	claimExtraLean
	claimHealthy
	claimHighPotency
	claimAntioxidant
	claimGlutenFree
	claimUndefined // words that people use as a claim and the regulation has not
)

// asked is a claim as read.
type asked struct {
	kind     claimKind
	nutrient fooddata.Nutrient
	named    bool      // whether a nutrient is named
	percent  float64   // "25% less", "97% fat free"; 0 if none is said
	level    claimKind // of claimAntioxidant: claimHigh, claimGood or neither
	salt     bool      // said "salt" for sodium
	words    string    // the claim as said, without marks
}

// claimOpenings are the words that begin a claim, in the form of
// fooddata.Normalise, without small words; the longest fitting one counts.
var claimOpenings = []struct {
	words string
	kind  claimKind
}{
	{"excellent source", claimHigh}, {"high", claimHigh}, {"rich", claimHigh}, {"rich source", claimHigh}, {"high source", claimHigh}, {"very high", claimHigh},
	{"packed", claimHigh}, {"loaded", claimHigh}, {"full", claimHigh},
	{"good source", claimGood}, {"source", claimGood}, {"contain", claimGood}, {"provide", claimGood},
	{"more", claimMore}, {"added", claimMore}, {"extra", claimMore}, {"plus", claimMore}, {"fortified", claimMore}, {"enriched", claimMore},
	{"increased", claimMore}, {"higher", claimMore},
	{"free", claimFree}, {"no", claimFree}, {"zero", claimFree}, {"without", claimFree}, {"free from", claimFree}, {"non", claimFree},
	{"negligible source", claimFree}, {"trivial source", claimFree}, {"insignificant source", claimFree},
	{"very low", claimVeryLow},
	{"low", claimLow}, {"little", claimLow}, {"few", claimLow}, {"low source", claimLow}, {"contain small amount", claimLow},
	{"reduced", claimReduced}, {"less", claimReduced}, {"fewer", claimReduced}, {"lower", claimReduced}, {"lowered", claimReduced}, {"lite", claimLight},
	{"light", claimLight},
	{"no added", claimUnsalted}, {"without added", claimUnsalted}, {"zero added", claimUnsalted}, {"free added", claimUnsalted}, // of salt or sugars
}

// claimEndings are the words that may end a claim: "fat free".
var claimEndings = []struct {
	words string
	kind  claimKind
}{
	{"free", claimFree}, {"reduced", claimReduced}, {"rich", claimHigh}, {"fortified", claimMore}, {"enriched", claimMore},
	{"not added", claimUnsalted}, {"less", claimReduced},
}

// wholeClaims are claims that stand alone.
var wholeClaims = map[string]claimKind{
	"light": claimLight, "lite": claimLight, "light calorie": claimLight, "light fat": claimLight,
	"light sodium": claimLightSodium, "lite sodium": claimLightSodium, "light salt": claimLightSodium, "lightly salted": claimLightlySalted, "lightly salt": claimLightlySalted,
	"unsalted": claimUnsalted, "no salt added": claimUnsalted, "no sodium added": claimUnsalted, "salt not added": claimUnsalted,
	"no sugar added": claimNoAddedSugars, "sugar not added": claimNoAddedSugars, "added sugar free": claimNoAddedSugars,
	"saltless": claimFree, "sugarless": claimFree, "nonfat": claimFree, "fatless": claimFree,
	"lean": claimLean, "extra lean": claimExtraLean,
	"healthy": claimHealthy, "healthier": claimHealthy, "healthful": claimHealthy, "health": claimHealthy, "wholesome": claimUndefined,
	"high potency": claimHighPotency, "gluten free": claimGlutenFree, "no gluten": claimGlutenFree, "free gluten": claimGlutenFree, "without gluten": claimGlutenFree,
	"natural": claimUndefined, "all natural": claimUndefined, "organic": claimUndefined, "keto": claimUndefined, "superfood": claimUndefined,
	"low glycemic": claimUndefined, "low glycaemic": claimUndefined, "low gi": claimUndefined, "low glycemic index": claimUndefined, "low glycaemic index": claimUndefined,
	"keto friendly": claimUndefined, "low fodmap": claimUndefined, "clean": claimUndefined, "guilt free": claimUndefined, "whole grain": claimUndefined,
	"unsweetened": claimUndefined, "vegan": claimUndefined, "vegetarian": claimUndefined, "plant based": claimUndefined, "nutritious": claimUndefined, "paleo": claimUndefined,
}

// smallWords say nothing in a claim.
var smallWords = wordSet("in a an is it this that these be as with our my your we say call called claim label food dish recipe product serving version dietary to much made")

// readClaim reads what is claimed. Kind is claimUnknown if it is not a claim,
// or more than one.
func readClaim(said string) asked {
	c := asked{words: strings.Trim(strings.Join(strings.Fields(said), " "), " \"'“”‘’?!.,;:")}
	words := fooddata.Normalise(beforeThan(c.words))
	words = c.takePercent(withoutSmallWords(words))
	whole := strings.Join(words, " ")
	compared := len(beforeThan(c.words)) < len(c.words)
	if kind, ok := wholeClaims[whole]; ok {
		c.kind = kind
		switch whole {
		case "saltless":
			c.nutrient, c.named, c.salt = fooddata.Sodium, true, true
		case "sugarless":
			c.nutrient, c.named = fooddata.Sugars, true
		case "nonfat", "fatless":
			c.nutrient, c.named = fooddata.Fat, true
		}
		return c
	}
	for i, w := range words {
		if w == "antioxidant" {
			rest := slices.Delete(slices.Clone(words), i, i+1)
			c.opening(rest)
			if c.kind == claimUnknown && len(rest) > 0 {
				c.name(strings.Join(rest, " "))
			}
			c.level, c.kind = c.kind, claimAntioxidant
			return c
		}
	}
	if len(words) > 2 && words[0] == "high" && words[1] == "potency" {
		if c.name(strings.Join(words[2:], " ")) {
			c.kind = claimHighPotency
		}
		return c
	}
	c.opening(words)
	if c.kind == claimUnknown {
		c.ending(words)
	}
	c.settle(compared)
	if c.kind == claimUnknown && (slices.Contains(words, "healthy") || slices.Contains(words, "healthier")) { // "healthy muffins"
		c.kind = claimHealthy
	}
	return c
}

// withoutSmallWords drops words that say nothing; the A of vitamin A stays.
func withoutSmallWords(words []string) []string {
	var out []string
	for i, w := range words {
		if !smallWords[w] || w == "a" && i > 0 && (words[i-1] == "vitamin" || words[i-1] == "vit") {
			out = append(out, w)
		}
	}
	return out
}

// beforeThan cuts off what a claim is compared with.
func beforeThan(s string) string {
	lower := strings.ToLower(s)
	cut := len(s)
	for _, mark := range []string{" than ", " compared ", " versus ", " vs ", " relative to "} {
		if i := strings.Index(lower, mark); i > 0 && i < cut && len(lower) == len(s) {
			cut = i
		}
	}
	return s[:cut]
}

// takePercent takes a share out of the words: "25% less sodium".
func (c *asked) takePercent(words []string) []string {
	for i, w := range words {
		number, ok := strings.CutSuffix(w, "%")
		if !ok && i+1 < len(words) && (words[i+1] == "percent" || words[i+1] == "%") {
			number, ok = w, true
		}
		if v, err := strconv.ParseFloat(number, 64); ok && err == nil && v > 0 && v <= 1000 {
			c.percent = v
			words = slices.Delete(words, i, i+1)
			return slices.DeleteFunc(words, func(w string) bool { return w == "percent" || w == "%" })
		}
	}
	return words
}

// name takes words for a nutrient.
func (c *asked) name(words string) bool {
	n, ok := fooddata.NutrientNamed(words)
	switch words {
	case "omega 3", "omega 3 fat", "omega 3 fatty acid":
		n, ok = fooddata.ALA, true
	case "net carb", "net carbohydrate", "net carbs":
		n, ok = fooddata.Carbohydrate, true
	}
	if !ok {
		return false
	}
	switch n {
	case fooddata.Folate, fooddata.FolicAcid:
		n = fooddata.FolateDFE
	}
	c.nutrient, c.named, c.salt = n, true, words == "salt"
	return true
}

func (c *asked) opening(words []string) {
	best := 0
	for _, o := range claimOpenings {
		opening := strings.Fields(o.words)
		if len(opening) <= best || len(words) <= len(opening) || !slices.Equal(words[:len(opening)], opening) {
			continue
		}
		if c.name(strings.Join(words[len(opening):], " ")) {
			c.kind, best = o.kind, len(opening)
		}
	}
}

func (c *asked) ending(words []string) {
	for _, e := range claimEndings {
		ending := strings.Fields(e.words)
		at := len(words) - len(ending)
		if at > 0 && slices.Equal(words[at:], ending) && c.name(strings.Join(words[:at], " ")) {
			c.kind = e.kind
			return
		}
	}
}

// settle gives the claim its final kind by its nutrient and by what else is
// said.
func (c *asked) settle(compared bool) {
	if c.percent > 0 && c.kind != claimReduced && c.kind != claimMore && (c.kind != claimFree || c.nutrient != fooddata.Fat) {
		c.kind = claimUnknown // "50% low sodium"
		return
	}
	sugar := c.nutrient == fooddata.Sugars || c.nutrient == fooddata.AddedSugars
	switch {
	case c.kind == claimUnsalted && sugar:
		c.kind = claimNoAddedSugars
	case c.kind == claimUnsalted && c.nutrient != fooddata.Sodium:
		c.kind = claimUndefined
	case c.kind == claimFree && c.nutrient == fooddata.AddedSugars:
		c.kind = claimNoAddedSugars
	case c.kind == claimFree && c.nutrient == fooddata.Fat && c.percent > 0:
		c.kind = claimPercentFatFree
	case c.kind == claimLight && c.nutrient == fooddata.Sodium:
		c.kind = claimLightSodium
	case c.kind == claimLight && c.nutrient != fooddata.Fat && c.nutrient != fooddata.Energy:
		c.kind = claimUndefined
	case c.kind == claimLow && compared: // "low in sodium than the original"
		c.kind = claimReduced
	case c.kind == claimHigh && compared:
		c.kind = claimMore
	}
}

// called returns the claim in our own words, without the percentage that was
// said.
func (c asked) called() string {
	name := claimName(c.nutrient)
	one := strings.TrimSuffix(name, "s") // "calorie free", "low sugar"
	switch c.kind {
	case claimHigh:
		return "high in " + name
	case claimGood:
		return "good source of " + name
	case claimMore:
		return "more " + name
	case claimFree:
		return one + " free"
	case claimVeryLow:
		return "very low " + one
	case claimLow:
		return "low " + one
	case claimReduced:
		return "reduced " + one
	case claimLight:
		return "light"
	case claimLightSodium:
		return "light in sodium"
	case claimLightlySalted:
		return "lightly salted"
	case claimUnsalted:
		return "no salt added"
	case claimNoAddedSugars:
		return "no added sugars"
	case claimLean:
		return "lean"
	case claimExtraLean:
		return "extra lean"
	case claimHealthy:
		return "healthy"
	}
	return c.words
}

// claimName is what a nutrient is called in a claim.
func claimName(n fooddata.Nutrient) string {
	switch n {
	case fooddata.Energy:
		return "calories"
	case fooddata.Fat:
		return "fat"
	case fooddata.Sugars:
		return "sugars"
	case fooddata.Carbohydrate:
		return "carbohydrate"
	case fooddata.FolateDFE:
		return "folate"
	}
	return n.Name()
}

// bodilyRow is one row of bodily.
type bodilyRow struct {
	cues    string // words; those ending in * are beginnings of words
	phrases string // several words, divided by ;
	kind    bodilyKind
	instead string
}

// bodily is what a claim about disease or the body is about, by the beginnings
// of words in it, and what the figures can show instead.
var bodily = []bodilyRow{
	{"hypertens* bp", "blood pressure", disease, `"low sodium"`},
	{"diabet* prediabet* insulin glucose a1c", "blood sugar", disease, `its carbohydrate in figures, "no added sugars" or "high in fibre"`},
	{"heart hearts cardi* coronary arter* atheroscler* stroke strokes triglyceride* hyperlipid* statin*",
		"lowers cholesterol;lowering cholesterol;helps lower cholesterol;help lower cholesterol;helps reduce cholesterol;to lower cholesterol;can lower cholesterol;will lower cholesterol;may lower cholesterol;cholesterol lowering;reduces cholesterol;reducing cholesterol;reduce cholesterol;cuts cholesterol;blood cholesterol;blood lipids;bad cholesterol;good cholesterol;ldl;hdl", disease, `"low saturated fat" or "low cholesterol"`},
	{"cancer* carcino* tumour* tumor* leukaemi* leukemi*", "", disease, ""},
	{"kidney* renal dialysis nephr* ckd", "", disease, "its sodium, potassium, phosphorus and protein in figures"},
	{"osteopor* bone bones fracture*", "", disease, `"good source of calcium" or "good source of vitamin D"`},
	{"anaemi* anemi*", "iron deficiency", disease, `"good source of iron"`},
	{"obes* slimming", "weight loss;lose weight;losing weight;weight control;weight management;fat burning;burns fat;burn fat", disease, `"low calorie" or "reduced calories"`},
	{"celiac* coeliac*", "", disease, ""},
	{"blood disease* disorder* syndrome* illness* sickness* ibs crohn* colitis gout arthrit* inflamm* antiinflamm* dementia alzheimer* parkinson* epilep* seizure* adhd autis* depress* anxi* migraine* asthma* eczema acne cataract* macular cirrho* hepat* ulcer* reflux gerd constipat* diarrhea diarrhoea infection* virus* viral flu covid* caries thyroid* menopaus* pcos fertil* pregnan* medic* therap* remed* cure cures curing heals healing prevent* treating treatment",
		"fatty liver;irritable bowel;tooth decay;birth defect;birth defects;neural tube;common cold;risk of;anti inflammatory", disease, ""},
	{"gut immun* detox* cleans* digest* metaboli* brain memory vision eyesight skin ageing aging antiaging sleep mood stress muscle* joint* hormon* liver boost* support* improv* promot* strengthen* protect* fight* helps regulat* stimulat* soothe* relie* maintain* energi* burns builds safe safely patient*",
		"good for;help with;help lower;help reduce;help prevent;help you;anti aging;suitable for;eye health;to lower;to reduce;can lower;can reduce;may lower;may reduce;will lower;will reduce", body, ""},
	{"allergen* allerg* hypoallergenic lactose", "nut free;peanut free;dairy free;milk free;egg free;soy free;wheat free;fish free;shellfish free;sesame free;free of nuts;free of dairy;free of milk;free of eggs;free of soy;free of wheat;no nuts;no dairy;no eggs;no milk;no wheat;no soy;no peanuts", allergen, ""},
}

type bodilyKind uint8

const (
	disease bodilyKind = iota
	body
	allergen
)

// refusal returns the firm no to words about disease, the body or allergens,
// the rule, and what may be asked instead; said is as the user put it. It
// returns "" if there are no such words.
func refusal(said string) (refused, rule, instead string) {
	words := strings.FieldsFunc(strings.ToLower(said), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	text := " " + strings.Join(words, " ") + " "
	quoted := `"` + strings.Trim(strings.Join(strings.Fields(said), " "), " \"'“”?!.") + `"`
	for _, b := range bodily {
		if !b.in(words, text) {
			continue
		}
		switch b.kind {
		case disease:
			return "No: " + quoted + " is about a disease or what the food would do against one. No figure of a recipe shows that. " +
					"A label may say such a thing only in the wording of an authorised health claim with its own conditions, and a food that is said to treat or prevent a disease is a drug in law.",
				"21 CFR 101.14 and 101.70 to 101.83; Federal Food, Drug, and Cosmetic Act, section 201(g)(1)(B)", b.instead
		case body:
			return "No: " + quoted + " is about what the food would do for the body or for a group of people. No figure of a recipe shows that, and it is no nutrient content claim. " +
					"A claim says what is in the food, not what it does.",
				"21 CFR 101.13(a) and 101.14(a)", b.instead
		case allergen:
			return "No: " + quoted + " is about allergy or intolerance. A recipe cannot show that a food is free of anything: what is on the labels and what happens in the kitchen decides.",
				"21 U.S.C. 343(w)", b.instead
		}
	}
	return "", "", ""
}

// in reports whether words, joined as text, hold one of the cues.
func (b *bodilyRow) in(words []string, text string) bool {
	for phrase := range strings.SplitSeq(b.phrases, ";") {
		if phrase != "" && strings.Contains(text, " "+phrase+" ") {
			return true
		}
	}
	for cue := range strings.FieldsSeq(b.cues) {
		stem, open := strings.CutSuffix(cue, "*")
		for _, w := range words {
			if w == cue || open && strings.HasPrefix(w, stem) {
				return true
			}
		}
	}
	return false
}
