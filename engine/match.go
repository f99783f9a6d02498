package engine

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/agnivade/levenshtein"

	"pottle/fooddata"
	"pottle/grammar"
)

// Match is the food that the words of a line were taken to mean.
type Match struct {
	Food       fooddata.Food // zero if none is sure enough
	Confidence float64       // 0 to 1
	// Assumed says in plain words what was assumed, for the reader to check.
	Assumed []string
	// Choices are the other foods the words may mean, the likeliest first.
	Choices []fooddata.Food
	// heard are the words after the name that were part of what matched.
	heard []string
	// standIn tells that the food is only the nearest like one.
	standIn bool
}

// Found reports whether a food was found.
func (m Match) Found() bool { return !m.Food.IsZero() }

// bar is the confidence below which pottle asks instead of counting.
const bar = 0.5

// The confidence that each way of matching earns.
const (
	sureName    = 1.0  // the words are a name of the food
	plainName   = 0.95 // they are, without words of preparation
	openName    = 0.75 // a name that leaves the kind open; the default is taken
	standIn     = 0.75 // the nearest like food
	sharedName  = 0.9  // completed from the neighbour: "red" or "green bell pepper"
	droppedWord = 0.7  // a describing word was set aside
	searched    = 0.75 // found by search: times the search's own score
)

// match finds the food for q, from the cache if it was asked for before.
func (e *Engine) match(q query) Match {
	key := q.key()
	if m, ok := e.cache.Get(key); ok {
		e.hits.Add(1)
		return m
	}
	e.misses.Add(1)
	m := e.find(q)
	e.cache.Add(key, m)
	return m
}

// find tries the surest readings first.
func (e *Engine) find(q query) Match {
	if len(q.words) == 0 {
		return Match{}
	}
	if m, ok := e.teamFirst(q); ok {
		return m
	}
	if american := britishNames[strings.Join(withoutPreparation(q.words), " ")]; q.metric && american != "" {
		if m, ok := e.named(query{words: fooddata.Normalise(american), canned: q.canned}); ok {
			m.Confidence = min(m.Confidence, openName)
			m.Assumed = append([]string{quoted(q.words) + " read as British: " + m.Food.Name()}, standInOnly(m.Assumed)...)
			return m
		}
	}
	if len(q.shares) > 0 && !wholeByItself[q.words[len(q.words)-1]] {
		if m, ok := e.completed(q); ok {
			return m
		}
	}
	if q.boxed && !slices.Contains(q.words, "mix") { // a box of pudding is the mix
		if m, ok := e.named(query{words: append(slices.Clone(q.words), "mix")}); ok {
			return m
		}
	}
	if e.twoFoods(q) {
		if m, ok := e.withTails(q); ok && ofBoth(m.Food.Name()) {
			return m
		}
		if entry, ok := e.entry(q.words); !ok || !ofBoth(entry.Name) {
			if entry, ok := e.entry(withoutPreparation(q.words)); !ok || !ofBoth(entry.Name) {
				return Match{}
			}
		}
	}
	for _, read := range []func(query) (Match, bool){e.withTails, e.withAside, e.named, e.nearLean, e.joined, e.corrected, e.asideAlone} {
		if m, ok := read(q); ok {
			if m.standIn && len(q.aside) > 0 { // "curd (dahi)"
				if other, ok := e.asideAlone(q); ok && !other.standIn {
					return other
				}
			}
			return m
		}
	}
	if !anotherDish(q.words) {
		if m, ok := e.fewerWords(q); ok {
			return m
		}
	}
	return e.withTeamChoices(q, e.search(q))
}

// anotherDishes are names of dishes that hold the name of a food which is not
// what they are: fewer words would make chocolate of hot chocolate.
var anotherDishes = []string{"hot chocolate", "hot cocoa", "italian ice", "spanish rice", "fried rice", "sushi", "egg roll", "spring roll", "sweet tea", "iced tea",
	"macaroni cheese", "mac cheese", "old bay", "nut butter", "hamburger patty", "potato salad", "egg salad", "chicken salad", "tuna salad", "pasta salad", "fruit salad",
	"pad thai", "rice pudding", "bread pudding", "salt substitute", "sugar substitute", "egg noodle soup", "fish stick", "veggie burger", "baby corn", "baby sweetcorn"}

func anotherDish(words []string) bool {
	said := " " + strings.Join(words, " ") + " "
	for _, dish := range anotherDishes {
		if strings.Contains(said, " "+dish+" ") {
			return true
		}
	}
	return false
}

// britishNames are names that mean another food in the United Kingdom than in
// the United States, by the American name; a recipe in metric measures
// throughout is read as British.
var britishNames = map[string]string{
	"tomato puree": "tomato paste", "double concentrate tomato puree": "tomato paste", "light soy sauce": "soy sauce", "corn flour": "cornstarch", "cornflour": "cornstarch",
}

// wholeByItself are names that no neighbour completes: "butter or olive oil".
var wholeByItself = wordSet("butter margarine ghee lard shortening cream milk honey sugar water yogurt salt oil flour")

func wordSet(s string) map[string]bool {
	m := make(map[string]bool)
	for _, w := range strings.Fields(s) {
		m[w] = true
	}
	return m
}

func setOf(list ...string) map[string]bool {
	m := make(map[string]bool)
	for _, s := range list {
		m[s] = true
	}
	return m
}

// named looks the words up as a name, with the state that the line tells,
// then without it, then without words of preparation.
func (e *Engine) named(q query) (Match, bool) {
	if lean, ok := leanOf(q.words); ok {
		if m, ok := e.named(query{words: lean, state: q.state, canned: q.canned}); ok {
			return m, true
		}
	}
	forms := [][]string{q.words}
	plain := withoutPreparation(q.words)
	if len(plain) > 0 && len(plain) < len(q.words) && !anotherDish(q.words) {
		if slices.Contains(q.words, "fresh") && len(plain)+1 < len(q.words) { // chopped fresh thyme
			forms = append(forms, append([]string{"fresh"}, plain...))
		}
		forms = append(forms, plain)
	}
	for _, with := range q.contexts() {
		for i, words := range forms {
			entry, ok := e.entry(append(slices.Clone(with), words...))
			if ok && slices.Contains(with, "canned") {
				plain, found := e.entry(words)
				if !q.canned && !(found && fromCan(plain.Food)) { // spinach, rinsed and drained, is no canned spinach
					continue
				}
				if found && plain.Food == entry.Food {
					entry = plain // a can leaves open what the name does
				}
			}
			if !ok || entry.Open && slices.Contains(with, "mashed") { // potatoes, mashed, are no mashed potatoes with butter
				continue
			}
			m := e.of(entry, q)
			if fresh, ok := e.freshHerb(entry, plain, q); ok {
				m = fresh
			}
			if i > 0 {
				m.Confidence = min(m.Confidence, plainName)
			}
			return m, true
		}
	}
	return Match{}, false
}

// freshHerb takes a herb that the line leaves open as the fresh one if it is
// chopped: dried herbs are crushed.
func (e *Engine) freshHerb(entry fooddata.Entry, plain []string, q query) (Match, bool) {
	if !q.cut || !entry.Open && !entry.StandIn || entry.Food.Group() != "Spices and Herbs" || slices.Contains(q.state, "dried") || slices.Contains(q.words, "dried") {
		return Match{}, false
	}
	fresh, ok := e.lookUp("fresh " + strings.Join(plain, " "))
	if !ok || fresh.Food == entry.Food {
		return Match{}, false
	}
	m := e.of(fresh, q)
	if len(m.Assumed) == 0 {
		m.Assumed = []string{"taken as " + fresh.Food.Name() + ", because it is chopped"}
	}
	m.Confidence = min(m.Confidence, openName)
	m.Choices = append([]fooddata.Food{entry.Food}, m.Choices...)
	return m, true
}

// withTails takes what follows the name as part of it: "soy sauce, reduced
// sodium", "tuna, white, canned in water". All of it is tried first, in its
// order, then each part by itself.
func (e *Engine) withTails(q query) (Match, bool) {
	if len(q.tails) == 0 {
		return Match{}, false
	}
	if peel := func(tail []string) bool { return tail[0] == "with" && plantPeels[tail[len(tail)-1]] }; slices.ContainsFunc(q.tails, peel) { // an orange with its peel is no peel
		q.tails = slices.DeleteFunc(slices.Clone(q.tails), peel)
	}
	whole := slices.Concat(append([][]string{q.words}, q.tails...)...)
	if entry, ok := e.lookUp(strings.Join(whole, " ")); ok {
		m := e.of(entry, q)
		m.heard = whole
		return m, true
	}
	var kind [][]string
	for _, tail := range q.tails {
		plain := withoutPreparation(tail)
		if at := slices.Index(tail, "extra"); at >= 0 && at+1 < len(tail) && extraKinds[tail[at+1]] {
			plain = append([]string{"extra"}, plain...)
		}
		if len(plain) > 0 && len(plain) <= 4 && !(len(plain) == 1 && plain[0] == "whipped") { // whipped after measuring
			kind = append(kind, plain)
		}
	}
	if len(kind) > 1 {
		if m, ok := e.named(query{words: slices.Concat(append(slices.Clone(kind), q.words)...), state: q.state, canned: q.canned, weighed: q.weighed}); ok {
			m.heard = slices.Concat(kind...)
			return m, true
		}
	}
	for _, tail := range kind {
		for _, words := range [][]string{append(slices.Clone(tail), q.words...), append(slices.Clone(q.words), tail...)} {
			if m, ok := e.named(query{words: words, state: q.state, canned: q.canned, weighed: q.weighed}); ok {
				m.heard = tail
				return m, true
			}
		}
	}
	return Match{}, false
}

// plantPeels are parts of a fruit that are foods by themselves.
var plantPeels = wordSet("peel rind zest seed leaf juice")

// extraKinds are words that "extra" makes another kind of: "ground beef, extra
// lean".
var extraKinds = wordSet("lean firm sharp virgin")

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

// nearLean takes minced meat of a share of lean that the table lacks for that of
// the nearest share.
func (e *Engine) nearLean(q query) (Match, bool) {
	if len(q.words) < 3 || q.words[1] != "lean" {
		return Match{}, false
	}
	percent, isPercent := strings.CutSuffix(q.words[0], "%")
	lean, err := strconv.Atoi(percent)
	if !isPercent || err != nil {
		return Match{}, false
	}
	words := slices.Clone(q.words)
	for off := 1; off <= 5; off++ {
		for _, near := range []int{lean - off, lean + off} {
			words[0] = strconv.Itoa(near) + "%"
			if m, ok := e.named(query{words: words, state: q.state, canned: q.canned, weighed: q.weighed}); ok {
				m.Confidence = min(m.Confidence, droppedWord)
				m.Assumed = []string{fmt.Sprintf("%d %% lean is not in the table; counted as %s", lean, m.Food.Name())}
				return m, true
			}
		}
	}
	return Match{}, false
}

// withAside takes a remark as part of the name: "beef mince (5 % fat)".
func (e *Engine) withAside(q query) (Match, bool) {
	for _, aside := range q.aside {
		if remarks[aside[0]] {
			continue
		}
		for _, words := range [][]string{append(slices.Clone(q.words), aside...), append(slices.Clone(aside), q.words...)} {
			if m, ok := e.named(query{words: words, state: q.state, canned: q.canned}); ok {
				m.heard = aside
				return m, true
			}
		}
	}
	return Match{}, false
}

// remarks begin a bracket that speaks of something else than the name: "(from a
// cube)", "(use fresh)".
var remarks = wordSet("try like reserve rinsed rinse from made i can use for see about at to your you optional or if not plus with without and in my we")

// asideAlone takes a remark for the name: "haldi (turmeric)".
func (e *Engine) asideAlone(q query) (Match, bool) {
	var kind []string // "low-fat dahi (plain yogurt)" is low-fat
	for _, w := range q.words {
		if kindWords[w] {
			kind = append(kind, w)
		}
	}
	for _, aside := range q.aside {
		if remarks[aside[0]] || allIn(aside, kindWords) {
			continue
		}
		aside = append(slices.Clone(kind), aside...)
		for _, read := range []func(query) (Match, bool){e.named, e.corrected} {
			if m, ok := read(query{words: aside, state: q.state, canned: q.canned}); ok {
				m.Confidence = min(m.Confidence, plainName)
				m.Assumed = append([]string{quoted(q.words) + " read as " + m.Food.Name()}, standInOnly(m.Assumed)...)
				m.heard = aside
				return m, true
			}
		}
	}
	return Match{}, false
}

// contexts are the words to set before the name, the fullest first.
func (q query) contexts() [][]string {
	var list [][]string
	drained := q.withoutLiquid()
	var state []string
	for _, w := range q.state {
		if w != "drained" && w != "rinsed" {
			state = append(state, w)
		}
	}
	if q.canned {
		if len(state) > 0 {
			list = append(list, append([]string{"canned"}, state...))
		}
		if drained {
			list = append(list, q.drainedNames("canned")...)
		}
		list = append(list, []string{"canned"})
	}
	if drained && !q.canned {
		if !slices.Contains(q.words, "canned") {
			list = append(list, q.drainedNames("canned")...)
		}
		list = append(list, q.drainedNames()...)
	}
	if len(state) > 1 {
		list = append(list, state)
	}
	for _, w := range state {
		list = append(list, []string{w})
	}
	return append(list, nil)
}

// entry looks words up in their order, then in any order.
func (e *Engine) entry(words []string) (fooddata.Entry, bool) {
	if entry, ok := e.lookUp(strings.Join(words, " ")); ok {
		return entry, true
	}
	if entry, ok := e.team.anyOrder(words); ok {
		return entry, true
	}
	if entry, ok := e.table.NamedAnyOrder(words); ok && sameHead(entry, words) {
		return entry, true
	}
	for i, w := range words {
		if other := sameWord[w]; other != "" {
			alike := slices.Clone(words)
			alike[i] = other
			entry, ok := e.table.NamedAnyOrder(alike)
			if ok && sameHead(entry, alike) && !(other == "ground" && entry.Food.Group() == "Spices and Herbs") { // minced garlic is no powder
				return entry, true
			}
		}
	}
	return fooddata.Entry{}, false
}

// sameHead reports whether the last word of the name, which says what the food
// is, is among the last of the words: "juice orange" is no orange juice.
func sameHead(entry fooddata.Entry, words []string) bool {
	name := fooddata.Normalise(entry.Name)
	head := name[len(name)-1]
	if kind, _, found := strings.Cut(entry.Name, ","); found { // "chickpeas, canned, drained"
		if of := fooddata.Normalise(kind); len(of) > 0 && of[len(of)-1] == words[len(words)-1] {
			return true
		}
	}
	return head == words[len(words)-1] || stateOrKind[words[len(words)-1]] || kindWords[words[len(words)-1]] || sameWord[words[len(words)-1]] == head
}

// stateOrKind are words that may follow the head of a name: "beans canned".
var stateOrKind = wordSet("raw cooked canned dried dry frozen drained rinsed fresh uncooked peeled ground roasted smoked toasted boneless skinless unprepared prepared condensed powder sodium added lean mince")

// sameWord are words that names use for one another, or that a wider word
// stands for in a name: whole-wheat linguine is whole-wheat pasta.
var sameWord = map[string]string{
	"fusilli": "pasta", "rotini": "pasta", "linguini": "pasta", "linguine": "pasta", "farfalle": "pasta", "penne": "pasta", "spaghetti": "pasta",
	"macaroni": "pasta", "rigatoni": "pasta", "fettuccine": "pasta", "orzo": "pasta", "ziti": "pasta",
	"dry": "dried", "dried": "dry", "tinned": "canned", "prawn": "shrimp", "nonfat": "skim", "wholemeal": "wholewheat", "lite": "light", "mince": "ground", "minced": "ground"}

// of makes a match of a name.
func (e *Engine) of(entry fooddata.Entry, q query) Match {
	m := Match{Food: entry.Food, Confidence: sureName}
	if entry.Open && (q.weighed || slices.Contains(q.state, "soaked")) && entry.Food.State() == fooddata.Canned {
		if dry, ok := e.dry(entry.Food); ok { // beans by the pound are dry ones
			entry.Food = dry
			m.Food = dry
		}
	}
	if (entry.Open || entry.StandIn) && slices.Contains(q.state, "cooked") && m.Food.State() != fooddata.Cooked {
		for _, other := range e.table.Family(m.Food) {
			if other.State() == fooddata.Cooked { // ready-to-eat lentils
				entry.Food, m.Food = other, other
				break
			}
		}
	}
	switch {
	case entry.StandIn:
		m.Confidence, m.standIn = standIn, true
		m.Assumed = []string{entry.Name + " is not in the table; counted as " + entry.Food.Name()}
	case entry.Open:
		m.Confidence = openName
		m.Assumed = []string{"taken as " + entry.Food.Name()}
		m.Choices = e.others(entry.Food)
	}
	m.Assumed = append(m.Assumed, e.teamNotes(entry)...)
	return m
}

// dry returns the dry food of a canned one's family.
func (e *Engine) dry(f fooddata.Food) (fooddata.Food, bool) {
	for _, other := range e.table.Family(f) {
		if strings.Contains(other.Name(), "dried") && strings.Contains(other.Description(), "raw") {
			return other, true
		}
	}
	return fooddata.Food{}, false
}

// others returns the rest of a food's family, those in the same state first.
func (e *Engine) others(f fooddata.Food) []fooddata.Food {
	var same, rest []fooddata.Food
	for _, other := range e.table.Family(f) {
		switch {
		case other == f:
		case other.State() == f.State():
			same = append(same, other)
		default:
			rest = append(rest, other)
		}
	}
	return append(same, rest...)
}

// withoutPreparation drops words of preparation, grade and number.
func withoutPreparation(words []string) []string {
	var plain []string
	for i, w := range words {
		if w == "in" && i > 0 && words[i-1] == "bone" || w == "on" && i > 0 && attached[words[i-1]] ||
			i+1 < len(words) && (w == "bone" && words[i+1] == "in" || attached[w] && words[i+1] == "on") {
			continue // bone-in, skin-on
		}
		if i+1 < len(words) && preparationPairs[w+" "+words[i+1]] || i > 0 && preparationPairs[words[i-1]+" "+w] {
			continue
		}
		wholeGrain := w == "whole" && i+1 < len(words) && grains[words[i+1]]
		if wholeGrain || !grammar.IsPreparation(w) && !chatter[w] {
			plain = append(plain, w)
		}
	}
	return plain
}

// preparationPairs are preparations of two words, or with a hyphen.
var preparationPairs = map[string]bool{"free range": true, "bite size": true, "bite sized": true, "store bought": true, "good quality": true, "best quality": true, "pre cut": true,
	"room temperature": true, "home made": true, "thick cut": true, "thin cut": true, "top quality": true, "ready made": true, "thick sliced": true, "thinly sliced": true, "deli sliced": true}

var attached = wordSet("skin head shell tail")

// grains are what "whole" makes another food of: "whole wheat", "whole milk".
var grains = wordSet("wheat grain meal wheatmeal milk rye oat spelt corn bean egg")

// chatter are words of a line that say nothing about the food.
var chatter = wordSet("a an about additional any approximately bit each extra fresh good handful high like nice of or organic own plump quality really ripe some such that unpeeled your regular plain-looking bought favorite favourite prepared style type variety whole each brand scant")

// joined tries neighbouring words written as one: "bread crumbs".
func (e *Engine) joined(q query) (Match, bool) {
	words := q.words
	for i := 0; i+1 < len(words); i++ {
		one := append(append(slices.Clone(words[:i]), words[i]+words[i+1]), words[i+2:]...)
		if m, ok := e.named(query{words: one, state: q.state, canned: q.canned}); ok {
			return m, true
		}
	}
	return Match{}, false
}

// completed reads "red" in "red or green bell pepper" as "red bell pepper".
func (e *Engine) completed(q query) (Match, bool) {
	for k := 1; k < len(q.shares); k++ {
		whole := append(slices.Clone(q.words), q.shares[k:]...)
		if m, ok := e.named(query{words: whole, state: q.state, canned: q.canned}); ok {
			m.Confidence = min(m.Confidence, sharedName)
			return m, true
		}
	}
	return Match{}, false
}

// maxDropped bounds how many describing words may be set aside.
const maxDropped = 3

// fewerWords sets describing words aside, as few as will do, and says so.
// A word that is a food itself ("coconut flour", "cauliflower rice") or that
// makes another food of it ("vegan butter") is never set aside.
func (e *Engine) fewerWords(q query) (Match, bool) {
	words := withoutPreparation(q.words)
	if len(words) < 2 || len(words) > 8 {
		return Match{}, false
	}
	for drop := 1; drop <= min(maxDropped, len(words)-1); drop++ {
		var best Match
		subsets(len(words), drop, func(keep []int) bool {
			kept, dropped := split(words, keep)
			if !e.mayDrop(dropped) || ofAnything[kept[len(kept)-1]] && len(kept) == 1 && !allIn(dropped, onlyDescribe) || !slices.Contains(keep, len(words)-1) && !trailing[words[len(words)-1]] {
				return true
			}
			m, ok := e.named(query{words: kept, state: q.state, canned: q.canned})
			if !ok || !ofItsOwn(m.Food, dropped) {
				return true
			}
			if own := fooddata.Normalise(m.Food.Name() + " " + m.Food.Description()); !slices.ContainsFunc(dropped, func(w string) bool { return !slices.Contains(own, w) }) {
				best = m // its own words, in another order
				best.Confidence = min(m.Confidence, plainName)
				return false
			}
			m.Confidence = min(m.Confidence, droppedWord) - 0.05*float64(drop-1)
			m.Assumed = standInOnly(m.Assumed)
			if !containsAny(ofLength, dropped) || len(dropped) > 1 { // a piece of ginger is ginger
				set := quoted(dropped) + " not taken into account: counted as " + m.Food.Name()
				if slices.ContainsFunc(dropped, e.unknownWord) {
					set += "; " + makersDiffer
				}
				m.Assumed = append([]string{set}, m.Assumed...)
			}
			if m.Confidence > best.Confidence {
				best = m
			}
			return true
		})
		if best.Found() && best.Confidence >= bar {
			return best, true
		}
	}
	return Match{}, false
}

// standInOnly keeps the assumptions that name what is missing from the table.
func standInOnly(assumed []string) []string {
	var kept []string
	for _, a := range assumed {
		if !strings.HasPrefix(a, "taken as ") {
			kept = append(kept, a)
		}
	}
	return kept
}

func quoted(words []string) string { return `"` + strings.Join(words, " ") + `"` }

// ofItsOwn reports whether the parts of a plant among the words are the food's
// own: the leaves of spinach are spinach, those of a lime tree are no lime. A sweet
// sauce or wine has sugar that the plain one has not.
func ofItsOwn(f fooddata.Food, words []string) bool {
	for _, w := range words {
		if plants := plantParts[w]; plants != nil && !plants.MatchString(f.Name()) || w == "sweet" && !naturallySweet[f.Group()] {
			return false
		}
	}
	return true
}

// naturallySweet are the groups in which "sweet" tells no more than a kind.
var naturallySweet = setOf("Vegetables and Vegetable Products", "Fruits and Fruit Juices", "Spices and Herbs", "Sausages and Luncheon Meats", "Pork Products", "Nut and Seed Products", "Cereal Grains and Pasta")

// plantParts are the parts that are the same food only of plants grown for them.
var plantParts = func() map[string]*regexp.Regexp {
	leafy := regexp.MustCompile(`lettuce|spinach|cabbage|kale|chard|collard|arugula|rocket|endive|radicchio|cress|bok choy|greens|chicory|sorrel|brussels|leaves|leaf|tea|lasagna|pasta|phyllo|gelatin|` +
		`basil|mint|parsley|cilantro|coriander|dill|thyme|sage|oregano|rosemary|marjoram|tarragon|chervil|savory|bay|chive|scallion|celery|fennel|leek`)
	rooted := regexp.MustCompile(`root|ginger|turmeric|horseradish|celeriac|beet|carrot|parsnip|radish|turnip|rutabaga|galangal|taro|cassava|jicama`)
	return map[string]*regexp.Regexp{"leaf": leafy, "root": rooted, "leave": leafy, "frond": leafy,
		"flower": regexp.MustCompile(`flower`), "blossom": regexp.MustCompile(`blossom|flower`), "shoot": regexp.MustCompile(`shoot|bamboo`), "sprout": regexp.MustCompile(`sprout`)}
}()

// trailing are last words that do not name the food.
var trailing = wordSet("piece cube chunk cutlet fillet filet steak portion half strip cap stem tip leaf kernel flake floret spear head bulb root mix blend crumble sprig stalk bunch wedge round ring part section meat flesh segment")

// ofAnything are foods that are made of many things and named for what they are
// of: "hemp milk". A word before them is set aside only if it is one of
// onlyDescribe.
var (
	ofAnything = wordSet("milk butter oil flour cream salt cheese noodle yogurt yoghurt sauce dressing bread spread syrup seasoning spice sugar sweetener chip crisp cereal cracker soup broth stock gravy jelly jam " +
		"tea coffee juice drink soda water bar sausage pudding vinegar paste rice")
	onlyDescribe = wordSet("pouring runny farm farmhouse organic local artisan artisanal cultured creamery dairy premium quality good best pasteurized pasteurised homogenized homogenised vitamin d a european irish french english amish country pure regular plain standard cold warm hot lukewarm scalded unbleached bleached enriched presifted sifted extra virgin refined unrefined cooking frying light thick thin rich high heat neutral expeller pressed cold-pressed additional favorite favourite " +
		"use add smooth pair mug loaf glug block piece cube ball slice stick sprinkle shake long short grain elbow shell fusilli rotini spiral wide dusting container bowl plate glass strong weak crusty day old stale dark " +
		"table sea kosher flaky flake flaked mature sharp young block tangy filtered tap spring sparkling freshly ground home handful knob crushed leftover")
)

func allIn(words []string, set map[string]bool) bool {
	return !slices.ContainsFunc(words, func(w string) bool { return !set[w] })
}

// mayDrop reports whether all words only describe.
func (e *Engine) mayDrop(words []string) bool {
	for _, w := range words {
		if changers[w] {
			return false
		}
		if _, ok := e.lookUp(w); ok && !describes[w] {
			return false
		}
		if !describes[w] && e.isFoodWord(w) {
			return false
		}
	}
	return true
}

// isFoodWord reports whether a curated food is called by this one word,
// whatever its state.
func (e *Engine) isFoodWord(w string) bool {
	for _, state := range []string{"raw", "canned", "cooked", "dried", "ground"} {
		if _, ok := e.lookUp(state + " " + w); ok {
			return true
		}
	}
	return false
}

// describes are words that are foods elsewhere but describe here.
var describes = wordSet("orecchiette cavatelli bucatini gemelli radiatori cavatappi conchiglie tagliatelle pappardelle campanelle ditalini mostaccioli capellini fusilli rotini linguini linguine farfalle penne spaghetti macaroni rigatoni fettuccine orzo ziti shell bowtie bow tie elbow spiral red white green yellow orange brown black purple golden baby sweet hot mild italian spanish french greek turkish indian thai mexican english irish")

// changers make another food of what they stand beside.
var changers = wordSet("nutritional buttered battered frosted konjac konnyaku konyaku shirataki zero replacer sweetener plant based plantbased calcium fibre fiber lactose diabetic dietetic decaf decaffeinated caffeine alcoholic nonalcoholic " +
	"sprouted potassium chloride neck cheek foot feet trotter tail gizzard brain blood marrow collagen hydrolyzed hydrolysed malted chocolate vanilla honey maple sugared nitrite curing preserved brined candied crystallized crystallised confit wheat grain rye oat corn bran germ spelt barley whole brown wholemeal wholewheat wholegrain multigrain vegan vegetarian meatless imitation mock free free-from diet light lite low lower reduced less no non nonfat not without sugar sodium salt salted unsalted fat lowfat skim skimmed fortified enriched flavored flavoured flavor flavour mix substitute alternative alternate replacement instant powder powdered soup sauce juice oil butter milk cream cheese flour bread cake candy chip cracker cookie pudding pie jam jelly syrup drink beverage bar cereal salad dip paste puree extract essence concentrate condensed evaporated dried dry dehydrated canned tinned frozen cooked raw smoked cured pickled fried breaded stuffed marinated sweetened unsweetened seasoned glazed candied artificial gluten keto protein crescent fermented nut seed bean fish soup salad old ready tea baby-food infant formula toddler noodle pasta rice leg wing thigh breast skin liver heart kidney tongue tripe bone egg yolk roll wrap crust dough seed kernel burger sausage patty wine vinegar beer liqueur liquor")

// split parts words into those at keep and the rest.
func split(words []string, keep []int) (kept, dropped []string) {
	for i, w := range words {
		if slices.Contains(keep, i) {
			kept = append(kept, w)
		} else {
			dropped = append(dropped, w)
		}
	}
	return kept, dropped
}

// subsets calls f with the indices that remain when drop of n are left out,
// the earliest left out first, until f returns false.
func subsets(n, drop int, f func(keep []int) bool) {
	out := make([]bool, n)
	var walk func(from, left int) bool
	walk = func(from, left int) bool {
		if left == 0 {
			var keep []int
			for i := range n {
				if !out[i] {
					keep = append(keep, i)
				}
			}
			return f(keep)
		}
		for i := from; i <= n-left; i++ {
			out[i] = true
			if !walk(i+1, left-1) {
				return false
			}
			out[i] = false
		}
		return true
	}
	walk(0, drop)
}

// insteadOf are last words that say nothing of what the food is: a substitute of
// salt is none of cheese.
var insteadOf = wordSet("substitute replacement alternative replacer")

// maxChoices is how many foods are offered to choose from.
const maxChoices = 4

// genericHead are last words that many unlike foods have: a curry paste is not
// to be asked about as almond paste.
var genericHead = wordSet("paste leaf base powder seasoning mix drink pot sauce oil butter milk spread bar cheese seed nut cube cereal chip crisp noodle soup dressing syrup juice dip snack blend " +
	"cream spice cake cookie pie bread salt sugar water tea extract jelly root flake crumb sausage roll pudding candy cracker")

// noSuchThing are words that make of a food another that is not to be asked about
// as the first.
var noSuchThing = wordSet("nutritional konjac konnyaku konyaku shirataki zero vegan plant based imitation substitute replacer replacement alternative gluten dairy powder powdered extract leaf")

// isFood reports whether the word is by itself the name of a food.
func (e *Engine) isFood(w string) bool {
	_, ok := e.lookUp(w)
	return ok && !describes[w] || e.isFoodWord(w)
}

// hasAll reports whether the food's own name or description has the words, other
// than those with a typing error and those that name nothing. The other names
// of a food may be of foods that it only stands in for.
func hasAll(words []string, f fooddata.Food) bool {
	has := fooddata.Normalise(f.Name() + " " + f.Description())
	for _, w := range words {
		near := func(other string) bool { // misspelt
			return other == w || len(w) >= 5 && other[0] == w[0] && levenshtein.ComputeDistance(w, other) <= 2
		}
		if !slices.ContainsFunc(has, near) && !trailing[w] && !onlyDescribe[w] {
			return false
		}
	}
	return true
}

// isSaltOfAKind reports words that name a salt which is not the table's: a salt
// replacer is often potassium chloride, whatever it is called.
func isSaltOfAKind(words []string) bool {
	if slices.Contains(words, "potassium") && slices.Contains(words, "chloride") {
		return true
	}
	at := slices.Index(words, "salt")
	if at < 0 || len(words) < 2 {
		return false
	}
	return at == len(words)-1 && !slices.ContainsFunc(words[:at], func(w string) bool { return flavoursOfSalt[w] }) || at == len(words)-2 && insteadOf[words[len(words)-1]]
}

// flavoursOfSalt are what is mixed with common salt, or smoked or cured with it.
var flavoursOfSalt = wordSet("garlic onion celery seasoned seasoning herb vegetable lemon chili chilli truffle smoked curing nitrite vanilla rosemary lime")

// search falls back on the table's own search. It counts only what has every
// word and stands clear of the next food; else the foods found are choices.
func (e *Engine) search(q query) Match {
	words := withoutPreparation(q.words)
	if len(words) == 0 {
		words = q.words
	}
	var m Match
	if anotherDish(q.words) { // hot chocolate: the kinds of it that the table has, if any
		for _, c := range e.table.Search(q.words, maxChoices) {
			if hasAll(q.words, c.Food) {
				m.Choices = append(m.Choices, c.Food)
			}
		}
		if len(m.Choices) > 0 {
			return m
		}
	}
	found := e.table.Search(words, maxChoices+1)
	head := words[len(words)-1]
	if len(words) == 2 && words[0] == "salt" && words[1] == "pepper" || isSaltOfAKind(words) || kindWords[head] || head[0] >= '0' && head[0] <= '9' { // no other salt is like it; "sodium" is no food
		return m
	}
	for _, c := range found {
		if slices.ContainsFunc(c.Missing, func(w string) bool { return noSuchThing[w] || e.isFood(w) }) { // no pasta of chickpeas
			continue
		}
		alike := !genericHead[head] && !insteadOf[head] || len(words) == 1 ||
			slices.ContainsFunc(words[:len(words)-1], func(w string) bool { return !kindWords[w] && !describes[w] && !slices.Contains(c.Missing, w) })
		if slices.Contains(fooddata.Normalise(c.Food.Name()), head) && alike && ofItsOwn(c.Food, words) || len(c.Missing) == 0 && len(words) > 1 && hasAll(words, c.Food) {
			m.Choices = append(m.Choices, c.Food)
		}
	}
	m.Choices = m.Choices[:min(len(m.Choices), maxChoices)]
	if len(found) == 0 {
		return m
	}
	best := found[0]
	clear := len(found) == 1 || best.Score-found[1].Score >= 0.08 || len(found[1].Missing) > 0
	if len(best.Missing) == 0 && clear && !q.forDryMix(best.Food) && !q.forMadeUp(best.Food) && hasAll(words, best.Food) && best.Score*searched >= bar && len(words) >= 2 && !anotherDish(q.words) {
		m.Food = best.Food
		m.Confidence = best.Score * searched
		m.Assumed = []string{quoted(words) + " taken as " + best.Food.Name()}
		m.Choices = m.Choices[min(1, len(m.Choices)):]
	}
	return m
}
