package bot

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"pottle/engine"
	"pottle/fooddata"
	"pottle/grammar"
)

// What short requests mean where a recipe is in hand: "potassium", "use low-fat
// cheese", "sodium under 400 mg", "how many grams is a serving".

// ofRecipe turns a request that would be a quick question, or that leaves out which
// line it means, into what it means for the recipe in hand. Reply is not empty if
// it is answered by that.
func (c *Conversation) ofRecipe(r grammar.Request) (is grammar.Request, reply string) {
	switch r.Kind {
	case grammar.Figures:
		bare := strings.TrimSpace(r.Amounts[0])
		switch said := strings.ToLower(bare); {
		case servingSize[said] && strings.Contains(said, " "):
			return r, c.servingWeight()
		case asksHowSure[said]:
			return r, c.checkNumbers()
		case said == "carb choices" || said == "carb exchanges" || said == "choices" || said == "exchanges":
			return grammar.Request{Kind: grammar.RecipeFigure, Nutrient: said}, ""
		}
		if rest, why := cutLead(bare, "why "); why {
			food := withoutQuestion(rest)
			at, which := c.lineNamed(food)
			if found := c.lines(food); len(found) == 1 {
				at = found[0]
			}
			if at < 0 {
				return r, which
			}
			return r, c.whyLine(at)
		}
		if _, ok := figuresAsked(bare); ok { // "sodium and potassium"
			return grammar.Request{Kind: grammar.RecipeFigure, Nutrient: bare}, ""
		}
		if _, ok := fooddata.NutrientNamed(bare); ok && len(bare) > 2 || calledTogether[strings.Join(fooddata.Normalise(bare), " ")] != "" {
			return grammar.Request{Kind: grammar.RecipeFigure, Nutrient: bare}, ""
		}
		if _, near := fooddata.NutrientNear(bare); near && c.amount(bare).Food.IsZero() {
			return grammar.Request{Kind: grammar.RecipeFigure, Nutrient: bare}, ""
		}
	case grammar.NutrientOf: // "energy in kJ"
		if part := bareAmount(r.Amounts[0]); part != nil && part.Quantity.Low.Sign() > 0 { // "sodium in 1 cup"
			if f, ok := figureAsked(r.Nutrient, r.Unit); ok {
				return r, c.ofPart(f, r.Amounts[0], part)
			}
			if all, ok := figuresAsked(r.Nutrient); ok {
				var out []string
				for _, f := range all {
					out = append(out, c.ofPart(f, r.Amounts[0], part))
				}
				return r, strings.Join(out, "\n")
			}
		}
		if food, the := cutLead(r.Amounts[0], "the "); the { // "sodium in the beef"
			if f, ok := figureAsked(r.Nutrient, r.Unit); ok && f.plain() {
				if at, _ := c.lineNamed(food); at >= 0 {
					if answer := c.ofLine(f.nutrients[0], at); answer != "" {
						return r, answer
					}
				}
			}
		}
		unit := strings.TrimSuffix(strings.TrimSuffix(strings.ToLower(r.Amounts[0]), " per serving"), " a serving")
		if f, ok := figureAsked(r.Nutrient, unit); ok && (f.unit != "" || strings.EqualFold(unit, f.nutrients[0].Unit())) {
			return grammar.Request{Kind: grammar.RecipeFigure, Nutrient: r.Nutrient, Unit: unit}, ""
		}
	case grammar.GramsOf:
		switch strings.ToLower(strings.TrimSpace(r.Amounts[0])) {
		case "it", "this", "that", "the recipe", "the dish", "the whole recipe", "the whole dish", "the pot": // "what does it weigh"
			return r, fmt.Sprintf("The whole recipe: %s g as assembled.\n%s", gramsOf(c.inHand().analysis.Grams.Low), c.servingWeight())
		}
		if c.isServing(r.Amounts[0]) {
			return r, c.servingWeight()
		}
		if isIt[strings.ToLower(strings.Trim(r.Amounts[0], " ?."))] { // "what does it weigh"
			return r, c.recipeWeight()
		}
	case grammar.UseInstead:
		if set, ok := otherNumber(r); ok {
			return set, ""
		}
		if r.Food == "" {
			return c.useWhere(r)
		}
	case grammar.Include:
		if r.New != "" && len(c.optionalLines(r.Food)) == 0 {
			return c.withFood(r)
		}
	case grammar.Cut: // "cut the salt to 500 mg"
		if saltInMg.MatchString(r.Food) {
			return r, "Say \"cut the sodium to 500 mg\" for the sodium of a serving, or an amount of salt, such as \"salt 1/4 tsp\"."
		}
	case grammar.SetAmount: // "bring the sodium down to 400"
		if line := grammar.ParseLine(r.Food); len(line.Items) == 1 && line.Items[0].Amount != nil && len(line.Items[0].Words) == 0 { // "use 1 tsp instead of 2"
			return r, fmt.Sprintf("Of which food? Say it with the amount, such as \"use %s salt instead of %s\".", r.New, r.Food)
		}
		if named, mention := c.linesNamed(r.Food); len(named)+len(mention) == 0 {
			if limit, ok := amountLimit(r); ok {
				return r, c.within(limit)
			}
		}
	case grammar.MultiplyFood:
		if isNumbers(r.Food) && len(c.lines(r.Food)) == 0 { // "double check the figures"
			return r, c.checkNumbers()
		}
		if named, mention := c.linesNamed(r.Food); len(named)+len(mention) == 0 && r.Factor != nil {
			if limit, ok := c.shareLimit(r); ok {
				return r, c.within(limit)
			}
		}
	case grammar.Fit:
		if r.Else != nil && r.Else.Kind == grammar.Holds && len(r.Foods) == 1 {
			if named, mention := c.linesNamed(r.Foods[0]); len(named)+len(mention) == 0 { // "how many grapes for 15 g carb"
				return *r.Else, ""
			}
		}
	case grammar.CheckTarget:
		if _, is := c.targets[targetKey(r.Food)]; !is && isNumbers(r.Food) {
			return r, c.checkNumbers()
		}
	}
	return r, ""
}

var saltInMg = regexp.MustCompile(`(?i)\bsalt\b.* to [\d.,]+ ?mg\b`)

// asksHowSure are questions whether the figures are to be trusted.
var asksHowSure = map[string]bool{"are the numbers right": true, "are the figures right": true, "are these right": true, "is this right": true, "is that right": true, "are you sure": true, "how sure are you": true,
	"how accurate is this": true, "how accurate is it": true, "are the numbers correct": true, "are the figures correct": true}

// lines are the lines that a food names or that mention it.
func (c *Conversation) lines(food string) []int {
	named, mention := c.linesNamed(food)
	return append(named, mention...)
}

// withoutOne are the words of an amount without "one" before them.
func withoutOne(amount string) []string {
	words := fooddata.Normalise(amount)
	for len(words) > 0 {
		switch words[0] {
		case "a", "an", "one", "1", "each", "the", "per", "my", "our", "single":
			words = words[1:]
			continue
		}
		break
	}
	return words
}

// otherNumber reads "use 1 can of beans instead of 2" as another amount of the
// beans; ok is false where another food is meant.
func otherNumber(r grammar.Request) (set grammar.Request, ok bool) {
	now, was := grammar.ParseLine(r.New), grammar.ParseLine(r.Food)
	if now.Fault != nil || was.Fault != nil || len(now.Items) != 1 || len(was.Items) != 1 {
		return set, false
	}
	item, old := now.Items[0], was.Items[0]
	if item.Amount == nil || len(item.Words) == 0 || old.Amount == nil || len(old.Words) > 0 {
		return set, false
	}
	return grammar.Request{Kind: grammar.SetAmount, Food: strings.Join(item.Words, " "), New: item.Amount.String()}, true
}

// ofLine is what a line of the recipe in hand brings of a nutrient; empty if it is
// not counted or has no figure.
func (c *Conversation) ofLine(n fooddata.Nutrient, at int) string {
	v := c.inHand()
	whole, counted := 0.0, false
	for i := range v.analysis.Lines {
		l := &v.analysis.Lines[i]
		if l.Number != v.recipe.Lines[at].Number || l.Status != engine.Counted {
			continue
		}
		for _, s := range v.analysis.Brings(n) {
			if s.Line == i {
				whole, counted = whole+s.Amount, true
			}
		}
	}
	if !counted {
		return ""
	}
	share := ""
	if all := v.analysis.Per(n).Low; all > 0 {
		share = fmt.Sprintf(", %.0f %% of what %s has", whole/all*100, portion(v.analysis))
	}
	return fmt.Sprintf("Line %d, %s, brings %s to %s%s.", c.ordinal(at), v.recipe.Lines[at].Text, named(whole, n), portion(v.analysis), share)
}

// uncounted says why a line that a word names is not counted, if there is one.
func (c *Conversation) uncounted(word string) (string, bool) {
	a := c.inHand().analysis
	ns := ordinals(a)
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == engine.NotCounted && slices.Contains(significant(l.Text), fooddata.Singular(strings.ToLower(word))) {
			return fmt.Sprintf("Line %d, %s, is not counted: %s. Say how much, such as \"line %d is 1/2 tsp %s\".", ns[i], l.Text, l.Why, ns[i], word), true
		}
	}
	return "", false
}

// isNumbers reports whether a check is one of the figures, not against a target.
func isNumbers(words string) bool {
	for _, w := range fooddata.Normalise(words) {
		switch w {
		case "number", "figure", "math", "maths", "sum", "arithmetic", "calculation", "working", "recipe", "nutrition", "value", "total", "result":
			return true
		}
	}
	return false
}

// checkNumbers shows what the figures rest on: whether energy and its parts agree,
// and what is asked, assumed and left out.
func (c *Conversation) checkNumbers() string {
	a := c.inHand().analysis
	counted, of := a.Counted()
	out := []string{fmt.Sprintf("%d of %d ingredients are counted.", counted, of)}
	if counted == 0 {
		return strings.Join(append(out, notInFigures(a)...), "\n")
	}
	parts := 4*a.Per(fooddata.Carbohydrate).Low + 4*a.Per(fooddata.Protein).Low + 9*a.Per(fooddata.Fat).Low + 7*a.Per(fooddata.Alcohol).Low
	energy := a.Per(fooddata.Energy).Low
	out = append(out, fmt.Sprintf("Energy of %s: %s from the table's foods; by 4, 4, 9 and 7 kcal a gram of carbohydrate, protein, fat and alcohol %s. The table uses factors of each food, lower for fibre, so a few per cent apart is usual.",
		portion(a), value(energy, fooddata.Energy), value(parts, fooddata.Energy)))
	for _, rest := range [][]string{asked(a), assumed(a), left(a), notes(a)} {
		if len(rest) > 0 {
			out = append(out, "", strings.Join(rest, "\n"))
		}
	}
	return strings.Join(append(out, "", "Say \"lines\" for every line with its food, USDA number and grams."), "\n")
}

const noPage = "pottle makes no page for a client. Copy what suits: \"figures\" gives the block of a serving, \"label\" the rounded figures, \"warnings\" what to mind."

// withoutQuestion drops what stands around the food of "why is it beef broth".
func withoutQuestion(s string) string {
	for again := true; again; {
		again = false
		for _, lead := range []string{"is ", "are ", "was ", "did ", "do ", "you ", "it ", "use ", "take ", "the ", "that ", "pick ", "choose "} {
			var cut bool
			s, cut = cutLead(s, lead)
			again = again || cut
		}
	}
	return s
}

// whyLine says what a line was taken for and why.
func (c *Conversation) whyLine(at int) string {
	v := c.inHand()
	for i := range v.analysis.Lines {
		l := &v.analysis.Lines[i]
		switch {
		case l.Number != v.recipe.Lines[at].Number:
		case l.Status != engine.Counted:
			return fmt.Sprintf("Line %d, %s: %s.%s", c.ordinal(at), l.Text, l.Why, didYouMean(l))
		default:
			return fmt.Sprintf("Line %d, %s: %s\nTo correct it, say \"line %d is ...\".", c.ordinal(at), l.Text, basis(l), c.ordinal(at))
		}
	}
	return ""
}
