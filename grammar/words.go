package grammar

import "strings"

// set makes a look-up set of space-separated words.
func set(words ...string) map[string]bool {
	s := make(map[string]bool)
	for _, line := range words {
		for _, w := range strings.Fields(line) {
			s[w] = true
		}
	}
	return s
}

// notAdverbs end like an adverb and are foods or kinds of them.
var notAdverbs = set("jelly belly curly holly lily family barley only")

// sizes are the words that grade one item; the value is the grade pottle
// keeps for it.
var sizes = map[string]string{
	"small": "small", "sm": "small", "medium": "medium", "med": "medium",
	"medium-sized": "medium", "medium-size": "medium", "large": "large",
	"lg": "large", "lge": "large", "big": "large", "extra-large": "extra large", "xl": "extra large",
	"jumbo": "jumbo", "mini": "mini", "miniature": "mini", "largish": "large", "smallish": "small",
	"good-sized": "medium", "good-size": "medium", "average": "medium", "tiny": "small", "thumb-sized": "thumb",
	"thumb-size": "thumb", "small-sized": "small", "large-sized": "large", "small-to-medium": "small",
	"medium-to-large": "medium",
}

// hedges soften a measure and are read over; what they mean is kept as a
// note only where it could matter (see heaped).
var hedges = set("about approx approximately roughly nos around circa scant generous",
	"heaping heaped rounded level good full approx. ca ca. only just over under nearly almost packed-level")

// heaped are the hedges for more than a level measure.
var heaped = set("heaping heaped rounded generous")

// numberWords are the numbers written as words; those from twenty-one to
// ninety-nine are added below.
var numberWords = map[string][2]int64{
	"one": {1, 1}, "doz": {12, 1}, "two": {2, 1}, "three": {3, 1}, "four": {4, 1}, "five": {5, 1},
	"six": {6, 1}, "seven": {7, 1}, "eight": {8, 1}, "nine": {9, 1}, "ten": {10, 1},
	"eleven": {11, 1}, "twelve": {12, 1}, "thirteen": {13, 1}, "fourteen": {14, 1}, "fifteen": {15, 1}, "sixteen": {16, 1},
	"seventeen": {17, 1}, "eighteen": {18, 1}, "nineteen": {19, 1}, "twenty": {20, 1}, "thirty": {30, 1}, "forty": {40, 1},
	"fifty": {50, 1}, "sixty": {60, 1}, "seventy": {70, 1}, "eighty": {80, 1}, "ninety": {90, 1}, "hundred": {100, 1},
	"half": {1, 2}, "third": {1, 3}, "thirds": {1, 3}, "quarter": {1, 4}, "quarters": {1, 4}, "eighth": {1, 8},
	"one-half": {1, 2}, "one-third": {1, 3}, "two-thirds": {2, 3}, "one-quarter": {1, 4}, "one-fourth": {1, 4},
	"three-quarters": {3, 4}, "three-fourths": {3, 4}, "one-eighth": {1, 8}, "dozen": {12, 1}, "half-dozen": {6, 1},
	"fourth": {1, 4}, "fourths": {1, 4},
}

func init() {
	for _, tens := range strings.Fields("twenty thirty forty fifty sixty seventy eighty ninety") {
		for _, ones := range strings.Fields("one two three four five six seven eight nine") {
			numberWords[tens+"-"+ones] = [2]int64{numberWords[tens][0] + numberWords[ones][0], 1}
		}
	}
}

// vulgar are the one-character fractions of Unicode.
var vulgar = map[rune][2]int64{
	'¼': {1, 4}, '½': {1, 2}, '¾': {3, 4}, '⅐': {1, 7}, '⅑': {1, 9}, '⅒': {1, 10}, '⅓': {1, 3},
	'⅔': {2, 3}, '⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6},
	'⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
}

// preparation are words that say what was done to a food or how it looks,
// not which food it is. The engine may still use them to choose a measure
// ("packed", "chopped", "sifted") or a state ("cooked", "drained").
var preparation = set(
	"chopped diced minced sliced grated shredded crushed crumbled cubed halved quartered julienned julienne",
	"peeled unpeeled pared seeded deseeded unseeded cored pitted stoned hulled stemmed trimmed destemmed de-seeded",
	"washed rinsed scrubbed cleaned picked dried-off drained undrained squeezed pressed patted strained",
	"softened melted cooled chilled warmed warm cold hot lukewarm tepid room-temperature beaten whisked separated",
	"sifted unsifted packed heaped loosely firmly lightly tightly well",
	"finely coarsely roughly thinly thickly freshly fine coarse rough thin thick diagonally lengthwise lengthways crosswise",
	"very fresh ripe overripe firm-ripe slightly deveined shelled unshelled shucked husked boned skinned",
	"torn snipped slivered shaved mashed pureed puréed blended processed pounded scored butterflied flattened",
	"thawed defrosted unthawed divided reserved optional plus extra more bruised smashed pulverized spiralized zested juiced",
	"cut into chunks bite-size bite-sized strips rounds rings wedges matchsticks batons ribbons florets",
	"pieces slices cubes dice halves quarters half-moons segments segmented topped tailed shelled trimmed",
	"good good-quality quality best store-bought homemade home-made your favorite favourite organic free-range local",
	"leftover prepared premade pre-cut precut ready-made large medium small extra-large",
	"thinly-sliced finely-chopped roughly-chopped coarsely-chopped",
	"crisp crispy tender soaked overnight separated",
)

// leadingPreparation are the words that may stand before the real name in a
// comma list: "boneless, skinless chicken breast", "low-fat, plain yogurt".
// They are kept in the name, since they choose the food.
var leadingPreparation = set(
	"boneless skinless bone-in skin-on lean extra-lean unsalted salted plain low-fat nonfat fat-free reduced-fat",
	"unsweetened sweetened dry dried frozen canned raw cooked uncooked smoked roasted toasted raw blanched",
	"low-sodium reduced-sodium no-salt-added lower-sodium ripe fresh firm soft large medium small thick thin crisp tart sweet",
	"dark light whole finely coarsely freshly thinly roughly tender young hot mild white red green yellow")

// notCounted are the phrases that leave an item without an amount.
var notCounted = []string{
	"to taste", "as needed", "as required", "if needed", "if desired", "for serving", "to serve", "for garnish", "to garnish",
	"for dusting", "for greasing", "to grease", "for frying", "for brushing", "for sprinkling", "for drizzling",
	"for rolling", "for coating", "for the pan", "for decoration", "to decorate", "for topping", "for deep frying",
	"for deep-frying", "for shallow frying", "for the tin", "for kneading", "for finishing", "to finish", "for boiling",
	"for cooking", "for oiling", "for sautéing", "for sauteing", "your choice",
}

// headingWords make a heading of a short line without an amount.
var headingWords = set("dressing topping sauce filling marinade garnish glaze crust base frosting icing salad pastry dough",
	"batter rub brine stuffing assembly garnishes toppings crumble streusel vinaigrette",
	"layers meatballs patties dumplings slaw")

// shoutedHeading are words that make a heading in capitals and are foods else.
var shoutedHeading = set("broth salsa syrup gravy dip relish pickle salad cheese fruit vegetables meat")

// equipment are words of lines that name a tool and no food.
var equipment = set("parchment skewer skewers foil twine toothpick toothpicks muslin cheesecloth clingfilm liners ramekins thermometer")

// foodVerbs begin a line of directions or name a food: "brown sugar", "top
// sirloin", "cut green beans".
var foodVerbs = set("brown cream top roast cut grill fry hot warm string press toast cover steam mash slice chop layer dust in to for with while roll crumble ground")

// verbs begin a line of directions.
var verbs = set("scramble sear deglaze lower cool thread drop crack adjust taste pat skim lay pile flip turn flatten prick score tuck dip soften wilt caramelize scrape tilt swirl sweat blanch preheat heat mix combine stir bake cook add place bring boil whisk pour serve fold beat cream sift roll spread",
	"remove transfer drain simmer fry sauté saute brown grill roast cover chill refrigerate freeze let leave set put turn",
	"toss season sprinkle top garnish divide arrange melt meanwhile in when once using with while after repeat return reduce",
	"blend process puree strain mash cut slice chop peel wash rinse soak marinate knead shape form grease line brush drizzle",
	"allow enjoy store continue uncover discard to make dissolve combine transfer check working steam poach scatter layer tip",
	"finish spoon ladle work wrap press squeeze rub coat dust warm reheat keep first then next finally if")

// bareVerbs are verbs that name no food, so that one of them alone is a line of
// directions: "Chill."
var bareVerbs = set("enjoy serve chill refrigerate freeze drain stir whisk combine preheat bake boil simmer marinate knead garnish sauté saute microwave reheat")

// actsOn are names of foods that are verbs as well, before what it is done to:
// "flour the chicken", "salt the water".
var actsOn = set("flour salt butter oil pepper sugar bread toast water core pit stone zest juice skin bone shell stem trim dress plate sauce spice smoke crumb microwave season baste braise broil barbecue hull husk quarter halve dice mince grate shred stuff truss tie light ice frost glaze egg")

// speaks are words that begin a sentence and no food.
var speaks = set("do don't dont never be may you it it's this these that if when they we i should")

// fryWays are ways of frying, written apart: "deep fry".
var fryWays = set("deep pan stir air shallow dry sous")

// tellsHow are words that follow a verb and name no food.
var tellsHow = set("overnight until in on into over for well gently with at to again immediately together slowly quickly thoroughly covered uncovered both each it them before after as")

// vessels end a line that tells what to do with them: "grease pan".
var vessels = set("pan tin pot skillet oven grill dish tray rack")

// ownAct are two words that are a step by themselves.
var ownAct = map[string]bool{"can be": true, "must be": true, "set aside": true, "let stand": true, "let cool": true, "let rest": true, "stir well": true, "mix well": true, "serve hot": true, "serve warm": true, "serve cold": true, "serve immediately": true, "cool completely": true}
