package engine

import (
	"slices"
	"strings"

	"pottle/fooddata"
)

// bearing is what of a recipe contains an allergen, and what may.
type bearing struct {
	contains, may []dishFood
}

func (b *bearing) put(in dishFood, v verdict) {
	switch v {
	case doesContain:
		b.contains = append(b.contains, in)
	case mayContain:
		b.may = append(b.may, in)
	}
}

// caution puts a bearing in words: "contains milk: butter; may contain: bread
// crumbs; check each label".
func (b bearing) caution(kind, what, source string) (Caution, bool) {
	var text string
	switch {
	case len(b.contains) > 0 && len(b.may) > 0:
		text = "contains " + what + ": " + cautionNames(b.contains) + "; may contain: " + cautionNames(b.may)
	case len(b.contains) > 0:
		text = "contains " + what + ": " + cautionNames(b.contains)
	case len(b.may) > 0:
		text = "may contain " + what + ": " + cautionNames(b.may)
	default:
		return Caution{}, false
	}
	return Caution{kind, text + "; check each label", source, cautionLines(b.contains, b.may)}, true
}

// allergen returns what an ingredient tells of an allergen: by the table for
// its food, and by its words.
//
//   - Where the food is the one named, the table decides; a word that says
//     more ("sesame bagels") makes it "may contain".
//   - A stand-in may contain what its food contains or may contain; words say
//     what they say.
//   - "dairy-free" and the like make "contains" into "may contain", never into
//     less.
func (in dishFood) allergen(a fooddata.Allergen) verdict {
	said := in.says(a.String())
	if said == lookAlike {
		said = notSaid
	}
	v := said
	if !in.food.IsZero() {
		v = notSaid
		has, might := in.food.Allergens()
		switch {
		case slices.Contains(has, a):
			v = doesContain
		case slices.Contains(might, a):
			v = mayContain
		}
		switch {
		case in.standIn:
			v = max(min(v, mayContain), said)
		case said == doesContain:
			v = max(v, mayContain)
		}
	}
	if v == doesContain && in.says("denies "+a.String()) == doesContain {
		v = mayContain
	}
	return v
}

// allergens returns what bears each allergen.
func (d *dishView) allergens() [fooddata.NumAllergens]bearing {
	var all [fooddata.NumAllergens]bearing
	for _, in := range d.foods {
		for a := range fooddata.Allergen(fooddata.NumAllergens) {
			all[a].put(in, in.allergen(a))
		}
	}
	return all
}

// unjudged returns the ingredients whose food is not known.
func (d *dishView) unjudged() []dishFood {
	var list []dishFood
	for _, in := range d.foods {
		if in.food.IsZero() || in.food.Team() { // of its own the team keeps no allergens
			list = append(list, in)
		}
	}
	return list
}

func (d *dishView) allergenCautions() []Caution {
	var list []Caution
	for a, b := range d.allergens() {
		if c, ok := b.caution("allergen", fooddata.Allergen(a).String(), fromAllergenLaw); ok {
			list = append(list, c)
		}
	}
	if unknown := d.unjudged(); len(unknown) > 0 {
		text := "not known, so may contain any of the nine major allergens and gluten: " + cautionNames(unknown) + "; check each label"
		list = append(list, Caution{"allergen", text, fromAllergenLaw, cautionLines(unknown)})
	}
	return list
}

// molluscs says that the law's nine leave these shellfish out.
func (d *dishView) molluscs() (Caution, bool) {
	sure, _ := d.with("molluscs")
	if len(sure) == 0 {
		return Caution{}, false
	}
	return Caution{"molluscs", cautionNames(sure) + ": a mollusc, outside the nine, so a label need not name it; ask where shellfish is avoided", fromMolluscs, cautionLines(sure)}, true
}

// gluten names what holds wheat, barley or rye.
func (d *dishView) gluten() (Caution, bool) {
	return d.glutenBearing().caution("gluten", "gluten", fromGlutenRule)
}

func (d *dishView) glutenBearing() bearing {
	var b bearing
	for _, in := range d.foods {
		v := in.allergen(fooddata.Wheat)
		if said := in.says("gluten"); said >= mayContain {
			v = max(v, said)
		}
		if v == doesContain && in.says("denies wheat") == doesContain {
			v = mayContain
		}
		b.put(in, v)
	}
	return b
}

// oats tells of the grains that oats are milled with.
func (d *dishView) oats() (Caution, bool) {
	sure, perhaps := d.with("oats")
	if len(sure)+len(perhaps) == 0 {
		return Caution{}, false
	}
	text := cautionNames(sure, perhaps) + ": often cross-contacted with wheat, barley or rye; " +
		"only oats labelled gluten-free (under 20 ppm) fit a gluten-free diet, and a few with celiac disease react to those too"
	return Caution{"oats", text, fromOats, cautionLines(sure, perhaps)}, true
}

// AllergenChange compares two analyses of a recipe by the major allergens of
// their ingredients. Brings are those that after contains or may contain and
// before did not, or contains and before only might. NoLongerShows are those
// that no ingredient of after is known to bring: that is no proof that the
// dish is without them. It is empty if after has more lines that could not be
// judged than before, since these may hold any.
func AllergenChange(before, after *Analysis) (brings, noLongerShows []fooddata.Allergen) {
	m := AllergenMoves(before, after)
	return m.all(), m.NoLongerShows
}

// AllergenMove is what a change of a recipe does to its allergens, by
// ingredient: see AllergenChange.
type AllergenMove struct {
	Brings        []fooddata.Allergen // that after contains
	MayBring      []fooddata.Allergen // that after only may contain, as makers differ
	NoLongerShows []fooddata.Allergen
	Gluten        string // the sentence of GlutenChange
	NotKnown      string // foods that come in whose allergens are not known
}

// all returns what it brings and may bring in, in the order of allergens.
func (m AllergenMove) all() []fooddata.Allergen {
	if len(m.Brings)+len(m.MayBring) == 0 {
		return nil
	}
	return slices.Sorted(slices.Values(slices.Concat(m.Brings, m.MayBring)))
}

// Sentences tells of the move, a sentence each: "Brings in milk.", "May bring
// in soybeans; check the label.", that of gluten, and what no longer shows with
// NotSafe.
func (m AllergenMove) Sentences() []string {
	var out []string
	if len(m.Brings) > 0 {
		out = append(out, "Brings in "+allergenNames(m.Brings)+".")
	}
	if len(m.MayBring) > 0 {
		out = append(out, "May bring in "+allergenNames(m.MayBring)+"; check the label.")
	}
	if m.Gluten != "" {
		out = append(out, m.Gluten)
	}
	if m.NotKnown != "" {
		out = append(out, "What allergens "+m.NotKnown+" brings in is not known; check the label.")
	}
	if len(m.NoLongerShows) > 0 {
		names := allergenNames(m.NoLongerShows)
		out = append(out, strings.ToUpper(names[:1])+names[1:]+" no longer shows by ingredient. "+NotSafe)
	}
	return out
}

func allergenNames(list []fooddata.Allergen) string {
	var names []string
	for _, a := range list {
		names = append(names, a.String())
	}
	return strings.Join(names, ", ")
}

// AllergenMoves compares two analyses as AllergenChange does, and tells what is
// brought in from what only may be.
func AllergenMoves(before, after *Analysis) AllergenMove {
	was, is := before.dish(nil), after.dish(nil)
	from, to := was.allergens(), is.allergens()
	hidden := len(is.unjudged()) > len(was.unjudged())
	var m AllergenMove
	for a := range fooddata.Allergen(fooddata.NumAllergens) {
		switch x, y := from[a].strongest(), to[a].strongest(); {
		case y > x && y == doesContain:
			m.Brings = append(m.Brings, a)
		case y > x:
			m.MayBring = append(m.MayBring, a)
		case y == notSaid && x > notSaid && !hidden:
			m.NoLongerShows = append(m.NoLongerShows, a)
		}
	}
	m.Gluten, _ = glutenChange(was, is)
	if hidden {
		m.NotKnown = cautionNames(is.unjudged()[len(was.unjudged()):])
	}
	return m
}

// GlutenChange tells in a sentence whether after contains or may contain gluten
// that before did not, or contains what before only might: barley and rye are
// outside the nine allergens, but of the grains of 21 CFR 101.91. Wheat that is
// brought in alike is told of by AllergenChange, and no sentence is made of it.
func GlutenChange(before, after *Analysis) (sentence string, brings bool) {
	return glutenChange(before.dish(nil), after.dish(nil))
}

func glutenChange(was, is *dishView) (string, bool) {
	from, to := was.glutenBearing(), is.glutenBearing()
	x, y := from.strongest(), to.strongest()
	if y <= x {
		return "", false
	}
	if wheat := is.allergens()[fooddata.Wheat].strongest(); wheat >= y && was.allergens()[fooddata.Wheat].strongest() < wheat {
		return "", false
	}
	if y == doesContain {
		return "Brings in gluten: " + cautionNames(to.contains) + ".", true
	}
	return "May bring in gluten: " + cautionNames(to.may) + "; check the label.", true
}

func (b bearing) strongest() verdict {
	switch {
	case len(b.contains) > 0:
		return doesContain
	case len(b.may) > 0:
		return mayContain
	}
	return notSaid
}

// describedAs reports whether a description in the source begins with one of
// the words.
func describedAs(description string, words ...string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return strings.HasPrefix(description, w) })
}
