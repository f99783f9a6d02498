package grammar

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
)

// bareYield finds a line that holds a number of things and nothing else: "16
// brownies", "8 slices", "About 24 small cookies", "12 muffins".
var bareYield = regexp.MustCompile(`^(?:about |approx\.? |approximately |around )?(\d{1,3}(?: ?(?:-|–|to) ?\d{1,3})?|(?:one|two|three|four|five|six) dozen|\d dozen|four|six|eight|ten|twelve) ((?:[a-z]+[ -]){0,3}?)([a-z]+)(?: total| in all)?[.!]?$`)

// cutWords name nothing but what a cake or a loaf is cut into, so that no food
// is named by them alone.
var cutWords = set("slices squares wedges pieces bars portions")

// madeWords are foods that a recipe makes a number of.
var madeWords = set("brownies blondies cookies biscuits muffins cupcakes scones rolls buns pancakes waffles crepes crêpes flapjacks bagels doughnuts donuts truffles macaroons macarons",
	"meringues tarts tartlets turnovers popovers empanadas fritters croquettes meatballs burgers patties tortillas naans flatbreads rotis chapatis dumplings samosas pasties pretzels crackers bars balls",
	"burritos enchiladas tacos wraps quesadillas pierogi pierogies latkes hotcakes griddlecakes crumpets shortbreads fingers cakes cutlets kebabs skewers popsicles bites")

// bought are those of them that are as often bought to cook with.
var bought = set("tortillas wraps buns rolls bagels burgers patties meatballs naans flatbreads rotis chapatis crackers pretzels dumplings kebabs skewers waffles bars balls fingers tacos")

// doughs are words of what is baked, makings of what any of them is made of.
var doughs = set("flour oats oatmeal batter dough mix")

var makings = set("flour oats oatmeal cornmeal semolina meal mix batter dough mince minced ground potato potatoes sugar semisweet chocolate masa zucchini courgettes chickpeas")

// maybeYield takes a line that holds nothing but a number of things. What it was
// cut into tells the servings at once, as does any such line among the
// directions; a number of foods may be an ingredient ("12 tortillas"), which
// settleYield decides when all is read.
func (p *recipeReader) maybeYield(l *Line, plain string, past bool) bool {
	at := bareYield.FindStringSubmatch(strings.ToLower(plain))
	if at == nil || !cutWords[at[3]] && !madeWords[at[3]] || isNote(strings.ToLower(plain)) {
		return false
	}
	if at[2] != "" && cutWords[at[3]] && !onlySizes(at[2]) { // "8 bread slices"
		return false
	}
	l.Kind = Note
	switch {
	case cutWords[at[3]], past:
		p.toldBare(l)
	default:
		p.bare = append(p.bare, len(p.recipe.Lines))
		p.started = p.started || p.recipe.Title == "" || p.section == sectionIngredients
	}
	return true
}

func onlySizes(words string) bool {
	return !slices.ContainsFunc(strings.Fields(words), func(w string) bool {
		return sizes[w] == "" && w != "equal" && w != "even" && w != "generous" && w != "thick" && w != "thin"
	})
}

// toldBare sets the servings as such a line tells them, if none are told on a
// line that speaks of them.
func (p *recipeReader) toldBare(l *Line) {
	if p.recipe.Servings.Low != nil && !p.weak {
		return
	}
	node := parseNode(strings.TrimLeft(clean(l.Text)[bullet(clean(l.Text)):], "*_ "))
	if node.Lead == nil {
		return
	}
	a, fault := node.Lead.amount()
	if fault != nil || a.Terms[0].Quantity.Low == nil || a.Terms[0].Quantity.Low.Sign() <= 0 {
		return
	}
	servings := a.Terms[0].Quantity
	p.recipe.serve(servings, l.Text, fmt.Sprintf("%s servings, from %q", servings, l.Text))
	p.weak = false
}

// settleYield decides of each line of a number of foods whether the recipe makes
// them or needs them. It makes them where its title ends in their name, or where
// the line stands apart from the ingredients, and where what they are made of is
// among these; else the line is an ingredient.
func (p *recipeReader) settleYield() {
	lines := p.recipe.Lines
	for _, i := range p.bare {
		l := &lines[i]
		at := bareYield.FindStringSubmatch(strings.ToLower(plainText(l.Text)))
		if at != nil && (p.titled(at[3]) && p.holds(makings) || p.apart(i, at[3]) && p.holds(doughs)) {
			p.toldBare(l)
			continue
		}
		l.Kind = Ingredient
		l.read()
	}
}

// plainText is the text of a line without its marks.
func plainText(s string) string {
	s = clean(s)
	return strings.TrimSpace(strings.Trim(s[bullet(s):], "*_# "))
}

// holds reports whether a line of an ingredient has one of the words.
func (p *recipeReader) holds(those map[string]bool) bool {
	return slices.ContainsFunc(p.recipe.Lines, func(l Line) bool {
		return l.Kind == Ingredient && slices.ContainsFunc(l.Items, func(item Item) bool {
			return slices.ContainsFunc(slices.Concat(item.Words, item.Prep), func(w string) bool { return those[w] })
		})
	})
}

// titled reports whether the title ends in the food's name, one or many:
// "Fudge brownies with walnuts" in brownies, "Cookie cake" not in cookies.
func (p *recipeReader) titled(food string) bool {
	title := strings.ToLower(titleYield.ReplaceAllString(p.recipe.Title, "$1"))
	if at := titleEnd.FindStringIndex(title); at != nil {
		title = title[:at[0]]
	}
	fields := strings.Fields(title)
	if len(fields) == 0 {
		return false
	}
	last := strings.Trim(fields[len(fields)-1], ".,!'\"")
	return last == food || last+"s" == food || last+"es" == food || strings.HasSuffix(last, "y") && strings.TrimSuffix(last, "y")+"ies" == food ||
		strings.HasSuffix(last, strings.TrimSuffix(food, "s")) && len(last) > len(food) || strings.HasSuffix(last, food) // "cheeseburgers"
}

// titleEnd finds where the name of a dish in a title is over.
var titleEnd = regexp.MustCompile(`\s*(?:[,:;(–—|]|\s-\s|\b(?:with|in|on|for|recipe|from|and|i|ii|iii)\b)`)

// apart reports a line before all ingredients or after them, with blank lines
// around it, of a food that is seldom bought to cook with and that the title does
// not speak of ("Brownie trifle").
func (p *recipeReader) apart(i int, food string) bool {
	if bought[food] || strings.Contains(strings.ToLower(p.recipe.Title), strings.TrimSuffix(strings.TrimSuffix(food, "s"), "ie")) {
		return false
	}
	lines := p.recipe.Lines
	ingredient := func(l Line) bool { return l.Kind == Ingredient }
	first, last := !slices.ContainsFunc(lines[:i], ingredient), !slices.ContainsFunc(lines[i+1:], ingredient)
	before := i == 0 || lines[i-1].Number < lines[i].Number-1 || first && lines[i-1].Kind == Note
	after := i+1 == len(lines) || lines[i+1].Number > lines[i].Number+1 || lines[i+1].Kind == Heading
	return (first || last) && before && after && (i == 0 || lines[i-1].Kind != Heading)
}
