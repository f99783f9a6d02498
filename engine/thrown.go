package engine

import (
	"slices"
	"strings"

	"pottle/fooddata"
)

// What directions tell to throw away is read clause by clause, with the words
// that tell it brought to one: "throw away the liquid", "pour it off", "do not
// reuse the marinade" are all "discard"; and what is told not to be done is not
// told: "do not drain".

// saidIn returns the words of a step as [instructed] gives them, with a space at
// either end.
func saidIn(s *cookStep) string {
	if s.told != "" {
		return s.told
	}
	return " " + strings.Join(instructed(plainWords(s.said)), " ") + " "
}

// saidAny reports whether text, with a space at either end, holds one of the
// phrases that are divided by bars.
func saidAny(text, phrases string) bool {
	for p := range strings.SplitSeq(phrases, "|") {
		if strings.Contains(text, " "+p+" ") {
			return true
		}
	}
	return false
}

// notDone stands for a verb that is told not to be done.
const notDone = "~"

var (
	negations = wordSet("not don't never without avoid needn't dont")
	// drainVerbs take something away, or put it aside to be eaten.
	drainVerbs = wordSet("drain draining drained rinse rinsing rinsed discard discarding pour pouring tip throw throwing strain straining skim skimming brine marinate soak dry remove")
	// keepVerbs put what is left to use.
	keepVerbs = wordSet("reuse reusing re-use use save saving keep keeping reserve reserving eat serve baste")
	// leftovers are what is left of a liquid that food lay in.
	leftovers = wordSet("marinade brine liquid buttermilk mixture water it any rest")
)

// instructed returns the words of a clause as they are told to be done. A verb of
// draining or throwing away that stands after "do not", "without" or "no need to"
// is struck out; what is not to be used again is discarded; and every way to say
// "throw away" is "discard".
func instructed(words []string) []string {
	out := slices.Clone(words)
	for i := range out {
		at := i + 1
		switch {
		case negations[out[i]]:
		case out[i] == "no" && i+1 < len(out) && out[i+1] == "need":
			at++
		default:
			continue
		}
		for j := at; j < len(out) && j < at+6; j++ {
			w := out[j]
			if isPunctuation(w) || w == "but" || w == "then" || w == "and" || w == "until" || w == "before" {
				break
			}
			switch {
			case keepVerbs[w] && (w == "reuse" || w == "reusing" || slices.ContainsFunc(out, func(w string) bool { return leftovers[w] })):
				out[j] = "discard"
			case keepVerbs[w], drainVerbs[w]:
				out[j] = notDone
			}
		}
	}
	return discards(out)
}

// ofLiquid reports words that name a liquid that food lay in, and nothing else:
// "toss the marinade" throws it away, "toss the salad in the marinade" does not.
func ofLiquid(words []string) bool {
	named := false
	for i, w := range words {
		if isPunctuation(w) || w == "and" || w == "then" {
			return i > 0 && named
		}
		switch w {
		case "marinade", "brine", "liquid", "buttermilk", "drippings":
			named = true
		case "the", "any", "all", "of", "remaining", "leftover", "used", "excess", "extra", "rest", "unused", "marinating", "soaking", "poaching", "cooking":
		default:
			return false
		}
	}
	return named
}

// away are the words that make a verb of pouring one of throwing away, if what
// follows is not where it is poured.
var away = wordSet("away out off")

// discards brings the ways to say "throw away" to "discard".
func discards(words []string) []string {
	var out []string
	for i := 0; i < len(words); i++ {
		w := words[i]
		switch w {
		case "discarding":
			out = append(out, "discard")
			continue
		case "bin", "ditch", "dump", "chuck", "lose", "toss", "tossing", "dumping":
			if ofLiquid(words[i+1:]) {
				out = append(out, "discard")
				continue
			}
		case "dispose", "disposing":
			if i+1 < len(words) && words[i+1] == "of" {
				out = append(out, "discard")
				i++
				continue
			}
		case "get":
			if i+2 < len(words) && words[i+1] == "rid" && words[i+2] == "of" {
				out = append(out, "discard")
				i += 2
				continue
			}
		}
		switch w {
		case "throw", "throwing", "pour", "pouring", "tip", "tipping", "toss", "drain", "draining", "ladle", "wipe", "wiping", "shake", "shaking":
			at := -1
			for j := i + 1; j < len(words) && j <= i+6 && !isPunctuation(words[j]) && words[j] != "and"; j++ {
				if away[words[j]] {
					at = j
					break
				}
			}
			if at < 0 || at+1 < len(words) && (words[at+1] == "onto" || words[at+1] == "into" || words[at+1] == "on" || words[at+1] == "of" || words[at+1] == "to") {
				break
			}
			if w == "drain" || w == "draining" { // draining is told by its own word too
				out = append(out, "drain")
			}
			out = append(out, "discard")
			out = append(out, words[i+1:at]...)
			i = at
			continue
		}
		out = append(out, w)
	}
	return out
}

// afterVerb returns the content words of a step that stand after a verb.
func afterVerb(s *cookStep, verb string) []string {
	words := instructed(plainWords(s.said))
	at := slices.Index(words, verb)
	if at < 0 {
		return nil
	}
	return fooddata.Normalise(strings.Join(slices.DeleteFunc(slices.Clone(words[at+1:]), func(w string) bool { return isPunctuation(w) || w == notDone || emptyWords[w] }), " "))
}

// emptyWords tell nothing of what is drained.
var emptyWords = wordSet("the a an of and in on well thoroughly completely off from if necessary needed any excess colander sieve strainer large fine into over sink then again all both them it to with by through mesh immediately quickly lightly briefly before serving serve paper towel towels kitchen plate rack wire lined discard drain rinse")

// sharesObject are verbs whose object is that of the verb before them too:
// "drain and rinse the beans".
var sharesObject = wordSet("rinse drain discard crumble chop dice slice mash flake squeeze press cool peel halve quarter shred puree wash reserve")

// drainedBy returns the words for what a step drains: its own, or those of the
// next step where the two verbs share them. They are empty where it is what went
// before: "brown the beef, drain".
func drainedBy(steps []cookStep, i int) []string {
	object := afterVerb(&steps[i], "drain")
	for j := i + 1; len(object) == 0 && j < len(steps) && steps[j].sentence == steps[i].sentence; j++ {
		words := instructed(plainWords(steps[j].said))
		rinsed := j > i+1 && strings.TrimSpace(steps[j-1].said) == "rinse"
		if len(words) == 0 || !rinsed && (!sharesObject[words[0]] || !steps[j].and && words[0] != "rinse") {
			break
		}
		object = afterVerb(&steps[j], words[0])
	}
	for len(object) > 0 && sharesObject[object[0]] {
		object = object[1:]
	}
	return object
}

// thrown is what directions tell of throwing away the lines of an analysis.
type thrown struct {
	a        *Analysis
	steps    []cookStep
	pot      *pot // whose words name the lines
	marinade marinadeFate
	water    cookingWater
	bacon    rendered
	brineEnd int // how many steps there are up to the one that throws a brine away; 0 if none does
}

// follow reads what directions throw away.
func (a *Analysis) follow(method []string) *thrown {
	d := &thrown{a: a, steps: readSteps(method), pot: newPot(a.Lines)}
	d.marinade = a.marinade(d.steps, d.pot)
	d.water = a.cookingWater(d.steps, d.pot)
	d.bacon = a.rendersBacon(d.steps, d.pot)
	d.brineEnd = a.brineThrownAway(d.steps)
	return d
}
