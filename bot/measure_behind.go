package bot

import (
	"regexp"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// In a question one thing is often meant without its number, and its measure or
// size may stand behind it: "can of tuna", "white bread slice", "avocado half",
// "tortilla 8 inch". 100 g of it would answer another question.

// shortWith writes out "w/" and "w/o".
var shortWith = strings.NewReplacer(" w/o ", " without ", " w/ ", " with ", " w/", " with ")

// oneTaken is said where no number is.
const oneTaken = "one of it, as no number is said"

// behind are the measures that may stand behind a food.
var behind = map[string]bool{"slice": true, "can": true, "tin": true, "jar": true, "cup": true, "clove": true, "stick": true, "packet": true, "package": true, "pack": true, "ear": true, "wedge": true,
	"bottle": true, "glass": true, "bowl": true, "pat": true, "scoop": true, "stalk": true, "piece": true, "patty": true, "strip": true, "sheet": true, "loaf": true, "tbsp": true, "tsp": true, "tablespoon": true, "teaspoon": true}

var sizesBehind = map[string]bool{"small": true, "medium": true, "large": true, "jumbo": true, "mini": true}

var inchBehind = regexp.MustCompile(`(?i)^(.+?),? (\d+)[- ]?(?:inch(?:es)?|in|")$`)

// oneOf rewrites the text of a food without a number, where it tells a measure or a
// size, as one of it.
func oneOf(text string) (string, bool) {
	text = strings.TrimRight(strings.TrimSpace(text), " ?.")
	if at := inchBehind.FindStringSubmatch(text); at != nil {
		return "1 " + at[2] + "-inch " + at[1], true
	}
	words := strings.Fields(text)
	if len(words) < 2 {
		return "", false
	}
	last := strings.ToLower(words[len(words)-1])
	before := strings.TrimSuffix(strings.Join(words[:len(words)-1], " "), ",")
	switch {
	case last == "half":
		return "1/2 " + before, true
	case behind[last]:
		return "1 " + last + " " + before, true
	case sizesBehind[last]:
		return "1 " + last + " " + before, true
	}
	if sizesBehind[strings.ToLower(words[0])] || strings.EqualFold(words[0], "extra") && sizesBehind[strings.ToLower(words[1])] { // "small apple"
		return "1 " + text, true
	}
	if m, ok := grammar.MeasureNamed(words[0]); ok && len(words[0]) > 1 && m.Kind != grammar.Length &&
		(m.Kind != grammar.Weight || m.Name == "oz" || m.Name == "lb" && strings.EqualFold(words[1], "of")) { // "ounce of cheddar", but not "pound cake"
		return "1 " + text, true
	}
	return "", false
}

// oneMeant resolves the text of a food without a number as one of it, where a
// measure or a size is told and one of that can be counted.
func (c *Conversation) oneMeant(text string, item grammar.Item) (engine.Line, bool) {
	if item.Amount != nil || item.Uncounted != "no amount" && item.Uncounted != "" {
		return engine.Line{}, false
	}
	one, ok := oneOf(text)
	if !ok {
		return engine.Line{}, false
	}
	items := grammar.ParseLine(one).Items
	if len(items) != 1 || items[0].Amount == nil {
		return engine.Line{}, false
	}
	l := c.engine.Resolve(items[0])
	if l.Status != engine.Counted || slices.ContainsFunc(l.Assumed, func(s string) bool { return strings.Contains(s, "not taken into account") }) {
		return engine.Line{}, false
	}
	if !strings.HasPrefix(one, "1/2 ") {
		l.Assumed = append(l.Assumed, oneTaken)
	}
	return l, true
}

// The table's margarine and shortening are from before the United States took
// partially hydrogenated oils out of foods.

// oldTransFat is the least trans fat in 100 g, of a food that has none by nature,
// by which partially hydrogenated oil shows.
const oldTransFat = 1

var hydrogenated = map[string]bool{"Fats and Oils": true, "Baked Products": true, "Sweets": true, "Snacks": true}

// transFatNote tells of lines whose trans fat is that of partially hydrogenated
// oils, where trans fat is what is asked for. Empty if there are none.
func transFatNote(asked []fooddata.Nutrient, lines []engine.Line) string {
	if !slices.Contains(asked, fooddata.TransFat) {
		return ""
	}
	var names []string
	for i := range lines {
		f := lines[i].Food
		if f.IsZero() || f.Team() || lines[i].Status != engine.Counted || !hydrogenated[f.Group()] && f.Number() != "01069" {
			continue
		}
		if v, ok := f.Per100g(fooddata.TransFat).Value(); ok && v >= oldTransFat && !slices.Contains(names, f.Name()) {
			names = append(names, f.Name())
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "\nAn old figure: the table (USDA SR28, 2015) has " + strings.Join(names, ", ") + " from before partially hydrogenated oils were taken out of foods in the United States (FDA, 2018 to 2021). Today's mostly has under 1 g trans fat in 100 g: read its label."
}
