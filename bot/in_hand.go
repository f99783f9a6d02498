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

// amountLimit reads a nutrient that is to be set to an amount: "the sodium to 400 mg".
func amountLimit(r grammar.Request) (engine.Limit, bool) {
	n, ok := nutrientNamed(r.Food)
	line := grammar.ParseLine(r.New)
	if !ok || alsoFoods[strings.ToLower(r.Food)] || line.Fault != nil || len(line.Items) != 1 || line.Items[0].Amount == nil || len(line.Items[0].Amount.Terms) != 1 {
		return engine.Limit{}, false
	}
	t := line.Items[0].Amount.Terms[0]
	unit := ""
	if t.Measure != nil {
		unit = t.Measure.Name
	}
	more := n == fooddata.Fibre || n == fooddata.Protein
	limit, wrong := limitOf(grammar.Limit{Nutrient: n.Name(), AtLeast: more, Amount: t.Quantity.Low, Unit: unit})
	return limit, wrong == ""
}

// isServing reports whether the words of an amount are a serving of the recipe in
// hand: "a serving", "one muffin" of blueberry muffins.
func (c *Conversation) isServing(amount string) bool {
	words := withoutOne(amount)
	title := fooddata.Normalise(c.inHand().analysis.Title)
	return isServingWord(amount) || len(words) == 1 && len(title) > 0 && title[len(title)-1] == words[0] && c.inHand().analysis.Servings > 1
}

// isServingWord reports whether an amount is a serving of something not named.
func isServingWord(amount string) bool {
	words := withoutOne(amount)
	return len(words) == 1 && (words[0] == "serving" || words[0] == "portion" || words[0] == "helping")
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

// servingWeight is what a serving weighs, as assembled and, if that was told, as
// cooked.
func (c *Conversation) servingWeight() string {
	v := c.inHand()
	a := v.analysis
	least := ""
	if unread(a) {
		least = "at least "
	}
	out := fmt.Sprintf("%s: %s%s g as assembled", sentence(portion(a)), least, gramsOf(a.Grams.Low/a.Servings))
	if v.cookedGrams > 0 {
		out += fmt.Sprintf(", %s g as cooked", gramsOf(v.cookedGrams/a.Servings))
	} else {
		out += ". Cooking changes the weight: say \"it weighed 1.4 kg cooked\" for that"
	}
	return out + "."
}

// isIt are words for the whole of the recipe in hand.
var isIt = map[string]bool{"it": true, "this": true, "that": true, "the recipe": true, "this recipe": true, "the dish": true, "this dish": true, "the whole recipe": true, "the whole dish": true, "the whole thing": true, "the pot": true, "it all": true, "everything": true, "the soup": true, "the stew": true, "the batch": true, "the whole batch": true}

// recipeWeight is what the whole recipe weighs, and a serving of it.
func (c *Conversation) recipeWeight() string {
	v := c.inHand()
	a := v.analysis
	least := ""
	if unread(a) {
		least = "at least "
	}
	out := fmt.Sprintf("The whole recipe: %s%s g as assembled", least, gramsOf(a.Grams.Low))
	if v.cookedGrams > 0 {
		out += fmt.Sprintf(", %s g as cooked", gramsOf(v.cookedGrams))
	}
	if a.Known && a.Servings != 1 {
		return out + ".\n" + c.servingWeight()
	}
	if v.cookedGrams <= 0 {
		out += ". Cooking changes the weight: say \"it weighed 1.4 kg cooked\" for that"
	}
	return out + "."
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

// useWhere finds the line that a food is to stand in for: the one of the same kind.
func (c *Conversation) useWhere(r grammar.Request) (is grammar.Request, reply string) {
	said := grammar.ParseLine(r.New)
	if said.Fault != nil || len(said.Items) != 1 || len(said.Items[0].Words) == 0 {
		return r, fmt.Sprintf("Say what it stands in for: \"use %s instead of ...\".", r.New)
	}
	words := said.Items[0].Words
	for k := range words {
		kind, before := strings.Join(words[k:], " "), words[:k]
		named, _ := c.linesNamed(kind)
		if other := sameThing[strings.ToLower(words[len(words)-1])]; len(named) == 0 && other != "" { // stock for broth
			kind = strings.Join(append(slices.Clone(words[k:len(words)-1]), other), " ")
			named, _ = c.linesNamed(kind)
			before = words[:len(words)-1]
		}
		if said := slices.DeleteFunc(slices.Clone(named), func(at int) bool { // cheddar cheese rather than ricotta
			return !endsIn(append([]string{""}, significant(strings.Join(c.inHand().recipe.Lines[at].Items[0].Words, " "))...), significant(kind))
		}); len(said) == 1 {
			named = said
		}
		switch {
		case len(named) == 1:
			at := named[0]
			if k == 0 && c.sameFood(at, said.Items[0]) {
				return r, fmt.Sprintf("Line %d is that already: %s.", c.ordinal(at), c.inHand().recipe.Lines[at].Text)
			}
			r.Food = fmt.Sprintf("line %d", c.ordinal(at))
			if onlyFormMissing(c.inHand().recipe.Lines[at].Items[0].Words, words) {
				return r, fmt.Sprintf("Line %d is that already: %s.", c.ordinal(at), c.inHand().recipe.Lines[at].Text) // lean beef of lean ground beef
			}
			r.New = c.kindOf(at, before, r.New)
			if nearest := c.nearestKind(at, before, r.New); nearest != "" {
				return r, nearest
			}
			return r, c.notThatKind(at, r.New)
		case len(named) > 1:
			which := c.lineWords(named)
			return r, fmt.Sprintf("Which one: %s? Say for instance \"use %s instead of %s\".", strings.Join(which, " or "), r.New, strings.SplitN(which[0], " (", 2)[0])
		}
	}
	if at, kept := c.uncounted(words[len(words)-1]); kept {
		return r, at
	}
	return r, fmt.Sprintf("No line is of that kind. Say \"use %s instead of %s\", or \"add 1/2 cup %s\".", r.New, c.nearestTo(said.Items[0]), strings.Join(words, " "))
}

// onlyFormMissing reports whether the words of a line are those said and how it is
// cut: "lean ground beef" of "lean beef".
func onlyFormMissing(has, said []string) bool {
	have, want := fooddata.Normalise(strings.Join(has, " ")), fooddata.Normalise(strings.Join(said, " "))
	if len(want) < 2 || !containsAll(have, want) {
		return false
	}
	for _, w := range have {
		switch w {
		case "ground", "minced", "mince", "diced", "cubed", "sliced", "shredded", "grated":
		default:
			if !slices.Contains(want, w) {
				return false
			}
		}
	}
	return true
}

// nearestKind names the kinds of a line's food where the one that is said of it is
// not in the table: low-sodium beef broth. It is empty where the food is there.
func (c *Conversation) nearestKind(at int, kind []string, said string) string {
	was := c.inHand().recipe.Lines[at].Items[0]
	item := grammar.ParseLine(said).Items[0]
	if item.Amount != nil || was.Amount == nil || len(kind) == 0 {
		return ""
	}
	item.Amount = was.Amount
	if c.engine.Resolve(item).Status == engine.Counted {
		return ""
	}
	full := was
	full.Words = append(slices.Clone(kind), was.Words...)
	l := c.engine.Resolve(full)
	if l.Status != engine.Ask || len(l.Choices) == 0 {
		return ""
	}
	n := c.ordinal(at)
	return fmt.Sprintf("The recipe is as it was: %s.%s Say for instance \"line %d is %s\".", l.Why, didYouMean(&l), n, l.Choices[0].Name())
}

// sameThing are words that recipes use for one thing.
var sameThing = map[string]string{"stock": "broth", "broth": "stock", "stocks": "broth", "scallions": "green onions", "cilantro": "coriander", "coriander": "cilantro", "garbanzos": "chickpeas", "prawns": "shrimp", "shrimp": "prawns", "yoghurt": "yogurt"}

// notThatKind asks for another name where the table has no such kind and would take
// the food without the words that tell it. It is empty where it has.
func (c *Conversation) notThatKind(at int, said string) string {
	item := grammar.ParseLine(said).Items[0]
	if item.Amount == nil {
		item.Amount = c.inHand().recipe.Lines[at].Items[0].Amount
	}
	l := c.engine.Resolve(item)
	if l.Status != engine.Counted || !slices.ContainsFunc(l.Assumed, func(s string) bool { return strings.Contains(s, "not taken into account") }) {
		return ""
	}
	out := fmt.Sprintf("The recipe is as it was: %q is no kind that is known here.", said)
	for i := range c.inHand().analysis.Lines {
		if was := &c.inHand().analysis.Lines[i]; was.Number == c.inHand().recipe.Lines[at].Number && len(was.Choices) > 0 {
			out += " Kinds of it: " + orList(was.Choices, 4) + "."
		}
	}
	return out + fmt.Sprintf(" Say \"line %d is ...\".", c.ordinal(at))
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

// sameFood reports whether an item is the food that a line already has.
func (c *Conversation) sameFood(at int, item grammar.Item) bool {
	was := c.inHand().recipe.Lines[at].Items[0]
	if item.Amount != nil || was.Amount == nil {
		return false
	}
	item.Amount = was.Amount
	now, old := c.engine.Resolve(item), c.engine.Resolve(was)
	return now.Status == engine.Counted && now.Food == old.Food
}

// kindOf is the food of a line in the kind that words before its name tell:
// "low-sodium" of chicken broth. It is said as it was where the table has no such
// food.
func (c *Conversation) kindOf(at int, kind []string, said string) string {
	was := c.inHand().recipe.Lines[at].Items[0]
	if len(kind) == 0 || was.Amount == nil {
		return said
	}
	old := c.engine.Resolve(was)
	full := was
	full.Words = append(slices.Clone(kind), was.Words...)
	l := c.engine.Resolve(full)
	sure := l.Status == engine.Counted && l.Food != old.Food && l.Confidence >= 0.85 &&
		!slices.ContainsFunc(l.Assumed, func(s string) bool {
			return strings.Contains(s, "not taken into account") || strings.Contains(s, "not in the table")
		})
	if !sure {
		alone := grammar.ParseLine(said).Items[0]
		alone.Amount = was.Amount
		if l.Status != engine.Counted || l.Food == old.Food || c.engine.Resolve(alone).Status == engine.Counted {
			return said
		}
	}
	return strings.Join(full.Words, " ")
}

// nearestTo is a line of the recipe that a food may stand in for: one of its group.
func (c *Conversation) nearestTo(item grammar.Item) string {
	item.Amount = grammar.ParseLine("100 g salt").Items[0].Amount
	group := ""
	if meant := c.engine.Resolve(item); !meant.Food.IsZero() {
		group = meant.Food.Group()
	}
	a := c.inHand().analysis
	for i := range a.Lines {
		if l := &a.Lines[i]; l.Status == engine.Counted && (group == "" || l.Food.Group() == group) {
			return itemName(l)
		}
	}
	for i := range a.Lines { // another meat or fish
		if l := &a.Lines[i]; l.Status == engine.Counted && isMeat[group] && isMeat[l.Food.Group()] {
			return itemName(l)
		}
	}
	return "line 1"
}

// isMeat are the food groups of meat and fish, which stand in for each other.
var isMeat = map[string]bool{"Beef Products": true, "Pork Products": true, "Poultry Products": true, "Lamb, Veal, and Game Products": true, "Sausages and Luncheon Meats": true, "Finfish and Shellfish Products": true}

// withFood answers "with the walnuts" where no optional line is meant: they are in
// it already, or stand in for a line of their kind.
func (c *Conversation) withFood(r grammar.Request) (is grammar.Request, reply string) {
	item := grammar.ParseLine(r.New).Items[0]
	if named, _ := c.linesNamed(strings.Join(item.Words, " ")); len(named) == 1 && item.Amount == nil {
		v := c.inHand()
		for i := range v.analysis.Lines {
			l := &v.analysis.Lines[i]
			switch {
			case l.Number != v.recipe.Lines[named[0]].Number:
			case l.Status == engine.Counted:
				return r, fmt.Sprintf("Line %d, %s, is counted already.", c.ordinal(named[0]), l.Text)
			default:
				return r, fmt.Sprintf("Line %d, %s, is not counted: %s. Say how much, such as \"line %d is 1/2 cup\".", c.ordinal(named[0]), l.Text, l.Why, c.ordinal(named[0]))
			}
		}
	}
	if item.Amount != nil {
		return grammar.Request{Kind: grammar.Add, Food: r.New}, ""
	}
	use, reply := c.useWhere(grammar.Request{Kind: grammar.UseInstead, New: r.New})
	return use, reply
}

// shareLimit is the limit that a part of a nutrient comes to: "cut sodium by half".
func (c *Conversation) shareLimit(r grammar.Request) (engine.Limit, bool) {
	n, ok := nutrientNamed(r.Food)
	if !ok || c.inHand().analysis.Unknown(n) {
		return engine.Limit{}, false
	}
	factor, _ := r.Factor.Float64()
	if factor <= 0 {
		return engine.Limit{}, false
	}
	return engine.Limit{Nutrient: n, AtLeast: factor > 1, Amount: c.inHand().analysis.Per(n).Low * factor}, true
}

// goalFor is the goal that brings a serving nearer to a limit.
func goalFor(l engine.Limit) (engine.Goal, bool) {
	for _, g := range []engine.Goal{engine.LessSodium, engine.LessAddedSugar, engine.LessSaturatedFat, engine.FewerCalories, engine.MoreFibre} {
		if g.Nutrient() == l.Nutrient {
			return g, (g == engine.MoreFibre) == l.AtLeast
		}
	}
	return engine.All, false
}

// within answers a limit of which nothing says how to keep it: what a serving has,
// the changes that help and how far all of them go, and the size that keeps it.
func (c *Conversation) within(limit engine.Limit) string {
	v := c.inHand()
	n := limit.Nutrient
	if !v.analysis.Known {
		return "A limit goes by a serving, and it is not said how many the recipe serves. Say \"servings 6\" first."
	}
	has := fmt.Sprintf("%s has %s; %s is asked.", sentence(portion(v.analysis)), figureWords(v.analysis, n, 1), limitText(limit))
	holds, sure := limit.Holds(v.analysis)
	switch {
	case v.analysis.Unknown(n):
		return has
	case holds && (!sure || unread(v.analysis) && !limit.AtLeast):
		return has + " Whether it keeps within that is not known: some ingredient is not in the figure. Say \"lines\"."
	case holds:
		return has + " It keeps within that as it is."
	}
	out := []string{has}
	goal, ok := goalFor(limit)
	if ok {
		out = append(out, c.cut(goal.String()))
	}
	if ok && len(c.advice.list) > 0 {
		var edits []engine.Edit
		for _, s := range c.advice.list {
			edits = append(edits, s.Edits...)
		}
		if recipe, err := engine.Apply(v.recipe, lastDrops(edits)...); err == nil {
			after := c.work(recipe)
			met := "still not within it"
			if now, _ := limit.Holds(after); now {
				met = "within it"
			}
			out = append(out, fmt.Sprintf("All of them together: %s, %s.", figureWords(after, n, 1), met))
		}
	}
	if line, share, has := c.mostFrom(n); has && share >= 0.1 {
		out = append(out, fmt.Sprintf("Or by amounts: \"%s %s by %s\".", n.Name(), limitText(limit), line))
	}
	if !limit.AtLeast && v.analysis.Known {
		out = append(out, "Or by size: "+c.fitServings([]engine.Limit{limit}))
	}
	return strings.Join(out, "\n")
}

// mostFrom is the line that brings most of a nutrient, and its share.
func (c *Conversation) mostFrom(n fooddata.Nutrient) (name string, share float64, ok bool) {
	a := c.inHand().analysis
	for _, s := range a.Brings(n) {
		return itemName(&a.Lines[s.Line]), s.Share, true
	}
	return "", 0, false
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

// cutLead takes a word off the head of a text, in any case.
func cutLead(s, lead string) (string, bool) {
	if len(s) > len(lead) && strings.EqualFold(s[:len(lead)], lead) {
		return strings.TrimSpace(s[len(lead):]), true
	}
	return s, false
}

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
