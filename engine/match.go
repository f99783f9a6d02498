package engine

import (
	"fmt"
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

// extraKinds are words that "extra" makes another kind of: "ground beef, extra
// lean".
var extraKinds = wordSet("lean firm sharp virgin")

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

func quoted(words []string) string { return `"` + strings.Join(words, " ") + `"` }

// maxChoices is how many foods are offered to choose from.
const maxChoices = 4

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
