package grammar

import (
	"slices"
	"strings"
)

// The words that people put around a request: they change nothing.
var (
	fillerLeads = []string{"please ", "what happens if ", "what if it had ", "what if there was ", "what if there were ", "what if ", "suppose ", "hi, ", "hi ", "hello, ", "hello ", "hey, ", "hey ", "thanks, ", "thank you, ", "great, ", "ok, ", "okay, ", "so, ", "well, ", "and ", "then ", "now ", "also ", "but ",
		"actually, ", "actually ", "maybe ", "can you tell me ", "could you tell me ", "tell me ", "do you know ", "give me the ", "give me ", "about ",
		"i want to see ", "i'd like to see ", "let me see ", "let's see ", "i need the ", "i want the ", "i'd like the ", "i need to know the ", "i want to know the ", "can i see ", "could i see ", "can we see ", "can i have the ", "could i have the "}
	fillerEnds = []string{" please", " thanks", " thank you", " for me"}
	// before a verb only
	fillerBefore = []string{"what about ", "how about ", "let's ", "lets ", "let us ", "i'd like to ", "i would like to ",
		"we'd like to ", "we would like to ", "i'd like you to ", "i want to ", "we want to ", "i want you to ", "i need to ", "we need to ", "you could ", "i'd like ", "i want ",
		"can you ", "could you ", "would you ", "will you ", "can we ", "could we ", "can i ", "could i ", "may i ", "should i ", "should we ", "shall we ", "i'll ", "we'll ", "i will ", "we will ", "i ", "we ", "you ", "just ", "try ", "make it with ", "make this with ", "make it ", "make this "}
)

// changeVerbs are the verbs that requests begin with, in the forms that follow
// a filler: "what about using", "what if I used".
var changeVerbs = func() map[string]string {
	m := make(map[string]string)
	for _, forms := range []string{"use using used", "replace replacing replaced", "swap swapping swapped", "substitute substituting substituted", "change changing changed",
		"drop dropping dropped", "omit omitting omitted", "skip skipping skipped", "remove removing removed", "leave leaving left", "take taking took", "add adding added",
		"cut cutting", "reduce reducing reduced", "lower lowering lowered", "increase increasing increased", "raise raising raised", "halve halving halved",
		"double doubling doubled", "triple tripling tripled", "make making made", "scale scaling scaled", "put putting", "set setting", "try trying tried", "only", "half", "twice", "without",
		"bake", "show showing", "compare comparing", "undo", "go going", "fit fitting", "check checking", "apply applying applied", "suggest", "include including included", "keep keeping",
		"save", "open", "find", "list", "convert", "start", "revert", "reset", "bring", "no", "less", "fewer", "more"} {
		words := strings.Fields(forms)
		for _, w := range words {
			m[w] = words[0]
		}
	}
	return m
}()

// polite drops the words around a request that change nothing: a greeting, a
// "please", "what if I".
func polite(s string) string {
	for again := true; again; {
		was := s
		s = strings.Trim(s, " ")
		for _, lead := range fillerLeads {
			s = withoutLead(s, lead)
		}
		for _, lead := range fillerBefore {
			rest := withoutLead(s, lead)
			if rest == s {
				continue
			}
			first, after, _ := strings.Cut(rest, " ")
			verb, ok := changeVerbs[strings.ToLower(first)]
			switch {
			case ok && verb != strings.ToLower(first):
				s = strings.TrimSpace(verb + " " + after)
			case ok:
				s = rest
			case lead == "can you " || lead == "could you " || lead == "would you ":
				if !slices.Contains([]string{"call", "say", "claim", "describe", "eat", "have", "drink"}, strings.ToLower(first)) {
					s = rest
				}
			}
		}
		for _, end := range fillerEnds {
			if len(s) > len(end) && strings.EqualFold(s[len(s)-len(end):], end) {
				s = strings.TrimRight(s[:len(s)-len(end)], ", ")
			}
		}
		again = s != was
	}
	for _, short := range []string{"what's ", "whats "} {
		if rest := withoutLead(s, short); rest != s {
			s = "what is " + rest
		}
	}
	return strings.TrimSpace(s)
}

// withoutLead drops lead from the beginning of s, unless nothing would be left.
func withoutLead(s, lead string) string {
	if len(s) > len(lead) && strings.EqualFold(s[:len(lead)], lead) {
		return strings.TrimLeft(s[len(lead):], " ")
	}
	return s
}
