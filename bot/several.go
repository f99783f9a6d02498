package bot

import (
	"regexp"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// Several figures asked for at once: "sodium and potassium in 1 cup tomato juice",
// "macros in 1 cup greek yogurt", "nutrition facts for 1 banana".

// macros are what is called so: energy and what brings nearly all of it.
var macros = map[string]bool{"macro": true, "macros": true, "macronutrients": true, "macronutrient": true, "the macros": true}

// everyFigure are the words for all figures that are shown.
var everyFigure = map[string]bool{"nutrition facts": true, "nutrition": true, "nutrition info": true, "nutrition information": true, "nutritional information": true, "nutritional info": true,
	"nutritional values": true, "nutritional value": true, "nutrition values": true, "nutrition value": true, "nutritional facts": true, "nutrition data": true, "nutrition breakdown": true, "nutritional content": true,
	"nutrients": true, "all nutrients": true, "everything": true, "all figures": true, "figures": true, "all the figures": true, "full nutrition": true}

// andParts parts the names of nutrients; "how many" may stand again before each.
var (
	andParts  = regexp.MustCompile(`(?i)\s*(?:,|&|/|\+|;)\s*(?:(?:and|plus)\s+)?|\s+(?:and|plus|as well as)\s+`)
	leadParts = regexp.MustCompile(`(?i)^(?:(?:how (?:much|many)|grams of|g of|the|its) )+`)
)

// figuresAsked reads the names of several figures. ok is false where there are not
// two at least, or one is not known.
func figuresAsked(words string) (all []askedFigure, ok bool) {
	words = strings.ToLower(strings.Trim(strings.Join(strings.Fields(words), " "), " ?.!:,"))
	if macros[words] {
		for _, n := range []fooddata.Nutrient{fooddata.Energy, fooddata.Carbohydrate, fooddata.Protein, fooddata.Fat} {
			all = append(all, askedFigure{nutrients: []fooddata.Nutrient{n}})
		}
		return all, true
	}
	if _, one := figureNamed(words); one { // "EPA and DHA" would be, were it a name
		return nil, false
	}
	parts := andParts.Split(words, -1)
	if len(parts) < 2 || len(parts) > 12 {
		return nil, false
	}
	first, _, _ := strings.Cut(parts[0], " ")
	last := parts[len(parts)-1]
	last = last[strings.LastIndex(last, " ")+1:]
	for _, part := range parts {
		part = leadParts.ReplaceAllString(part, "")
		found := false
		for _, name := range []string{part, part + " " + last, fooddata.Singular(first) + " " + part} { // "saturated and trans fat", "vitamins A and C"
			f, known := figureAsked(name, "")
			if known && f.read == "" {
				all, found = append(all, f), true
				break
			}
		}
		if macros[part] {
			four, _ := figuresAsked(part)
			all, found = append(all, four...), true
		}
		if !found {
			return nil, false
		}
	}
	return all, true
}

// severalAsked finds the figures that a question asks for at once, and of what; none
// with ok is all that are shown.
func (c *Conversation) severalAsked(r grammar.Request) (all []askedFigure, food string, ok bool) {
	if r.Kind == grammar.NutrientOf && len(r.Amounts) == 1 {
		if everyFigure[strings.ToLower(r.Nutrient)] {
			return nil, r.Amounts[0], true
		}
		all, ok = figuresAsked(r.Nutrient)
		return all, r.Amounts[0], ok
	}
	if r.Kind != grammar.Figures || len(r.Amounts) != 1 {
		return nil, "", false
	}
	said := strings.Trim(r.Amounts[0], " ?.!")
	if food, names, colon := strings.Cut(said, ":"); colon {
		all, ok = figuresAsked(names)
		return all, food, ok || everyFigure[strings.ToLower(strings.TrimSpace(names))]
	}
	words := strings.Fields(said)
	if len(words) < 2 || len(words) > 20 {
		return nil, "", false
	}
	for k := 1; k < len(words); k++ { // "1 banana nutrition facts", "1 egg protein and fat"
		head, tail := strings.Trim(strings.Join(words[:k], " "), " ,"), strings.Join(words[k:], " ")
		all, ok := figuresAsked(tail)
		if !ok && (!everyFigure[strings.ToLower(tail)] || len(words)-k < 2 && !macros[strings.ToLower(tail)]) || notInName[strings.ToLower(words[k-1])] || kindsOfOwn[strings.ToLower(words[k-1]+" "+strings.Trim(words[k], ","))] {
			continue
		}
		if onlyFoods(tail) {
			continue
		}
		if l := c.withAmount(head, "100 g"); l.Status == engine.Counted && l.Confidence > 0.7 && wordsMet(&l) {
			return all, head, true
		}
	}
	for k := len(words) - 1; k > 0; k-- { // "nutrition facts banana", "calories and fat butter"
		head, tail := strings.Join(words[:k], " "), strings.Join(words[k:], " ")
		all, ok := figuresAsked(head)
		if !ok && (!everyFigure[strings.ToLower(head)] || k < 2) || onlyFoods(head) {
			continue
		}
		if l := c.withAmount(tail, "100 g"); l.Status == engine.Counted && l.Confidence > 0.7 && wordsMet(&l) {
			return all, tail, true
		}
	}
	return nil, "", false
}

// onlyFoods reports whether names of figures are all names of foods too: "salt and
// sugar".
func onlyFoods(names string) bool {
	return !slices.ContainsFunc(andParts.Split(strings.ToLower(names), -1), func(s string) bool { return !alsoFoods[s] })
}

// severalOf answers several figures of amounts of foods, each on its line; of none,
// the whole block.
func (c *Conversation) severalOf(all []askedFigure, amounts string) string {
	found := c.amounts(amounts)
	if len(found) == 1 && found[0].Reason == engine.NoAmount {
		amounts = "100 g " + amounts
		found = c.amounts(amounts)
	}
	if len(all) == 0 {
		return c.allFigures(found, amounts)
	}
	var rests []string
	for i := range found {
		if found[i].Status != engine.Counted {
			return unclear(&found[i])
		}
		rests = append(rests, basis(&found[i]))
	}
	out, after, open := []string{sentence(strings.TrimSpace(amounts))}, "", false
	for _, f := range all {
		of := func(n fooddata.Nutrient) (engine.Range, bool) { return sumOf(found, n) }
		none := func(fooddata.Nutrient) string { return "" }
		out = append(out, f.title()+": "+f.figures(of, none))
		open = open || slices.ContainsFunc(f.nutrients, func(n fooddata.Nutrient) bool { _, ok := sumOf(found, n); return !ok && f.plain() })
		after += f.after() + transFatNote(f.nutrients, found)
	}
	if open {
		rests = append([]string{"No figure in the table: unknown, not none."}, rests...)
	}
	return strings.Join(append(out, rests...), "\n") + after
}

// sumOf is what counted lines hold of a nutrient together; ok is false where one of
// them has no figure.
func sumOf(lines []engine.Line, n fooddata.Nutrient) (sum engine.Range, ok bool) {
	ok = true
	for i := range lines {
		r, known := lines[i].Has(n)
		ok = ok && known
		sum = engine.Range{Low: sum.Low + r.Low, High: sum.High + r.High}
	}
	return sum, ok
}

// severalHere answers several figures of the recipe in hand; ok is false where a
// request does not ask for several.
func (c *Conversation) severalHere(r grammar.Request, text string) (reply string, ok bool) {
	all, ok := figuresAsked(r.Nutrient)
	if !ok {
		return "", false
	}
	var out []string
	for _, f := range all {
		one := r
		one.Else = nil
		one.Nutrient = f.name
		if one.Nutrient == "" {
			one.Nutrient = f.nutrients[0].Name()
		}
		out = append(out, c.figure(one, text))
	}
	return strings.Join(out, "\n"), true
}

// figureOrSeveral is figureAsked that takes several names too, as one figure of all
// their nutrients.
func figureOrSeveral(words string) (askedFigure, bool) {
	all, several := figuresAsked(words)
	if !several {
		return figureAsked(words, "")
	}
	var f askedFigure
	for _, one := range all {
		f.nutrients = append(f.nutrients, one.nutrients...)
	}
	return f, true
}

// rankBySeveral sets foods in order by each nutrient that is named; what is said of
// the foods is said once.
func (c *Conversation) rankBySeveral(r grammar.Request) string {
	all, several := figuresAsked(r.Nutrient)
	if !several {
		return c.rank(r)
	}
	var out, rests []string
	for _, f := range all {
		one := r
		if one.Nutrient = f.name; one.Nutrient == "" {
			one.Nutrient = f.nutrients[0].Name()
		}
		for _, line := range strings.Split(c.rank(one), "\n") {
			switch {
			case !strings.Contains(line, "(USDA ") && !strings.Contains(line, "(team)"):
				out = append(out, line)
			case !slices.Contains(rests, line):
				rests = append(rests, line)
			}
		}
	}
	return strings.Join(append(out, rests...), "\n")
}
