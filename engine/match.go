package engine

import (
	"slices"
	"strconv"
	"strings"

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
	for _, read := range []func(query) (Match, bool){e.withTails, e.withAside, e.named, e.joined, e.corrected, e.asideAlone} {
		if m, ok := read(q); ok {
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
	"pad thai", "rice pudding", "bread pudding", "salt substitute", "sugar substitute", "egg noodle soup", "fish stick", "veggie burger"}

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

// named looks the words up as a name, with the state that the line tells,
// then without it, then without words of preparation.
func (e *Engine) named(q query) (Match, bool) {
	if lean, ok := leanOf(q.words); ok {
		if m, ok := e.named(query{words: lean, state: q.state, canned: q.canned}); ok {
			return m, true
		}
	}
	forms := [][]string{q.words}
	if plain := withoutPreparation(q.words); len(plain) > 0 && len(plain) < len(q.words) && !anotherDish(q.words) {
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
			if i > 0 {
				m.Confidence = min(m.Confidence, plainName)
			}
			return m, true
		}
	}
	return Match{}, false
}

// withTails takes what follows the name as part of it: "soy sauce, reduced
// sodium", "tuna, white, canned in water". All of it is tried first, in its
// order, then each part by itself.
func (e *Engine) withTails(q query) (Match, bool) {
	if len(q.tails) == 0 {
		return Match{}, false
	}
	whole := slices.Concat(append([][]string{q.words}, q.tails...)...)
	if entry, ok := e.lookUp(strings.Join(whole, " ")); ok {
		m := e.of(entry, q)
		m.heard = whole
		return m, true
	}
	var kind [][]string
	for _, tail := range q.tails {
		if tail = withoutPreparation(tail); len(tail) > 0 && len(tail) <= 4 {
			kind = append(kind, tail)
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

// unheard returns the words after the name that bear on which food it is and
// that its match does not answer: "jam, sugar free" found as jam. Where ask is
// true they make another food of it; else they tell how it was cooked.
func unheard(q query, m Match) (all []string, ask bool) {
	f := m.Food
	has := fooddata.Normalise(f.Name() + " " + f.Description())
	for _, tail := range q.tails {
		if slices.Contains(tail, "reserved") || slices.Contains(tail, "discarded") || slices.Contains(tail, "saved") {
			continue
		}
		var open []string
		for _, w := range withoutPreparation(tail) {
			if !slices.Contains(m.heard, w) && !slices.Contains(has, w) && !slices.Contains(q.words, w) && !(saltWords[w] && hardlySalted(f)) && !(sugarWords[w] && noneAdded(f)) {
				open = append(open, w)
			}
		}
		telling, kind := len(open) > 0, false
		for _, w := range open {
			telling = telling && (kindWords[w] || cookingWords[w] || strings.HasSuffix(w, "%"))
			kind = kind || !cookingWords[w]
		}
		if telling && (kind || !q.weighed) {
			all = append(all, open...)
			ask = ask || kind
		}
	}
	return all, ask
}

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
var kindWords = wordSet("low lower reduced less no free light lite skim skimmed nonfat lowfat fat sodium salt salted unsalted sugar sweetened unsweetened vanilla chocolate flavored flavoured " +
	"preserved pickled cured candied fermented brined brown white wheat grain lean extra vegan gluten dairy smoked instant syrup heavy natural added")

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

// withAside takes a remark as part of the name: "beef mince (5 % fat)".
func (e *Engine) withAside(q query) (Match, bool) {
	for _, aside := range q.aside {
		if remarks[aside[0]] {
			continue
		}
		if m, ok := e.named(query{words: append(slices.Clone(q.words), aside...), state: q.state, canned: q.canned}); ok {
			return m, true
		}
	}
	return Match{}, false
}

// remarks begin a bracket that speaks of something else than the name: "(from a
// cube)", "(use fresh)".
var remarks = wordSet("from made i can use for see about at to your you optional or if not plus with without and in my we")

// asideAlone takes a remark for the name: "haldi (turmeric)".
func (e *Engine) asideAlone(q query) (Match, bool) {
	var kind []string // "low-fat dahi (plain yogurt)" is low-fat
	for _, w := range q.words {
		if changers[w] {
			kind = append(kind, w)
		}
	}
	for _, aside := range q.aside {
		if remarks[aside[0]] {
			continue
		}
		aside = append(slices.Clone(kind), aside...)
		for _, read := range []func(query) (Match, bool){e.named, e.corrected} {
			if m, ok := read(query{words: aside, state: q.state, canned: q.canned}); ok {
				m.Confidence = min(m.Confidence, plainName)
				m.Assumed = append([]string{quoted(q.words) + " read as " + m.Food.Name()}, standInOnly(m.Assumed)...)
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
			if entry, ok := e.table.NamedAnyOrder(alike); ok && sameHead(entry, alike) {
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
		m.Confidence = standIn
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
			if !e.mayDrop(dropped) || len(kept) == 1 && ofAnything[kept[0]] && !allIn(dropped, onlyDescribe) || !slices.Contains(keep, len(words)-1) && !trailing[words[len(words)-1]] {
				return true
			}
			m, ok := e.named(query{words: kept, state: q.state, canned: q.canned})
			if !ok {
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
				m.Assumed = append([]string{quoted(dropped) + " not taken into account: counted as " + m.Food.Name()}, m.Assumed...)
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

// trailing are last words that do not name the food.
var trailing = wordSet("piece cube chunk cutlet fillet filet steak portion half strip cap stem tip leaf kernel flake floret spear head bulb root mix blend crumble sprig stalk bunch wedge round ring part section meat flesh segment")

// ofAnything are foods that are made of many things and named for what they are
// of: "hemp milk". A word before them is set aside only if it is one of
// onlyDescribe.
var (
	ofAnything   = wordSet("milk butter oil flour cream")
	onlyDescribe = wordSet("pouring runny farm farmhouse organic local artisan artisanal cultured creamery dairy premium quality good best pasteurized pasteurised homogenized homogenised vitamin d a european irish french english amish country pure regular plain standard cold warm hot lukewarm scalded unbleached bleached enriched presifted sifted extra virgin refined unrefined cooking frying light thick thin rich high heat neutral expeller pressed cold-pressed additional favorite favourite")
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
var describes = wordSet("fusilli rotini linguini linguine farfalle penne spaghetti macaroni rigatoni fettuccine orzo ziti shell bowtie bow tie elbow spiral red white green yellow orange brown black purple golden baby sweet hot mild italian spanish french greek turkish indian thai mexican english irish")

// changers make another food of what they stand beside.
var changers = wordSet("preserved brined candied crystallized crystallised confit wheat grain rye oat corn bran germ spelt barley whole brown wholemeal wholewheat wholegrain multigrain vegan vegetarian meatless imitation mock free free-from diet light lite low lower reduced less no non nonfat not without sugar sodium salt salted unsalted fat lowfat skim skimmed fortified enriched flavored flavoured flavor flavour mix substitute alternative alternate replacement instant powder powdered soup sauce juice oil butter milk cream cheese flour bread cake candy chip cracker cookie pudding pie jam jelly syrup drink beverage bar cereal salad dip paste puree extract essence concentrate condensed evaporated dried dry dehydrated canned tinned frozen cooked raw smoked cured pickled fried breaded stuffed marinated sweetened unsweetened seasoned glazed candied artificial gluten keto protein crescent fermented nut seed bean fish soup salad old ready tea baby-food infant formula toddler noodle pasta rice leg wing thigh breast skin liver heart kidney tongue tripe bone egg yolk roll wrap crust dough seed kernel burger sausage patty wine vinegar beer liqueur liquor")

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

// search falls back on the table's own search. It counts only what has every
// word and stands clear of the next food; else the foods found are choices.
func (e *Engine) search(q query) Match {
	words := withoutPreparation(q.words)
	if len(words) == 0 {
		words = q.words
	}
	found := e.table.Search(words, maxChoices+1)
	var m Match
	head := words[len(words)-1]
	for _, c := range found {
		if slices.Contains(fooddata.Normalise(c.Food.Name()), head) && !insteadOf[head] || len(c.Missing) == 0 && len(words) > 1 {
			m.Choices = append(m.Choices, c.Food)
		}
	}
	m.Choices = m.Choices[:min(len(m.Choices), maxChoices)]
	if len(found) == 0 {
		return m
	}
	best := found[0]
	clear := len(found) == 1 || best.Score-found[1].Score >= 0.08 || len(found[1].Missing) > 0
	if len(best.Missing) == 0 && clear && best.Score*searched >= bar && len(words) >= 2 && !anotherDish(q.words) {
		m.Food = best.Food
		m.Confidence = best.Score * searched
		m.Assumed = []string{quoted(words) + " taken as " + best.Food.Name()}
		m.Choices = m.Choices[min(1, len(m.Choices)):]
	}
	return m
}
