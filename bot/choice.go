package bot

import (
	"fmt"
	"regexp"
	"strings"

	"pottle/grammar"
)

// numberOnly is a choice by number without a verb: "2", "#2", "1 and 3", "1, 2", "all".
var numberOnly = regexp.MustCompile(`^(?:(?:number|no\.?|option) )?(#?\d{1,2}(?:(?: ?[,+&] ?| ?, and | and )#?\d{1,2})*|all|both|all of them)[.!]?$`)

// places are choices in words.
var places = map[string]string{"first": "1", "second": "2", "third": "3", "fourth": "4", "fifth": "5", "sixth": "6"}

// placeOnly is a choice by place: "the first", "the second one".
var placeOnly = regexp.MustCompile(`^(?:the )?(first|second|third|fourth|fifth|sixth)(?: one)?[.!]?$`)

// chosen reads a message that is no more than numbers as an answer to what the
// last reply asked or offered: the servings, or which suggestions to make. Where
// it can be both, it asks.
func (c *Conversation) chosen(text string) (r grammar.Request, reply string, ok bool) {
	words := strings.Trim(strings.ToLower(strings.Join(strings.Fields(text), " ")), "\"'“”‘’`* ")
	if m := placeOnly.FindStringSubmatch(words); m != nil {
		words = places[m[1]]
	}
	m := numberOnly.FindStringSubmatch(words)
	if m == nil || c.inHand() == nil {
		return r, "", false
	}
	words = strings.NewReplacer("#", "", "both", "all", "all of them", "all", "+", " and ", "&", " and ").Replace(m[1])
	offered := len(c.Offered())
	single := !strings.ContainsAny(words, " ,+&al")
	servings := !c.inHand().analysis.Known && single
	switch {
	case servings && offered > 0:
		return r, fmt.Sprintf("Is that the servings or a suggestion? Say \"servings %s\" or \"apply %s\".", words, words), true
	case servings:
		words = "servings " + words
	case offered > 0:
		words = "apply " + words
	default:
		return r, fmt.Sprintf("Nothing is on offer that %q could mean. Say \"suggest\" for suggestions.", words), true
	}
	r, err := grammar.ParseRequest(words)
	return r, "", err == nil && r.Fault == nil
}
