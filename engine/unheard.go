package engine

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// plantPeels are parts of a fruit that are foods by themselves.
var plantPeels = wordSet("peel rind zest seed leaf juice")

// unheard returns the words after the name, or in brackets, that bear on which
// food it is and that its match does not answer: "jam, sugar free" found as jam.
// Where ask is true they make another food of it; else they tell how it was cooked.
func unheard(q query, m Match) (all []string, ask bool) {
	if len(q.tails) == 0 && len(q.aside) == 0 {
		return nil, false
	}
	f := m.Food
	has := fooddata.Normalise(f.Name() + " " + f.Description())
	for i, tail := range slices.Concat(q.tails, q.aside) {
		if seasoningLeftOut(tail, f) {
			return tail, true
		}
		if slices.Contains(tail, "reserved") || slices.Contains(tail, "discarded") || slices.Contains(tail, "saved") {
			continue
		}
		if words := withoutPreparation(tail); !allHeard(words, m.heard) {
			if denial, met := denied(words, f, has); denial && !met {
				all, ask = append(all, words...), true
				continue
			}
		}
		var open []string
		packed := tail[0] == "in" || tail[0] == "packed"
		for _, w := range withoutPreparation(tail) {
			if packed && packedIn[w] {
				continue
			}
			if !(i >= len(q.tails) && vague[w]) && !answered(w, f, has) && !(i >= len(q.tails) && gentle[w]) && !slices.Contains(m.heard, w) && !slices.Contains(has, w) && !slices.Contains(q.words, w) && !(saltWords[w] && hardlySalted(f)) && !(sugarWords[w] && noneAdded(f)) {
				open = append(open, w)
			}
		}
		if i < len(q.tails) && containsAny(tail, canWords) && !containsAny(m.heard, canWords) && !soldCanned(f, has) {
			all, ask = append(all, "canned"), true
			continue
		}
		if slices.Contains(tail, "no") && slices.Contains(tail, "salt") && len(m.heard) == 0 && !hardlySalted(f) && !containsAny(has, []string{"unsalted", "without", "no", "low"}) {
			all, ask = append(all, "without salt"), true
			continue
		}
		telling, kind := len(open) > 0, false
		for _, w := range open {
			telling = telling && (kindWords[w] || cookingWords[w] || strings.HasSuffix(w, "%") || packed && (w == "oil" || w == "syrup"))
			kind = kind || !cookingWords[w]
		}
		if telling && slices.Contains(tail, "fresh") && slices.Contains(tail, "or") { // fresh or frozen
			continue
		}
		if telling && (kind || !q.weighed) {
			if kind {
				open = withoutPreparation(tail)
			}
			all = append(all, open...)
			ask = ask || kind
		}
	}
	return all, ask
}

// seasoningLeftOut reports words by which the seasoning of instant noodles or of a
// mix is not used: most of the food's sodium.
func seasoningLeftOut(tail []string, f fooddata.Food) bool {
	return f.Group() == "Soups, Sauces, and Gravies" && containsAny(tail, []string{"seasoning", "flavor", "flavour", "flavoring", "flavouring", "packet", "sachet"}) &&
		containsAny(tail, []string{"discarded", "discard", "without", "omitted", "removed", "no", "unused", "reserved", "saved"})
}

var canWords = []string{"canned", "tinned"}

// soldCanned reports whether the figures of f may stand for it from a can.
func soldCanned(f fooddata.Food, has []string) bool {
	return fromCan(f) || containsAny(has, canWords) || f.Group() == "Soups, Sauces, and Gravies" || f.Group() == "Beverages"
}

// gentle are words of kind that only a remark in brackets holds as a hint.
var gentle = wordSet("instant natural heavy brown white extra")

// answered reports whether a food is what the word says, though its name has
// another word for it: a share of fat that is near its own, a share of cocoa, the
// leaf of a leafy plant.
func answered(w string, f fooddata.Food, has []string) bool {
	percent, isPercent := strings.CutSuffix(w, "%")
	switch {
	case plantParts[w] != nil:
		return ofItsOwn(f, []string{w})
	case w == "fat":
		return false
	case !isPercent:
		return false
	case slices.Contains(has, percent):
		return true
	}
	said, err := strconv.ParseFloat(percent, 64)
	fat, ok := f.Per100g(fooddata.Fat).Value()
	return err == nil && ok && math.Abs(fat-said) <= 0.25*said
}

// unmet returns the remarks in brackets that the match does not answer and that
// may bear on which food it is, though nobody can tell: "kosher salt (Mill Town)".
// They are shown.
func (e *Engine) unmet(q query, m Match) [][]string {
	if len(q.aside) == 0 {
		return nil
	}
	var open [][]string
	has := fooddata.Normalise(m.Food.Name() + " " + m.Food.Description())
	for _, aside := range q.aside {
		words := slices.DeleteFunc(withoutPreparation(aside), func(w string) bool {
			return vague[w] || describes[w] || answered(w, m.Food, has) || slices.Contains(has, w) || slices.Contains(q.words, w) || slices.Contains(m.heard, w)
		})
		if len(words) == 0 || remarks[aside[0]] || slices.Contains(aside, "or") && slices.Contains(aside, "fresh") || slices.ContainsFunc(aside, notOfKind) {
			continue
		}
		if e.allName(aside, m.Food) || e.allName(words, m.Food) {
			continue
		}
		open = append(open, aside)
	}
	return open
}

// allName reports whether the words, or each of them, are other names of the food
// or of one of its family.
func (e *Engine) allName(words []string, f fooddata.Food) bool {
	family := e.table.Family(f)
	names := func(words []string) bool {
		m, ok := e.named(query{words: words})
		return ok && slices.Contains(family, m.Food)
	}
	return names(words) || !slices.ContainsFunc(words, func(w string) bool { return !names([]string{w}) })
}

// notOfKind reports a word of a remark that speaks of amounts, sizes or parts.
func notOfKind(w string) bool {
	if _, ok := grammar.MeasureNamed(w); ok {
		return true
	}
	return w[0] >= '0' && w[0] <= '9' && !strings.HasSuffix(w, "%") || ofNoKind[w]
}

var ofNoKind = wordSet("only part skin peel stem seed unpeeled whole weight total green white juice thumb note page recipe below above optional garnish")

// vague are words of a remark that say nothing of the food.
var vague = wordSet("split vermicelli angel hair fat or if such as style brand type kind variety possible preferably preferred prefer ideally e.g eg is are any only both either and")

func allHeard(words, heard []string) bool {
	return !slices.ContainsFunc(words, func(w string) bool { return !slices.Contains(heard, w) })
}

// denying are words that take away what stands beside them.
var denying = wordSet("no free non without zero low lower reduced less")

// denied reports whether the words deny fat, salt or sugar, and whether the food
// answers that: by its name or description, or because it has next to none of it.
func denied(words []string, f fooddata.Food, has []string) (denial, met bool) {
	at := slices.IndexFunc(words, func(w string) bool { return denying[w] })
	if at < 0 {
		return false, false
	}
	little := slices.ContainsFunc(words, func(w string) bool { return w == "low" })
	most := func(n fooddata.Nutrient, none, low float64) bool {
		v, ok := f.Per100g(n).Value()
		return ok && (v <= none || little && v <= low)
	}
	says := func(words ...string) bool { return containsAny(has, words) }
	deniedBy := says("no", "free", "without", "low", "lower", "reduced", "less", "light", "lite")
	met = true
	for _, w := range words {
		switch w {
		case "fat":
			denial = true
			met = met && (most(fooddata.Fat, 0.5, 3) || says("nonfat", "skim", "lowfat") || deniedBy && says("fat"))
		case "salt", "sodium":
			denial = true
			met = met && (most(fooddata.Sodium, 30, 140) || says("unsalted") || deniedBy && says("salt", "sodium"))
		case "sugar":
			denial = true
			met = met && (noneAdded(f) || says("unsweetened", "diet") || deniedBy && says("sugar"))
		}
	}
	return denial, met
}

// packedIn are words of what a food is packed in that leave it what it is.
var packedIn = wordSet("in packed olive sunflower rapeseed canola vegetable soybean heavy light extra virgin own its water brine")

// hardlySalted reports a food that is as good as unsalted: at most 30 mg sodium
// in 100 g.
func hardlySalted(f fooddata.Food) bool {
	v, ok := f.Per100g(fooddata.Sodium).Value()
	return ok && v <= 30
}

// noneAdded reports a food without added sugars.
func noneAdded(f fooddata.Food) bool {
	v, ok := f.Per100g(fooddata.AddedSugars).Value()
	return ok && v == 0
}

var sugarWords = wordSet("unsweetened no sugar added free natural")

var saltWords = wordSet("unsalted no salt added low sodium reduced lower less")

// kindWords are words after a name that say which kind of it is meant. They are
// never passed over.
var kindWords = wordSet("low lower reduced less no free light lite skim skimmed nonfat lowfat fat sodium salt salted unsalted sugar sweetened unsweetened vanilla chocolate flavored flavoured honey " +
	"preserved pickled cured candied fermented brined brown white wheat grain lean extra vegan gluten dairy smoked instant syrup heavy natural added " +
	"konjac shirataki imitation substitute replacer replacement alternative fortified concentrate concentrated powder powdered extract condensed dried lactose diet zero plant based leaf potassium chloride dehydrated freeze evaporated breaded covered decaf decaffeinated alcohol carb keto high protein")

// cookingWords after a name tell how it was cooked; the food may have no such
// entry.
var cookingWords = wordSet("scrambled fried boiled baked roasted poached grilled cooked steamed braised")

// leanOf reads the fat of minced meat as its lean: "5% fat" is "95% lean".
func leanOf(words []string) ([]string, bool) {
	for i := 0; i+1 < len(words); i++ {
		percent, isPercent := strings.CutSuffix(words[i], "%")
		fat, err := strconv.Atoi(percent)
		if !isPercent || err != nil || fat < 1 || fat > 30 || words[i+1] != "fat" {
			continue
		}
		if !slices.ContainsFunc(words, func(w string) bool { return w == "mince" || w == "minced" || w == "ground" }) {
			return nil, false
		}
		lean := []string{strconv.Itoa(100-fat) + "%", "lean"}
		for j, w := range words {
			if j != i && j != i+1 && w != "lean" && w != "extra" {
				lean = append(lean, w)
			}
		}
		return lean, true
	}
	return nil, false
}
