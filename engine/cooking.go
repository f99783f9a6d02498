package engine

import (
	"regexp"
	"slices"
	"strings"
)

// Cooking is how a dish is cooked, as its directions tell it or as somebody
// told it. Directions are kept step by step, so that each ingredient gets the
// cooking it goes through; Method and Minutes are those of the dish.
type Cooking struct {
	Method  string     // one of the methods below: "baked", "boiled and drained"
	Minutes int        // at the least; 0 if the time is not told
	Said    string     // the directions' words it was read from, or "told"
	steps   []cookStep // of directions; none if told
	told    []heat     // if told: one after the other
}

// The methods of cooking.
const (
	byBaked            = "baked"
	byRoasted          = "roasted"
	byBoiled           = "boiled" // the water is eaten
	byBoiledAndDrained = "boiled and drained"
	byLittleWater      = "boiled in little water and drained"
	byBoiledInShell    = "boiled in shell"
	bySimmered         = "simmered" // stewed, braised, poached; the liquid is eaten
	bySteamed          = "steamed"
	byFried            = "fried"
	byFriedInCoating   = "fried in a coating"
	bySauteed          = "sautéed"
	byStirFried        = "stir-fried"
	byGrilled          = "grilled"
	byBroiled          = "broiled"
	byToasted          = "toasted"
	byMicrowaved       = "microwaved"
	byPressureCooked   = "pressure-cooked"
	byHeated           = "heated" // how is not told
	byFlamed           = "flamed"
	byNoHeat           = "no heat"
	byStoredOvernight  = "stored overnight" // without heat
	byOffTheHeat       = "off the heat"     // added to boiling liquid and taken off
	byNotStirredIn     = "not stirred in"   // alcohol on top of what is baked
)

// heat is one cooking of something: a method and for how many minutes.
type heat struct {
	method  string
	minutes int // 0 if not told
	said    string
}

// toldMethods are the words for a method when it is told, joined where they
// are two: "stirfried".
var toldMethods = map[string]string{
	"bake": byBaked, "baked": byBaked, "roast": byRoasted, "roasted": byRoasted,
	"boil": byBoiled, "boiled": byBoiled, "parboiled": byBoiled, "blanched": byBoiledAndDrained,
	"simmer": bySimmered, "simmered": bySimmered, "stew": bySimmered, "stewed": bySimmered, "braise": bySimmered, "braised": bySimmered,
	"poach": bySimmered, "poached": bySimmered, "slowcooked": bySimmered,
	"steam": bySteamed, "steamed": bySteamed,
	"fry": byFried, "fried": byFried, "panfried": byFried, "deepfried": byFried, "seared": byFried, "browned": byFried, "scrambled": byFried,
	"saute": bySauteed, "sauteed": bySauteed, "stirfry": byStirFried, "stirfried": byStirFried,
	"grill": byGrilled, "grilled": byGrilled, "barbecued": byGrilled, "broil": byBroiled, "broiled": byBroiled,
	"toast": byToasted, "toasted": byToasted, "microwave": byMicrowaved, "microwaved": byMicrowaved, "pressurecooked": byPressureCooked,
	"heated": byHeated, "warmed": byHeated, "flame": byFlamed, "flamed": byFlamed, "flambe": byFlamed, "flambeed": byFlamed,
	"raw": byNoHeat, "uncooked": byNoHeat, "unheated": byNoHeat, "noheat": byNoHeat, "notcooked": byNoHeat, "nocooking": byNoHeat, "notheated": byNoHeat,
	"overnight": byStoredOvernight, "offheat": byOffTheHeat, "notstirredin": byNotStirredIn,
}

// toldFillers are words that change nothing when a method is told.
var toldFillers = wordSet("it is was were i we they for about around a an and then in on the oven at with of its water liquid used kept eaten covered uncovered slow low medium high moderate heat gently all was been everything dish stored minutes")

// joinedPhrases makes one word of phrases that are one idea.
var joinedPhrases = strings.NewReplacer("stir fr", "stirfr", "pan fr", "panfr", "deep fr", "deepfr", "slow cooked", "slowcooked", "slow cooker", "slowcooked",
	"pressure cooked", "pressurecooked", "no heat", "noheat", "not cooked", "notcooked", "no cooking", "nocooking", "not heated", "notheated",
	"off the heat", "offheat", "off heat", "offheat", "not stirred in", "notstirredin", "not drained", "undrained", "water to cover", "", "little water", "littlewater")

// CookingNamed reads a method that is told: "baked", "boiled 20 minutes",
// "boiled and drained", "simmered 45 min", "flamed", "raw", "baked 25 minutes,
// not stirred in" (of alcohol). ok is false if no method is named or a word is
// not understood.
func CookingNamed(words string) (Cooking, bool) {
	if negativePattern.MatchString(words) {
		return Cooking{}, false
	}
	var told []heat
	tokens := tokenise(joinedPhrases.Replace(strings.Join(plainWords(words), " ")))
	for i := 0; i < len(tokens); {
		if minutes, length := minutesAt(tokens[i:]); length > 0 {
			if minutes == 0 || len(told) == 0 || told[len(told)-1].minutes > 0 {
				return Cooking{}, false
			}
			told[len(told)-1].minutes = minutes
			i += length
			continue
		}
		w := tokens[i].word
		last := len(told) - 1
		switch method, ok := toldMethods[w]; {
		case ok && method == byStoredOvernight && last >= 0 && told[last].method == byNoHeat:
			told[last].method = byStoredOvernight
		case ok:
			told = append(told, heat{method: method, said: "told"})
		case w == "drained" && last >= 0 && told[last].method == byLittleWater:
		case w == "drained" && last >= 0 && (told[last].method == byBoiled || told[last].method == bySimmered):
			told[last].method = byBoiledAndDrained
		case w == "littlewater" && last >= 0 && told[last].method == byBoiled:
			told[last].method = byLittleWater
		case w == "undrained", toldFillers[w], temperature(tokens, i):
		case isPunctuation(w):
		default:
			return Cooking{}, false
		}
		i++
	}
	return ofHeats(told, told)
}

// negativePattern finds a number below zero.
var negativePattern = regexp.MustCompile(`(^|\s)[-−]\s?\d`)

// temperature reports whether tokens[i] is part of a temperature: "at 350",
// "350 F", "350 degrees".
func temperature(tokens []stepToken, i int) bool {
	unit := func(w string) bool { return w == "f" || w == "c" || w == "degree" || w == "degrees" }
	if unit(tokens[i].word) {
		return true
	}
	v, ok := numberWord(tokens[i].word)
	return ok && v >= 50 && v <= 600 && (i > 0 && tokens[i-1].word == "at" || i+1 < len(tokens) && unit(tokens[i+1].word))
}

// alongside are told with another method and are not the cooking of the dish.
var alongside = map[string]bool{byNotStirredIn: true, byOffTheHeat: true, byStoredOvernight: true, byFlamed: true}

// ofHeats sums up a dish by the heats that it goes through.
func ofHeats(all, told []heat) (Cooking, bool) {
	main := slices.DeleteFunc(slices.Clone(all), func(h heat) bool { return alongside[h.method] })
	if len(main) == 0 {
		main = all
	}
	h, ok := mainHeat(main)
	if !ok {
		return Cooking{}, false
	}
	return Cooking{Method: h.method, Minutes: h.minutes, Said: h.said, told: told}, true
}

// mainHeat chooses the cooking that matters most: the last, unless another
// method was told to last longer. The minutes of one method add up.
func mainHeat(all []heat) (heat, bool) {
	var sums []heat // one for each method, in the order of their last use
	for _, h := range all {
		for i, s := range sums {
			if s.method == h.method {
				if s.minutes == 0 || s.minutes >= h.minutes {
					h.said = s.said
				}
				h.minutes += s.minutes
				sums = append(sums[:i], sums[i+1:]...)
				break
			}
		}
		sums = append(sums, h)
	}
	if len(sums) == 0 {
		return heat{}, false
	}
	best := sums[len(sums)-1]
	if best.minutes > 0 {
		for _, h := range sums {
			if h.minutes > best.minutes {
				best = h
			}
		}
	}
	return best, true
}

// ReadCooking reads the directions of a recipe. ok is false if they tell no
// method: then nothing is known of the cooking, not that there is none.
func ReadCooking(method []string) (Cooking, bool) { return cookingOf(readSteps(method)) }

func cookingOf(steps []cookStep) (Cooking, bool) {
	var whole, every []heat
	overnight := ""
	for _, s := range steps {
		switch {
		case s.overnight:
			overnight = s.said
		case s.method == "":
		default:
			every = append(every, s.heat)
			if !s.own {
				whole = append(whole, s.heat)
			}
		}
	}
	if slices.ContainsFunc(whole, func(h heat) bool { return !alongside[h.method] }) {
		every = whole
	}
	c, ok := ofHeats(every, nil)
	switch {
	case ok && c.Method == byHeated && c.Minutes == 0: // "cook until done"
		return Cooking{}, false
	case !ok && overnight != "":
		c, ok = Cooking{Method: byStoredOvernight, Said: overnight}, true
	}
	c.steps = steps
	return c, ok
}
