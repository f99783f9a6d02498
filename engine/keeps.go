package engine

// preservation is how a dish keeps by its salt, acid or sugar.
type preservation uint8

const (
	notPreserved preservation = iota
	keptInJars
	keptByCure
	keptByFerment
	keptByPickle
	keptBySugar
)

// preserved returns how the dish is preserved, by its directions, its
// ingredients and what its title says it is.
func (d *dishView) preserved() preservation {
	sugar, salt, acid := d.has("sugar"), d.has("salt"), d.has("vinegar")
	switch {
	case d.told("canning"):
		return keptInJars
	case d.has("curing salt"), salt && d.is("title cure", false):
		return keptByCure
	case (salt || sugar) && d.is("title ferment", false), (salt || sugar) && !d.yeastDough() && d.told("fermenting"):
		return keptByFerment
	case (salt || acid) && d.is("title pickle", false), acid && sugar && d.is("title chutney", true):
		return keptByPickle
	case sugar && !d.has("gelatin") && (d.has("pectin") || d.is("title jam", true)):
		return keptBySugar
	}
	return notPreserved
}

// yeastDough reports whether the dish is of dough raised by yeast.
func (d *dishView) yeastDough() bool { return d.has("yeast") && d.has("flour") }

// keeping says why salt, acid and sugar stay as they are.
var keeping = map[preservation]string{
	keptInJars:    "put up in jars: its salt, acid and sugar preserve it; their amounts and the size of the batch stay as in the tested recipe",
	keptByCure:    "cured: its salt, curing salt and sugar preserve it; the amounts stay as in the tested recipe",
	keptByFerment: "fermented: its salt or sugar decides what grows in it; the amounts stay as in the tested recipe",
	keptByPickle:  "pickled: its salt, acid and sugar preserve it; the amounts stay as in the tested recipe",
	keptBySugar:   "jam or jelly: its sugar and acid set and preserve it; the amounts stay as in the tested recipe",
}

// KeepsSalt reports whether the dish must keep its salt as it is, and why, by
// its title, ingredients and directions: pickles, ferments, cures, what is put
// up in jars, and yeast dough. It speaks of the whole dish, also where only a
// part of it, the crust of a pizza, must keep its salt.
//
// Source: University of Illinois Extension on yeast dough, pickling and curing
// (https://extension.illinois.edu/thriftyliving/tl-modifyrecipe.html).
func (a *Analysis) KeepsSalt(method []string) (why string, yes bool) {
	d := a.dish(method)
	if p := d.preserved(); p != notPreserved && p != keptBySugar {
		return keeping[p], true
	}
	if d.yeastDough() {
		return "yeast dough: salt holds the yeast in check and makes the texture and the taste", true
	}
	return "", false
}

// KeepsSugar reports whether the dish must keep its sugar as it is, and why:
// jam, candy, yeast dough, and whatever sugar helps to preserve. It is false
// for a dish without sugar.
//
// Source: adjust.md, from memory.
func (a *Analysis) KeepsSugar(method []string) (why string, yes bool) {
	d := a.dish(method)
	if !d.has("sugar") {
		return "", false
	}
	switch p := d.preserved(); {
	case p != notPreserved:
		return keeping[p], true
	case d.is("title candy", true):
		return "candy: the share of sugar makes the texture and keeps it", true
	case d.yeastDough():
		return "yeast dough: the yeast feeds on the sugar", true
	}
	return "", false
}

// saltKeepsItSafe warns of changing what is preserved.
func (d *dishView) saltKeepsItSafe() (Caution, bool) {
	p := d.preserved()
	if p == notPreserved {
		return Caution{}, false
	}
	salt, _ := d.with("salt")
	curing, _ := d.with("curing salt")
	acid, _ := d.with("vinegar")
	sugar, _ := d.with("sugar")
	return Caution{"preserving", keeping[p], fromCanning, cautionLines(salt, curing, acid, sugar)}, true
}

// garlicInOil warns of low-acid food kept in oil.
func (d *dishView) garlicInOil() (Caution, bool) {
	low, _ := d.with("low-acid")
	if len(low) == 0 || !d.titled("title infused oil") {
		return Caution{}, false
	}
	return Caution{"garlic in oil", cautionNames(low) + ": low-acid food in oil can grow botulism; do not keep it at room temperature, and use a tested recipe", fromGarlicOil, cautionLines(low)}, true
}
