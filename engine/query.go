package engine

import (
	"slices"
	"strconv"
	"strings"

	"pottle/fooddata"
	"pottle/grammar"
)

// query is what the matching looks at, in the form fooddata.Normalise gives.
type query struct {
	words   []string   // the food's words
	both    [][]string // they, parted at "and"; nil if there is none
	tails   [][]string // what follows the name, by commas
	state   []string   // what the preparation says of the food's state
	treated []string   // words of a treatment that takes minerals away
	written [][]string // what follows the name, as the line writes it
	shares  []string   // words of a neighbour that may complete the name
	aside   [][]string // short remarks in brackets, which may be another name or a kind
	canned  bool       // measured in cans, tins or jars
	boxed   bool       // measured in boxes or packets, as dry mixes are
	metric  bool       // the recipe is written in metric measures throughout
	weighed bool       // measured by weight, and not in a can
	cut     bool       // chopped, minced, torn
}

// key is the same for queries that match alike.
func (q query) key() string {
	var b strings.Builder
	for _, words := range slices.Concat([][]string{q.words, q.state, q.shares, {"("}}, q.aside, [][]string{{","}}, q.tails, [][]string{{"&"}}, q.both, [][]string{{"!"}, q.treated}) {
		for _, w := range words {
			b.WriteString(w)
			b.WriteByte(' ')
		}
		b.WriteByte('|')
	}
	for _, is := range []bool{q.canned, q.boxed, q.metric, q.weighed, q.cut} {
		if is {
			b.WriteByte('y')
		} else {
			b.WriteByte('n')
		}
	}
	return b.String()
}

// newQuery puts the words of an item in the form that matching needs.
func newQuery(item grammar.Item) query {
	q := query{words: withoutTrans(fooddata.Normalise(strings.Join(item.Words, " "))), shares: fooddata.Normalise(strings.Join(item.Shares, " "))}
	q.both = bothOf(item.Words)
	q.written = item.Tail
	for _, aside := range item.Aside {
		words := fooddata.Normalise(aside)
		if len(words) > 1 && urging[words[0]] && containsKind(words[1:]) { // "(use low-sodium)"
			words = words[1:]
		}
		if at := slices.IndexFunc(words, func(w string) bool { return w == "or" || w == "if" }); at > 0 && containsKind(words[:at]) { // the first choice
			words = words[:at]
		}
		if len(words) > 0 && (len(words) <= 4 || len(words) <= 8 && containsKind(words)) {
			q.aside = append(q.aside, words)
		}
	}
	for _, tail := range item.Tail {
		if words := withoutShape(fooddata.Normalise(strings.Join(tail, " "))); len(words) > 0 {
			q.tails = append(q.tails, words)
		}
	}
	if last := len(q.words) - 1; last > 0 && joinsWith[q.words[last]] && slices.ContainsFunc(q.tails, func(tail []string) bool { return tail[0] == "with" }) { // "pancakes topped with syrup"
		q.words = q.words[:last]
	}
	if kept, treated := withoutTreatment(q.words); len(kept) > 0 {
		q.words, q.treated = kept, treated
	}
	for i, tail := range q.tails {
		var treated []string
		if q.tails[i], treated = withoutTreatment(tail); len(treated) > 0 {
			q.treated = treated
		}
	}
	q.tails = slices.DeleteFunc(q.tails, func(tail []string) bool { return len(tail) == 0 })
	if len(q.treated) == 0 {
		_, q.treated = withoutTreatment(fooddata.Normalise(strings.Join(item.Prep, " ")))
	}
	q.leanSaid(item)
	q.measured(item.Amount)
	if inPounds(item.Amount) {
		for i, tail := range q.tails {
			q.tails[i] = slices.DeleteFunc(tail, func(w string) bool { return weighedBefore[w] })
		}
	}
	if slices.Contains(q.words, "fresh") || slices.ContainsFunc(item.Prep, func(w string) bool { return washing[w] }) { // washed and dried
		for i, tail := range q.tails {
			if slices.Contains(tail, "dried") {
				q.tails[i] = slices.DeleteFunc(tail, func(w string) bool { return w == "dried" || w == "and" || washing[w] })
			}
		}
	}
	if _, others := firstState(slices.Concat(q.tails...)); len(others) > 0 {
		for i, tail := range q.tails {
			q.tails[i] = slices.DeleteFunc(tail, func(w string) bool { return slices.Contains(others, w) })
		}
	}
	for i, aside := range q.aside {
		q.aside[i], _ = firstState(aside)
	}
	q.tails = slices.DeleteFunc(q.tails, func(tail []string) bool { return len(tail) == 0 })
	q.cut = containsAny(q.words, cutUp) || containsAny(item.Prep, cutUp)
	q.stateOf(item)
	q.words = q.statesAmong(q.words)
	return q
}

// withoutTreatment takes out of words what is done to a food to leach it of
// potassium, of which the table has no figures: "leached", "double-boiled".
func withoutTreatment(words []string) (kept, treated []string) {
	for i := 0; i < len(words); i++ {
		switch {
		case leached[words[i]]:
			treated = append(treated, words[i])
		case i+1 < len(words) && leached[words[i]+" "+words[i+1]]:
			treated = append(treated, words[i], words[i+1])
			i++
		default:
			kept = append(kept, words[i])
		}
	}
	return kept, treated
}

var leached = setOf("leached", "leach", "leaching", "double boiled", "twice boiled", "double cooked", "dialyzed", "dialysed", "demineralized", "demineralised")

// leanSaid takes the share of lean or fat that a line of minced meat tells anywhere
// as part of the name: "lean (at least 80%) ground beef" and "80/20 ground chuck"
// are 80 % lean, whatever else they are called.
func (q *query) leanSaid(item grammar.Item) {
	if !containsAny(q.words, mincedWords) {
		return
	}
	lean := 0
	for _, w := range slices.Concat(item.Words, item.Prep) {
		if leanAndFat.MatchString(w) {
			lean, _ = strconv.Atoi(w[:2])
		}
	}
	for _, words := range slices.Concat([][]string{q.words}, q.tails, asideWords(item)) {
		for i, w := range words {
			percent, isPercent := strings.CutSuffix(w, "%")
			share, err := strconv.Atoi(percent)
			if isPercent && err == nil && lean == 0 && share >= 50 && share < 100 && !(i+1 < len(words) && (words[i+1] == "fat" || words[i+1] == "fat-free")) {
				lean = share
			}
		}
	}
	if lean == 0 {
		return
	}
	name := []string{strconv.Itoa(lean) + "%", "lean"}
	for _, w := range q.words {
		switch {
		case w == "lean", w == "extra", w == "fat", w == "percent", leanAndFat.MatchString(w), isNumber(w):
		case (w == "chuck" || w == "round" || w == "sirloin") && !slices.Contains(q.words, "beef"):
			name = append(name, "beef")
		case w == "chuck", w == "round", w == "sirloin":
		default:
			name = append(name, w)
		}
	}
	q.words = name
	told := func(words []string) bool {
		return slices.ContainsFunc(words, func(w string) bool { return strings.HasSuffix(w, "%") || leanAndFat.MatchString(w) })
	}
	q.tails = slices.DeleteFunc(q.tails, told)
	q.aside = slices.DeleteFunc(q.aside, told)
}

var mincedWords = []string{"ground", "mince", "minced", "hamburger"}

// asideWords are the remarks in brackets of an item, in normal form.
func asideWords(item grammar.Item) [][]string {
	var list [][]string
	for _, aside := range item.Aside {
		list = append(list, fooddata.Normalise(aside))
	}
	return list
}

// withoutShape drops what a food is cut into, which is no part of its name:
// "potatoes, cut into chips" are no chips.
func withoutShape(words []string) []string {
	for i, w := range words {
		if i > 0 && (w == "into" || (w == "in" || w == "for") && shaping[words[i-1]]) {
			return words[:i]
		}
	}
	return words
}

var shaping = wordSet("cut sliced chopped diced grated torn shaped broken divided separated")

// urging are words of a remark that say which kind to take.
var urging = wordSet("use preferably ideally choose pick")

func containsKind(words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return kindWords[w] || w == "whole" || strings.HasSuffix(w, "%") })
}

// washing are words of preparation after which "dried" says no more than that it
// is not wet.
var washing = wordSet("washed patted scrubbed rinsed")

// withoutTrans drops "trans-fat-free" and the like, which makes nothing fat-free.
func withoutTrans(words []string) []string {
	said := " " + strings.Join(words, " ") + " "
	for _, claim := range []string{" tran fat free ", " no tran fat ", " zero tran fat ", " 0 tran fat ", " tran free "} {
		said = strings.ReplaceAll(said, claim, " ")
	}
	if left := strings.Fields(said); len(left) > 0 && len(left) < len(words) {
		return left
	}
	return words
}

// cutUp are what is done to fresh herbs and not to dried ones.
var cutUp = []string{"chopped", "minced", "snipped", "torn", "shredded", "slivered", "julienned"}

// inPounds reports a weight in pounds or ounces, as food is bought.
func inPounds(a *grammar.Amount) bool {
	if a == nil {
		return false
	}
	t := a.Terms[0]
	if t.Each != nil {
		t = *t.Each
	}
	return t.Measure != nil && (t.Measure.Name == "lb" || t.Measure.Name == "oz")
}

// measured notes what the measures say of the food.
func (q *query) measured(a *grammar.Amount) {
	if a == nil {
		return
	}
	q.weighed = allWeights(*a)
	for _, t := range a.Terms {
		if t.Measure == nil {
			continue
		}
		switch t.Measure.Name {
		case "can", "tin", "jar":
			q.canned, q.weighed = true, false
		case "rack":
			if slices.Equal(q.words, []string{"lamb"}) {
				q.words = fooddata.Normalise("rack of lamb")
			}
		case "box", "package", "packet", "envelope", "pouch":
			q.boxed = true
		case "sprig", "bunch", "handful": // of a herb: the fresh one
			if !slices.Contains(q.words, "dried") {
				q.state = append(q.state, "fresh")
			}
		}
	}
	if len(q.words) == 1 && birds[q.words[0]] && a.Terms[0].Measure == nil { // "1 chicken (4 lb)"
		q.words = []string{"whole", q.words[0]}
	}
}

var birds = wordSet("chicken turkey duck goose")

// stateOf gathers the words of preparation that may choose another food.
func (q *query) stateOf(item grammar.Item) {
	fresh := slices.Contains(q.words, "fresh")
	washed := false
	prep, _ := firstState(item.Prep)
	for i, w := range prep {
		before := ""
		if i > 0 {
			before = prep[i-1]
		}
		switch {
		case before == "not": // "cored but not peeled"
		case before == "without" && w == "skin", w == "skinned", before == "skin" && w == "removed":
			q.add("skinless")
		case (before == "without" || before == "no") && w == "salt":
			q.add("unsalted")
		case w == "no-salt-added":
			q.add(w)
			q.add("unsalted")
		case w == "rinsed":
			washed = true
			q.add(w)
		case washing[w]:
			washed = true
		case w == "dried" && (fresh || washed): // washed and dried
		case weighedBefore[w] && q.weighed: // weighed before that was done
		case (w == "mashed" || w == "pureed" || w == "puréed") && inVolume(item.Amount): // measured after that was done
			q.add("mashed")
		case w == "soaked" && !q.canned: // dry beans
			q.add(w)
		case tellsState[w]:
			q.add(w)
		}
	}
}

// firstState keeps the first of several states to choose from, which counts:
// "fresh, frozen or canned". Others are the words that it leaves out.
func firstState(words []string) (kept, others []string) {
	kept = words
	for {
		or := -1
		for i := 1; i < len(kept); i++ { // "fresh, frozen or canned": of the last the reader keeps no "or"
			if kept[i-1] == "fresh" && (kept[i] == "frozen" || kept[i] == "canned" || kept[i] == "tinned") {
				others = append(others, kept[i])
				kept = slices.Concat(kept[:i], kept[i+1:])
				i--
			}
		}
		for i := 1; i+1 < len(kept); i++ {
			if kept[i] == "or" && isState(kept[i-1]) && isState(kept[i+1]) {
				or = i
				break
			}
		}
		if or < 0 {
			return kept, others
		}
		first := or - 1
		for first > 0 && isState(kept[first-1]) {
			first--
		}
		others = append(others, kept[first+1:or+2]...)
		kept = slices.Concat(kept[:first+1], kept[or+2:])
	}
}

// isState reports a word for how a food is sold.
func isState(w string) bool {
	switch w {
	case "fresh", "frozen", "canned", "tinned", "thawed", "dried", "cooked", "raw", "uncooked":
		return true
	}
	return false
}

func inVolume(a *grammar.Amount) bool {
	return a != nil && a.Terms[0].Measure != nil && a.Terms[0].Measure.Kind == grammar.Volume
}

// add adds a word of state that is not said yet.
func (q *query) add(word string) {
	for _, n := range fooddata.Normalise(word) {
		if !slices.Contains(q.words, n) && !slices.Contains(q.state, n) {
			q.state = append(q.state, n)
		}
	}
}

// weighedBefore are preparations that come after weighing where they stand
// after a weight: "1 lb spaghetti, cooked" is a pound of dry spaghetti.
var weighedBefore = wordSet("peeled cooked boiled fried baked roasted toasted")

// tellsState are words of preparation that may choose another food.
var tellsState = wordSet("drained undrained canned tinned cooked raw uncooked peeled dried frozen thawed unsalted salted unsweetened sweetened " +
	"skinless boneless bone-in lean extra-lean ground smoked roasted toasted fried baked boiled scrambled poached low-sodium reduced-fat low-fat fat-free nonfat no-salt-added")

// withoutLiquid reports whether a can is said to be drained, or rinsed, which
// drains it.
func (q query) withoutLiquid() bool {
	if slices.Contains(q.state, "soaked") {
		return false
	}
	return slices.Contains(q.state, "drained") || slices.Contains(q.state, "rinsed") && (q.canned || slices.Contains(q.words, "canned") || slices.Contains(q.words, "tinned"))
}

// drainedNames are the words that name what is left when a can is drained, or
// drained and rinsed, with others; the closest first.
func (q query) drainedNames(others ...string) [][]string {
	names := [][]string{append([]string{"drained"}, others...)}
	if slices.Contains(q.state, "rinsed") {
		names = append([][]string{append([]string{"drained", "rinsed"}, others...), append([]string{"drained", "and", "rinsed"}, others...), append([]string{"rinsed"}, others...)}, names...)
	}
	return names
}

// readyToEat are words that say a food is bought cooked.
var readyToEat = []string{"ready eat", "ready to eat", "ready cooked", "precooked", "pre cooked", "fully cooked"}

// statesAmong takes words of state out of the name where they stand in a form
// that names do not have: "drained chickpeas", "ready-to-eat lentils".
func (q *query) statesAmong(words []string) []string {
	if slices.Contains(words, "drained") || slices.Contains(words, "rinsed") {
		var kept, states []string
		for i, w := range words {
			switch {
			case w == "drained" || w == "rinsed":
				states = append(states, w)
			case w == "and" && (i+1 == len(words) || words[i+1] == "rinsed" || words[i+1] == "drained" || i > 0 && (words[i-1] == "rinsed" || words[i-1] == "drained")):
			case w == "well" && i > 0 && (i+1 == len(words) || words[i+1] == "drained" || words[i+1] == "rinsed"):
			default:
				kept = append(kept, w)
			}
		}
		if len(kept) > 0 {
			words, q.words = kept, kept
			for _, w := range states {
				q.add(w)
			}
		}
	}
	said := strings.Join(words, " ")
	for _, phrase := range readyToEat {
		if strings.Contains(said, phrase) {
			words = strings.Fields(strings.ReplaceAll(said, phrase, ""))
			q.words = words
			q.add("cooked")
		}
	}
	return words
}
