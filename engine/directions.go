package engine

import (
	"maps"
	"regexp"
	"slices"
	"strings"

	"pottle/fooddata"
)

// step is one thing that directions tell to do: "add the beans", "simmer 45
// minutes". method is empty if it gives no heat.
type cookStep struct {
	heat
	sentence  int
	words     []string // as fooddata.Normalise gives them
	own       bool     // heats only the foods it names, not all that is in the dish
	off       bool     // takes the dish off the heat
	overnight bool     // stands overnight
	onTop     bool     // puts something on top
	and       bool     // follows the step before it in the sentence by "and"
	told      string   // see saidIn
}

// heatVerbs are the words of directions that give heat, and how.
var heatVerbs = map[string]string{
	"bake": byBaked, "roast": byRoasted, "boil": byBoiled, "parboil": byBoiled, "blanch": byBoiledAndDrained,
	"simmer": bySimmered, "stew": bySimmered, "braise": bySimmered, "poach": bySimmered, "steam": bySteamed,
	"fry": byFried, "panfry": byFried, "deepfry": byFried, "brown": byFried, "sear": byFried, "scramble": byFried,
	"saute": bySauteed, "stirfry": byStirFried, "grill": byGrilled, "barbecue": byGrilled, "broil": byBroiled, "toast": byToasted,
	"microwave": byMicrowaved, "flame": byFlamed, "flambe": byFlamed, "ignite": byFlamed, "cook": byHeated, "scald": byHeated, "heat": byHeated, "warm": byHeated,
	"baking": byBaked, "roasting": byRoasted, "boiling": byBoiled, "simmering": bySimmered, "steaming": bySteamed, "frying": byFried, "sauteing": bySauteed,
	"grilling": byGrilled, "broiling": byBroiled, "cooking": byHeated, "stirfrying": byStirFried,
}

// heatPlaces are phrases that tell the method of "cook", "place", "return".
var heatPlaces = []struct{ phrase, method string }{
	{"in the microwave", byMicrowaved}, {"under the broiler", byBroiled}, {"under a hot broiler", byBroiled},
	{"in the oven", byBaked}, {"in oven", byBaked}, {"to the oven", byBaked}, {"to oven", byBaked}, {"into the oven", byBaked}, {"in a hot oven", byBaked},
	{"on the grill", byGrilled}, {"on grill", byGrilled}, {"over hot coals", byGrilled},
}

func placeOfHeat(text string) (string, bool) {
	for _, p := range heatPlaces {
		if strings.Contains(text, " "+p.phrase+" ") {
			return p.method, true
		}
	}
	return "", false
}

// otherVerbs begin a step without telling of heat.
var otherVerbs = wordSet("add stir pour mix combine blend return cover uncover reduce lower bring drain strain rinse remove discard serve top sprinkle garnish season toss fold whisk beat let allow set transfer spoon place put arrange spread drizzle brush continue keep turn melt chill refrigerate marinate soak cool preheat reserve cut chop slice mash stuff fill layer line grease dredge coat bread roll knead shape divide store pat scrape skim deglaze sift cream")

// pastaWords name what is boiled in much water and drained.
var pastaWords = wordSet("pasta noodle spaghetti macaroni penne linguine fettuccine lasagna ravioli orzo rotini rigatoni ziti vermicelli tortellini fusilli")

// restWords are steps whose minutes are not minutes of heat.
var restWords = wordSet("stand rest cool chill refrigerate marinate soak set freeze rise proof")

// nounAfter are words after which a verb of heat is a noun: "the roast".
var nounAfter = wordSet("the a an pot chuck rib beef pork lamb this your of french")

// readSteps cuts directions into steps.
func readSteps(method []string) []cookStep {
	r := directions{}
	for _, line := range method {
		for _, sentence := range sentenceTokens(line) {
			r.sentence++
			clauses := clauseTokens(sentence)
			for i, clause := range clauses {
				var next []stepToken
				if i+1 < len(clauses) {
					next = clauses[i+1]
				}
				r.read(line, clause, next)
				if i > 0 {
					between := line[clauses[i-1][len(clauses[i-1])-1].end:clause[0].start]
					r.steps[len(r.steps)-1].and = strings.Contains(between, "and") && !strings.Contains(between, ",")
				}
			}
		}
	}
	return r.steps
}

// directions reads steps in order; what went before tells what "cook" means.
type directions struct {
	steps    []cookStep
	heats    int // how many steps there are up to the last that gave heat
	sentence int
	pan      bool   // a frying pan is on the heat
	water    bool   // water is on the boil
	coating  bool   // something was dredged or coated for frying
	vessel   string // the method of a slow or pressure cooker, once named
}

// read reads a clause; next is the one after it in the sentence, or nil.
func (r *directions) read(line string, clause, next []stepToken) {
	s := cookStep{sentence: r.sentence, heat: heat{said: strings.TrimSpace(line[clause[0].start:clause[len(clause)-1].end])}}
	s.words = fooddata.Normalise(s.said)
	words := make([]string, len(clause))
	for i, t := range clause {
		words[i] = t.word
	}
	text := " " + strings.Join(words, " ") + " "
	r.context(text)
	s.overnight = strings.Contains(text, " overnight ")
	s.onTop = strings.Contains(text, " drizzle ") || strings.Contains(text, " brush ") || strings.Contains(text, " pour over ") || strings.Contains(text, " sprinkle ")
	s.off = strings.Contains(text, " off heat ") || strings.Contains(text, " off the heat ") ||
		(strings.Contains(text, " remove ") || strings.Contains(text, " take ")) && strings.Contains(text, " heat ")
	if !s.off && !startsWith(words, "preheat") {
		s.method, s.minutes, s.own = r.method(clause, words, text)
	}
	if last := r.last(); s.method == "" && last != nil {
		if at := slices.Index(words, "last"); at >= 0 && at+1 < len(clause) { // "add the peas for the last 5 minutes"
			if minutes, length := minutesAt(clause[at+1:]); length > 0 {
				s.method, s.minutes, s.own = last.method, minutes, true
			}
		}
	}
	s.told = " " + strings.Join(instructed(words), " ") + " "
	if drains(s.told) || strings.Contains(s.told, " strain ") && r.strains(&s) {
		r.drained(drainedFood(line, clause, next))
	}
	if s.method == "" {
		r.lateMinutes(clause, words)
	} else if s.method != byHeated || s.minutes > 0 {
		r.pan = r.pan && (s.method == bySauteed || s.method == byFried || s.method == byStirFried)
	}
	r.steps = append(r.steps, s)
	if s.method != "" {
		r.heats = len(r.steps)
	}
}

// context notes what is on the heat.
func (r *directions) context(text string) {
	switch {
	case strings.Contains(text, " slow cooker ") || strings.Contains(text, " crock pot "):
		r.vessel = bySimmered
	case strings.Contains(text, " pressure cooker ") || strings.Contains(text, " high pressure "):
		r.vessel = byPressureCooked
	case toTheBoil.MatchString(text) || strings.Contains(text, " boiling "):
		r.water, r.pan = true, false
	case panPattern.MatchString(text):
		r.pan, r.water = true, false
	}
	if strings.Contains(text, " dredge ") || strings.Contains(text, " coat ") && strings.Contains(text, " flour ") || strings.Contains(text, " breadcrumbs ") {
		r.coating = true
	}
}

var toTheBoil = regexp.MustCompile(` to (a |the )?(full |rolling |gentle |fast |rapid |good )*boil `)

var panPattern = regexp.MustCompile(` (skillet|wok|frypan|griddle|frying pan|saute pan) | (heat|warm) .*\b(oil|butter)\b| (oil|butter) .*over .*heat `)

// method finds the heat that a clause gives.
func (r *directions) method(clause []stepToken, words []string, text string) (method string, minutes int, own bool) {
	at := -1
	for i := range words {
		if m, ok := heatVerb(words, i); ok {
			if method == "" || method == byHeated && m != byHeated {
				method, at = m, i
			}
		}
	}
	if method == "" || method == byHeated {
		if place, ok := placeOfHeat(text); ok && (method == byHeated || !startsWith(words, "remove", "take", "heat", "prepare")) {
			method = place
		}
	}
	if method == "" {
		return "", 0, false
	}
	for i := max(at, 0); i < len(clause) && minutes == 0; i++ {
		minutes, _ = timed(clause, i)
	}
	for i := 0; i < at && minutes == 0; i++ {
		minutes, _ = timed(clause, i)
	}
	if method == byHeated && at >= 0 {
		verb := words[at]
		if verb != "cook" && verb != "cooking" && minutes == 0 { // "heat the oil"
			return "", 0, false
		}
		method = r.cooked(text, fooddata.Normalise(text))
	}
	if method == byFried && r.coating {
		method = byFriedInCoating
	}
	switch method {
	case bySauteed, byFried, byFriedInCoating, byStirFried, byToasted, byBoiledAndDrained, bySteamed, byMicrowaved:
		own = true
	case byBoiled:
		own = at == 0
	}
	return method, minutes, own
}

// last returns the last step that gave heat, or nil.
func (r *directions) last() *cookStep {
	if r.heats == 0 {
		return nil
	}
	return &r.steps[r.heats-1]
}

// cooked tells what "cook" means where it stands.
func (r *directions) cooked(text string, words []string) string {
	pasta := slices.ContainsFunc(words, func(w string) bool { return pastaWords[w] })
	ownWater := strings.Contains(text, " package") || strings.Contains(text, " boiling water ") || strings.Contains(text, " boiling salted water ") || strings.Contains(text, " pot of ")
	switch {
	case r.vessel != "":
		return r.vessel
	case pasta && ownWater:
		return byBoiledAndDrained
	case ownWater:
		return byBoiled
	case r.water || r.pan:
		switch last := r.last(); {
		case r.water && last != nil && last.method == bySimmered, r.pan && last != nil && last.method == byStirFried:
			return last.method
		case r.water:
			return byBoiled
		}
		return bySauteed
	}
	return byHeated
}

// heatVerb reports whether words[i] is a verb of heat, and of which method.
func heatVerb(words []string, i int) (string, bool) {
	m, ok := heatVerbs[words[i]]
	if !ok {
		return "", false
	}
	before, after := "", ""
	if i > 0 {
		before = words[i-1]
	}
	if i+1 < len(words) {
		after = words[i+1]
	}
	for _, w := range words[max(0, i-3):i] {
		if w == "not" || w == "don't" || w == "never" || w == "without" || w == "avoid" || w == "no" {
			return "", false
		}
	}
	w := words[i]
	switch {
	case strings.HasSuffix(w, "ing"): // "continue baking", not "baking dish"
		ok = before == "continue" || before == "keep" || before == "finish" || before == "start"
	case w == "brown":
		ok = before != "until" && before != "golden" && before != "light" && before != "lightly" && before != "dark" && before != "to" && before != "is" && before != "are" && before != "turn" &&
			after != "sugar" && after != "rice" && after != "bread" && after != "lentils" && after != "mustard" && after != "on" && !nounAfter[before]
	case w == "flame":
		ok = i == 0 || before == "and" || before == "," || strings.HasSuffix(before, "ly")
	case w == "steam":
		ok = !nounAfter[before] && before != "let" && before != "allow" && before != "until"
	case w == "heat" || w == "warm":
		ok = i == 0 || before == "and" || before == "gently"
	case w == "toast":
		ok = !nounAfter[before] && before != "on" && before != "with"
	case w == "grill":
		ok = !nounAfter[before] && before != "on" && before != "hot" && before != "charcoal" && before != "gas"
	case w == "microwave":
		ok = after != "safe" && !nounAfter[before]
	case w == "stew":
		ok = !nounAfter[before] && after != "meat"
	case w == "boil", w == "simmer":
		ok = !nounAfter[before] && (before != "to" || !slices.Contains(words[max(0, i-6):i], "bring"))
	default:
		ok = !nounAfter[before]
	}
	return m, ok
}

// drains reports a clause that pours off cooking water.
func drains(text string) bool {
	if !strings.Contains(text, " drain ") {
		return false
	}
	return !fatPattern.MatchString(text) && !strings.Contains(text, "marinade") && !reservedPattern.MatchString(text)
}

// strains reports that to strain is to pour off the water: of pasta, potatoes or
// vegetables. Of a stock or a sauce it is the liquid that is kept.
func (r *directions) strains(s *cookStep) bool {
	object := afterVerb(s, "strain")
	if len(object) == 0 {
		return slices.ContainsFunc(keysOf(boiledInWater), r.named)
	}
	return boiledInWater[object[0]]
}

func keysOf(set map[string]bool) []string { return slices.Collect(maps.Keys(set)) }

// boiledInWater are foods whose cooking water is poured off.
var boiledInWater = func() map[string]bool {
	set := maps.Clone(pastaWords)
	for w := range wordSet("potato rice vegetable bean lentil broccoli carrot cabbage") {
		set[w] = true
	}
	return set
}()

// reservedPattern finds cooking water that is all kept, not a cup of it.
var reservedPattern = regexp.MustCompile(` (reserve|reserving|save|saving) (the |all |all the |its |their )?(bean |cooking )?(liquid|water|broth) `)

// fatPattern finds the names of drained fat.
var fatPattern = regexp.MustCompile(` (fat|grease|drippings) `)

// drainedFood returns the words for what a clause drains: those after the verb,
// or those of the next clause: "drain and rinse the beans".
func drainedFood(line string, clause, next []stepToken) []string {
	steps := []cookStep{{heat: heat{said: line[clause[0].start:clause[len(clause)-1].end]}}}
	if len(next) > 0 {
		steps = append(steps, cookStep{heat: heat{said: line[next[0].start:next[len(next)-1].end]}, and: true})
	}
	return drainedBy(steps, 0)
}

// fromCans are foods that come in a can or a jar and are drained without having
// been boiled.
var fromCans = wordSet("bean chickpea garbanzo tuna corn tomato caper olive artichoke pineapple sauerkraut tofu raisin bacon sausage beef meat")

// named reports whether one of the last steps has the word.
func (r *directions) named(word string) bool {
	return slices.ContainsFunc(r.steps[max(0, len(r.steps)-4):], func(s cookStep) bool { return slices.Contains(s.words, word) })
}

// drained marks the last boiling as drained, if it is near and not something
// else is drained.
func (r *directions) drained(object []string) {
	if slices.ContainsFunc(object, func(w string) bool { return fromCans[w] && !r.named(w) }) {
		return
	}
	for i := len(r.steps) - 1; i >= 0 && i >= len(r.steps)-3; i-- {
		s := &r.steps[i]
		switch s.method {
		case byBoiled, bySimmered:
			s.method, s.own = byBoiledAndDrained, true
			return
		case byHeated:
			if slices.ContainsFunc(s.words, func(w string) bool { return pastaWords[w] || w == "potato" || w == "rice" }) {
				s.method, s.own = byBoiledAndDrained, true
			}
			return
		case "":
		default:
			return
		}
	}
}

// lateMinutes gives the minutes of "cover 20 minutes" to the heat before it.
func (r *directions) lateMinutes(clause []stepToken, words []string) {
	if len(r.steps) == 0 {
		return
	}
	last := &r.steps[len(r.steps)-1]
	if last.method == "" || last.minutes > 0 || last.sentence != r.sentence || !startsWith(words, "cover", "uncover", "stir", "turn") ||
		slices.ContainsFunc(words, func(w string) bool { return restWords[w] }) {
		return
	}
	for i := range clause {
		if minutes, ok := timed(clause, i); ok {
			last.minutes = minutes
			return
		}
	}
}

func startsWith(words []string, with ...string) bool {
	return len(words) > 0 && slices.Contains(with, words[0])
}

// token is a word, a number or a mark of a text, with its place.
type stepToken struct {
	word       string // lower case, accents folded
	start, end int
}

var tokenPattern = regexp.MustCompile(`[\pL]+(?:['’][\pL]+)?|\d+(?:[./⁄]\d+)?|[¼½¾⅓⅔⅛]|[,;.!?:()]`)

var plainLetters = strings.NewReplacer("’", "'", "é", "e", "è", "e", "â", "a")

// tokenise cuts a text into tokens. Hyphens divide words, but for the verbs
// written with one.
func tokenise(text string) []stepToken {
	var tokens []stepToken
	for _, at := range tokenPattern.FindAllStringIndex(text, -1) {
		word := plainLetters.Replace(strings.ToLower(text[at[0]:at[1]]))
		if n := len(tokens); n > 0 && (word == "fry" || word == "frying" || word == "fried") && at[0] == tokens[n-1].end+1 {
			if p := tokens[n-1].word; p == "stir" || p == "pan" || p == "deep" {
				tokens[n-1].word, tokens[n-1].end = p+word, at[1]
				continue
			}
		}
		tokens = append(tokens, stepToken{word, at[0], at[1]})
	}
	return tokens
}

func plainWords(text string) []string {
	var words []string
	for _, t := range tokenise(text) {
		words = append(words, t.word)
	}
	return words
}

func isPunctuation(word string) bool { return strings.ContainsAny(word, ",;.!?:()") && len(word) == 1 }

// sentences cuts a line of directions at full stops and the like.
func sentenceTokens(line string) [][]stepToken {
	var all [][]stepToken
	var now []stepToken
	for _, t := range tokenise(line) {
		if t.word == "." || t.word == ";" || t.word == "!" || t.word == "?" || t.word == ":" {
			if len(now) > 0 {
				all, now = append(all, now), nil
			}
			continue
		}
		now = append(now, t)
	}
	if len(now) > 0 {
		all = append(all, now)
	}
	return all
}

// clauses cuts a sentence where a comma, "and" or "then" is followed by a verb
// of the kitchen.
func clauseTokens(sentence []stepToken) [][]stepToken {
	words := make([]string, len(sentence))
	for i, t := range sentence {
		words[i] = t.word
	}
	var all [][]stepToken
	from := 0
	for i := 0; i < len(words); i++ {
		if !divides(words[i]) {
			continue
		}
		end := i
		for i < len(words) && (divides(words[i]) || strings.HasSuffix(words[i], "ly")) {
			i++
		}
		if i < len(words) && beginsStep(words, i) {
			if end > from {
				all = append(all, sentence[from:end])
			}
			from = i
		}
	}
	if from < len(sentence) {
		all = append(all, sentence[from:])
	}
	return all
}

func divides(word string) bool { return word == "," || word == "and" || word == "then" }

func beginsStep(words []string, i int) bool {
	_, heats := heatVerb(words, i)
	return heats || otherVerbs[words[i]]
}
