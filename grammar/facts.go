package grammar

import (
	"regexp"
	"strings"
)

// Lines of a recipe that are neither ingredients nor directions: figures of
// nutrition, times, ratings, what a web page says around a recipe. They are kept
// as notes.

const (
	// nutrientSure are names that no ingredient has by itself.
	nutrientSure = `calories|energy|kcal|sodium|cholesterol|carbohydrates?|carbs|net carbs|total carbohydrates?|total fat|saturated fat|sat(?:\.|urated)? fat|saturates|trans fat|unsaturated fat|polyunsaturated fat|monounsaturated fat|` +
		`dietary fib(?:er|re)|fib(?:er|re)|total sugars?|added sugars?|includes .{0,12}added sugars?|of which sugars|of which saturates|protein|potassium|calcium|iron|phosphorus|magnesium|vitamin [a-k]\d{0,2}|calories from fat`
	// nutrientMaybe are names of ingredients too.
	nutrientMaybe = `fat|sugars?|salt`
	figureUnit    = `(?:g|mg|mcg|µg|μg|kcal|cals?|calories|kj|iu|%|grams?|milligrams?)`
)

var (
	// figureFirst is "410 kcal", "12 g fat"; nameFirst "Sodium: 720 mg".
	nameFirst   = regexp.MustCompile(`^(?:(` + nutrientSure + `)|(?:` + nutrientMaybe + `))\s*[:=]?\s*(?:\(?` + figureUnit + `\)?)?\s*[:=]?\s*<?\s*\d[\d.,]*\s*` + figureUnit + `?(?:\s*[(/]?\s*\d[\d.,]*\s*(?:` + figureUnit + `)\)?)?(?:\s*\(?\d+ ?%\s*(?:dv)?\)?)?$`)
	figureFirst = regexp.MustCompile(`^\d[\d.,]*\s*` + figureUnit + `?\s*(?:of )?(?:(` + nutrientSure + `)|(?:` + nutrientMaybe + `))$`)
	energyAlone = regexp.MustCompile(`^\d[\d.,]*\s*(?:kcal|calories|cals|kj)(?:\s*/\s*\d[\d.,]*\s*(?:kcal|kj))?(?: (?:per|a|each) ?(?:serving|portion|person|slice)?)?$`)
	perPortion  = regexp.MustCompile(`^(?:nutrition(?:al)?(?: facts| information| info)? )?(?:\(?(?:amount )?per (?:serving|portion|person|slice|cookie|muffin|100 ?g))\)?\s*[:,-]?\s*`)
	factsBreak  = regexp.MustCompile(`\s*(?:[|;•·/]|,\s|\s[–—-]\s)\s*`)
)

// nutritionFacts reports a line that tells figures of nutrition and nothing
// else. After such a line, names that are ingredients too are figures.
func nutritionFacts(lower string, after bool) bool {
	lead := perPortion.FindString(lower)
	rest := strings.Trim(lower[len(lead):], " .*")
	switch {
	case lead != "" && rest == "":
		return true
	case !strings.ContainsAny(rest, "0123456789"):
		return false
	}
	rest, _ = strings.CutPrefix(rest, "nutrition: ")
	sure := lead != "" || after
	for _, part := range factsBreak.Split(rest, -1) {
		part = strings.TrimSpace(strings.TrimSuffix(part, " per serving"))
		name, figure := nameFirst.FindStringSubmatch(part), figureFirst.FindStringSubmatch(part)
		switch {
		case energyAlone.MatchString(part), name != nil && name[1] != "", figure != nil && figure[1] != "":
			sure = true
		case name != nil, figure != nil, onlyPercent.MatchString(part):
		default:
			return false
		}
	}
	return sure
}

var onlyPercent = regexp.MustCompile(`^\d+ ?%(?: ?dv)?$`)

var (
	timesLine  = regexp.MustCompile(`^(?:prep(?:aration)?|cook(?:ing)?|total|active|hands[ -]on|ready in|takes|baking|chilling|resting|marinating|rising|soaking|keeps|lasts|good|stores)(?: time| well)?(?: for| up to)*\s*[:=-]?\s*(?:about |approx\.? )?` + timeSpan)
	timesFirst = regexp.MustCompile(`^` + timeSpan + `\s*(?:prep|cook|total|active|hands[ -]on|preparation)(?:ing)?(?: time)?\b`)
	ratingLine = regexp.MustCompile(`^(?:(?:ratings?|rated|reviews?|votes?):? ?[\d★]|\d[\d.,]*k? (?:reviews|ratings|votes|stars)\b|\d(?:\.\d+)? from [\d.,k]+ (?:reviews|ratings|votes)|\d[\d.]* ?/ ?(?:5|10)(?: stars?)?\b(?: \(.*\))?$|\d(?:\.\d)? (?:out of 5|\(\d[\d,]* (?:reviews|ratings)\))|★|☆|x{2,6}(?: [a-z]+)?$)`)
	scaleLine  = regexp.MustCompile(`^(?:[1-4](?:/2)? ?x\s*)+$|^\(?\d+ ?%\)?\s*(?:daily value|dv)`)
)

// cookFor is a direction of two words: "Cook 45 minutes".
var cookFor = regexp.MustCompile(`^cook \d`)

const timeSpan = `\d[\d./½¼¾]*(?: ?(?:-|–|to) ?\d+)? ?(?:minutes?|mins?|m|hours?|hrs?|h|days?)\b`

// clutter is what a web page or a card says around a recipe.
var clutter = set("print pin share jump save")

var clutterStart = []string{"by ", "weight watchers", "ww points", "smartpoints", "cuisine", "course:", "category:", "categories:", "keyword", "level:", "cost:", "jump to recipe", "print recipe", "pin recipe", "save recipe", "rate this",
	"us customary", "cook mode", "calories per", "nutrition facts", "percent daily", "* percent", "% daily", "daily value", "amount per serving", "servings per container"}

// isClutter reports lines of times, ratings and the furniture of a page.
func isClutter(lower string) bool {
	if clutter[lower] || timesLine.MatchString(lower) || timesFirst.MatchString(lower) || ratingLine.MatchString(lower) || scaleLine.MatchString(lower) {
		return true
	}
	for _, start := range clutterStart {
		if strings.HasPrefix(lower, start) {
			return true
		}
	}
	return false
}
